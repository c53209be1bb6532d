"""What the checks of one record share: the archive, the findings, and what earlier checks have learnt."""

import re

import notes
from findings import Findings
from values import ORIGIN, FormatUnknown, Malformed, is_uuid, lines_of, text_of

# L39: the files that every record has, and the shapes of all the others.
REQUIRED = ("SHA256SUMS", "checkpoint.note", "log.vkey", "manifest.note", "record.json", "record.pdf",
            "thread.tlog-proof", "thread.txt")
ENTRY_NAME = re.compile(r"entries/([0-9]{6})\.json")
AUTHOR_NAME = re.compile(r"authors/([0-9a-f]{64})\.tlog-proof")
COMPANY_NAME = re.compile(r"company/([0-9a-f]{64})\.(json|leaf|tlog-proof)")
EARLIER_NAME = re.compile(r"earlier/(0|[1-9][0-9]{0,15})\.(consistency|note)")
PHOTO_NAME = re.compile(r"photos/([0-9a-f]{64})\.[A-Za-z0-9]+")
CHECK_PAGE = "verify.html"
STAMP_NAME = re.compile(r"stamps/([1-9][0-9]{0,15})\.(tsr|tlog-proof)")
TABLE_NAME = re.compile(r"tables/[^/]+\.csv")

SMALL_FILE = 256 * 1024       # notes, proofs and consistency files are far below this
LIST_FILE = 256 * 1024 * 1024  # thread.txt and SHA256SUMS of the longest thread that six digits can count


class State:
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
        self.server = None        # the server device's UUID
        self.devices = {}         # by device UUID: its public key
        self.enrolled = {}        # by device UUID: the body of its enrolment
        self.heads = {}           # by (note bytes, device): (Head, name of the first proof with it), where it verified
        self.head_unread = False  # some head couldn't be read, so that what it has seen isn't known
        self.seen = {}            # by size that a head (verified or not) has seen: name of the first proof with it
        self.earlier = {}         # by size: Consistency, where it holds
        self.counts = {}

    def guarded(self, code, name, step, *arguments):
        """No damage may end the check: what this program didn't foresee is a finding as well."""
        try:
            return step(*arguments)
        except Exception as why:  # noqa: B902
            self.findings.add(code, name, "the check stopped here: %s: %s" % (type(why).__name__, why))
            return None

    def add(self, code, name, detail):
        self.findings.add(code, name, detail)

    def fault(self, code, name, why):
        """L44: a version that isn't known has its own code, wherever it is met."""
        self.add("format-unknown" if isinstance(why, FormatUnknown) else code, name, str(why))

    # ------------------------------------------------------------ files

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
        self.add("file-missing", name, "the file is not in the record")

    # ------------------------------------------------------------ the log's key and origin

    def take_origin(self, origin):
        found = ORIGIN.fullmatch(origin)
        if found:
            self.origin, self.company = origin, found.group(1)

    def verifies(self, note):
        return self.key is not None and notes.note_verifies(note, self.key, self.verifier)

    # ------------------------------------------------------------ entries

    def withheld(self):
        """L43: the counts whose entries are not given."""
        return [count for count, leaf in enumerate(self.leaves, 1) if leaf and count not in self.entries]


def device_of(entry):
    """The entry's device, where it can be read."""
    device = entry.value.get("device") if entry.value else None
    return device if is_uuid(device) else None


def is_read(entry):
    """Whether the entry was understood whole, so that the members of its body can be used."""
    return not entry.problems and not entry.unread


def one_line(data, what):
    lines = lines_of(text_of(data, "the file"), "the file")
    if len(lines) != 1:
        raise Malformed("the file is not one %s and a newline" % what)
    return lines[0]
