#!/usr/bin/env python3
"""Confirms the golden vectors of the log with this folder's own code, from their data files alone.

    python3 vectors_check.py [FOLDER] [--words FILE]

FILE is the English list of BIP-39 (L35), a word a line. Without it the slip's words are only compared with one
another: the list is in alphabetical order, so that words must stand to each other as their numbers do.
"""

import argparse
import base64
import hashlib
import json
import os
import subprocess
import sys

sys.dont_write_bytecode = True
HERE = os.path.dirname(os.path.abspath(__file__))
sys.path.insert(0, HERE)

import formats  # noqa: E402
import merkle  # noqa: E402
import notes  # noqa: E402
from ed25519_openssl import Verifier  # noqa: E402
from entries import KNOWN_KINDS, read_entry  # noqa: E402
from state import one_line  # noqa: E402

FOLDER = os.path.join(HERE, "..", "vectors", "v1")
WORDS_HASH = "2f5eed53a4727b4bf8880d8f3f199efc90e58503646d9ff8eff3a2ed3b24dbda"  # L35
PKCS8_PREFIX = bytes.fromhex("302e020100300506032b657004220420")  # of an Ed25519 private key; its 32 bytes follow


def root_of(hashes):
    """RFC 6962 section 2.1, by its definition."""
    if len(hashes) < 2:
        return hashes[0] if hashes else merkle.EMPTY_ROOT
    middle = 1 << ((len(hashes) - 1).bit_length() - 1)
    return merkle.node_hash(root_of(hashes[:middle]), root_of(hashes[middle:]))


def public_of(seed):
    done = subprocess.run(["openssl", "pkey", "-inform", "DER", "-pubout", "-outform", "DER"],
                          input=PKCS8_PREFIX + seed, stdout=subprocess.PIPE, check=True)
    return done.stdout[-32:]


