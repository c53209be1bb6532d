"""Records that are as they should be, in all the ways in which SPEC.md lets them differ."""

import os
import sys
import unittest
import zipfile

sys.dont_write_bytecode = True
sys.path.insert(0, os.path.dirname(os.path.abspath(__file__)))

import build_record as build  # noqa: E402
from archive import Archive  # noqa: E402
from build_record import JOB, ORIGIN, OTHER_JOB, PHONE, key_named  # noqa: E402
from entries import BODY_FORMS, KNOWN_KINDS  # noqa: E402
from record_case import RecordCase, replaced  # noqa: E402


class SoundTest(RecordCase):
    def test_sound_record(self):
        self.expect(self.sealed())
        self.assertEqual(self.found, [])
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
        self.world.add(self.world.entry("load.arrived", {"load": "9"}, v=3, colour="new"))
        self.expect_world()
        self.assertIn("entries/000006.json", [name for code, name, _ in self.found if code == "entry-unread"])

    def test_written_by_zipfile(self):
        with zipfile.ZipFile(self.path, "w", zipfile.ZIP_STORED) as out:
            for name, data in build.seal(self.world, self.files).items():
                member = zipfile.ZipInfo(name)
                member.external_attr = 0x81A40000
                out.writestr(member, data)
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

    def test_greater_release_keeps_some_forms(self):
        for name, value in (("kind", "Load"), ("device", 7), ("id", JOB), ("job", "x"), ("kind", None)):
            entry = dict(self.world.entry("load.arrived", {}), v=2, **{name: value})
            self.world.add({key: item for key, item in entry.items() if item is not None}, JOB, PHONE)
            self.files = self.world.files()
            self.assertIn("entry-malformed", [item[0] for item in self.failing(self.sealed())], name)
            self.world = build.example()

    def test_unknown_kind_is_unread_only(self):
        self.world.add(self.world.entry("weather.turned", {"to": "rain"}))
        self.expect_world()
        self.assertEqual([item[:2] for item in self.found], [("entry-unread", "entries/000006.json")])

    def test_unread_only_where_its_place_holds(self):
        self.world.add(self.world.entry("weather.turned", {}, OTHER_JOB), JOB)
        self.expect_world("entry-thread")
        self.assertNotIn("entry-unread", [item[0] for item in self.found])

    def test_every_kind_of_release_1_is_read(self):
        for kind in sorted(KNOWN_KINDS - set(BODY_FORMS) - {"entry.withdrawn"}):
            self.world.add(self.world.entry(kind, {"load": JOB}))
        self.expect_world()
        self.assertEqual(self.found, [])

    def test_written_by_one_who_streams(self):
        parts = build.parts_of(build.seal(self.world, self.files))
        for number, part in enumerate(parts):
            if number % 3:
                part.stream()
        self.expect(build.pack(parts))

    def test_utf8_flag(self):
        parts = build.parts_of(build.seal(self.world, self.files))
        for part in parts:
            part.local["flags"] = part.central["flags"] = 0x800
        self.expect(build.pack(parts))

    def test_longest_manifest(self):
        """L17: far beyond what another note may be."""
        for number in range(700):
            self.files["tables/made-up-%04d-%s.csv" % (number, "x" * 60)] = b"x"
        self.expect_sealed()

    def test_seen_the_checkpoint_itself(self):
        leaves = self.world.made[PHONE]
        head = self.world.head(PHONE, leaves, len(self.world.log))
        for hashed in leaves[3:]:
            if build.author_name(hashed) in self.files:
                self.files[build.author_name(hashed)] = self.world.author_proof(hashed, leaves, head)
        for ending in ("consistency", "note"):
            del self.files["earlier/8." + ending]
        self.expect_sealed()

    def test_a_slips_size_needs_no_note(self):
        self.files["earlier/7.consistency"] = self.world.consistency(7)
        self.expect(self.sealed(), slips=[self.world.slip(7)])

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


if __name__ == "__main__":
    unittest.main()
