"""Leaves, proofs, consistency files, slips, the manifest and the sums: SPEC.md L13, L14 and L33-L38."""

import hashlib
import re
from collections import namedtuple

import merkle
from values import (ORIGIN, Malformed, decimal, decode_base64, is_hex64, is_uuid, lines_of, require_version, text_of,
                    utc_milliseconds)

LEAF_BYTES = 97                  # L13
LEAF_FORMAT = 1                  # L13

Leaf = namedtuple("Leaf", "hash received tag count previous entry")


class LeafFormatUnknown(Malformed):
    """L14: a leaf of another format byte; its hash is known all the same."""

    def __init__(self, hashed, number):
        super().__init__("the leaf's format byte is 0x%02x, which this checker doesn't know" % number)
        self.hash = hashed


def read_leaf(line):
    """L13: a leaf from its line of hex."""
    if not re.fullmatch(r"(?:[0-9a-f]{2})+", line):
        raise Malformed("a leaf is not a line of hex")
    raw = bytes.fromhex(line)
    if raw[0] != LEAF_FORMAT:
        raise LeafFormatUnknown(merkle.leaf_hash(raw), raw[0])
    if len(raw) != LEAF_BYTES:
        raise Malformed("a leaf of %d bytes, not %d" % (len(raw), LEAF_BYTES))
    return Leaf(merkle.leaf_hash(raw), int.from_bytes(raw[1:9], "big"), raw[9:25],
                int.from_bytes(raw[25:33], "big"), raw[33:65], raw[65:97])


# ---------------------------------------------------------------- proofs, consistency, slips

Proof = namedtuple("Proof", "index path note")


def read_proof(data):
    """L33: a tlog-proof; the note is handed on as bytes."""
    head, gap, note = data.partition(b"\n\n")
    lines = text_of(head, "the proof").split("\n")
    require_version(lines[0], "c2sp.org/tlog-proof@v1")
    if not gap:
        raise Malformed("no empty line before the proof's note")
    del lines[0]
    if lines and lines[0].startswith("extra "):
        del lines[0]
    if not lines or not lines[0].startswith("index "):
        raise Malformed("the proof has no line `index`")
    return Proof(decimal(lines[0][len("index "):]), [decode_base64(line, 32) for line in lines[1:]], note)


Consistency = namedtuple("Consistency", "old_size old_root new_size new_root path")


def read_consistency(data):
    """L34."""
    text = text_of(data, "the consistency file")
    require_version(text.split("\n", 1)[0], "screedbook-consistency/v1")
    lines = lines_of(text, "the consistency file")
    if len(lines) < 5:
        raise Malformed("a consistency file has two sizes and two roots")
    return Consistency(decimal(lines[1]), decode_base64(lines[2], 32), decimal(lines[3]), decode_base64(lines[4], 32),
                       [decode_base64(line, 32) for line in lines[5:]])


def slip_numbers(data):
    """L35: the places, from 0, of a slip's eight words in the list: the first 88 bits of its hash, 11 bits a word."""
    bits = int.from_bytes(hashlib.sha256(data).digest()[:11], "big")
    return [bits >> shift & 0x7FF for shift in range(77, -1, -11)]


Slip = namedtuple("Slip", "origin size root count leaf")


def read_slip(data):
    """L35."""
    text = text_of(data, "the slip")
    require_version(text.split("\n", 1)[0], "screedbook-slip/v1")
    lines = lines_of(text, "the slip")
    if len(lines) != 6:
        raise Malformed("a slip has six lines")
    size, count = decimal(lines[2]), decimal(lines[4])
    if not ORIGIN.fullmatch(lines[1]):
        raise Malformed("the slip's origin is not one of a company")
    if not 1 <= count <= size:
        raise Malformed("the slip's count is not between 1 and its size")
    if not is_hex64(lines[5]):
        raise Malformed("the slip's leaf hash is not 64 hex digits")
    return Slip(lines[1], size, decode_base64(lines[3], 32), count, bytes.fromhex(lines[5]))


# ---------------------------------------------------------------- manifest and sums

def name_problem(name):
    """L37: what is wrong with this name of a file."""
    if not re.fullmatch(r"[A-Za-z0-9._/-]+", name):
        return "is empty or holds something else than A-Z a-z 0-9 . _ / -"
    if any(part in ("", ".", "..") for part in name.split("/")):
        return "has a part that is empty, '.' or '..'"
    return None


def read_sums_line(line):
    """One line of L38's list and of SHA256SUMS: the hash, two blanks, the name."""
    found = re.fullmatch(r"([0-9a-f]{64})  (.+)", line)
    if not found:
        raise Malformed("'%s' is not a hash, two blanks and a name" % line[:60])
    return found.group(2), found.group(1)


class Manifest:
    """L38. Reads on after a fault, so that one bad line doesn't hide the rest (L42)."""

    FIELDS = ("origin", "job", "checkpoint", "made", "release")

    def __init__(self, text):
        self.problems, self.files = [], {}
        self.origin = self.job = self.size = self.root = self.made = None
        lines = lines_of(text, "the manifest")
        require_version(lines[0], "screedbook-record/v1")
        for number, field in enumerate(self.FIELDS, 1):
            try:
                line = lines[number] if number < len(lines) else ""
                if not line.startswith(field + " "):
                    raise Malformed("line %d is not `%s`" % (number + 1, field))
                getattr(self, "_read_" + field)(line[len(field) + 1:])
            except Malformed as why:
                self.problems.append(str(why))
        self._read_files(lines[1 + len(self.FIELDS):])

    def _read_origin(self, text):
        if not ORIGIN.fullmatch(text):
            raise Malformed("the origin is not one of a company")  # L12
        self.origin = text

    def _read_job(self, text):
        if not is_uuid(text):
            raise Malformed("the job is not a UUID")
        self.job = text

    def _read_checkpoint(self, text):
        size, _, root = text.partition(" ")
        self.size, self.root = decimal(size), decode_base64(root, 32)

    def _read_made(self, text):
        self.made = utc_milliseconds(text)

    def _read_release(self, text):
        if not re.fullmatch(r"\S+", text):
            raise Malformed("the release is not one word")

    def _read_files(self, lines):
        names = []
        for line in lines:
            try:
                name, digest = read_sums_line(line)
            except Malformed as why:
                self.problems.append(str(why))
                continue
            problem = name_problem(name)
            if problem:
                self.problems.append("the name '%s' %s" % (name[:80], problem))
            if name == "manifest.note":
                self.problems.append("the manifest lists itself")
            if name in self.files:
                self.problems.append("the name '%s' is listed twice" % name[:80])
            names.append(name.encode("utf-8"))
            self.files.setdefault(name, digest)
        if names != sorted(names):
            self.problems.append("the files are not sorted by name")
