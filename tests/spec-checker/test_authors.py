"""Damages to the company's own affairs, the devices and the heads: SPEC.md L41.5 to L41.7."""

import hashlib
import json
import os
import sys
import unittest

sys.dont_write_bytecode = True
sys.path.insert(0, os.path.dirname(os.path.abspath(__file__)))

import build_record as build  # noqa: E402
import merkle  # noqa: E402
from build_record import COMPANY, JOB, ORIGIN, OTHER_JOB, PHONE, SERVER, STRANGER, key_named  # noqa: E402
from record_case import RecordCase, replaced  # noqa: E402


class CompanyTest(RecordCase):
    def test_no_founding(self):
        for ending in ("json", "leaf", "tlog-proof"):
            del self.files[self.company_name("company.founded", ending)]
        del self.files[build.author_name(merkle.leaf_hash(self.world.threads[COMPANY][0][1]))]
        self.expect_sealed("founding-missing")

    def test_founding_names_another_key_or_origin(self):
        for name, value in (("logKey", build.base64_text(key_named("other").public)),
                            ("origin", "screedbook/" + OTHER_JOB)):
            world = self.world = build.example()
            _, data = world.threads[COMPANY][0]
            body = dict(json.loads(data)["body"], **{name: value})
            world.add(world.entry("company.founded", body, COMPANY, SERVER))
            self.files = world.files()
            found = [item for item in self.failing(self.sealed()) if item[0] == "founding-differs"]
            self.assertEqual(len(found), 2, "another value, and not the first entry")

    def test_founding_is_not_the_first(self):
        _, data = self.world.threads[COMPANY][0]
        self.world.add(self.world.entry("company.founded", json.loads(data)["body"], COMPANY, SERVER))
        self.expect_world("founding-differs")

    def test_quoted_bytes_differ(self):
        name = self.company_name("owner.named")
        self.files[name] = replaced(self.files[name], b"Pat", b"Pit")
        codes = {item[0] for item in self.failing(self.sealed())}
        self.assertLessEqual({"entry-differs"}, codes)

    def test_leaf_of_another_entry(self):
        self.files[self.company_name("owner.named", "leaf")] = self.files[self.company_name("company.founded", "leaf")]
        self.expect_sealed("entry-differs", "inclusion-failed", "thread-count")

    def test_leaf_out_of_form(self):
        name = self.company_name("owner.named", "leaf")
        for damaged in (self.files[name][:-1], self.files[name][2:], b"", self.files[name] * 2):
            self.files[name] = damaged
            codes = {item[0] for item in self.failing(self.sealed())}
            self.assertIn("leaf-malformed" if damaged[:2] in (b"01", b"") else "leaf-format-unknown", codes)
            self.files = self.world.files()

    def test_proof_fails(self):
        name = self.company_name("owner.named", "tlog-proof")
        self.files[name] = self.files[self.company_name("company.founded", "tlog-proof")]
        self.expect_sealed("inclusion-failed")

    def test_one_of_three_files_is_missing(self):
        del self.files[self.company_name("owner.named", "leaf")]
        self.expect_sealed("file-missing", "inclusion-failed")

    def test_entry_of_a_job(self):
        self.world.add(self.world.entry("owner.named", {"person": JOB, "name": "Sam Sample"}, JOB, SERVER),
                       COMPANY)
        self.expect_world("entry-thread")

    def test_tag_of_the_job(self):
        tag = self.world.log[self.world.threads[JOB][0][0]][9:25]
        self.world.add(self.world.entry("role.changed", {"person": JOB, "role": "crew"}, COMPANY, SERVER), tag=tag)
        self.expect_world("thread-tag")

    def test_counts_rise_with_the_index(self):
        """Between two quoted leaves that are far apart, so that no link gives it away."""
        self.world.add(self.world.entry("role.changed", {"person": JOB, "role": "crew"}, COMPANY, SERVER), count=9)
        self.world.add(self.world.entry("role.changed", {"person": JOB, "role": "crew"}, COMPANY, SERVER), count=7)
        self.expect_world("thread-count")

    def test_contradicting_leaves(self):
        for codes, leaf in ((("thread-count", "thread-link"), {"count": 4}), (("thread-link",), {"previous": bytes(32)}),
                            (("thread-tag",), {"tag": bytes(16)}), (("thread-count",), {"count": 300})):
            self.world = build.example()
            self.world.add(self.world.entry("role.changed", {"person": JOB, "role": "crew"}, COMPANY, SERVER), **leaf)
            self.expect_world(*codes)


