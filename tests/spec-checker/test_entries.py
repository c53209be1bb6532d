"""Damages to the thread and its entries: SPEC.md L41.3 and L41.4."""

import json
import os
import sys
import unittest

sys.dont_write_bytecode = True
sys.path.insert(0, os.path.dirname(os.path.abspath(__file__)))

import build_record as build  # noqa: E402
import canonical  # noqa: E402
import merkle  # noqa: E402
from build_record import COMPANY, JOB, OTHER_JOB, PERSON, PHONE, SERVER  # noqa: E402
from record_case import RecordCase, replaced  # noqa: E402
from values import Malformed  # noqa: E402


class ThreadTest(RecordCase):
    def extra(self, **leaf):
        """One more entry whose leaf is logged in a way in which no log should."""
        return self.world.add(self.world.entry("load.arrived", {"load": "8"}), **leaf)

    def test_count_skips(self):
        self.extra(count=7)
        self.expect_world("thread-count")

    def test_leaf_left_out(self):
        lines = self.files["thread.txt"].split(b"\n")
        del lines[1]
        self.files["thread.txt"] = b"\n".join(lines)
        for count in (2, 5):
            self.files.pop("entries/%06d.json" % count)
        codes = {code for code, _, _ in self.failing(self.sealed())}
        self.assertLessEqual({"thread-count", "thread-link"}, codes)

    def test_link_to_another_leaf(self):
        self.extra(previous=merkle.leaf_hash(self.world.log[0]))
        self.expect_world("thread-link")

    def test_first_leaf_links(self):
        other = "99999999-9999-4999-8999-999999999999"
        self.world.add(self.world.entry("load.arrived", {}, other), previous=bytes(31) + b"\1")
        self.expect_world("thread-link", job=other)

    def test_tag_changes(self):
        self.extra(tag=bytes(16))
        self.expect_world("thread-tag")

    def test_unknown_leaf_format(self):
        self.extra(format=2)
        self.extra()
        self.expect_world("leaf-format-unknown")

    def test_entry_twice(self):
        self.world.add(self.world.threads[JOB][0][1], JOB, PHONE)
        self.expect_world("leaf-repeated")

    def test_entry_in_two_threads(self):
        self.world.add(self.world.threads[COMPANY][2][1], JOB, SERVER)
        self.expect_world("leaf-repeated", "entry-thread")

    def test_malformed_leaves(self):
        whole = self.files["thread.txt"]
        for damaged in (whole[:-1], whole + b"\n", whole.upper(), replaced(whole, b"\n", b"00\n"), b"", b"\n",
                        whole.replace(b"\n", b"\r\n"), whole + b"\xff\n"):
            self.files["thread.txt"] = damaged
            self.assertIn(("leaf-malformed", "thread.txt"), [item[:2] for item in self.failing(self.sealed())])

    def test_last_leaf_cut_off(self):
        """What a forger would love: the thread ends before the leaf that displeases."""
        self.files["thread.txt"] = self.files["thread.txt"][:-195]
        for name in ("entries/000005.json", build.author_name(self.world.last)):
            del self.files[name]
        self.expect_sealed("inclusion-failed")

    def test_changed_time_of_receipt(self):
        self.files["thread.txt"] = self.files["thread.txt"].replace(b"01000001", b"01000002")
        codes = {code for code, _, _ in self.failing(self.sealed())}
        self.assertLessEqual({"inclusion-failed", "thread-link"}, codes)

    def test_proof_damaged(self):
        name, whole = "thread.tlog-proof", self.files["thread.tlog-proof"]
        lines = whole.split(b"\n")
        shorter = b"\n".join(lines[:2] + lines[3:])
        longer = b"\n".join(lines[:3] + [lines[2]] + lines[3:])
        for damaged in (shorter, longer, replaced(whole, b"index 10", b"index 9"),
                        replaced(whole, b"index 10", b"index 11"), replaced(whole, b"index 10", b"index 010"),
                        replaced(whole, b"index 10\n", b""), b"", replaced(whole, b"\n\n", b"\n")):
            self.files[name] = damaged
            self.expect_sealed("inclusion-failed")

    def test_proof_under_another_checkpoint(self):
        placed = self.world.threads[JOB][-1][0]
        hashes = self.world.leaf_hashes()
        self.world.add(self.world.entry("load.arrived", {}, OTHER_JOB))
        self.files["thread.tlog-proof"] = build.proof(placed, build.audit_path(placed, hashes), self.world.checkpoint())
        self.world.log.pop()
        self.expect_sealed("inclusion-failed")

    def test_proof_of_unknown_version(self):
        self.files["thread.tlog-proof"] = replaced(self.files["thread.tlog-proof"], b"@v1", b"@v2")
        self.expect_sealed("format-unknown")


