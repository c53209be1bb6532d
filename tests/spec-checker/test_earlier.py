"""Damages to earlier checkpoints, photos and slips: SPEC.md L41.8 to L41.10."""

import hashlib
import os
import sys
import unittest

sys.dont_write_bytecode = True
sys.path.insert(0, os.path.dirname(os.path.abspath(__file__)))

import build_record as build  # noqa: E402
import formats  # noqa: E402
from build_record import JOB, ORIGIN, OTHER_JOB, PHONE, key_named  # noqa: E402
from record_case import RecordCase, flipped, replaced  # noqa: E402


class EarlierTest(RecordCase):
    def test_missing(self):
        del self.files["earlier/6.consistency"]
        self.expect_sealed("consistency-missing")

    def test_both_missing(self):
        for ending in ("consistency", "note"):
            del self.files["earlier/6." + ending]
        self.expect_sealed("consistency-missing", "file-missing")

    def test_none_for_nothing_and_for_the_checkpoint_itself(self):
        for size in (0, len(self.world.log)):
            name = "earlier/%d.consistency" % size
            self.files[name] = self.world.consistency(size)
            self.expect_sealed("file-unlisted")
            del self.files[name]

    def test_note_that_no_head_has_seen(self):
        self.files["earlier/7.note"] = self.world.checkpoint(7)
        self.expect_sealed("file-unlisted")

    def test_head_saw_another_root_of_the_checkpoints_size(self):
        leaves = self.world.made[PHONE]
        head = self.world.head(PHONE, leaves, len(self.world.log), seen_root=bytes(32))
        self.files[build.author_name(self.world.last)] = self.world.author_proof(self.world.last, leaves, head)
        self.expect_sealed("consistency-failed")

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
        self.world, self.files = forged, forged.files(seen=(0, 6, 6))
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
        self.world.add(self.world.entry("photo.taken", {"photo": "ab" * 32, "bytes": 7}, evidence=["ab" * 32],
                                        source="photo"))
        self.expect_world()

    def test_of_no_entry(self):
        self.files["photos/%s.jpg" % hashlib.sha256(b"x").hexdigest()] = b"x"
        self.expect_sealed("file-unlisted")


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

    def test_way_from_its_size_fails(self):
        self.files["earlier/7.consistency"] = self.world.consistency(6)
        self.expect_slip(self.world.slip(7), "consistency-failed")

    def test_words(self):
        """L35: 88 bits, most significant first."""
        bits = bin(int(hashlib.sha256(b"x").hexdigest(), 16))[2:].zfill(256)
        self.assertEqual(formats.slip_numbers(b"x"), [int(bits[at:at + 11], 2) for at in range(0, 88, 11)])

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


if __name__ == "__main__":
    unittest.main()
