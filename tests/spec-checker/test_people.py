"""Shared phones and what a withdrawn phone sent: SPEC.md L54 to L56."""

import os
import sys
import unittest

sys.dont_write_bytecode = True
sys.path.insert(0, os.path.dirname(os.path.abspath(__file__)))

import build_record as build  # noqa: E402
import canonical  # noqa: E402
import merkle  # noqa: E402
from build_record import COMPANY, JOB, OTHER_JOB, PERSON, PHONE, SERVER, key_named  # noqa: E402
from record_case import RecordCase  # noqa: E402

SHARED = build.made_uuid(14)
ANOTHER = build.made_uuid(22)


def picked(person, known="picked"):
    return {"known": known, "person": person}


class SharedPhoneTest(RecordCase):
    def share(self, use="shared", release=2):
        self.world.add(self.world.entry("device.enrolled", {
            "device": SHARED, "key": build.base64_text(key_named(SHARED).public), "use": use, "person": PERSON},
            COMPANY, SERVER, v=release))

    def log(self, by, device=SHARED):
        self.world.add(self.world.entry("load.left", {"load": "1"}, device=device, by=by))

    def test_names_that_were_tapped(self):
        self.share()
        for by in (picked(PERSON), picked(ANOTHER), picked(ANOTHER, "pin"), picked(ANOTHER, "passkey")):
            self.log(by)
        self.expect_world()

    def test_never_as_ones_own(self):
        self.share()
        self.log(picked(PERSON, "own-device"))
        self.expect_world("author-differs")

    def test_a_phone_of_ones_own(self):
        for by in (picked(PERSON), picked(ANOTHER, "own-device"), picked(ANOTHER, "pin")):
            self.world = build.example()
            self.log(by, PHONE)
            self.expect_world("author-differs")

    def test_shared_came_with_release_2(self):
        self.share(release=1)
        self.expect_world("entry-malformed")

    def test_person_who_answers_for_it(self):
        self.world.add(self.world.entry("device.enrolled", {
            "device": SHARED, "key": build.base64_text(key_named(SHARED).public), "use": "shared"}, COMPANY, SERVER, v=2))
        self.expect_world("entry-malformed")


class ReleaseTest(RecordCase):
    def test_kinds_of_release_2(self):
        self.world.add(self.world.entry("air.measured", {"load": "1", "anything": {"deep": [1]}}, v=2))
        self.expect_world()
        self.assertEqual([], self.found)

    def test_such_a_kind_under_release_1_is_unknown(self):
        self.world.add(self.world.entry("air.measured", {"load": "1"}, v=1))
        self.expect_world()
        self.assertEqual(["entry-unread"], [code for code, _, _ in self.found])

    def test_bodies(self):
        good = {"device": PHONE, "entries": ["ab" * 32]}
        for kind, body in (("push.quarantined", dict(good, entries=[])), ("push.quarantined", {"device": PHONE}),
                           ("push.quarantined", dict(good, entries=["ab" * 32] * 101)),
                           ("push.decided", good), ("push.decided", dict(good, verdict="perhaps")),
                           ("push.decided", dict(good, entries=["x"], verdict="admitted"))):
            self.world = build.example()
            device = SERVER if kind == "push.quarantined" else PHONE
            self.world.add(self.world.entry(kind, body, COMPANY, device, v=2))
            self.expect_world("entry-malformed")

    def test_the_server_alone_sets_aside(self):
        self.world.add(self.world.entry("push.quarantined", {"device": PHONE, "entries": ["ab" * 32]}, COMPANY, v=2))
        self.expect_world("entry-malformed")


class QuarantineTest(RecordCase):
    def setUp(self):
        super().setUp()
        self.late = self.world.entry("load.left", {"load": "1"})
        self.hash = merkle.leaf_hash(canonical.canonical_text(self.late).encode()).hex()

    def aside(self, device=PHONE, entries=None):
        body = {"device": device, "entries": entries or [self.hash]}
        self.world.add(self.world.entry("push.quarantined", body, COMPANY, SERVER, v=2))

    def decide(self, verdict, device=PHONE):
        body = {"device": device, "entries": [self.hash], "verdict": verdict}
        self.world.add(self.world.entry("push.decided", body, COMPANY, v=2))

    def refuse(self):
        body = {"hash": self.hash, "device": PHONE, "code": "id-taken"}
        self.world.add(self.world.entry("entry.refused", body, COMPANY, SERVER))

    def test_admitted(self):
        for steps in (("admitted",), ("declined", "admitted"), ("admitted", "declined")):
            self.setUp()
            self.aside()
            for verdict in steps:
                self.decide(verdict)
            self.world.add(self.late)
            self.expect_world()

    def test_not_admitted(self):
        for verdict in (None, "declined"):
            self.setUp()
            self.aside()
            if verdict:
                self.decide(verdict)
            self.world.add(self.late)
            self.expect_world("entry-set-aside")

    def test_withheld_all_the_same(self):
        self.aside()
        self.world.add(self.late)
        count = len(self.world.threads[JOB])
        self.expect_world("entry-set-aside", withhold=(count,))

    def test_decided_before_it_was_set_aside(self):
        self.decide("admitted")
        self.aside()
        self.world.add(self.late)
        self.expect_world("entry-set-aside")

    def test_decided_for_another_device(self):
        self.aside()
        self.decide("admitted", SERVER)
        self.world.add(self.late)
        self.expect_world("entry-set-aside")

    def test_admitted_and_refused(self):
        self.aside()
        self.decide("admitted")
        self.refuse()
        self.world.add(self.late)
        self.expect_world("entry-set-aside")

    def test_of_the_companys_affairs(self):
        affair = self.world.entry("role.changed", {"person": JOB, "role": "owner"}, COMPANY)
        self.hash = merkle.leaf_hash(canonical.canonical_text(affair).encode()).hex()
        self.aside()
        self.decide("admitted")
        self.world.add(affair)
        self.expect_world("entry-set-aside")

    def test_in_another_job_it_is_none_of_this_records_business(self):
        self.late = self.world.entry("load.left", {"load": "1"}, OTHER_JOB)
        self.hash = merkle.leaf_hash(canonical.canonical_text(self.late).encode()).hex()
        self.aside()
        self.expect_world()


if __name__ == "__main__":
    unittest.main()
