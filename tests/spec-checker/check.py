#!/usr/bin/env python3
"""An independent checker of records, written from SPEC.md alone.

    python3 check.py RECORD.zip [--key VKEY] [--slip FILE] [--json]

Exit status: 0 no failing finding, 1 at least one, 2 bad usage, an unreadable file or no fit `openssl`.
Item 11 of L41 (figures, PDF, tables) needs the rules of the trade and is not checked here.
"""

import argparse
import json
import os
import re
import sys

sys.dont_write_bytecode = True  # nothing but what is committed should lie in this folder
sys.path.insert(0, os.path.dirname(os.path.abspath(__file__)))

import formats  # noqa: E402
import merkle  # noqa: E402
from archive import Archive  # noqa: E402
from ed25519_openssl import NoOpenssl, Verifier  # noqa: E402
from formats import FormatUnknown, Malformed  # noqa: E402

CODES = frozenset("""
    zip-malformed file-missing file-unlisted file-differs manifest-signature manifest-malformed sums-differ
    checkpoint-signature checkpoint-malformed checkpoint-differs
    leaf-malformed leaf-format-unknown thread-count thread-link thread-tag leaf-repeated inclusion-failed
    entry-malformed entry-differs entry-thread founding-missing founding-differs
    device-unknown head-signature head-malformed author-proof author-missing heads-fork
    consistency-failed consistency-missing seen-ahead earlier-signature earlier-differs
    photo-differs photo-missing slip-disagrees slip-malformed slip-later
    format-unknown entry-unread""".split())
NOT_FAILURES = frozenset(("entry-unread",))  # L44

# L39: the files that a checker can't do without, and the shapes of all the others.
NEEDED = ("SHA256SUMS", "checkpoint.note", "log.vkey", "thread.tlog-proof", "thread.txt")
ENTRY_NAME = re.compile(r"entries/([0-9]{6})\.json")
AUTHOR_NAME = re.compile(r"authors/([0-9a-f]{64})\.tlog-proof")
COMPANY_NAME = re.compile(r"company/([0-9a-f]{64})\.(json|leaf|tlog-proof)")
EARLIER_NAME = re.compile(r"earlier/(0|[1-9][0-9]{0,19})\.(consistency|note)")
PHOTO_NAME = re.compile(r"photos/([0-9a-f]{64})\.[A-Za-z0-9]+")
FIGURES_NAME = re.compile(r"record\.json|record\.pdf|tables/[^/]+\.csv")

SMALL_FILE = 256 * 1024       # notes, proofs and consistency files are far below this
LIST_FILE = 256 * 1024 * 1024  # thread.txt and SHA256SUMS of the longest thread that six digits can count


class Findings:
    """L42: everything found, each once."""

    def __init__(self):
        self.items, self.known = [], set()

    def add(self, code, name, detail):
        assert code in CODES, code
        item = (code, name or "-", detail)
        if item not in self.known:
            self.known.add(item)
            self.items.append(item)

    def failing(self):
        return [item for item in self.items if item[0] not in NOT_FAILURES]


class Quoted:
    """An entry quoted from the company's own affairs: what was read of its three files."""

    def __init__(self, digest):
        self.digest, self.entry, self.leaf, self.index = digest, None, None, None
        self.name = "company/%s.json" % digest


class Author:
    """An entry whose author must be shown."""

    def __init__(self, digest, name, device):
        self.digest, self.name, self.device = digest, name, device


