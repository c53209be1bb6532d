"""Tests of the checker: a sound record passes; each of many damages is found under the right code, and no other.

Where a forger could, everything downstream of a damage is made anew: the sums, the manifest and its signature with
the log's own key. So each test shows what one rule is good for even against whoever holds that key.
"""

import hashlib
import json
import os
import subprocess
import sys
import tempfile
import unittest
import zipfile
from random import Random

HERE = os.path.dirname(os.path.abspath(__file__))
sys.dont_write_bytecode = True
sys.path.insert(0, HERE)

import build_record as build  # noqa: E402
import check  # noqa: E402
import formats  # noqa: E402
import merkle  # noqa: E402
from archive import Archive  # noqa: E402
from build_record import COMPANY, JOB, ORIGIN, OTHER_JOB, PHONE, SERVER, STRANGER, key_named  # noqa: E402


def replaced(data, old, new):
    assert old in data, old
    return data.replace(old, new, 1)


def flipped(data, at=-1):
    data = bytearray(data)
    data[at] ^= 1
    return bytes(data)


class RecordCase(unittest.TestCase):
    def setUp(self):
        self.world = build.example()
        self.files = self.world.files()
        handle, self.path = tempfile.mkstemp(suffix=".zip")
        os.close(handle)

    def tearDown(self):
        os.unlink(self.path)

    def check(self, data, key=None, slips=()):
        with open(self.path, "wb") as out:
            out.write(data)
        key = formats.read_verifier_key(key) if key else None
        return check.check_record(self.path, key, [("slip.txt", slip) for slip in slips])

    def failing(self, data, **options):
        findings, self.counts = self.check(data, **options)
        self.found = findings.items
        return findings.failing()

    def expect(self, data, *codes, **options):
        """Exactly these failing codes."""
        failing = self.failing(data, **options)
        self.assertEqual(sorted({code for code, _, _ in failing}), sorted(codes), failing)

    def sealed(self, **changes):
        return build.pack(build.parts_of(build.seal(self.world, self.files, **changes)))

    def expect_sealed(self, *codes, **changes):
        """A forger with the log's key has remade sums and manifest around the damage."""
        self.expect(self.sealed(**changes), *codes)

    def expect_world(self, *codes, job=JOB, **changes):
        """The same after a damage to the world: every proof and checkpoint is made anew as well."""
        self.files = self.world.files(job, **changes)
        self.expect(self.sealed(job=job), *codes)

    def unsealed(self, **changes):
        """Damage after sealing: `changes` gives a file's new bytes, or None to leave it out."""
        files = build.seal(self.world, self.files)
        for name, data in changes["files"].items():
            files.pop(name, None)
            if data is not None:
                files[name] = data
        return build.pack(build.parts_of(files))

    def company_name(self, kind, ending="json", which=0):
        names = [merkle.leaf_hash(data).hex() for _, data in self.world.threads[COMPANY]
                 if json.loads(data)["kind"] == kind]
        return "company/%s.%s" % (names[which], ending)


