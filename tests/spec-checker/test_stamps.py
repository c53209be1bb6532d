"""Damages to the log's part of time stamps: SPEC.md L41.12."""

import hashlib
import os
import sys
import unittest

sys.dont_write_bytecode = True
sys.path.insert(0, os.path.dirname(os.path.abspath(__file__)))

import build_record as build  # noqa: E402
from build_record import COMPANY, JOB, SERVER, audit_path, proof  # noqa: E402
from record_case import RecordCase, flipped, replaced  # noqa: E402

RESPONSE = b"what an authority answered"  # whatever it is: this checker doesn't look into it
SIZE = 10                                 # no head has seen the log at this size


class StampTest(RecordCase):
    def setUp(self):
        super().setUp()
        self.stamp()

    def stamp(self, size=SIZE, **changes):
        body = {"size": size, "token": hashlib.sha256(RESPONSE).hexdigest(), "nonce": "41" * 16,
                "stampedAt": "2026-04-22T00:05:00.000+00:00"}
        body.update(changes)
        self.world.add(self.world.entry("checkpoint.stamped", body, COMPANY, SERVER, v=2))
        self.files = self.world.files()
        placed = [index for index, _ in self.world.threads[JOB] if index < size]
        hashes = self.world.leaf_hashes(size)
        self.files["earlier/%d.note" % size] = self.world.checkpoint(size)
        self.files["earlier/%d.consistency" % size] = self.world.consistency(size)
        self.files["stamps/%d.tsr" % size] = RESPONSE
        self.files["stamps/%d.tlog-proof" % size] = proof(placed[-1], audit_path(placed[-1], hashes),
                                                          self.world.checkpoint(size))

    def test_sound(self):
        self.expect_sealed()
        self.assertEqual(self.counts["stamps"], 1)

    def test_left_out(self):
        del self.files["stamps/%d.tsr" % SIZE]
        self.expect_sealed("stamp-missing")

    def test_another_response(self):
        self.files["stamps/%d.tsr" % SIZE] = flipped(RESPONSE)
        self.expect_sealed("stamp-differs")

    def test_without_its_proof(self):
        del self.files["stamps/%d.tlog-proof" % SIZE]
        self.expect_sealed("file-missing")

    def test_proof_of_another_leaf(self):
        name = "stamps/%d.tlog-proof" % SIZE
        hashes = self.world.leaf_hashes(SIZE)
        self.files[name] = proof(0, audit_path(0, hashes), self.world.checkpoint(SIZE))
        self.expect_sealed("inclusion-failed")

    def test_proof_of_a_later_version(self):
        name = "stamps/%d.tlog-proof" % SIZE
        self.files[name] = replaced(self.files[name], b"@v1", b"@v2")
        self.expect_sealed("format-unknown")

    def test_without_the_stamped_checkpoint(self):
        del self.files["earlier/%d.note" % SIZE]
        self.expect_sealed("file-missing")

    def test_without_the_way_from_it(self):
        del self.files["earlier/%d.consistency" % SIZE]
        self.expect_sealed("consistency-missing")

    def test_over_another_checkpoint(self):
        self.files["earlier/%d.note" % SIZE] = self.world.checkpoint(SIZE - 1)
        self.expect_sealed("stamp-differs", "earlier-differs")

    def test_one_that_the_log_does_not_name(self):
        self.files["stamps/7.tsr"] = RESPONSE
        self.expect_sealed("file-unlisted")

    def test_two_of_one_size(self):
        self.stamp(token="00" * 32)
        self.expect_sealed("stamp-differs")

    def test_named_before_the_state_that_it_is_over(self):
        early = build.example()
        self.world = early
        early.add(early.entry("checkpoint.stamped", {
            "size": 13, "token": hashlib.sha256(RESPONSE).hexdigest(), "nonce": "41" * 16,
            "stampedAt": "2026-04-22T00:05:00.000+00:00"}, COMPANY, SERVER, v=2))
        early.add(early.entry("load.arrived", {"load": "9"}))
        early.add(early.entry("load.arrived", {"load": "9"}))
        self.files = early.files()
        placed = [index for index, _ in early.threads[JOB] if index < 13]
        self.files["earlier/13.note"] = early.checkpoint(13)
        self.files["earlier/13.consistency"] = early.consistency(13)
        self.files["stamps/13.tsr"] = RESPONSE
        self.files["stamps/13.tlog-proof"] = proof(placed[-1], audit_path(placed[-1], early.leaf_hashes(13)),
                                                   early.checkpoint(13))
        self.expect_sealed("stamp-differs")

    def test_an_entry_out_of_form(self):
        for name, value in (("token", "zz"), ("nonce", "4"), ("stampedAt", "noon")):
            with self.subTest(name):
                self.world = build.example()
                self.stamp(**{name: value})
                self.assertIn("entry-malformed", {code for code, _, _ in self.failing(self.sealed())})


if __name__ == "__main__":
    unittest.main()