class Checker:
    def __init__(self, archive, verifier, given_key=None, slips=()):
        self.archive, self.verifier, self.given_key, self.slips = archive, verifier, given_key, slips
        self.findings = Findings()
        self.key = self.manifest = self.checkpoint = self.checkpoint_note = None
        self.origin = self.company = self.job = None
        self.leaves = []          # by line of thread.txt: Leaf, or None where it couldn't be read
        self.leaf_hashes = []     # by line: the leaf hash, or None
        self.thread_index = None  # of the thread's last leaf in the log, once shown
        self.entries = {}         # by count: Entry
        self.quoted = {}          # by entry hash: Quoted
        self.devices = {}         # by device UUID: list of public keys
        self.heads = {}           # by (note bytes, device): (Head, name of the first proof with it), where it verified
        self.earlier = {}         # by size: Consistency, where it holds
        self.counts = {}

    # ------------------------------------------------------------ the frame

    def run(self):
        for code, name, step in (
                ("zip-malformed", "-", self.check_zip),
                ("manifest-signature", "log.vkey", self.check_key),
                ("manifest-malformed", "manifest.note", self.check_manifest),
                ("file-differs", "-", self.check_files),
                ("sums-differ", "SHA256SUMS", self.check_sums),
                ("checkpoint-malformed", "checkpoint.note", self.check_checkpoint),
                ("leaf-malformed", "thread.txt", self.check_thread),
                ("inclusion-failed", "thread.tlog-proof", self.check_thread_inclusion),
                ("entry-malformed", "-", self.check_entries),
                ("entry-malformed", "-", self.check_company),
                ("leaf-malformed", "-", self.check_company_chain),
                ("manifest-malformed", "manifest.note", self.check_made),
                ("founding-missing", "-", self.check_founding),
                ("device-unknown", "-", self.collect_devices),
                ("consistency-failed", "-", self.check_earlier),
                ("author-proof", "-", self.check_authors),
                ("photo-differs", "-", self.check_photos),
                ("slip-malformed", "-", self.check_slips)):
            self.guarded(code, name, step)
        self.counts["signatures"] = self.verifier.runs
        return self.findings

    def guarded(self, code, name, step, *arguments):
        """No damage may end the check: what this program didn't foresee is a finding as well."""
        try:
            return step(*arguments)
        except Exception as why:  # noqa: B902
            self.findings.add(code, name, "the check stopped here: %s: %s" % (type(why).__name__, why))
            return None

    def fault(self, code, name, why):
        """L44: a version that isn't known has its own code, wherever it is met."""
        self.findings.add("format-unknown" if isinstance(why, FormatUnknown) else code, name, str(why))

    def has(self, name):
        return name in self.archive.members

    def names(self, shape):
        """The archive's names of this shape, with what the shape found in them."""
        for name in sorted(self.archive.members):
            found = shape.fullmatch(name)
            if found:
                yield name, found

    def read(self, name, limit=SMALL_FILE):
        """A file's bytes; raises Malformed where it is too long, and reports it once where it isn't there."""
        if not self.has(name):
            self.missing(name)
            return None
        data = self.archive.read(name, limit)
        if data is None:
            raise Malformed("the file is far longer than its form allows")
        return data

    def missing(self, name):
        self.findings.add("file-missing", name, "the file is not in the record")

    # ------------------------------------------------------------ L41.1: ZIP, key, manifest, sums

    def check_zip(self):
        for name, sentence in self.archive.faults:
            self.findings.add("zip-malformed", name, sentence)  # L37
        self.counts["files"] = len(self.archive.members)

    def check_key(self):
        """L40: the key from `log.vkey`, unless one was given, and then they must be equal."""
        self.key, own = self.given_key, None
        try:
            data = self.read("log.vkey")
            if data is not None:
                lines = formats.lines_of(formats.text_of(data, "the file"), "the file")
                if len(lines) != 1:
                    raise Malformed("the file is not one verifier key and a newline")
                own = formats.read_verifier_key(lines[0])
        except Malformed as why:
            self.fault("manifest-signature", "log.vkey", why)
        if self.given_key is None:
            self.key = own
        elif own is not None and own != self.given_key:
            self.findings.add("manifest-signature", "log.vkey", "the record's key is not the key that was given")
        self.counts["key"] = "given" if self.given_key else "from-record"
        if self.key:
            self.take_origin(self.key.name)  # L12: the key's name is the origin

    def take_origin(self, origin):
        found = formats.ORIGIN.fullmatch(origin)
        if found:
            self.origin, self.company = origin, found.group(1)

    def verifies(self, note):
        return self.key is not None and formats.note_verifies(note, self.key, self.verifier)

    def check_manifest(self):
        name = "manifest.note"
        try:
            data = self.read(name, LIST_FILE)
            if data is None:
                return
            note = formats.read_note(data)
        except Malformed as why:
            self.fault("manifest-malformed", name, why)
            return
        if not self.verifies(note):
            self.findings.add("manifest-signature", name, "no signature of the log's key verifies over the manifest")
        try:
            self.manifest = formats.Manifest(note.text)
        except Malformed as why:
            self.fault("manifest-malformed", name, why)
            return
        for problem in self.manifest.problems:
            self.findings.add("manifest-malformed", name, problem)
        self.job = self.manifest.job
        if self.manifest.origin and self.key and self.manifest.origin != self.key.name:
            self.findings.add("manifest-malformed", name, "the origin is not the name of the log's key")
        if self.manifest.origin and not self.origin:
            self.take_origin(self.manifest.origin)

    def check_files(self):
        """L37, L38: exactly the files that the manifest lists, with the bytes that it lists."""
        for name in NEEDED:
            if not self.has(name):
                self.missing(name)
        if self.manifest is None:
            return
        listed = self.manifest.files
        for name, digest in sorted(listed.items()):
            if not self.has(name):
                self.missing(name)
            elif self.archive.members[name].sha256 != digest:
                self.findings.add("file-differs", name, "the bytes are not those that the manifest lists")
        for name in sorted(self.archive.members):
            if name == "manifest.note":
                continue
            if name not in listed:
                self.findings.add("file-unlisted", name, "the manifest doesn't list this file")
            elif not self.has_place(name):
                self.findings.add("file-unlisted", name, "a record has no file of this name")  # L39

    def has_place(self, name):
        """L39. Names below photos/ have a code of their own."""
        return (name in NEEDED or name.startswith("photos/")
                or any(shape.fullmatch(name)
                       for shape in (ENTRY_NAME, AUTHOR_NAME, COMPANY_NAME, EARLIER_NAME, FIGURES_NAME)))

    def check_sums(self):
        """L39: every file but itself and the manifest; L41.1: as the manifest has it."""
        try:
            data = self.read("SHA256SUMS", LIST_FILE)
            if data is None:
                return
            lines = formats.lines_of(formats.text_of(data, "the file"), "the file")
            pairs = [formats.read_sums_line(line) for line in lines]
        except Malformed as why:
            self.fault("sums-differ", "SHA256SUMS", why)
            return
        sums = dict(pairs)
        if len(sums) != len(pairs):
            self.findings.add("sums-differ", "SHA256SUMS", "a name occurs twice")
        if self.manifest is None:
            return
        wanted = {name: digest for name, digest in self.manifest.files.items() if name != "SHA256SUMS"}
        for name in sorted(set(sums) | set(wanted)):
            if sums.get(name) != wanted.get(name):
                self.findings.add("sums-differ", "SHA256SUMS", "it doesn't agree with the manifest about %s" % name)

    # ------------------------------------------------------------ L41.2: the checkpoint

    def check_checkpoint(self):
        name = "checkpoint.note"
        manifest = self.manifest
        if manifest and manifest.size is not None:
            # Stands in where the note can't be read, so that the rest is checked all the same.
            self.checkpoint = formats.Checkpoint(self.origin, manifest.size, manifest.root)
        try:
            data = self.read(name)
            if data is None:
                return
            note = formats.read_note(data)
            if not self.verifies(note):
                self.findings.add("checkpoint-signature", name, "no signature of the log's key verifies over it")
            checkpoint = formats.read_checkpoint(note.text)
        except Malformed as why:
            self.fault("checkpoint-malformed", name, why)
            return
        self.checkpoint, self.checkpoint_note = checkpoint, data
        if self.origin and checkpoint.origin != self.origin:
            self.findings.add("checkpoint-differs", name, "its origin is not the log's")  # L20
        if manifest and manifest.size is not None and (manifest.size, manifest.root) != checkpoint[1:]:
            self.findings.add("checkpoint-differs", name, "its size or root is not that of the manifest's line")

    # ------------------------------------------------------------ L41.3: the thread

    def check_thread(self):
        name = "thread.txt"
        try:
            data = self.read(name, LIST_FILE)
            if data is None:
                return
            lines = formats.text_of(data, "the thread").split("\n")
            if lines.pop() != "":
                self.findings.add("leaf-malformed", name, "the last line doesn't end in a newline")
            if not lines:
                raise Malformed("the thread has no leaf")
        except Malformed as why:
            self.fault("leaf-malformed", name, why)
            return
        for number, line in enumerate(lines, 1):
            self.take_leaf(number, line)
        self.check_chain()
        self.counts["leaves"] = sum(1 for leaf in self.leaves if leaf)

    def take_leaf(self, number, line):
        leaf = hashed = None
        try:
            leaf = formats.read_leaf(line)
            hashed = leaf.hash
        except formats.LeafFormatUnknown as why:
            hashed = why.hash
            self.findings.add("leaf-format-unknown", "thread.txt", "line %d: %s" % (number, why))  # L14
        except Malformed as why:
            self.findings.add("leaf-malformed", "thread.txt", "line %d: %s" % (number, why))  # L13
        self.leaves.append(leaf)
        self.leaf_hashes.append(hashed)

    def check_chain(self):
        """L15: one tag, counts without gap, each leaf naming the one before, no entry twice."""
        name, seen = "thread.txt", {}
        tag = next((leaf.tag for leaf in self.leaves if leaf), None)
        previous = bytes(32)  # L13: what a thread's first leaf names
        for number, (leaf, hashed) in enumerate(zip(self.leaves, self.leaf_hashes), 1):
            if leaf:
                if leaf.count != number:
                    self.findings.add("thread-count", name, "line %d has count %d" % (number, leaf.count))
                if previous is not None and leaf.previous != previous:
                    self.findings.add("thread-link", name, "line %d doesn't name the leaf before it" % number)
                if leaf.tag != tag:
                    self.findings.add("thread-tag", name, "line %d has another tag than the first" % number)
                if leaf.entry in seen:
                    self.findings.add("leaf-repeated", name, "line %d has the entry of line %d once more"
                                      % (number, seen[leaf.entry]))
                seen.setdefault(leaf.entry, number)
            previous = hashed

    def check_thread_inclusion(self):
        last = self.leaf_hashes[-1] if self.leaf_hashes else None
        self.thread_index = self.check_inclusion("thread.tlog-proof", last)
        if self.thread_index is not None:
            self.check_room("thread.tlog-proof", self.leaves[-1], self.thread_index)

    def check_inclusion(self, name, leaf_hash):
        """The index of this leaf in the checkpoint's tree, where its proof shows it (L33)."""
        try:
            data = self.read(name)
            if data is None or self.checkpoint is None:
                return None
            proof = formats.read_proof(data)
            if proof.note != self.checkpoint_note:
                # Signed anew it may have other bytes, but it must be the same checkpoint.
                note = formats.read_note(proof.note)
                if not self.verifies(note):
                    raise Malformed("no signature of the log's key verifies over the proof's checkpoint")
                if formats.read_checkpoint(note.text) != self.checkpoint:
                    raise Malformed("the proof is of another checkpoint than the record's")
            if leaf_hash is None:
                raise Malformed("the leaf that it should prove can't be read")
            if not merkle.inclusion_holds(leaf_hash, proof.index, self.checkpoint.size, proof.path,
                                          self.checkpoint.root):
                raise Malformed("the audit path doesn't lead from the leaf to the checkpoint's root")
        except Malformed as why:
            self.fault("inclusion-failed", name, why)
            return None
        return proof.index

    def check_room(self, name, leaf, index):
        """L15: the leaves that its count says came before need places before it."""
        if leaf and leaf.count > index + 1:
            self.findings.add("thread-count", name, "count %d at index %d: fewer leaves came before" % (leaf.count, index))

    # ------------------------------------------------------------ L41.4: the thread's entries

    def check_entries(self):
        for name, found in self.names(ENTRY_NAME):
            self.guarded("entry-malformed", name, self.check_thread_entry, name, int(found.group(1)))
        self.counts["entries"] = len(self.entries)
        self.counts["withheld"] = [count for count, leaf in enumerate(self.leaves, 1)
                                   if leaf and count not in self.entries]  # L43

    def check_thread_entry(self, name, count):
        entry = self.check_entry(name, self.job)
        if entry is None:
            return
        if not 1 <= count <= len(self.leaves):
            self.findings.add("entry-differs", name, "the thread has no leaf of this count")
            return
        self.entries[count] = entry
        leaf = self.leaves[count - 1]
        if leaf and leaf.entry != entry.hash:
            self.findings.add("entry-differs", name, "the bytes are not those that the leaf commits to")

    def check_entry(self, name, thread):
        """L1-L6, L9, L16 and L44: one entry's bytes."""
        try:
            data = self.read(name, 2 * formats.MAX_ENTRY_BYTES)
        except Malformed as why:
            self.fault("entry-malformed", name, why)
            return None
        if data is None:
            return None
        entry = formats.read_entry(data)
        for problem in entry.problems:
            self.findings.add("entry-malformed", name, problem)
        if entry.unread:
            self.findings.add("entry-unread", name, entry.unread)
        job = entry.value.get("job") if entry.value else None
        if thread and isinstance(job, str) and job != thread:
            self.findings.add("entry-thread", name, "its `job` is not that of the thread")  # L16
        return entry

    # ------------------------------------------------------------ L41.5: the company's own affairs

    def check_company(self):
        for name, found in self.names(COMPANY_NAME):
            digest = found.group(1)
            if digest not in self.quoted:
                self.quoted[digest] = Quoted(digest)
                self.guarded("entry-malformed", name, self.check_quoted, self.quoted[digest])
        self.counts["company"] = len(self.quoted)

    def check_quoted(self, quoted):
        stem = "company/" + quoted.digest
        quoted.entry = self.check_entry(stem + ".json", self.company)
        if quoted.entry and quoted.entry.hash.hex() != quoted.digest:
            self.findings.add("entry-differs", stem + ".json", "the bytes are not those that the name says")
        hashed = self.check_quoted_leaf(quoted, stem + ".leaf")
        quoted.index = self.check_inclusion(stem + ".tlog-proof", hashed)
        if quoted.index is not None:
            self.check_room(stem + ".leaf", quoted.leaf, quoted.index)

    def check_quoted_leaf(self, quoted, name):
        try:
            data = self.read(name)
            if data is None:
                return None
            lines = formats.lines_of(formats.text_of(data, "the leaf"), "the leaf")
            if len(lines) != 1:
                raise Malformed("the file is not one leaf and a newline")
            quoted.leaf = formats.read_leaf(lines[0])
        except formats.LeafFormatUnknown as why:
            self.findings.add("leaf-format-unknown", name, str(why))  # L14
            return why.hash
        except Malformed as why:
            self.findings.add("leaf-malformed", name, str(why))  # L13
            return None
        if quoted.leaf.entry.hex() != quoted.digest:
            self.findings.add("entry-differs", name, "the leaf is that of another entry")
        return quoted.leaf.hash

    def check_company_chain(self):
        """L15 and L16 for what is quoted: gaps are allowed, contradictions aren't."""
        whole = sorted((quoted.leaf.count, quoted.digest) for quoted in self.quoted.values() if quoted.leaf)
        chain = [self.quoted[digest] for _, digest in whole]
        own = {leaf.hash for leaf in self.leaves if leaf}
        own_entries = {leaf.entry for leaf in self.leaves if leaf}
        own_tags = {leaf.tag for leaf in self.leaves if leaf}
        hashes = {}
        for quoted in chain:
            hashes.setdefault(quoted.leaf.count, set()).add(quoted.leaf.hash)
        for before, quoted in zip([None] + chain[:-1], chain):
            name, leaf = "company/%s.leaf" % quoted.digest, quoted.leaf
            if leaf.entry in own_entries and leaf.hash not in own:
                self.findings.add("leaf-repeated", name, "the entry is in the job's thread as well")
            if self.job and self.company and (leaf.tag in own_tags) != (self.job == self.company) and own_tags:
                self.findings.add("thread-tag", name, "its tag doesn't fit that of the job's thread")
            if leaf.count == 1 and leaf.previous != bytes(32):
                self.findings.add("thread-link", name, "a thread's first leaf names none before it")
            if leaf.count - 1 in hashes and leaf.previous not in hashes[leaf.count - 1]:
                self.findings.add("thread-link", name, "it doesn't name the leaf of the count before it")
            if leaf.count == 0:
                self.findings.add("thread-count", name, "counts begin with 1")
            if before:
                self.check_quoted_pair(name, before, quoted)

    def check_quoted_pair(self, name, before, quoted):
        first, second = before.leaf, quoted.leaf
        if first.tag != second.tag:
            self.findings.add("thread-tag", name, "its tag is not that of the other quoted entries")
        if first.count == second.count:
            self.findings.add("thread-count", name, "another quoted leaf has count %d as well" % second.count)
        if None not in (before.index, quoted.index) and second.count - first.count > quoted.index - before.index:
            self.findings.add("thread-count", name, "its count doesn't fit its place in the log")

    def check_made(self):
        """L38: `made` is the last leaf's time of receipt, which is known where the record holds that leaf."""
        if not self.manifest or self.manifest.made is None or not self.checkpoint:
            return
        placed = [(quoted.index, quoted.leaf) for quoted in self.quoted.values()]
        if self.leaves:
            placed.append((self.thread_index, self.leaves[-1]))
        for index, leaf in placed:
            if index == self.checkpoint.size - 1 and leaf and leaf.received != self.manifest.made:
                self.findings.add("manifest-malformed", "manifest.note",
                                  "`made` is not the time of receipt of the checkpoint's last leaf")

    def quoted_of_kind(self, kind):
        """Quoted entries of a kind that could be read."""
        return [quoted for _, quoted in sorted(self.quoted.items())
                if quoted.entry and not quoted.entry.problems and not quoted.entry.unread
                and quoted.entry.value["kind"] == kind]

    def check_founding(self):
        """L28: the log's first entry names the log's origin and key from within."""
        foundings = self.quoted_of_kind("company.founded")
        if not foundings:
            self.findings.add("founding-missing", "-", "no `company.founded` is quoted")
        for quoted in foundings:
            body = quoted.entry.value["body"]
            if body["origin"] != self.origin:
                self.findings.add("founding-differs", quoted.name, "it names another origin")
            if self.key and formats.decode_base64(body["logKey"], 32) != self.key.public:
                self.findings.add("founding-differs", quoted.name, "it names another key of the log")
            if quoted.index not in (None, 0) or (quoted.leaf and quoted.leaf.count != 1):
                self.findings.add("founding-differs", quoted.name, "it is not the log's first entry")

    # ------------------------------------------------------------ L41.6: authors

    def collect_devices(self):
        """L29 and L41.6: devices by what the server device enrolled, itself included."""
        enrolments = self.quoted_of_kind("device.enrolled")
        servers, grown = set(), True
        while grown:
            # A later server device may be enrolled by an earlier one; the first enrols itself.
            new = {quoted.entry.value["body"]["device"] for quoted in enrolments
                   if quoted.entry.value["body"]["use"] == "server"
                   and quoted.entry.value["device"] in servers | {quoted.entry.value["body"]["device"]}}
            grown, servers = not new <= servers, servers | new
        for quoted in enrolments:
            body = quoted.entry.value["body"]
            if quoted.entry.value["device"] not in servers:
                self.findings.add("device-unknown", quoted.name, "this enrolment is not written by the server device")
                continue
            keys = self.devices.setdefault(body["device"], [])
            key = formats.decode_base64(body["key"], 32)
            if key not in keys:
                keys.append(key)
        self.counts["devices"] = len(self.devices)

    def authors(self):
        """Every given entry, and each withheld one whose proof is there all the same."""
        found = {}
        for count, entry in sorted(self.entries.items()):
            found.setdefault(entry.hash, Author(entry.hash, "entries/%06d.json" % count, device_of(entry)))
        for _, quoted in sorted(self.quoted.items()):
            if quoted.entry:
                found.setdefault(quoted.entry.hash,
                                 Author(quoted.entry.hash, quoted.name, device_of(quoted.entry)))
        withheld = {leaf.entry for leaf in self.leaves if leaf} - set(found)
        for name, shape in self.names(AUTHOR_NAME):
            digest = bytes.fromhex(shape.group(1))
            if digest in withheld:
                found[digest] = Author(digest, name, None)
            elif digest not in found:
                self.findings.add("file-unlisted", name, "it proves an entry that this record doesn't hold")
        return found.values()

    def check_authors(self):
        shown, proofs = {}, 0
        for author in self.authors():
            name = "authors/%s.tlog-proof" % author.digest.hex()
            if not self.has(name):
                self.findings.add("author-missing", author.name, "there is no proof of this entry's author")
                if author.device and author.device not in self.devices:
                    self.device_unknown(author.name, author.device)
                continue
            proofs += 1
            self.guarded("author-proof", name, self.check_author, author, name, shown)
        self.counts["authors"] = proofs
        self.counts["heads"] = len(self.heads)
        self.check_forks()

    def device_unknown(self, name, device):
        self.findings.add("device-unknown", name, "no quoted entry enrols the device %s" % device)

    def check_author(self, author, name, shown):
        """L27: an audit path from the entry's hash to a head of its device."""
        if author.device and author.device not in self.devices:
            self.device_unknown(author.name, author.device)
        try:
            proof = formats.read_proof(self.read(name))
        except Malformed as why:
            self.fault("author-proof", name, why)
            return
        head = self.check_head(name, proof.note, author.device)
        if head is None:
            return
        if not merkle.inclusion_holds(author.digest, proof.index, head.size, proof.path, head.root):
            self.findings.add("author-proof", name, "the audit path doesn't lead from the entry to the head's root")
            return
        if (proof.note, author.device) in self.heads:
            other = shown.setdefault((head.origin, proof.index), author.digest)
            if other != author.digest:
                # L25: trees that hold different entries at one index can't be consistent, whatever their sizes.
                self.findings.add("heads-fork", name, "another entry stands at index %d of this device's log" % proof.index)

    def check_head(self, name, data, device):
        """L23, L24 and L18: the head, if it has the form of one; noted in `heads` where it also verifies."""
        if (data, device) in self.heads:
            return self.heads[data, device][0]
        try:
            note = formats.read_note(data)
            first = note.text.split("\n", 1)[0]
            owner, _ = formats.read_head_origin(first, self.origin or "")
        except Malformed as why:
            self.fault("head-malformed", name, why)
            return None
        if device is None and owner not in self.devices:
            self.device_unknown(name, owner)
        verified = False
        if device in (None, owner):
            verified = any(formats.note_verifies(note, formats.make_key(first, key), self.verifier)
                           for key in self.devices.get(owner, ()))
            if not verified and owner in self.devices:
                self.findings.add("head-signature", name, "no signature of the device's key verifies over the head")
        else:
            self.findings.add("head-signature", name, "the head is that of another device than the entry's")
        try:
            head = formats.read_head(note.text)
        except Malformed as why:
            self.fault("head-malformed", name, why)
            return None
        if verified:
            self.heads[data, device] = (head, name)
            self.check_seen(name, head)
        return head

    # ------------------------------------------------------------ L41.7: forks

    def check_forks(self):
        """L25: the heads of one device and epoch that have one size have one root."""
        roots = {}
        for head, name in self.heads.values():
            if roots.setdefault((head.origin, head.size), head.root) != head.root:
                self.findings.add("heads-fork", name, "two heads of size %d of %s have different roots"
                                  % (head.size, head.origin))

    # ------------------------------------------------------------ L41.8: earlier checkpoints

    def check_earlier(self):
        sizes = sorted({int(found.group(1)) for _, found in self.names(EARLIER_NAME)})
        for size in sizes:
            name = "earlier/%d.consistency" % size
            self.guarded("consistency-failed", name, self.check_consistency, size, name)
            name = "earlier/%d.note" % size
            self.guarded("earlier-differs", name, self.check_earlier_note, size, name)
        self.counts["earlier"] = len(self.earlier)

    def check_consistency(self, size, name):
        """L34: from the size in the file's name to the record's checkpoint."""
        if not self.has(name):
            self.findings.add("consistency-missing", name, "there is no consistency file for this size")
            return
        try:
            proof = formats.read_consistency(self.read(name))
            if proof.old_size != size:
                raise Malformed("the old size is not that of the file's name")
            if not self.checkpoint or (proof.new_size, proof.new_root) != self.checkpoint[1:]:
                raise Malformed("it doesn't lead to the record's checkpoint")
            if not merkle.consistency_holds(*proof):
                raise Malformed("the hashes don't lead from the old root to the new one")
        except Malformed as why:
            self.fault("consistency-failed", name, why)
            return
        self.earlier[size] = proof

    def check_earlier_note(self, size, name):
        try:
            data = self.read(name)
            if data is None:
                return
            note = formats.read_note(data)
            if not self.verifies(note):
                raise Malformed("no signature of the log's key verifies over this checkpoint")
        except Malformed as why:
            self.fault("earlier-signature", name, why)
            return
        try:
            checkpoint = formats.read_checkpoint(note.text)
        except Malformed as why:
            self.fault("earlier-differs", name, why)
            return
        proof = self.earlier.get(size)
        if checkpoint.origin != self.origin or checkpoint.size != size or (proof and checkpoint.root != proof.old_root):
            self.findings.add("earlier-differs", name, "it is not the checkpoint from which the consistency file leads")

    def check_seen(self, name, head):
        size = head.seen_size
        if size == 0 or not self.checkpoint:
            return
        if size > self.checkpoint.size:
            self.findings.add("seen-ahead", name, "the head has seen size %d, beyond the checkpoint" % size)
            return
        file = "earlier/%d.consistency" % size
        if not self.has(file):
            self.findings.add("consistency-missing", file, "a head has seen size %d" % size)
        elif size in self.earlier and self.earlier[size].old_root != head.seen_root:
            self.findings.add("consistency-failed", file, "a head has seen another root of size %d" % size)

    # ------------------------------------------------------------ L41.9: photos

    def check_photos(self):
        held = set()
        for name in sorted(self.archive.members):
            if not name.startswith("photos/"):
                continue
            found = PHOTO_NAME.fullmatch(name)
            digest = self.archive.members[name].sha256
            held.add(digest)
            if not found or found.group(1) != digest:
                self.findings.add("photo-differs", name, "the name is not the SHA-256 of the bytes")
        self.counts["photos"] = len(held)
        received = {entry.value["body"]["photo"] for entry in self.readable_entries("photo.received").values()}
        for count, entry in sorted(self.readable_entries("photo.taken").items()):
            for photo in photos_of(entry.value):
                if photo in received and photo not in held:
                    self.findings.add("photo-missing", "entries/%06d.json" % count,
                                      "its photo %s was received but is not in the record" % photo)

    def readable_entries(self, kind):
        return {count: entry for count, entry in self.entries.items()
                if not entry.problems and not entry.unread and entry.value["kind"] == kind}

    # ------------------------------------------------------------ L41.10: slips

    def check_slips(self):
        for name, data in self.slips:
            self.guarded("slip-malformed", name, self.check_slip, name, data)
        self.counts["slips"] = len(self.slips)

    def check_slip(self, name, data):
        """L36."""
        try:
            slip = formats.read_slip(data)
        except Malformed as why:
            self.fault("slip-malformed", name, why)
            return
        if slip.origin != self.origin:
            self.findings.add("slip-disagrees", name, "the slip is of another log")
        leaf = self.leaf_hashes[slip.count - 1] if slip.count <= len(self.leaf_hashes) else None
        if self.checkpoint and slip.size > self.checkpoint.size:
            self.findings.add("slip-later", name, "the slip is of size %d, the checkpoint of size %d"
                              % (slip.size, self.checkpoint.size))
            if leaf is None:
                return  # the record is the older of the two, so that it needn't hold this leaf
        if leaf != slip.leaf:
            self.findings.add("slip-disagrees", name, "the thread has no such leaf at count %d" % slip.count)
        if self.checkpoint and slip.size <= self.checkpoint.size:
            self.check_slip_root(name, slip)

    def check_slip_root(self, name, slip):
        if slip.size == self.checkpoint.size:
            root = self.checkpoint.root
        elif slip.size in self.earlier:
            root = self.earlier[slip.size].old_root
        else:
            self.findings.add("consistency-missing", "earlier/%d.consistency" % slip.size,
                              "nothing leads from the slip's size to the checkpoint")
            return
        if root != slip.root:
            self.findings.add("slip-disagrees", name, "the log had another root at the slip's size")


