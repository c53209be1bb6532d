"""Damages to the ZIP's form: SPEC.md L37."""

import os
import sys
import unittest

sys.dont_write_bytecode = True
sys.path.insert(0, os.path.dirname(os.path.abspath(__file__)))

import build_record as build  # noqa: E402
from record_case import RecordCase, flipped  # noqa: E402


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

    def test_no_data_descriptor(self):
        self.expect(self.bend(("local", "central"), flags=8), "zip-malformed")

    def test_data_descriptor_says_otherwise(self):
        for changes in ({"crc": 1}, {"size": 3}, {"packed": 3}, {"mark": b"PK\x07\x09"}):
            parts = self.parts()
            parts[5].stream(**changes)
            self.expect(build.pack(parts), "zip-malformed")

    def test_data_descriptor_without_signature(self):
        parts = self.parts()
        parts[5].stream()
        parts[5].after = parts[5].after[4:]
        self.expect(build.pack(parts), "zip-malformed")

    def test_data_descriptor_and_a_local_header_that_states_all_the_same(self):
        for name in ("crc", "size", "packed"):
            parts = self.parts()
            parts[5].stream().local[name] = parts[5].fields({})[name]
            self.expect(build.pack(parts), "zip-malformed")

    def test_data_descriptor_without_its_flag(self):
        parts = self.parts()
        parts[5].stream()
        parts[5].local, parts[5].central = {}, {}
        self.expect(build.pack(parts), "zip-malformed")

    def test_time(self):
        for changes in ({"time": 1}, {"date": 0x5C95}, {"date": 0}):
            self.expect(self.bend(("local", "central"), **changes), "zip-malformed")

    def test_attributes(self):
        for attributes in (0, 0x81ED0000, 0xA1FF0000, 0x81A40001):
            self.expect(self.bend(("central",), attributes=attributes), "zip-malformed")

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
        for name in ("../record.json", "/record.json", "tables/../x.csv", "tables\\x.csv", "C:x", "a//b", "caf\xe9",
                     "tables/a b.csv", "./x", "tables/./x.csv", "tables/", ""):
            parts = self.parts() + [build.Part(name, b"")]
            self.expect(build.pack(parts), "zip-malformed", "file-unlisted")

    def test_cut_short_anywhere(self):
        whole = build.pack(self.parts())
        for size in list(range(0, 120, 7)) + list(range(120, len(whole), len(whole) // 25)):
            self.assertIn("zip-malformed", [code for code, _, _ in self.failing(whole[:size])])

    def test_any_flipped_byte_is_found(self):
        """But for `version made by` and the inner attributes in the directory, about which no rule speaks."""
        whole = build.pack(self.parts())
        directory, last = whole.index(b"PK\x01\x02"), whole.rindex(b"PK\x01\x02")
        free = {last + number for number in (4, 5, 36, 37)}
        for at in list(range(5, directory, directory // 60)) + sorted(set(range(last, len(whole))) - free):
            self.assertTrue(self.failing(flipped(whole, at)), at)


if __name__ == "__main__":
    unittest.main()
