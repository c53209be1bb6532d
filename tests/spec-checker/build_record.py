"""Builds small records from SPEC.md, sound ones and (by its many handles) unsound ones, for the checker's tests.

Everything in them is made up. Keys are made by `openssl genpkey`; ids and times come from a counter, so that the same
texts come out each time and a signature made once is used again.
"""

import base64
import copy
import hashlib
import os
import subprocess
import tempfile

import canonical
import merkle
import notes
from build_tree import audit_path, consistency_path, tree_root
from build_zip import Part, pack, parts_of  # noqa: F401

FOLDER = tempfile.TemporaryDirectory(prefix="spec-checker-build-")


def base64_text(data):
    return base64.b64encode(data).decode("ascii")


# ---------------------------------------------------------------- keys and signatures

class SigningKey:
    """An Ed25519 key pair made by openssl."""

    def __init__(self):
        handle, self.path = tempfile.mkstemp(suffix=".pem", dir=FOLDER.name)
        os.close(handle)
        subprocess.run(["openssl", "genpkey", "-algorithm", "ed25519", "-out", self.path], check=True)
        public = subprocess.run(["openssl", "pkey", "-in", self.path, "-pubout", "-outform", "DER"], check=True,
                                stdout=subprocess.PIPE).stdout
        self.public = public[-32:]
        self.made = {}

    def sign(self, message):
        if message not in self.made:
            handle, path = tempfile.mkstemp(dir=FOLDER.name)
            with os.fdopen(handle, "wb") as out:
                out.write(message)
            self.made[message] = subprocess.run(
                ["openssl", "pkeyutl", "-sign", "-inkey", self.path, "-rawin", "-in", path], check=True,
                stdout=subprocess.PIPE).stdout
            os.unlink(path)
        return self.made[message]


KEYS = {}


def key_named(name):
    """One key for each name, made when it is first asked for."""
    if name not in KEYS:
        KEYS[name] = SigningKey()
    return KEYS[name]


def verifier_key(name, key):
    """L19."""
    return "%s+%s+%s" % (name, notes.make_key(name, key.public).id.hex(), base64_text(b"\x01" + key.public))


def signature_line(text, name, key):
    return "\u2014 %s %s\n" % (name, base64_text(notes.make_key(name, key.public).id + key.sign(text.encode())))


def signed_note(text, name, key):
    """L17."""
    return (text + "\n" + signature_line(text, name, key)).encode()


# ---------------------------------------------------------------- the world of which a record tells

def made_uuid(number, version=4):
    digits = hashlib.sha256(b"uuid %d" % number).hexdigest()
    return "%s-%s-%d%s-a%s-%s" % (digits[:8], digits[8:12], version, digits[13:16], digits[17:20], digits[20:32])


COMPANY, JOB, OTHER_JOB = made_uuid(1), made_uuid(2), made_uuid(3)
SERVER, PHONE, STRANGER = made_uuid(11), made_uuid(12), made_uuid(13)
PERSON = made_uuid(21)
BOOT = made_uuid(31)
ORIGIN = "screedbook/" + COMPANY
PHOTO = b"\xff\xd8 a made-up picture of a wet slab " * 40
START = 1776778200000  # 2026-04-21T13:30:00.000Z