def device_of(entry):
    """The entry's device, where it can be read."""
    device = entry.value.get("device") if entry.value else None
    return device if formats.is_uuid(device) else None


def photos_of(value):
    """The photos that an entry `photo.taken` names: its evidence, and `photo` in its body if there is one."""
    named = list(value.get("evidence", ()))
    if formats.is_hex64(value["body"].get("photo")):
        named.append(value["body"]["photo"])
    return sorted(set(named))


# ---------------------------------------------------------------- the command

def printable(text):
    """One finding is one line of ASCII, whatever a damaged file calls itself and whatever the terminal can show."""
    return "".join(character if " " <= character <= "~" else "\\u{%x}" % ord(character) for character in text)


def check_record(path, given_key=None, slips=()):
    """The findings and counts of one record. Raises OSError where the file can't be read."""
    verifier = Verifier()
    try:
        archive = Archive(path)
        try:
            checker = Checker(archive, verifier, given_key, slips)
            findings = checker.run()
        finally:
            archive.close()
    finally:
        verifier.close()
    return findings, checker.counts


def summary(findings, counts):
    failing = len(findings.failing())
    trust = ("with the key that was given" if counts["key"] == "given" else
             "with the record's own key alone, which can't tell a log made anew as a whole from the first")  # L40
    parts = ["%s %d" % (name, counts.get(name, 0))
             for name in ("files", "leaves", "entries", "company", "authors", "heads", "earlier", "photos", "slips")]
    withheld = counts.get("withheld", [])
    if withheld:
        parts.append("withheld at count " + ",".join(str(count) for count in withheld[:20])
                     + (" and %d more" % (len(withheld) - 20) if len(withheld) > 20 else ""))
    return "%s; checked %s; %s" % ("FAILED: %d findings" % failing if failing else "OK", trust, ", ".join(parts))


