"""The formats of SPEC.md, read strictly. Every reader raises Malformed (or FormatUnknown) and nothing else."""

import base64
import binascii
import datetime
import hashlib
import json
import re
from collections import namedtuple

import merkle

MAX_ENTRY_BYTES = 16384          # L3
MAX_ENTRY_DEPTH = 12             # L3
MAX_INTEGER = 2 ** 53 - 1        # L2
MAX_NOTE_BYTES = 64 * 1024       # L17
MAX_TREE_SIZE = 2 ** 64 - 1      # a size fits the widest integer of the binary layouts
KNOWN_RELEASE = 1                # L6: the greatest `v` that this checker can read
LEAF_BYTES = 97                  # L13
LEAF_FORMAT = 1                  # L13

# The kinds of which this page tells something; of any other a checker knows no more than L6 says (L44).
KNOWN_KINDS = frozenset((
    "entry.withdrawn", "company.founded", "device.enrolled", "device.withdrawn", "person.added", "role.changed",
    "entry.refused", "photo.received", "photo.taken"))

UUID = re.compile(r"[0-9a-f]{8}-[0-9a-f]{4}-[0-9a-f]{4}-[0-9a-f]{4}-[0-9a-f]{12}")
UUID7 = re.compile(r"[0-9a-f]{8}-[0-9a-f]{4}-7[0-9a-f]{3}-[89ab][0-9a-f]{3}-[0-9a-f]{12}")
HEX64 = re.compile(r"[0-9a-f]{64}")
DECIMAL = re.compile(r"0|[1-9][0-9]{0,19}")
KIND = re.compile(r"[a-z][a-z0-9]*(?:-[a-z0-9]+)*\.[a-z][a-z0-9]*(?:-[a-z0-9]+)*")
LOCAL_TIME = re.compile(
    r"([0-9]{4})-([0-9]{2})-([0-9]{2})T([0-9]{2}):([0-9]{2})(?::([0-9]{2})(?:\.[0-9]{1,3})?)?"
    r"[+-]([0-9]{2}):([0-9]{2})")
UTC_TIME = re.compile(r"([0-9]{4})-([0-9]{2})-([0-9]{2})T([0-9]{2}):([0-9]{2}):([0-9]{2})\.([0-9]{3})Z")
LANGUAGE = re.compile(r"[A-Za-z]{1,8}(?:-[A-Za-z0-9]{1,8})*")
ORIGIN = re.compile(r"(?:screedbook|screedbook-demo)/(" + UUID.pattern + r")")


class Malformed(Exception):
    """These bytes aren't of the form that the rule gives."""


class FormatUnknown(Malformed):
    """The first line names a version that this page doesn't describe (L44)."""


# ---------------------------------------------------------------- small values

def is_uuid(value):
    return isinstance(value, str) and UUID.fullmatch(value) is not None


def is_hex64(value):
    return isinstance(value, str) and HEX64.fullmatch(value) is not None


def is_integer(value):
    return isinstance(value, int) and not isinstance(value, bool)


def _is_clock_time(year, month, day, hour, minute, second):
    try:
        datetime.datetime(int(year), int(month), int(day), int(hour), int(minute), int(second or 0))
    except ValueError:
        return False
    return True


def is_local_time(value):
    """L6 `occurredAt`: local time with its offset."""
    found = LOCAL_TIME.fullmatch(value) if isinstance(value, str) else None
    if not found or not _is_clock_time(*found.groups()[:6]):
        return False
    return int(found.group(7)) <= 23 and int(found.group(8)) <= 59


def utc_milliseconds(value):
    """L38 `made`: the milliseconds since 1970 that this time names."""
    found = UTC_TIME.fullmatch(value)
    if not found or not _is_clock_time(*found.groups()[:6]):
        raise Malformed("'%s' is not a time as 2026-04-21T16:20:31.125Z" % value)
    whole = datetime.datetime(*(int(part) for part in found.groups()[:6]))
    since = whole - datetime.datetime(1970, 1, 1)
    return (since.days * 86400 + since.seconds) * 1000 + int(found.group(7))


def decode_base64(text, length=None):
    """RFC 4648 section 4 with its padding; other spellings of the same bytes are refused."""
    try:
        data = base64.b64decode(text.encode("ascii"), validate=True)
    except (UnicodeEncodeError, binascii.Error, ValueError):
        raise Malformed("not base64")
    if base64.b64encode(data).decode("ascii") != text:
        raise Malformed("base64 that is not in its one canonical spelling")
    if length is not None and len(data) != length:
        raise Malformed("base64 of %d bytes where %d belong" % (len(data), length))
    return data


def decimal(text):
    if not DECIMAL.fullmatch(text) or int(text) > MAX_TREE_SIZE:
        raise Malformed("'%s' is not a decimal number" % text[:40])
    return int(text)


def text_of(data, what):
    try:
        return data.decode("utf-8")
    except UnicodeDecodeError:
        raise Malformed("%s is not UTF-8" % what)


