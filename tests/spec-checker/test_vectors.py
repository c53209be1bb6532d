"""The golden vectors of tests/vectors, by this folder's own code; and that its checks do find what is changed."""

import json
import os
import re
import shutil
import sys
import tempfile
import unittest

sys.dont_write_bytecode = True
sys.path.insert(0, os.path.dirname(os.path.abspath(__file__)))

from ed25519_openssl import Verifier  # noqa: E402
from entries import KINDS_OF_RELEASE_2, read_entry  # noqa: E402
from vectors_check import FOLDER, Vectors  # noqa: E402

# Which checks must notice a change of which file: the byte before its end that is flipped, and the checks.
DAMAGES = (("checkpoint.note", 3), ("device.head", 3), ("last.tlog-proof", 3), ("author.tlog-proof", 3),
           ("7.consistency", 8), ("slip.txt", 2), ("log.vkey", 8), ("entries/load.arrived.json", 5))


SECOND = os.path.join(FOLDER, "..", "v2")
WIDENED = {"ticket.recorded", "water.added", "slump.measured", "photo.taken", "device.enrolled"}  # L54

# L10, as it stands there.
UNITS = frozenset("""in ft mm m mi km ft2 m2 yd3 m3 gal L fl-oz mL min h degF degC pct psi mph km/h m/s lb kg lb/yd3 kg/m3
    lb/ft3 one MPa""".split())
UNSIGNED = re.compile(r"[0-9]{1,7}(\.[0-9]{1,6})?|([0-9]{1,7} )?[0-9]{1,4}/[1-9][0-9]{0,3}")
SIGNED = re.compile(r"-?[0-9]{1,4}(\.[0-9]{1,3})?")


def quantities(value):
    """Every object that gives a text in a unit, wherever it stands."""
    if isinstance(value, dict):
        if value.get("is") == "given" and {"text", "unit"} <= set(value):
            yield value
        for member in value.values():
            yield from quantities(member)
    elif isinstance(value, list):
        for item in value:
            yield from quantities(item)


class SecondVectorsTest(unittest.TestCase):
    def setUp(self):
        with open(os.path.join(SECOND, "vectors.json"), encoding="utf-8") as file:
            self.stated = json.load(file)["entries"]
        self.entries = {}
        for item in self.stated:
            with open(os.path.join(SECOND, "entries", item["name"] + ".json"), "rb") as file:
                self.entries[item["name"]] = read_entry(file.read())

    def test_each_is_read(self):
        self.assertEqual({item["kind"] for item in self.stated}, KINDS_OF_RELEASE_2 | WIDENED)
        for item in self.stated:
            entry = self.entries[item["name"]]
            with self.subTest(item["name"]):
                self.assertEqual((entry.problems, entry.unread, entry.hash.hex()), ([], None, item["hash"]))
                self.assertEqual((entry.value["kind"], entry.value["v"]), (item["kind"], 2))

    def test_quantities_are_as_the_rule_has_them(self):
        units = set()
        for name, entry in self.entries.items():
            for quantity in quantities(entry.value["body"]):
                with self.subTest(name):
                    units.add(quantity["unit"])
                    signed = quantity["unit"] in ("degF", "degC")
                    self.assertIsNotNone((SIGNED if signed else UNSIGNED).fullmatch(quantity["text"]), quantity)
        self.assertLessEqual(units, UNITS)
        self.assertGreater(len(units), 20)


class VectorsTest(unittest.TestCase):
    @classmethod
    def setUpClass(cls):
        cls.verifier = Verifier()
        cls.addClassCleanup(cls.verifier.close)

    def failing(self, folder):
        """The names of the checks that fail; all where the vectors can't even be read."""
        try:
            vectors = Vectors(self.verifier, folder)
        except Exception:  # noqa: B902
            return list(Vectors.CHECKS)
        failed = []
        for name in Vectors.CHECKS:
            try:
                getattr(vectors, "check_" + name)()
            except Exception:  # noqa: B902
                failed.append(name)
        return failed

    def test_vectors(self):
        vectors = Vectors(self.verifier)
        for name in Vectors.CHECKS:
            with self.subTest(name):
                getattr(vectors, "check_" + name)()

    def test_damage_is_found(self):
        for name, back in DAMAGES:
            with self.subTest(name), tempfile.TemporaryDirectory() as folder:
                shutil.copytree(FOLDER, folder, dirs_exist_ok=True)
                path = os.path.join(folder, name)
                with open(path, "rb") as file:
                    data = bytearray(file.read())
                data[-back] ^= 1
                with open(path, "wb") as file:
                    file.write(data)
                self.assertTrue(self.failing(folder))

    def test_each_stated_value_is_compared(self):
        with open(os.path.join(FOLDER, "vectors.json"), encoding="utf-8") as file:
            text = file.read()
        vectors = Vectors(self.verifier)
        stated = vectors.stated
        for old, new, check in ((stated["entries"][5]["hash"], "00" * 32, "entries"),
                                (stated["leaves"][5]["leafHash"], "00" * 32, "leaves"),
                                (stated["roots"][9], "00" * 32, "roots"),
                                (stated["seeds"]["device"], "00" * 32, "keys"),
                                (stated["slipWords"][1], "zoo", "words")):
            with self.subTest(check), tempfile.TemporaryDirectory() as folder:
                shutil.copytree(FOLDER, folder, dirs_exist_ok=True)
                with open(os.path.join(folder, "vectors.json"), "w", encoding="utf-8") as out:
                    out.write(text.replace(old, new))
                self.assertIn(check, self.failing(folder))


if __name__ == "__main__":
    unittest.main()