def report(findings, counts, as_json):
    items = [(code, printable(name), printable(detail)) for code, name, detail in findings.items]
    if as_json:
        print(json.dumps({"ok": not findings.failing(),
                          "findings": [dict(zip(("code", "file", "detail"), item)) for item in items],
                          "checked": counts}))
        return
    for item in items:
        print("\t".join(item))
    print(summary(findings, counts))


def main(arguments):
    parser = argparse.ArgumentParser(description="Checks a record of the log against its specification.")
    parser.add_argument("record", metavar="RECORD.zip")
    parser.add_argument("--key", metavar="VKEY", help="the log's verifier key, had from elsewhere")
    parser.add_argument("--slip", metavar="FILE", action="append", default=[])
    parser.add_argument("--json", action="store_true")
    options = parser.parse_args(arguments)
    try:
        key = formats.read_verifier_key(options.key.strip()) if options.key is not None else None
        slips = []
        for name in options.slip:
            with open(name, "rb") as file:
                slips.append((os.path.basename(name), file.read(SMALL_FILE)))
        findings, counts = check_record(options.record, key, slips)
    except Malformed as why:
        print("check.py: --key: %s" % why, file=sys.stderr)
        return 2
    except (OSError, NoOpenssl) as why:
        print("check.py: %s" % why, file=sys.stderr)
        return 2
    report(findings, counts, options.json)
    return 1 if findings.failing() else 0


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
