"""Tests of the checker: a sound record passes; each of many damages is found under the right code, and no other.

Where a forger could, everything downstream of a damage is made anew: the sums, the manifest and its signature with
the log's own key. So each test shows what one rule is good for even against whoever holds that key.
"""

import json
import os
import re
import subprocess
import sys
import tempfile
import unittest
from random import Random

HERE = os.path.dirname(os.path.abspath(__file__))
sys.dont_write_bytecode = True
sys.path.insert(0, HERE)

import build_record as build  # noqa: E402
import check  # noqa: E402
from build_record import ORIGIN, key_named  # noqa: E402
from damage import central_of, data_of, flip_in_member, sizes_of  # noqa: E402
from findings import CODES  # noqa: E402
from record_case import VERIFIER, RecordCase, flipped  # noqa: E402


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
        self.assertEqual([len(line.split("\t")) for line in text.splitlines()], [1])
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

    def test_nobody_reads_the_answer(self):
        """A closed pipe: no traceback, and the status is still the record's."""
        for files, status in (({}, 0), ({"record.pdf": b"other"}, 1)):
            self.write(self.unsealed(files=files))
            reading, writing = os.pipe()
            os.close(reading)
            done = subprocess.run([sys.executable, os.path.join(HERE, "check.py"), self.path], stdout=writing,
                                  stderr=subprocess.PIPE)
            os.close(writing)
            self.assertEqual((done.returncode, done.stderr), (status, b""))

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


class RealRecordTest(unittest.TestCase):
    """A record that the program made, named by the environment's RECORD: one flipped byte in each of its members.

    The ZIP's own sums are made right again, so that only the checks of contents can find it.
    """

    # What nothing but the manifest vouches for here (L41.11).
    FIGURES = re.compile(r"record\.json|record\.pdf|tables/.+|verify\.html|stamps/[0-9]+\.tsr")

    @classmethod
    def setUpClass(cls):
        path = os.environ.get("RECORD")
        if not path:
            raise unittest.SkipTest("no RECORD is named")
        with open(path, "rb") as file:
            cls.record = file.read()

    def failing(self, data):
        with tempfile.NamedTemporaryFile(suffix=".zip") as out:
            out.write(data)
            out.flush()
            return check.check_record(out.name, verifier=VERIFIER)[0].failing()

    def test_sound(self):
        self.assertEqual(self.failing(self.record), [])

    def test_one_flipped_byte_in_each_member(self):
        random = Random(7)
        for number, (name, size) in enumerate(sizes_of(self.record)):
            data = flip_in_member(self.record, name, random.randrange(size), 1 << random.randrange(8))
            found = [item[:2] for item in self.failing(data)]
            self.assertFalse([code for code, _ in found if code == "zip-malformed"], name)
            if name == "manifest.note":
                self.assertTrue({("manifest-signature", name), ("manifest-malformed", name)} & set(found), found)
                continue
            self.assertIn(("file-differs", name), found)
            if not self.FIGURES.fullmatch(name):
                # Even with a manifest made anew it would have been found.
                self.assertTrue([item for item in found if item[0] != "file-differs"], name)

    def test_one_flipped_byte_in_the_zips_headers(self):
        """Local headers, descriptors, directory and end, each 97th of their bytes."""
        kept = set()
        for name, _ in sizes_of(self.record):
            start, size = data_of(self.record, name)
            kept.update(range(start, start + size))
            central = central_of(self.record, name)
            kept.update(central + number for number in (4, 5, 36, 37))  # about which L37 says nothing
        frame = [at for at in range(len(self.record)) if at not in kept]
        for at in frame[::97]:
            self.assertTrue(self.failing(flipped(self.record, at)), at)


class CodesTest(unittest.TestCase):
    def test_each_code_has_a_test(self):
        text = ""
        for name in os.listdir(HERE):
            if name.startswith("test_"):
                with open(os.path.join(HERE, name), encoding="utf-8") as file:
                    text += file.read()
        self.assertEqual([code for code in sorted(CODES) if '"%s"' % code not in text], [])


if __name__ == "__main__":
    unittest.main()