class SoundTest(RecordCase):
    def test_sound_record(self):
        self.expect(self.sealed())
        self.assertEqual([code for code, _, _ in self.found], ["entry-unread"] * 2)
        self.assertEqual(self.counts["withheld"], [])
        self.assertEqual((self.counts["entries"], self.counts["company"], self.counts["authors"]), (5, 4, 9))

    def test_sound_with_given_key(self):
        self.expect(self.sealed(), key=build.verifier_key(ORIGIN, key_named("log")))
        self.assertEqual(self.counts["key"], "given")

    def test_withheld_entry_is_no_failure(self):
        self.expect_world(withhold=(1, 4))
        self.assertEqual(self.counts["withheld"], [1, 4])

    def test_withheld_entry_with_its_author(self):
        self.files = self.world.files(withhold=(1,))
        self.files[build.author_name(self.world.arrived)] = self.world.author_file(self.world.arrived, build.SEEN)
        self.expect_sealed()

    def test_greater_release_is_unread_only(self):
        self.world.add(self.world.entry("load.arrived", {"load": "9"}, v=2, colour="new"))
        self.expect_world()
        self.assertIn("entries/000006.json", [name for code, name, _ in self.found if code == "entry-unread"])

    def test_written_by_zipfile(self):
        with zipfile.ZipFile(self.path, "w", zipfile.ZIP_STORED) as out:
            for name, data in build.seal(self.world, self.files).items():
                out.writestr(name, data)
        with open(self.path, "rb") as file:
            data = file.read()
        self.expect(data)

    def test_proof_with_extra_line_and_unknown_signatures(self):
        name = "thread.tlog-proof"
        self.files[name] = replaced(self.files[name], b"index", b"extra AAAA\nindex")
        line = build.signature_line("x\n", "elsewhere.example/log", key_named("other")).encode()
        self.files["checkpoint.note"] += line
        self.files[name] += line
        self.expect_sealed()

    def test_company_as_the_job(self):
        self.expect_world(job=COMPANY)

    def test_second_epoch_of_a_device(self):
        leaves = [self.world.last]
        self.files[build.author_name(self.world.last)] = self.world.author_proof(
            self.world.last, leaves, self.world.head(PHONE, leaves, 0, epoch=2))
        self.expect_sealed()

    def test_every_slip_agrees(self):
        data = self.sealed()
        for size in (6, 8, len(self.world.log)):
            self.expect(data, slips=[self.world.slip(size)])

    def test_many_members_need_zip64(self):
        data = build.pack([build.Part("f/%d" % number, b"") for number in range(65536)])
        with open(self.path, "wb") as out:
            out.write(data)
        archive = Archive(self.path)
        self.assertEqual((archive.faults, len(archive.members)), ([], 65536))
        archive.close()