class Vectors:
    """Each `check_...` raises AssertionError or Malformed where the vectors say otherwise than this folder's code."""

    def __init__(self, verifier, folder=FOLDER, words=None):
        self.verifier, self.folder, self.words = verifier, folder, words
        self.stated = json.loads(self.read("vectors.json"))
        self.entries = [read_entry(self.read("entries/%s.json" % item["kind"])) for item in self.stated["entries"]]
        self.leaves = [formats.read_leaf(item["leaf"]) for item in self.stated["leaves"]]
        self.hashes = [leaf.hash for leaf in self.leaves]
        self.key = notes.read_verifier_key(one_line(self.read("log.vkey"), "verifier key"))
        self.checkpoint = self.verified(self.read("checkpoint.note"), self.key, notes.read_checkpoint)
        self.server_key = base64.b64decode(self.stated["serverKey"])
        self.device, self.device_key = self.enrolled()

    def read(self, name):
        with open(os.path.join(self.folder, name), "rb") as file:
            return file.read()

    def enrolled(self):
        for entry in self.entries:
            if entry.value["kind"] == "device.enrolled":
                return entry.value["body"]["device"], base64.b64decode(entry.value["body"]["key"])
        raise AssertionError("no device is enrolled")

    def verified(self, data, key, reader):
        note = notes.read_note(data)
        assert notes.note_verifies(note, key, self.verifier), "a signature doesn't verify"
        return reader(note.text)

    def head(self, data):
        first = data.decode().split("\n", 1)[0]
        owner, _ = notes.read_head_origin(first, self.key.name)
        assert owner == self.device
        return self.verified(data, notes.make_key(first, self.device_key), notes.read_head)

    # ------------------------------------------------------------ the checks

    def check_entries(self):
        assert {item["kind"] for item in self.stated["entries"]} == KNOWN_KINDS
        files = {name[:-5] for name in os.listdir(os.path.join(self.folder, "entries"))}
        assert files == KNOWN_KINDS, files ^ KNOWN_KINDS
        for item, entry in zip(self.stated["entries"], self.entries):
            assert (entry.problems, entry.unread) == ([], None), (item["kind"], entry)
            assert entry.value["kind"] == item["kind"]
            assert entry.hash.hex() == item["hash"], item["kind"]

    def check_keys(self):
        seeds = {name: bytes.fromhex(seed) for name, seed in self.stated["seeds"].items()}
        assert public_of(seeds["log"]) == self.key.public
        assert public_of(seeds["device"]) == self.device_key
        assert public_of(seeds["server"]) == self.server_key
        founding = next(entry.value for entry in self.entries if entry.value["kind"] == "company.founded")
        assert founding["body"]["origin"] == self.key.name
        assert base64.b64decode(founding["body"]["logKey"]) == self.key.public

    def check_leaves(self):
        last, tags = {}, {}
        by_hash = {entry.hash: entry.value for entry in self.entries}
        for item, leaf in zip(self.stated["leaves"], self.leaves):
            assert leaf.hash.hex() == item["leafHash"], item["kind"]
            entry = by_hash.pop(leaf.entry)  # L15: each at most once
            assert entry["kind"] == item["kind"]
            before = last.get(entry["job"])
            assert leaf.count == (before.count + 1 if before else 1)
            assert leaf.previous == (before.hash if before else bytes(32))
            assert tags.setdefault(entry["job"], leaf.tag) == leaf.tag
            last[entry["job"]] = leaf
        assert not by_hash and len(set(tags.values())) == len(tags)

    def check_roots(self):
        assert len(self.stated["roots"]) == len(self.hashes) + 1
        for size, root in enumerate(self.stated["roots"]):
            assert root_of(self.hashes[:size]).hex() == root, size

    def check_checkpoint(self):
        assert self.checkpoint == (self.key.name, len(self.hashes), root_of(self.hashes))

    def check_device_head(self):
        head = self.head(self.read("device.head"))
        own = [entry.hash for entry in self.entries if entry.value["device"] == self.device]
        assert (head.size, head.root) == (len(own), root_of(own))
        assert head.seen_root == root_of(self.hashes[:head.seen_size])

    def check_last_proof(self):
        proof = formats.read_proof(self.read("last.tlog-proof"))
        assert self.verified(proof.note, self.key, notes.read_checkpoint) == self.checkpoint
        assert proof.index == len(self.hashes) - 1
        assert merkle.inclusion_holds(self.hashes[-1], proof.index, self.checkpoint.size, proof.path,
                                      self.checkpoint.root)

    def check_author_proof(self):
        proof = formats.read_proof(self.read("author.tlog-proof"))
        assert proof.note == self.read("device.head")
        head = self.head(proof.note)
        own = [entry.hash for entry in self.entries if entry.value["device"] == self.device]
        assert merkle.inclusion_holds(own[proof.index], proof.index, head.size, proof.path, head.root)

    def check_consistency(self):
        proof = formats.read_consistency(self.read("7.consistency"))
        assert (proof.old_size, proof.old_root) == (7, root_of(self.hashes[:7]))
        assert (proof.new_size, proof.new_root) == self.checkpoint[1:]
        assert merkle.consistency_holds(*proof)

    def check_slip(self):
        slip = formats.read_slip(self.read("slip.txt"))
        assert (slip.origin, slip.size, slip.root) == self.checkpoint
        jobs = {entry.hash: entry.value["job"] for entry in self.entries}
        named = next(leaf for leaf in self.leaves if leaf.hash == slip.leaf)
        assert named.count == slip.count
        assert named == [leaf for leaf in self.leaves if jobs[leaf.entry] == jobs[named.entry]][-1]

    def check_words(self):
        words, numbers = self.stated["slipWords"], formats.slip_numbers(self.read("slip.txt"))
        assert len(words) == len(numbers) == 8
        for word, number in zip(words, numbers):
            for other, its_number in zip(words, numbers):
                assert (word < other) == (number < its_number), (word, other)
        if self.words is not None:
            assert hashlib.sha256(self.words).hexdigest() == WORDS_HASH, "this is not the list"
            listed = self.words.decode().splitlines()
            assert words == [listed[number] for number in numbers], words

    CHECKS = ("entries", "keys", "leaves", "roots", "checkpoint", "device_head", "last_proof", "author_proof",
              "consistency", "slip", "words")


def main(arguments):
    parser = argparse.ArgumentParser(description="Confirms the golden vectors of the log.")
    parser.add_argument("folder", nargs="?", default=FOLDER)
    parser.add_argument("--words", metavar="FILE")
    options = parser.parse_args(arguments)
    words = None
    if options.words:
        with open(options.words, "rb") as file:
            words = file.read()
    verifier = Verifier()
    failed = 0
    try:
        vectors = Vectors(verifier, options.folder, words)
        for name in Vectors.CHECKS:
            try:
                getattr(vectors, "check_" + name)()
                print("%s\tholds" % name)
            except Exception as why:  # noqa: B902
                failed += 1
                print("%s\tFAILS\t%s: %s" % (name, type(why).__name__, why))
    finally:
        verifier.close()
    return 1 if failed else 0


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