def lines_of(text, what):
    """The lines of a text in which each line ends in a newline."""
    if not text.endswith("\n"):
        raise Malformed("the last line of %s doesn't end in a newline" % what)
    return text[:-1].split("\n")


def require_version(line, wanted):
    """L44: an unknown version isn't the same as a first line of another kind."""
    if line == wanted:
        return
    stem = re.match(r".*[/@]v", wanted).group(0)
    if re.fullmatch(re.escape(stem) + r"[0-9][0-9A-Za-z.\-]*", line):
        raise FormatUnknown("'%s' is a version that this checker doesn't know" % line[:80])
    raise Malformed("the first line is not '%s'" % wanted)


# ---------------------------------------------------------------- canonical JSON

ESCAPES = {'"': '\\"', "\\": "\\\\", "\b": "\\b", "\f": "\\f", "\n": "\\n", "\r": "\\r", "\t": "\\t"}


def canonical_string(value):
    """RFC 8785 section 3.2.2.2."""
    parts = ['"']
    for character in value:
        if character in ESCAPES:
            parts.append(ESCAPES[character])
        elif character < " ":
            parts.append("\\u%04x" % ord(character))
        else:
            parts.append(character)
    parts.append('"')
    return "".join(parts)


def canonical_text(value, depth=1):
    """L1-L3: the canonical form of objects, arrays, strings and integers; all else is refused."""
    if isinstance(value, str):
        return canonical_string(value)
    if is_integer(value):
        if abs(value) > MAX_INTEGER:
            raise Malformed("an integer beyond 2^53 - 1")
        return str(value)
    if not isinstance(value, (dict, list)):
        raise Malformed("true, false, null or a fraction occurs")
    if depth > MAX_ENTRY_DEPTH:
        raise Malformed("values nest more than %d deep" % MAX_ENTRY_DEPTH)
    if isinstance(value, list):
        return "[" + ",".join(canonical_text(item, depth + 1) for item in value) + "]"
    # UTF-16 code units order some names otherwise than code points do.
    names = sorted(value, key=lambda name: name.encode("utf-16-be", "surrogatepass"))
    return "{" + ",".join(canonical_string(name) + ":" + canonical_text(value[name], depth + 1)
                          for name in names) + "}"


def _pairs_without_repeats(pairs):
    value = dict(pairs)
    if len(value) != len(pairs):
        raise Malformed("an object has a member name twice")  # L4
    return value


def _small_integer(text):
    if len(text) > 17:
        raise Malformed("an integer beyond 2^53 - 1")
    return int(text)


def _refuse_number(text):
    raise Malformed("'%s' is not an integer" % text[:40])  # L2


DECODER = json.JSONDecoder(object_pairs_hook=_pairs_without_repeats, parse_int=_small_integer,
                           parse_float=_refuse_number, parse_constant=_refuse_number)


def parse_canonical(data):
    """L1-L4: parse, write canonically, compare bytes."""
    if len(data) > MAX_ENTRY_BYTES:
        raise Malformed("longer than %d bytes" % MAX_ENTRY_BYTES)  # L3
    try:
        value = DECODER.decode(text_of(data, "the entry"))
    except (json.JSONDecodeError, RecursionError) as why:
        raise Malformed("not a JSON text that can be read (%s)" % type(why).__name__)
    try:
        again = canonical_text(value).encode("utf-8")
    except UnicodeEncodeError:
        raise Malformed("a string holds a lone surrogate")  # L2
    if again != data:
        raise Malformed("the bytes are not their own canonical form")  # L4
    return value


# ---------------------------------------------------------------- entries

REQUIRED_MEMBERS = ("v", "id", "job", "kind", "body", "occurredAt", "recordedAt", "boot", "mono", "device", "by",
                    "source")
OPTIONAL_MEMBERS = ("evidence", "corrects", "why")
PERSON_KNOWN = ("own-device", "picked", "pin", "passkey")
SOURCES = ("tap", "voice", "photo", "import", "server")
USES = ("phone", "office", "server")
ROLES = ("owner", "foreman", "crew", "office")


def _is_by(value):
    if value == {"known": "server"}:
        return True
    return (isinstance(value, dict) and set(value) == {"known", "person"} and value["known"] in PERSON_KNOWN
            and is_uuid(value["person"]))


def _is_why(value):
    return (isinstance(value, dict) and set(value) == {"lang", "text"} and isinstance(value["text"], str)
            and isinstance(value["lang"], str) and LANGUAGE.fullmatch(value["lang"]) is not None)


def _is_hash_list(value):
    return isinstance(value, list) and len(value) > 0 and all(is_hex64(item) for item in value)


def _is_sorted_hash_list(value):
    return _is_hash_list(value) and value == sorted(set(value))


def _is_text(value):
    return isinstance(value, str) and value != ""


def _is_key(value):
    try:
        return isinstance(value, str) and len(decode_base64(value, 32)) == 32
    except Malformed:
        return False