class AuthorTest(RecordCase):
    def put_head(self, *heads, **changes):
        """The last entry, shown by a head that is not as it should be."""
        leaves = changes.pop("leaves", self.world.made[PHONE])
        device = changes.pop("device", PHONE)
        head = heads[0] if heads else self.world.head(device, leaves, changes.pop("seen", 8), **changes)
        self.files[build.author_name(self.world.last)] = self.world.author_proof(self.world.last, leaves, head)

    def test_missing(self):
        del self.files[build.author_name(self.world.last)]
        self.expect_sealed("author-missing")

    def test_missing_for_a_quoted_entry(self):
        del self.files[build.author_name(merkle.leaf_hash(self.world.threads[COMPANY][2][1]))]
        self.expect_sealed("author-missing")

    def test_proof_of_an_entry_that_is_not_here(self):
        self.files[build.author_name(bytes(32))] = self.files[build.author_name(self.world.last)]
        self.expect_sealed("file-unlisted")

    def test_device_is_not_enrolled(self):
        self.world.add(self.world.entry("load.arrived", {}, device=STRANGER))
        self.expect_world("device-unknown")

    def test_enrolment_is_not_quoted(self):
        self.world.threads[COMPANY].pop()
        self.expect_world("device-unknown")

    def test_enrolment_by_a_phone(self):
        body = {"device": STRANGER, "key": build.base64_text(key_named(STRANGER).public), "use": "phone", "person": JOB}
        self.world.add(self.world.entry("device.enrolled", body, COMPANY, PHONE))
        self.expect_world("entry-malformed")
        self.world.add(self.world.entry("device.enrolled", body, COMPANY, PHONE, by={"known": "server"}))
        self.expect_world("entry-malformed", "author-differs", "device-unknown")

    def test_second_server(self):
        """One that enrols itself, not at index 1; and one that the server itself enrols."""
        body = {"device": STRANGER, "key": build.base64_text(key_named(STRANGER).public), "use": "server"}
        self.world.add(self.world.entry("device.enrolled", body, COMPANY, STRANGER, by={"known": "server"}))
        self.expect_world("author-differs", "device-unknown")
        self.world = build.example()
        self.world.add(self.world.entry("device.enrolled", body, COMPANY, SERVER))
        self.expect_world("device-unknown")

    def test_enrolled_twice(self):
        body = {"device": PHONE, "key": build.base64_text(key_named("other").public), "use": "phone", "person": JOB}
        self.world.add(self.world.entry("device.enrolled", body, COMPANY, SERVER))
        self.expect_world("device-unknown")

    def test_server_device_is_not_at_index_1(self):
        world = self.world = build.World()
        world.add(world.entry("company.founded", {
            "name": "Made-Up Slabs", "zone": "America/Chicago", "origin": ORIGIN,
            "logKey": build.base64_text(key_named("log").public)}, COMPANY, SERVER))
        world.add(world.entry("owner.named", {"person": JOB, "name": "Sam Sample"}, COMPANY, SERVER))
        world.add(world.entry("device.enrolled", {
            "device": SERVER, "key": build.base64_text(key_named(SERVER).public), "use": "server"}, COMPANY, SERVER))
        world.add(world.entry("photo.received", {"photo": hashlib.sha256(build.PHOTO).hexdigest(), "bytes": 1440},
                              JOB, SERVER))
        self.files = world.files(seen=(0, 0, 0))
        self.expect_sealed("device-unknown")

    def test_author_differs(self):
        for changes in ({"device": SERVER, "by": {"known": "pin", "person": build.PERSON}},
                        {"device": PHONE, "by": {"known": "server"}}):
            self.world.add(self.world.entry("load.arrived", {}, **changes))
            self.expect_world("author-differs")
            self.world = build.example()

    def test_head_signed_with_another_key(self):
        self.put_head(key=key_named("other"))
        self.expect_sealed("head-signature")

    def test_head_signed_with_the_logs_key(self):
        self.put_head(key=key_named("log"))
        self.expect_sealed("head-signature")

    def test_head_of_another_device(self):
        self.put_head(device=SERVER)
        self.expect_sealed("head-signature")

    def test_head_of_another_devices_name(self):
        self.put_head(name="%s/%s/1" % (ORIGIN, SERVER))
        self.expect_sealed("head-signature")

    def test_head_changed_after_signing(self):
        head = self.world.head(PHONE, self.world.made[PHONE], 8)
        self.put_head(replaced(head, b"123456", b"123457"))
        self.expect_sealed("head-signature")

    def test_head_out_of_form(self):
        for clock in ("now", "2026-04-21T09:00:00-05:00 %s -1" % build.BOOT, "2026-04-21T09:00:00-05:00 boot 1"):
            self.put_head(clock=clock)
            self.expect_sealed("head-malformed")

    def test_head_without_seen(self):
        leaves = self.world.made[PHONE]
        origin = "%s/%s/1" % (ORIGIN, PHONE)
        text = "%s\n%d\n%s\n" % (origin, len(leaves), build.base64_text(build.tree_root(leaves)))
        self.put_head(build.signed_note(text, origin, key_named(PHONE)))
        self.expect_sealed("head-malformed")

    def test_head_of_no_epoch(self):
        for epoch in ("0", "01", "x", "9007199254740992", "-1"):
            self.put_head(epoch=epoch)
            self.expect_sealed("head-malformed")

    def test_head_has_seen_nothing_with_a_root(self):
        self.put_head(seen=0, seen_root=bytes(32))
        self.expect_sealed("head-malformed")

    def test_head_without_the_entry(self):
        leaves = self.world.made[PHONE]
        head = self.world.head(PHONE, leaves[:3], 6)
        self.put_head(head)
        self.expect_sealed("author-proof")

    def test_proof_out_of_form(self):
        name = build.author_name(self.world.last)
        for damaged in (b"", b"x", replaced(self.files[name], b"index ", b"index -"),
                        replaced(self.files[name], b"\n\n", b"\n!\n\n")):
            self.files[name] = damaged
            self.expect_sealed("author-proof")

    def test_proof_of_unknown_version(self):
        name = build.author_name(self.world.last)
        self.files[name] = replaced(self.files[name], b"@v1", b"@v7")
        self.expect_sealed("format-unknown")

    def test_fork_at_one_size(self):
        leaves = [hashlib.sha256(b"unseen").digest()] + self.world.made[PHONE][1:]
        self.put_head(leaves=leaves)
        self.expect_sealed("heads-fork")

    def test_fork_at_two_sizes(self):
        self.put_head(leaves=[self.world.last] + self.world.made[PHONE][1:-1])
        self.expect_sealed("heads-fork")


if __name__ == "__main__":
    unittest.main()