class EntryTest(RecordCase):
    def expect_entry(self, data, *codes):
        """The log itself took these bytes."""
        self.world.add(data, JOB, PHONE)
        self.expect_world(*codes)
        self.world = build.example()

    def expect_malformed(self, **changes):
        for name, value in changes.items():
            entry = self.world.entry("load.arrived", {"load": "3"})
            entry[name] = value
            if value is None:
                del entry[name]
            try:
                data = canonical.canonical_text(entry).encode()
            except Malformed:
                data = json.dumps(entry, sort_keys=True, separators=(",", ":")).encode()
            self.world.add(data, JOB, PHONE)
        self.files = self.world.files()
        found = {item[1] for item in self.failing(self.sealed()) if item[0] == "entry-malformed"}
        self.assertEqual(len(found), len(changes), (changes, found))
        self.world = build.example()

    def test_other_bytes_than_the_leafs(self):
        name = "entries/000001.json"
        self.files[name] = replaced(self.files[name], b'"load":"1"', b'"load":"4"')
        # The forger can't sign for the phone, so the author's proof is still that of the true entry.
        self.expect_sealed("entry-differs", "author-missing")

    def test_two_entries_change_places(self):
        first, second = "entries/000001.json", "entries/000004.json"
        self.files[first], self.files[second] = self.files[second], self.files[first]
        self.expect_sealed("entry-differs")

    def test_entry_beyond_the_thread(self):
        for count in (0, 9):
            self.files["entries/%06d.json" % count] = self.files["entries/000001.json"]
            self.expect_sealed("file-unlisted")
            del self.files["entries/%06d.json" % count]

    def test_entry_of_another_job(self):
        self.world.add(self.world.entry("load.arrived", {}, OTHER_JOB), JOB)
        self.expect_world("entry-thread")

    def test_not_canonical(self):
        good = canonical.canonical_text(self.world.entry("load.arrived", {"load": "3"})).encode()
        for damaged in (good + b"\n", b"\xef\xbb\xbf" + good, good.replace(b":", b": ", 1),
                        good.replace(b'"load"', b'"lo\\u0061d"'), good.replace(b'"v":1', b'"v":1.0'),
                        good.replace(b'"v":1', b'"v":1e0'), good.replace(b'"v":1', b'"v":1,"v":1'),
                        good.replace(b'"load":"3"', b'"load":null'), good.replace(b'"load":"3"', b'"load":true'),
                        good.replace(b'"load":"3"', b'"load":-0'), good.replace(b'"load":"3"', b'"load":"\\ud800"'),
                        good.replace(b'"load":"3"', b'"load":9007199254740992'),
                        good.replace(b'"load":"3"', b'"load":NaN'), good.replace(b'"load":"3"', b'"load":"\xff"'),
                        good.replace(b'"load":"3"', b'"load":"\\u001F"'), good[:-1], b"", b"[]", b"7",
                        b"[" * 16000, b'{"a":' * 3000, good.replace(b'"3"', b"1" * 9000)):
            self.expect_entry(damaged, "entry-malformed")

    def test_too_long(self):
        entry = self.world.entry("load.arrived", {"load": ""})
        room = canonical.MAX_ENTRY_BYTES - len(canonical.canonical_text(entry).encode())
        self.expect_entry(canonical.canonical_text(dict(entry, body={"load": "x" * room})).encode())
        self.expect_entry(canonical.canonical_text(dict(entry, body={"load": "x" * (room + 1)})).encode(),
                          "entry-malformed")

    def test_too_deep(self):
        """The entry is the first level and its body the second, so ten lists more are the twelfth."""
        for lists, codes in ((10, ()), (11, ("entry-malformed",))):
            data = canonical.canonical_text(self.world.entry("load.arrived", {"load": "x"})).encode()
            self.expect_entry(data.replace(b'"x"', b"[" * lists + b"]" * lists), *codes)

    def test_order_is_that_of_utf16(self):
        entry = canonical.canonical_text({"\uffee": 1, "\U0001f69a": 2})
        self.assertEqual(entry, '{"\U0001f69a":2,"\uffee":1}')
        self.expect_malformed(body={"x": [True]}, mono=-1)

    def test_members(self):
        self.expect_malformed(v=0, id=JOB, job="x", kind="Load", body="x", occurredAt="2026-04-21T07:33:10Z")
        self.expect_malformed(recordedAt="2026-02-30T07:33:10-05:00", boot=JOB.upper(), mono="1", device=7)
        self.expect_malformed(by={"known": "server", "person": JOB}, source="fax", evidence=[], corrects=["x"])
        self.expect_malformed(by={"known": "pin"}, evidence=["AA" * 32], corrects=["bb" * 32, "aa" * 32], v="1")
        self.expect_malformed(corrects=["aa" * 32, "aa" * 32], why={"lang": "en", "text": "x"}, extra="x")
        self.expect_malformed(id=None, boot=None, source=None, by=None)
        self.expect_malformed(kind="load.has-arrived", occurredAt="2026-04-21T07:33:10-14:01",
                              recordedAt="2026-04-21T07:33:60-05:00", job="x.y")
        self.expect_malformed(kind="load.arrived2", occurredAt="2026-04-21T07:33:10-00:00",
                              recordedAt="2026-04-21T07:33:10.1234-05:00")

    def test_good_members(self):
        for changes in ({"occurredAt": "2026-04-21T07:33+14:00"}, {"occurredAt": "2026-04-21T07:33:10.125+00:00"},
                        {"evidence": ["bb" * 32, "aa" * 32]}, {"occurredAt": "2026-04-21T07:33:10.5+05:30"},
                        {"by": {"known": "passkey", "person": PERSON}}, {"corrects": ["aa" * 32, "bb" * 32]}):
            self.world.add(self.world.entry("load.arrived", {}, **changes))
        self.expect_world()

    def test_bodies(self):
        for kind, body in (("entry.withdrawn", {}), ("photo.received", {"photo": "x", "bytes": 1}),
                           ("person.added", {"person": JOB, "name": "Sam Sample", "role": "king"}),
                           ("device.enrolled", {"device": PHONE, "key": "AA==", "use": "phone", "person": JOB}),
                           ("device.withdrawn", {}), ("entry.refused", {"hash": "aa" * 32, "device": PHONE}),
                           ("owner.named", {"person": JOB}), ("role.changed", {"person": JOB}),
                           ("photo.taken", {"photo": "ab" * 32, "bytes": 1})):
            self.world.add(self.world.entry(kind, body, by={"known": "server"}, device=SERVER))
            self.expect_world("entry-malformed")
            self.world = build.example()


    def test_kinds_that_the_server_alone_makes(self):
        for kind, body in (("photo.received", {"photo": "ab" * 32, "bytes": 1}),
                           ("owner.named", {"person": JOB, "name": "Sam Sample"}),
                           ("entry.refused", {"hash": "aa" * 32, "device": PHONE, "code": "id-taken"})):
            self.world.add(self.world.entry(kind, body))
            self.expect_world("entry-malformed")
            self.world = build.example()

    def test_other_members_of_a_body_pass(self):
        body = {"photo": "ab" * 32, "bytes": 0, "camera": "x"}
        self.world.add(self.world.entry("photo.received", body, device=SERVER))
        self.expect_world()


if __name__ == "__main__":
    unittest.main()
