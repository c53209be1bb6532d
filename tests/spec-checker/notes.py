"""Keys, signed notes, checkpoints and heads: SPEC.md L17-L20, L23, L24 and L51-L52."""

import hashlib
import re
from collections import namedtuple

import merkle
from values import UUID, Malformed, decimal, decode_base64, is_local_time, is_uuid, lines_of, text_of

MAX_NOTE_BYTES = 64 * 1024               # L17
MAX_MANIFEST_BYTES = 16 * 1024 * 1024    # L17

Key = namedtuple("Key", "name id public")


def make_key(name, public):
    """L17: a key with its id."""
    identity = hashlib.sha256(name.encode("utf-8") + b"\n\x01" + public).digest()[:4]
    return Key(name, identity, public)


def _is_key_name(name):
    return name != "" and "+" not in name and not any(character.isspace() for character in name)


def read_verifier_key(text):
    """L19. The base64 may hold a plus too, so only the first two part the fields."""
    fields = text.split("+", 2)
    if len(fields) != 3 or not _is_key_name(fields[0]) or not re.fullmatch(r"[0-9a-f]{8}", fields[1]):
        raise Malformed("not a verifier key")
    typed = decode_base64(fields[2], 33)
    if typed[0] != 1:
        raise Malformed("a verifier key of another type than Ed25519")
    key = make_key(fields[0], typed[1:])
    if key.id.hex() != fields[1]:
        raise Malformed("a verifier key whose id doesn't follow from its name and key")
    return key


Note = namedtuple("Note", "raw text signatures")
Signature = namedtuple("Signature", "name id signature")


def _signature_line(line):
    found = re.fullmatch("\u2014 ([^ ]+) ([^ ]+)", line)
    if not found or not _is_key_name(found.group(1)):
        raise Malformed("a signature line out of form")
    data = decode_base64(found.group(2))
    if len(data) < 5:
        raise Malformed("a signature line with too few bytes")
    return Signature(found.group(1), data[:4], data[4:])


def read_note(data, limit=MAX_NOTE_BYTES):
    """L17: a signed note, its signatures not yet verified."""
    if len(data) > limit:
        raise Malformed("a note longer than %d KiB" % (limit // 1024))
    text = text_of(data, "the note")
    if any(character < " " and character != "\n" for character in text):
        raise Malformed("a control character in the note")
    # The last empty line parts text and signatures: the text itself may hold empty lines.
    split = text.rfind("\n\n")
    if split < 0:
        raise Malformed("no empty line before the signatures")
    signatures = text[split + 2:]
    if signatures == "":
        raise Malformed("no signature line")
    return Note(data, text[:split + 1],
                [_signature_line(line) for line in lines_of(signatures, "the note")])


def note_verifies(note, key, verifier):
    """L18: at least one line of the known key, and each such line must verify."""
    lines = [line for line in note.signatures if (line.name, line.id) == (key.name, key.id)]
    message = note.text.encode("utf-8")
    return bool(lines) and all(verifier.verify(key.public, message, line.signature) for line in lines)


Checkpoint = namedtuple("Checkpoint", "origin size root")


def read_checkpoint(text):
    """L20: further lines are ignored."""
    lines = lines_of(text, "the checkpoint")
    if len(lines) < 3 or lines[0] == "":
        raise Malformed("a checkpoint has an origin, a size and a root")
    return Checkpoint(lines[0], decimal(lines[1]), decode_base64(lines[2], 32))


Head = namedtuple("Head", "origin size root seen_size seen_root")


def read_head(text):
    """L24: a checkpoint with the lines `seen` and `clock`; further lines are ignored."""
    checkpoint = read_checkpoint(text)
    lines = lines_of(text, "the head")
    if len(lines) < 5:
        raise Malformed("a head has the lines `seen` and `clock`")
    seen, clock = lines[3].split(" "), lines[4].split(" ")
    if len(seen) != 3 or seen[0] != "seen":
        raise Malformed("the line `seen` is out of form")
    seen_size, seen_root = decimal(seen[1]), decode_base64(seen[2], 32)
    if seen_size == 0 and seen_root != merkle.EMPTY_ROOT:
        raise Malformed("`seen 0` without the empty tree's root")
    if len(clock) != 4 or clock[0] != "clock" or not is_local_time(clock[1]) or not is_uuid(clock[2]):
        raise Malformed("the line `clock` is out of form")
    decimal(clock[3])
    return Head(checkpoint.origin, checkpoint.size, checkpoint.root, seen_size, seen_root)


def read_head_origin(line, company_origin):
    """L23 and L51: the device UUID and the epoch."""
    stem = company_origin + "/"
    found = re.fullmatch(r"(" + UUID.pattern + r")/([0-9]+)", line[len(stem):])
    if not line.startswith(stem) or not found:
        raise Malformed("the first line is not the origin of a device of this company")
    epoch = decimal(found.group(2))
    if epoch == 0:
        raise Malformed("an epoch of 0")  # L51
    return found.group(1), epoch