def utc_text(milliseconds):
    seconds = milliseconds // 1000 - 1776729600  # since 2026-04-21T00:00:00Z, the only day on which anything happens
    return "2026-04-21T%02d:%02d:%02d.%03dZ" % (seconds // 3600, seconds // 60 % 60, seconds % 60, milliseconds % 1000)


class World:
    """A company log and its device logs. Tests bend it before the record is made from it."""

    def __init__(self):
        self.log = []        # leaves, 97 bytes each
        self.threads = {}    # by job: list of (index in the log, entry bytes)
        self.made = {}       # by device: list of entry hashes, its own tree
        self.author = {}     # by entry hash: device
        self.number = 100

    def tick(self):
        self.number += 1
        return self.number

    # ------------------------------------------------------------ entries

    def entry(self, kind, body, job=JOB, device=PHONE, **changes):
        """L6. A change to None takes the member out."""
        number = self.tick()
        value = {
            "v": 1, "id": made_uuid(number, 7), "job": job, "kind": kind, "body": body,
            "occurredAt": "2026-04-21T08:%02d:10-05:00" % (number % 60),
            "recordedAt": "2026-04-21T08:%02d:12.25-05:00" % (number % 60),
            "boot": BOOT, "mono": number * 1000, "device": device,
            "by": {"known": "server"} if device == SERVER else {"known": "pin", "person": PERSON},
            "source": "server" if device == SERVER else "tap",
        }
        value.update(changes)
        return {name: item for name, item in value.items() if item is not None}

    def add(self, entry, thread=None, device=None, **leaf):
        """Logs an entry (an object, or bytes as they are) and gives its hash; `leaf` overrides the leaf's fields."""
        if isinstance(entry, bytes):
            data = entry
        else:
            data = canonical.canonical_text(entry).encode()
            thread, device = thread or entry["job"], device or entry["device"]
        hashed = merkle.leaf_hash(data)
        self.made.setdefault(device, []).append(hashed)
        self.author.setdefault(hashed, device)
        placed = self.threads.setdefault(thread, [])
        previous = merkle.leaf_hash(self.log[placed[-1][0]]) if placed else bytes(32)
        fields = {"format": 1, "received": START + 1000 * self.tick(),
                  "tag": hashlib.sha256(b"tag " + thread.encode()).digest()[:16],
                  "count": len(placed) + 1, "previous": previous, "entry": hashed}
        fields.update(leaf)
        self.log.append(bytes([fields["format"]]) + fields["received"].to_bytes(8, "big") + fields["tag"]
                        + fields["count"].to_bytes(8, "big") + fields["previous"] + fields["entry"])
        placed.append((len(self.log) - 1, data))
        return hashed

    # ------------------------------------------------------------ what is signed

    def leaf_hashes(self, size=None):
        return [merkle.leaf_hash(leaf) for leaf in self.log[:size]]

    def checkpoint(self, size=None, key=None, name=ORIGIN, origin=ORIGIN, root=None):
        """L20."""
        hashes = self.leaf_hashes(size)
        text = "%s\n%d\n%s\n" % (origin, len(hashes), base64_text(root or tree_root(hashes)))
        return signed_note(text, name, key or key_named("log"))

    def head(self, device, leaves, seen, epoch=1, key=None, seen_root=None, clock=None, name=None):
        """L24."""
        origin = "%s/%s/%s" % (ORIGIN, device, epoch)
        text = "%s\n%d\n%s\nseen %d %s\nclock %s\n" % (
            origin, len(leaves), base64_text(tree_root(leaves)), seen,
            base64_text(seen_root or tree_root(self.leaf_hashes(seen))),
            clock or "2026-04-21T09:00:00-05:00 %s 123456" % BOOT)
        return signed_note(text, name or origin, key or key_named(device))

    def consistency(self, old, new=None):
        """L34."""
        hashes = self.leaf_hashes(new)
        path = consistency_path(old, hashes) if old else []
        lines = ["screedbook-consistency/v1", str(old), base64_text(tree_root(hashes[:old])), str(len(hashes)),
                 base64_text(tree_root(hashes))] + [base64_text(step) for step in path]
        return ("\n".join(lines) + "\n").encode()

    def slip(self, size, job=JOB):
        """L35: as handed out when the log had this size."""
        placed = [index for index, _ in self.threads[job] if index < size]
        return ("screedbook-slip/v1\n%s\n%d\n%s\n%d\n%s\n" % (
            ORIGIN, size, base64_text(tree_root(self.leaf_hashes(size))), len(placed),
            merkle.leaf_hash(self.log[placed[-1]]).hex())).encode()

    # ------------------------------------------------------------ the record

    def log_proof(self, index):
        return proof(index, audit_path(index, self.leaf_hashes()), self.checkpoint())

    def author_proof(self, hashed, leaves, head):
        index = leaves.index(hashed)
        return proof(index, audit_path(index, leaves), head)

    def files(self, job=JOB, withhold=(), seen=None):
        """L39, without SHA256SUMS and the manifest; `seen` overrides the sizes that devices' heads have seen."""
        placed = self.threads[job]
        files = {
            "log.vkey": (verifier_key(ORIGIN, key_named("log")) + "\n").encode(),
            "checkpoint.note": self.checkpoint(),
            "thread.txt": "".join(self.log[index].hex() + "\n" for index, _ in placed).encode(),
            "thread.tlog-proof": self.log_proof(placed[-1][0]),
            "record.json": b"{}", "record.pdf": b"%PDF-1.7 made up\n", "tables/loads.csv": b"load,arrived\n1,08:10\n",
        }
        given = []
        for count, (_, data) in enumerate(placed, 1):
            if count not in withhold:
                files["entries/%06d.json" % count] = data
                given.append(merkle.leaf_hash(data))
        for index, data in self.threads[COMPANY]:
            stem = "company/" + merkle.leaf_hash(data).hex()
            files[stem + ".json"] = data
            files[stem + ".leaf"] = (self.log[index].hex() + "\n").encode()
            files[stem + ".tlog-proof"] = self.log_proof(index)
            given.append(merkle.leaf_hash(data))
        if job == JOB:
            files["photos/%s.jpg" % hashlib.sha256(PHOTO).hexdigest()] = PHOTO
        for hashed in given:
            files[author_name(hashed)] = self.author_file(hashed, seen or SEEN)
        for size in sorted({self.seen_with(hashed, seen or SEEN) for hashed in given} - {0}):
            files["earlier/%d.consistency" % size] = self.consistency(size)
            files["earlier/%d.note" % size] = self.checkpoint(size)
        return files

    def author_file(self, hashed, seen):
        """The phone's first entries stand under an earlier head of it, all others under the latest of their device."""
        device = self.author[hashed]
        leaves = self.made[device]
        if device == PHONE and hashed in leaves[:3]:
            leaves = leaves[:3]
        return self.author_proof(hashed, leaves, self.head(device, leaves, self.seen_with(hashed, seen)))

    def seen_with(self, hashed, seen):
        """The size that the head over this entry has seen."""
        if self.author[hashed] != PHONE:
            return seen[0]
        return seen[1] if hashed in self.made[PHONE][:3] else seen[2]


# What the heads have seen of the company log: the server's, the phone's first, the phone's second.
SEEN = (0, 6, 8)


def proof(index, path, note):
    """L33."""
    lines = ["c2sp.org/tlog-proof@v1", "index %d" % index] + [base64_text(step) for step in path]
    return ("\n".join(lines) + "\n\n").encode() + note


def author_name(hashed):
    return "authors/%s.tlog-proof" % hashed.hex()


def example(load="1"):
    """A company, its server and one phone, a pour with a photo and a correction, and a second job in between."""
    world = World()
    world.add(world.entry("company.founded", {
        "name": "Made-Up Slabs", "zone": "America/Chicago", "origin": ORIGIN,
        "logKey": base64_text(key_named("log").public)}, COMPANY, SERVER))
    world.add(world.entry("device.enrolled", {
        "device": SERVER, "key": base64_text(key_named(SERVER).public), "use": "server"}, COMPANY, SERVER))
    world.add(world.entry("owner.named", {"person": PERSON, "name": "Pat Example"}, COMPANY, SERVER))
    world.add(world.entry("device.enrolled", {
        "device": PHONE, "key": base64_text(key_named(PHONE).public), "use": "phone", "person": PERSON}, COMPANY, SERVER))
    world.arrived = world.add(world.entry("load.arrived", {"load": load, "slump": {
        "is": "given", "text": "4 1/4", "unit": "in"}}))
    world.add(world.entry("load.arrived", {"load": "\u00e9\U0001f69a\n"}, OTHER_JOB))
    digest = hashlib.sha256(PHOTO).hexdigest()
    world.taken = world.add(world.entry("photo.taken", {"photo": digest, "bytes": len(PHOTO)}, evidence=[digest],
                                        source="photo"))
    world.add(world.entry("photo.received", {"photo": digest, "bytes": len(PHOTO)}, JOB, SERVER))
    world.corrected = world.add(world.entry("load.arrived", {"load": "2"}, corrects=[world.arrived.hex()],
                                            why={"lang": "en-US", "text": "counted wrong"}))
    world.add(world.entry("load.arrived", {"load": "7"}, OTHER_JOB))
    world.last = world.add(world.entry("entry.withdrawn", {}, corrects=[world.corrected.hex()]))
    return world


def sums_text(files):
    return "".join("%s  %s\n" % (hashlib.sha256(files[name]).hexdigest(), name) for name in sorted(files))


def manifest_text(world, files, job=JOB, **changes):
    """L38."""
    hashes = world.leaf_hashes()
    fields = {"version": "screedbook-record/v1", "origin": ORIGIN, "job": job,
              "checkpoint": "%d %s" % (len(hashes), base64_text(tree_root(hashes))),
              "made": utc_text(int.from_bytes(world.log[-1][1:9], "big")), "release": "1.0.0"}
    fields.update(changes)
    head = fields.pop("version") + "\n" + "".join(
        "%s %s\n" % (name, fields[name]) for name in ("origin", "job", "checkpoint", "made", "release"))
    return head + sums_text(files)


def seal(world, files, key=None, sums=None, text=None, **changes):
    """Adds SHA256SUMS and a signed manifest: what somebody who holds the log's key can always do."""
    files = dict(files)
    listed = {name: data for name, data in files.items() if name != "SHA256SUMS"}
    files["SHA256SUMS"] = sums if sums is not None else sums_text(listed).encode()
    files["manifest.note"] = signed_note(text(manifest_text(world, files, **changes)) if text else
                                         manifest_text(world, files, **changes), ORIGIN, key or key_named("log"))
    return files


def record(world=None, **changes):
    """A whole record as the bytes of its ZIP."""
    world = world or example()
    return pack(parts_of(seal(world, world.files(), **changes)))


def copied(world):
    return copy.deepcopy(world)
