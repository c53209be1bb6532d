"""Damages to the key, the manifest, the sums and the checkpoint: SPEC.md L38-L40, L41.1 and L41.2."""

import os
import sys
import unittest

sys.dont_write_bytecode = True
sys.path.insert(0, os.path.dirname(os.path.abspath(__file__)))

import build_record as build  # noqa: E402
import notes  # noqa: E402
from build_record import ORIGIN, OTHER_JOB, key_named  # noqa: E402
from record_case import RecordCase, flipped, replaced  # noqa: E402


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

    def test_required_file_is_not_even_listed(self):
        for name in ("thread.tlog-proof", "record.json", "record.pdf", "tables/loads.csv"):
            whole = self.files.pop(name)
            self.expect_sealed("file-missing")
            self.files[name] = whole

    def test_manifest_too_long(self):
        self.expect_sealed("manifest-malformed", text=lambda text: text.replace(
            "release 1.0.0", "release " + "x" * notes.MAX_MANIFEST_BYTES))

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

    def test_sums_in_another_order(self):
        lines = build.sums_text(self.files).splitlines(True)
        self.expect_sealed("sums-differ", sums="".join(reversed(lines)).encode())

    def test_sums_out_of_form(self):
        self.expect_sealed("sums-differ", sums=build.sums_text(self.files).replace("  ", " *").encode())

    def test_given_key_is_another(self):
        self.expect(self.sealed(), "manifest-signature", "checkpoint-signature", "earlier-signature",
                    "founding-differs", "key-differs", key=build.verifier_key(ORIGIN, key_named("other")))

    def test_verifier_key_of_wrong_id(self):
        whole = self.files["log.vkey"]
        for damaged in (replaced(whole, b"+", b"+0"), whole[:-1], whole + b"\n", b"", whole * 2, b"\xff\n"):
            self.files["log.vkey"] = damaged
            self.assertIn(("key-malformed", "log.vkey"), [item[:2] for item in self.failing(self.sealed())])
            self.expect(self.sealed(), "key-malformed", key=whole.decode().strip())


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


if __name__ == "__main__":
    unittest.main()
