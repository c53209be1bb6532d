"""What the tests of the checker share: a sound record, and the ways in which it is sealed after a damage."""

import json
import os
import sys
import tempfile
import unittest

sys.dont_write_bytecode = True
sys.path.insert(0, os.path.dirname(os.path.abspath(__file__)))

import build_record as build  # noqa: E402
import check  # noqa: E402
import merkle  # noqa: E402
import notes  # noqa: E402
from build_record import COMPANY, JOB  # noqa: E402
from ed25519_openssl import Verifier  # noqa: E402


def replaced(data, old, new):
    assert old in data, old
    return data.replace(old, new, 1)


def flipped(data, at=-1):
    data = bytearray(data)
    data[at] ^= 1
    return bytes(data)


VERIFIER = Verifier()  # one for all tests, since most records share most signatures


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
        key = notes.read_verifier_key(key) if key else None
        return check.check_record(self.path, key, [("slip.txt", slip) for slip in slips], VERIFIER)

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