class ZipTest(RecordCase):
    def parts(self):
        return build.parts_of(build.seal(self.world, self.files))

    def bend(self, where, **fields):
        parts = self.parts()
        part = next(part for part in parts if part.name == b"record.json")
        for header in where:
            getattr(part, header).update(fields)
        return build.pack(parts)

    def test_bytes_before(self):
        self.expect(build.pack(self.parts(), lead=b"#!"), "zip-malformed")

    def test_bytes_after(self):
        self.expect(build.pack(self.parts(), tail=b"\n"), "zip-malformed")

    def test_archive_comment(self):
        self.expect(build.pack(self.parts(), comment=b"hello"), "zip-malformed")

    def test_bytes_between_members(self):
        parts = self.parts()
        parts[3].before = b"hidden"
        self.expect(build.pack(parts), "zip-malformed")

    def test_bytes_before_directory(self):
        self.expect(build.pack(self.parts(), gap=b"hidden"), "zip-malformed")

    def test_wrong_crc(self):
        self.expect(self.bend(("local", "central"), crc=1), "zip-malformed")

    def test_headers_disagree_on_crc(self):
        self.expect(self.bend(("local",), crc=1), "zip-malformed")

    def test_headers_disagree_on_name(self):
        self.expect(self.bend(("local",), name=b"record.JSON"), "zip-malformed")

    def test_headers_disagree_on_time(self):
        self.expect(self.bend(("local",), time=1), "zip-malformed")

    def test_encrypted(self):
        self.expect(self.bend(("local", "central"), flags=1), "zip-malformed")

    def test_data_descriptor(self):
        self.expect(self.bend(("local", "central"), flags=8), "zip-malformed")

    def test_deflated(self):
        self.expect(self.bend(("local", "central"), method=8), "zip-malformed")

    def test_hidden_extra_field(self):
        self.expect(self.bend(("local",), extra=b"\x75\x70\x02\0hi"), "zip-malformed")

    def test_zip64_field_where_none_is_needed(self):
        self.expect(self.bend(("central",), size=0xFFFFFFFF, extra=b"\x01\0\x08\0" + (2).to_bytes(8, "little")),
                    "zip-malformed", "file-missing")

    def test_zip64_end_where_none_is_needed(self):
        self.expect(build.pack(self.parts(), zip64=True), "zip-malformed")

    def test_member_comment(self):
        self.expect(self.bend(("central",), comment=b"hi"), "zip-malformed")

    def test_doubled_name(self):
        parts = self.parts()
        parts.append(build.Part("record.json", b"{\"other\":1}"))
        self.expect(build.pack(parts), "zip-malformed")

    def test_overlapping_members(self):
        parts = self.parts()
        parts[4].central["offset"] = 0
        self.assertIn("zip-malformed", [code for code, _, _ in self.failing(build.pack(parts))])

    def test_count_beyond_directory(self):
        self.expect(build.pack(self.parts(), extra_count=1), "zip-malformed")

    def test_names_that_leave_the_folder(self):
        for name in ("../record.json", "/record.json", "tables/../x.csv", "tables\\x.csv", "C:x", "a//b", "caf\xe9"):
            parts = self.parts() + [build.Part(name, b"")]
            self.expect(build.pack(parts), "zip-malformed", "file-unlisted")

    def test_cut_short_anywhere(self):
        whole = build.pack(self.parts())
        for size in list(range(0, 120, 7)) + list(range(120, len(whole), len(whole) // 25)):
            self.assertIn("zip-malformed", [code for code, _, _ in self.failing(whole[:size])])

    def test_any_flipped_byte_is_found(self):
        """In members and end record; the directory also holds attributes and the like, about which no rule speaks."""
        whole = build.pack(self.parts())
        directory = whole.index(b"PK\x01\x02")
        for at in list(range(5, directory, directory // 60)) + list(range(len(whole) - 22, len(whole))):
            self.assertTrue(self.failing(flipped(whole, at)), at)


class ManifestTest(RecordCase):
    def test_missing_file(self):
        self.expect(self.unsealed(files={"record.pdf": None}), "file-missing")

    def test_missing_manifest(self):
        self.expect(self.unsealed(files={"manifest.note": None}), "file-missing")

    def test_unlisted_file(self):
        self.expect(self.unsealed(files={"tables/more.csv": b"x"}), "file-unlisted")

    def test_other_bytes(self):
        self.expect(self.unsealed(files={"record.pdf": b"other"}), "file-differs")
        self.assertEqual(self.found[0][:2], ("file-differs", "record.pdf"))

    def test_listed_file_of_unknown_name(self):
        self.files["notes.txt"] = b"hello"
        self.expect_sealed("file-unlisted")

    def test_needed_file_is_not_even_listed(self):
        del self.files["thread.tlog-proof"]
        self.expect_sealed("file-missing")

    def test_signed_with_another_key(self):
        self.expect_sealed("manifest-signature", key=key_named("other"))

    def test_manifest_text_changed(self):
        files = build.seal(self.world, self.files)
        self.expect(self.unsealed(files={
            "manifest.note": replaced(files["manifest.note"], b"release 1.0.0", b"release 1.0.1")}),
            "manifest-signature")

    def test_second_line_of_the_key_must_verify_too(self):
        files = build.seal(self.world, self.files)
        wrong = build.signature_line("something else\n", ORIGIN, key_named("log")).encode()
        self.expect(self.unsealed(files={"manifest.note": files["manifest.note"] + wrong}), "manifest-signature")

    def test_not_sorted(self):
        def swap(text):
            lines = text.split("\n")
            lines[6], lines[7] = lines[7], lines[6]
            return "\n".join(lines)
        self.expect_sealed("manifest-malformed", text=swap)

    def test_name_twice(self):
        self.expect_sealed("manifest-malformed", text=lambda text: text + text.split("\n")[-2] + "\n")

    def test_header_lines_out_of_form(self):
        for changes in ({"made": "2026-04-21 16:20:31.125Z"}, {"release": ""}, {"made": "2026-13-21T16:20:31.125Z"}):
            self.expect_sealed("manifest-malformed", **changes)

    def test_made_is_another_time(self):
        self.expect_sealed("manifest-malformed", made="2026-04-21T23:59:59.000Z")

    def test_unknown_version(self):
        self.expect_sealed("format-unknown", version="screedbook-record/v2")

    def test_origin_is_not_the_keys_name(self):
        self.expect_sealed("manifest-malformed", origin="screedbook/" + OTHER_JOB)

    def test_not_a_note(self):
        for data in (b"", b"hello", b"a\n\n\xff\n", b"a\n\n- x y\n", b"a\tb\n\n\xe2\x80\x94 x AAAAAAAA\n"):
            self.expect(self.unsealed(files={"manifest.note": data}), "manifest-malformed")

    def test_sums_say_otherwise(self):
        sums = build.sums_text(self.files)
        self.expect_sealed("sums-differ", sums=flipped(sums.encode(), 3))

    def test_sums_lack_a_file(self):
        self.expect_sealed("sums-differ", sums=build.sums_text(self.files).partition("\n")[2].encode())

    def test_sums_out_of_form(self):
        self.expect_sealed("sums-differ", sums=build.sums_text(self.files).replace("  ", " *").encode())

    def test_given_key_is_another(self):
        self.expect(self.sealed(), "manifest-signature", "checkpoint-signature", "earlier-signature",
                    "founding-differs", key=build.verifier_key(ORIGIN, key_named("other")))

    def test_verifier_key_of_wrong_id(self):
        self.files["log.vkey"] = replaced(self.files["log.vkey"], b"+", b"+0")[:-1] + b"\n"
        self.assertIn(("manifest-signature", "log.vkey"), [item[:2] for item in self.failing(self.sealed())])


class CheckpointTest(RecordCase):
    def test_signed_with_another_key(self):
        self.files["checkpoint.note"] = self.world.checkpoint(key=key_named("other"))
        self.expect_sealed("checkpoint-signature")

    def test_other_root(self):
        self.files["checkpoint.note"] = self.world.checkpoint(root=bytes(32))
        self.expect_sealed("checkpoint-differs", "inclusion-failed", "consistency-failed")

    def test_other_size(self):
        self.files["checkpoint.note"] = self.world.checkpoint(10)
        self.expect_sealed("checkpoint-differs", "inclusion-failed", "consistency-failed")

    def test_other_origin(self):
        self.files["checkpoint.note"] = self.world.checkpoint(origin=ORIGIN + "x")
        self.expect_sealed("checkpoint-differs", "inclusion-failed")

    def test_malformed(self):
        for text in ("%s\n011\nAAAA\n" % ORIGIN, "%s\n" % ORIGIN, "%s\n11\n!!!\n" % ORIGIN):
            self.files["checkpoint.note"] = build.signed_note(text, ORIGIN, key_named("log"))
            self.expect_sealed("checkpoint-malformed")

    def test_extension_line_is_ignored(self):
        note = self.files["checkpoint.note"].decode().split("\n\n")[0] + "\nmore\n"
        self.files["checkpoint.note"] = build.signed_note(note, ORIGIN, key_named("log"))
        self.expect_sealed()


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
                data = formats.canonical_text(entry).encode()
            except formats.Malformed:
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
        self.files["entries/000009.json"] = self.files["entries/000001.json"]
        self.expect_sealed("entry-differs")

    def test_entry_of_another_job(self):
        self.world.add(self.world.entry("load.arrived", {}, OTHER_JOB), JOB)
        self.expect_world("entry-thread")

    def test_not_canonical(self):
        good = formats.canonical_text(self.world.entry("load.arrived", {"load": "3"})).encode()
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
        room = formats.MAX_ENTRY_BYTES - len(formats.canonical_text(entry).encode())
        self.expect_entry(formats.canonical_text(dict(entry, body={"load": "x" * room})).encode())
        self.expect_entry(formats.canonical_text(dict(entry, body={"load": "x" * (room + 1)})).encode(),
                          "entry-malformed")

    def test_too_deep(self):
        """The entry is the first level and its body the second, so ten lists more are the twelfth."""
        for lists, codes in ((10, ()), (11, ("entry-malformed",))):
            data = formats.canonical_text(self.world.entry("load.arrived", {"load": "x"})).encode()
            self.expect_entry(data.replace(b'"x"', b"[" * lists + b"]" * lists), *codes)

    def test_order_is_that_of_utf16(self):
        entry = formats.canonical_text({"\uffee": 1, "\U0001f69a": 2})
        self.assertEqual(entry, '{"\U0001f69a":2,"\uffee":1}')
        self.expect_malformed(body={"x": [True]}, mono=-1)

    def test_members(self):
        self.expect_malformed(v=0, id=JOB, job="x", kind="Load", body="x", occurredAt="2026-04-21T07:33:10Z")
        self.expect_malformed(recordedAt="2026-02-30T07:33:10-05:00", boot=JOB.upper(), mono="1", device=7)
        self.expect_malformed(by={"known": "server", "person": JOB}, source="fax", evidence=[], corrects=["x"])
        self.expect_malformed(by={"known": "pin"}, evidence=["AA" * 32], corrects=["bb" * 32, "aa" * 32], v="1")
        self.expect_malformed(corrects=["aa" * 32, "aa" * 32], why={"lang": "en", "text": "x"}, extra="x")
        self.expect_malformed(id=None, boot=None, source=None, by=None)

    def test_good_members(self):
        for changes in ({"occurredAt": "2026-04-21T07:33-05:00"}, {"occurredAt": "2026-04-21T07:33:10.5+05:30"},
                        {"by": {"known": "passkey", "person": JOB}}, {"corrects": ["aa" * 32, "bb" * 32]}):
            self.world.add(self.world.entry("load.arrived", {}, **changes))
        self.expect_world()

    def test_bodies(self):
        for kind, body in (("entry.withdrawn", {}), ("photo.received", {"photo": "x", "bytes": 1}),
                           ("person.added", {"person": JOB, "name": "Sam Sample", "role": "king"}),
                           ("device.enrolled", {"device": PHONE, "key": "AA==", "use": "phone", "person": JOB}),
                           ("device.withdrawn", {}), ("entry.refused", {"hash": "aa" * 32, "device": PHONE}),
                           ("role.changed", {"person": JOB})):
            self.world.add(self.world.entry(kind, body))
            self.expect_world("entry-malformed")
            self.world = build.example()


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
        name = self.company_name("person.added")
        self.files[name] = replaced(self.files[name], b"Pat", b"Pit")
        codes = {item[0] for item in self.failing(self.sealed())}
        self.assertLessEqual({"entry-differs"}, codes)

    def test_leaf_of_another_entry(self):
        self.files[self.company_name("person.added", "leaf")] = self.files[self.company_name("company.founded", "leaf")]
        self.expect_sealed("entry-differs", "inclusion-failed", "thread-count")

    def test_leaf_out_of_form(self):
        name = self.company_name("person.added", "leaf")
        for damaged in (self.files[name][:-1], self.files[name][2:], b"", self.files[name] * 2):
            self.files[name] = damaged
            codes = {item[0] for item in self.failing(self.sealed())}
            self.assertIn("leaf-malformed" if damaged[:2] in (b"01", b"") else "leaf-format-unknown", codes)
            self.files = self.world.files()

    def test_proof_fails(self):
        name = self.company_name("person.added", "tlog-proof")
        self.files[name] = self.files[self.company_name("company.founded", "tlog-proof")]
        self.expect_sealed("inclusion-failed")

    def test_one_of_three_files_is_missing(self):
        del self.files[self.company_name("person.added", "leaf")]
        self.expect_sealed("file-missing", "inclusion-failed")

    def test_entry_of_a_job(self):
        self.world.add(self.world.entry("person.added", {"person": JOB, "name": "Sam Sample", "role": "crew"}, JOB, SERVER),
                       COMPANY)
        self.expect_world("entry-thread")

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
        self.expect_world("device-unknown")

    def test_server_enrolled_by_a_phone(self):
        body = {"device": STRANGER, "key": build.base64_text(key_named(STRANGER).public), "use": "server"}
        self.world.add(self.world.entry("device.enrolled", body, COMPANY, PHONE))
        self.expect_world("device-unknown")

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
        for epoch in ("0", "01", "x"):
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


class EarlierTest(RecordCase):
    def test_missing(self):
        del self.files["earlier/6.consistency"]
        self.expect_sealed("consistency-missing")

    def test_both_missing(self):
        for ending in ("consistency", "note"):
            del self.files["earlier/6." + ending]
        self.expect_sealed("consistency-missing")

    def test_note_missing(self):
        del self.files["earlier/6.note"]
        self.expect_sealed("file-missing")

    def test_damaged(self):
        name, whole = "earlier/6.consistency", self.files["earlier/6.consistency"]
        lines = whole.split(b"\n")
        for damaged in (whole[:-1], b"\n".join(lines[:-2] + lines[-1:]), whole + lines[-2] + b"\n",
                        self.files["earlier/8.consistency"], replaced(whole, b"\n6\n", b"\n06\n"),
                        replaced(whole, lines[6], lines[5]), b"", self.world.consistency(6, 8)):
            self.files[name] = damaged
            self.expect_sealed("consistency-failed")

    def test_base64_has_one_spelling(self):
        name = "earlier/6.consistency"
        last = self.files[name][:-1].rsplit(b"\n", 1)[1]
        alphabet = b"ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789+/"
        other = last[:-2] + bytes([alphabet[alphabet.index(last[-2]) ^ 1]]) + b"="
        self.files[name] = replaced(self.files[name], last, other)
        self.expect_sealed("consistency-failed")

    def test_unknown_version(self):
        self.files["earlier/6.consistency"] = replaced(self.files["earlier/6.consistency"], b"/v1", b"/v2")
        self.expect_sealed("format-unknown")

    def test_head_saw_another_root(self):
        leaves = self.world.made[PHONE]
        head = self.world.head(PHONE, leaves, 8, seen_root=bytes(32))
        self.files[build.author_name(self.world.last)] = self.world.author_proof(self.world.last, leaves, head)
        self.expect_sealed("consistency-failed")

    def test_log_rewritten_since(self):
        """The whole attack: the log's owner makes the log anew with another first load, and signs everything again."""
        seen = self.world.checkpoint(6)
        root = build.tree_root(self.world.leaf_hashes(6))
        forged = build.example(load="5")
        self.world, self.files = forged, forged.files()
        # The phone's own signed heads can't be made anew: the forger can only keep what the phone has really seen.
        for hashed in forged.made[PHONE]:
            if build.author_name(hashed) in self.files:
                leaves = forged.made[PHONE]
                self.files[build.author_name(hashed)] = forged.author_proof(
                    hashed, leaves, forged.head(PHONE, leaves, 6, seen_root=root))
        self.expect_sealed("consistency-failed")
        self.files["earlier/6.note"] = seen
        self.expect_sealed("consistency-failed", "earlier-differs")

    def test_seen_ahead(self):
        leaves = self.world.made[PHONE]
        head = self.world.head(PHONE, leaves, 12)
        self.files[build.author_name(self.world.last)] = self.world.author_proof(self.world.last, leaves, head)
        self.expect_sealed("seen-ahead")

    def test_note_signed_with_another_key(self):
        self.files["earlier/6.note"] = self.world.checkpoint(6, key=key_named("other"))
        self.expect_sealed("earlier-signature")

    def test_note_of_another_size_or_root(self):
        for note in (self.world.checkpoint(8), self.world.checkpoint(6, root=bytes(32)),
                     build.signed_note("x\n", ORIGIN, key_named("log"))):
            self.files["earlier/6.note"] = note
            self.expect_sealed("earlier-differs")


class PhotoTest(RecordCase):
    def name(self):
        return "photos/%s.jpg" % hashlib.sha256(build.PHOTO).hexdigest()

    def test_other_bytes(self):
        self.files[self.name()] = b"another picture"
        self.expect_sealed("photo-differs", "photo-missing")

    def test_other_name(self):
        self.files["photos/first.jpg"] = self.files.pop(self.name())
        self.expect_sealed("photo-differs")

    def test_missing(self):
        del self.files[self.name()]
        self.expect_sealed("photo-missing")

    def test_never_received(self):
        self.world.add(self.world.entry("photo.taken", {}, evidence=["ab" * 32], source="photo"))
        self.expect_world()


class SlipTest(RecordCase):
    def expect_slip(self, slip, *codes):
        self.expect(self.sealed(), *codes, slips=[slip])

    def test_other_root(self):
        slip = self.world.slip(8)
        lines = slip.split(b"\n")
        lines[3] = build.base64_text(bytes(32)).encode()
        self.expect_slip(b"\n".join(lines), "slip-disagrees")

    def test_other_leaf(self):
        self.expect_slip(flipped(self.world.slip(8), -2), "slip-disagrees")

    def test_of_another_job(self):
        self.expect_slip(self.world.slip(len(self.world.log), OTHER_JOB), "slip-disagrees")

    def test_of_another_company(self):
        self.expect_slip(replaced(self.world.slip(8), ORIGIN.encode(), b"screedbook/" + JOB.encode()), "slip-disagrees")

    def test_no_way_from_its_size(self):
        self.expect_slip(self.world.slip(7), "consistency-missing")

    def test_later(self):
        later = build.copied(self.world)
        later.add(later.entry("load.arrived", {}))
        self.expect_slip(later.slip(12), "slip-later")

    def test_later_and_the_thread_was_changed(self):
        later = build.example()
        later.add(later.entry("load.arrived", {}, OTHER_JOB))
        self.expect_slip(flipped(later.slip(12), -2), "slip-later", "slip-disagrees")

    def test_malformed(self):
        slip = self.world.slip(8)
        for damaged in (b"", b"\xff", slip[:-1], slip + b"\n", slip.replace(b"\n", b"\r\n"), slip.upper(),
                        replaced(slip, b"\n8\n", b"\n0\n"), replaced(slip, b"\n8\n", b"\n08\n")):
            self.expect_slip(damaged, "slip-malformed")

    def test_unknown_version(self):
        self.expect_slip(replaced(self.world.slip(8), b"/v1", b"/v2"), "format-unknown")


class CommandTest(RecordCase):
    def run_check(self, *arguments):
        done = subprocess.run([sys.executable, os.path.join(HERE, "check.py")] + list(arguments),
                              stdout=subprocess.PIPE, stderr=subprocess.PIPE)
        return done.returncode, done.stdout.decode()

    def write(self, data):
        with open(self.path, "wb") as out:
            out.write(data)

    def test_text(self):
        self.write(self.sealed())
        status, text = self.run_check(self.path, "--key", build.verifier_key(ORIGIN, key_named("log")))
        self.assertEqual(status, 0)
        self.assertEqual([len(line.split("\t")) for line in text.splitlines()], [3, 3, 1])
        self.assertIn("with the key that was given", text)

    def test_json(self):
        self.write(self.unsealed(files={"record.pdf": b"other"}))
        status, text = self.run_check("--json", self.path)
        answer = json.loads(text)
        self.assertEqual((status, answer["ok"]), (1, False))
        self.assertEqual(answer["findings"][0]["code"], "file-differs")
        self.assertEqual(answer["checked"]["key"], "from-record")

    def test_slip_and_bad_usage(self):
        self.write(self.sealed())
        with tempfile.NamedTemporaryFile() as slip:
            slip.write(self.world.slip(8))
            slip.flush()
            self.assertEqual(self.run_check(self.path, "--slip", slip.name)[0], 0)
        for arguments in ((), (self.path, "--key", "x"), (self.path + ".none",), (self.path, "--slip", "/none"),
                          (HERE,), (self.path, "--wrong")):
            self.assertEqual(self.run_check(*arguments)[0], 2, arguments)

    def test_empty_file(self):
        self.write(b"")
        self.assertEqual(self.run_check(self.path)[0], 1)


class DamageTest(RecordCase):
    """Blind damage to any file, all remade around it: never a crash, never a check that stopped half-way."""

    UNCHECKED = ("record.json", "record.pdf", "tables/loads.csv")  # L41.11

    def damage(self, random, data):
        at = random.randrange(len(data) + 1)
        noise = bytes(random.randrange(256) for _ in range(random.randrange(1, 9)))
        lines = data.split(b"\n")
        random.shuffle(lines)
        return random.choice((data[:at], data[:at] + noise + data[at:], data[:at] + noise + data[at + len(noise):],
                              b"\n".join(lines), data + data, noise, b""))

    def test_blind_damage(self):
        random = Random(20260421)
        sound = dict(self.files)
        for name in sorted(sound) * 2:
            self.files = dict(sound)
            self.files[name] = self.damage(random, sound[name])
            failing = self.failing(self.sealed())
            self.assertFalse([item for item in self.found if "stopped here" in item[2]], name)
            if self.files[name] != sound[name] and name not in self.UNCHECKED:
                self.assertTrue(failing, name)


class TreeTest(unittest.TestCase):
    """RFC 6962's proofs, all of them in trees of up to 32 leaves."""

    SIZES = range(1, 33)
    LEAVES = [merkle.leaf_hash(b"leaf %d" % number) for number in range(33)]

    def test_known_roots(self):
        self.assertEqual(build.tree_root([]).hex(), "e3b0c44298fc1c149afbf4c8996fb92427ae41e4649b934ca495991b7852b855")
        self.assertEqual(merkle.leaf_hash(b"").hex(), "6e340b9cffb37a989ca544e6bb780a2c78901d3fb33738768511a30617afa01d")

    def damaged(self, path):
        for at in range(len(path)):
            yield path[:at] + path[at + 1:]
            yield path[:at] + [flipped(path[at])] + path[at + 1:]
            yield path[:at] + [path[at]] + path[at:]
        yield path + [self.LEAVES[32]]
        yield [self.LEAVES[32]] + path

    def test_inclusion(self):
        for size in self.SIZES:
            leaves = self.LEAVES[:size]
            root = build.tree_root(leaves)
            for index, leaf in enumerate(leaves):
                path = build.audit_path(index, leaves)
                self.assertTrue(merkle.inclusion_holds(leaf, index, size, path, root))
                self.assertFalse(merkle.inclusion_holds(flipped(leaf), index, size, path, root))
                self.assertFalse(merkle.inclusion_holds(leaf, index, size, path, flipped(root)))
                for other in list(range(index)) + list(range(index + 1, size + 2)) + [-1]:
                    self.assertFalse(merkle.inclusion_holds(leaf, other, size, path, root))
                for bad in self.damaged(path):
                    self.assertFalse(merkle.inclusion_holds(leaf, index, size, bad, root))

    def test_consistency(self):
        for size in self.SIZES:
            leaves = self.LEAVES[:size]
            root = build.tree_root(leaves)
            for old in range(size + 1):
                old_root = build.tree_root(leaves[:old])
                path = build.consistency_path(old, leaves) if old else []
                self.assertTrue(merkle.consistency_holds(old, old_root, size, root, path))
                self.assertFalse(merkle.consistency_holds(old, flipped(old_root), size, root, path))
                if old:
                    self.assertFalse(merkle.consistency_holds(old, old_root, size, flipped(root), path))
                if old < size:
                    self.assertFalse(merkle.consistency_holds(size, root, old, old_root, path))
                for bad in self.damaged(path):
                    self.assertFalse(merkle.consistency_holds(old, old_root, size, root, bad))


if __name__ == "__main__":
    unittest.main()