MEMBER_FORMS = {
    "id": lambda value: isinstance(value, str) and UUID7.fullmatch(value) is not None,
    "job": is_uuid,
    "kind": lambda value: isinstance(value, str) and KIND.fullmatch(value) is not None,
    "body": lambda value: isinstance(value, dict),
    "occurredAt": is_local_time,
    "recordedAt": is_local_time,
    "boot": is_uuid,
    "mono": lambda value: is_integer(value) and value >= 0,
    "device": is_uuid,
    "by": _is_by,
    "source": lambda value: value in SOURCES,
    "evidence": _is_hash_list,
    "corrects": _is_sorted_hash_list,
    "why": _is_why,
}

BODY_FORMS = {
    "company.founded": {"name": _is_text, "zone": _is_text, "origin": _is_text, "logKey": _is_key},      # L28
    "device.enrolled": {"device": is_uuid, "key": _is_key, "use": lambda value: value in USES},          # L29
    "device.withdrawn": {"device": is_uuid},                                                             # L29
    "person.added": {"person": is_uuid, "name": _is_text, "role": lambda value: value in ROLES},         # L30
    "role.changed": {"person": is_uuid, "role": lambda value: value in ROLES},                           # L30
    "entry.refused": {"hash": is_hex64, "code": _is_text, "device": is_uuid},                            # L31
    "photo.received": {"photo": is_hex64, "bytes": lambda value: is_integer(value) and value >= 0},      # L32
}


def body_problems(kind, entry):
    """What is amiss in the body of a kind that this page describes (L8, L28-L32)."""
    body = entry["body"]
    problems = ["`body.%s` is missing or not as it should be" % name
                for name, holds in BODY_FORMS.get(kind, {}).items() if name not in body or not holds(body[name])]
    if kind == "entry.withdrawn" and (body != {} or "corrects" not in entry):
        problems.append("a withdrawal has an empty body and names what it takes back")  # L8
    if kind == "device.enrolled" and "use" in body:
        # L29: only the server has no person.
        if body["use"] == "server" and "person" in body:
            problems.append("`body.person` of the server's own enrolment")
        if body["use"] != "server" and not is_uuid(body.get("person")):
            problems.append("`body.person` is missing or not a UUID")
    return problems


def entry_problems(entry):
    """L6: every way in which this parsed entry is not one of version 1."""
    problems = ["`%s` is missing" % name for name in REQUIRED_MEMBERS if name not in entry]
    problems += ["`%s` is not a member of an entry" % name[:40] for name in sorted(entry)
                 if name not in REQUIRED_MEMBERS + OPTIONAL_MEMBERS]
    bad = [name for name, holds in MEMBER_FORMS.items() if name in entry and not holds(entry[name])]
    problems += ["`%s` is not as it should be" % name for name in bad]
    if "why" in entry and "corrects" not in entry:
        problems.append("`why` stands without `corrects`")
    if not problems:
        problems += body_problems(entry["kind"], entry)
    return problems


Entry = namedtuple("Entry", "hash value problems unread")


def read_entry(data):
    """L1-L9: the entry, what is amiss in it, and why it couldn't be read (if only that)."""
    hashed = merkle.leaf_hash(data)  # L5
    try:
        value = parse_canonical(data)
        if not isinstance(value, dict):
            raise Malformed("not an object")
        release = value.get("v")
        if not is_integer(release) or release < 1:
            raise Malformed("`v` is not a positive integer")
    except Malformed as why:
        return Entry(hashed, None, [str(why)], None)
    if release > KNOWN_RELEASE:
        return Entry(hashed, value, [], "it is of release %d" % release)  # L9
    problems = entry_problems(value)
    unread = None
    if not problems and value["kind"] not in KNOWN_KINDS:
        unread = "this checker doesn't know the kind %s" % value["kind"]  # L44
    return Entry(hashed, value, problems, unread)


# ---------------------------------------------------------------- leaves

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


# ---------------------------------------------------------------- keys and notes

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


def read_note(data):
    """L17: a signed note, its signatures not yet verified."""
    if len(data) > MAX_NOTE_BYTES:
        raise Malformed("a note longer than 64 KiB")
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
    if (len(clock) != 4 or clock[0] != "clock" or not is_local_time(clock[1]) or not is_uuid(clock[2])
            or not DECIMAL.fullmatch(clock[3]) or int(clock[3]) > MAX_INTEGER):
        raise Malformed("the line `clock` is out of form")
    return Head(checkpoint.origin, checkpoint.size, checkpoint.root, seen_size, seen_root)


def read_head_origin(line, company_origin):
    """L23: the device UUID and the epoch."""
    stem = company_origin + "/"
    found = re.fullmatch(r"(" + UUID.pattern + r")/([1-9][0-9]{0,15})", line[len(stem):])
    if not line.startswith(stem) or not found:
        raise Malformed("the first line is not the origin of a device of this company")
    return found.group(1), int(found.group(2))


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
    """L37: names are ASCII, relative, without `..`."""
    if not re.fullmatch(r"[\x20-\x7e]+", name):
        return "is empty or holds something else than printable ASCII"
    if name.startswith("/") or "\\" in name or ":" in name:
        return "is not relative"
    if ".." in name:
        return "holds '..'"
    if any(part in ("", ".") for part in name.split("/")):
        return "has an empty part"
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
