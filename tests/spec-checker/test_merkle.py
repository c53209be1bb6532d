"""The tree's two proofs."""

import os
import sys
import unittest

sys.dont_write_bytecode = True
sys.path.insert(0, os.path.dirname(os.path.abspath(__file__)))

import build_record as build  # noqa: E402
import merkle  # noqa: E402
from record_case import flipped  # noqa: E402


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
