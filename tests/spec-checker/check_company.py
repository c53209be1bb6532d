"""L28 and L41.5: what is quoted from the company's own affairs."""

import formats
from check_entries import check_entry, report_unread
from check_thread import check_inclusion, check_room
from state import COMPANY_NAME, is_read, one_line
from values import Malformed, decode_base64


class Quoted:
    """An entry quoted from the company's own affairs: what was read of its three files."""

    def __init__(self, digest):
        self.digest, self.entry, self.leaf, self.index = digest, None, None, None
        self.name = "company/%s.json" % digest


def check_company(state):
    for name, found in state.names(COMPANY_NAME):
        digest = found.group(1)
        if digest not in state.quoted:
            state.quoted[digest] = Quoted(digest)
            state.guarded("entry-malformed", name, check_quoted, state, state.quoted[digest])
    state.counts["company"] = len(state.quoted)


def check_quoted(state, quoted):
    stem = "company/" + quoted.digest
    quoted.entry, placed = check_entry(state, quoted.name, state.company)
    agrees = quoted.entry is not None and quoted.entry.hash.hex() == quoted.digest
    if quoted.entry and not agrees:
        state.add("entry-differs", quoted.name, "the bytes are not those that the name says")
    hashed = check_quoted_leaf(state, quoted, stem + ".leaf")
    quoted.index = check_inclusion(state, stem + ".tlog-proof", hashed)
    if quoted.index is not None:
        check_room(state, stem + ".leaf", quoted.leaf, quoted.index)
    if agrees and placed and quoted.index is not None and quoted.leaf and quoted.leaf.entry == quoted.entry.hash:
        report_unread(state, quoted.name, quoted.entry)


def check_quoted_leaf(state, quoted, name):
    try:
        data = state.read(name)
        if data is None:
            return None
        quoted.leaf = formats.read_leaf(one_line(data, "leaf"))
    except formats.LeafFormatUnknown as why:
        state.add("leaf-format-unknown", name, str(why))  # L14
        return why.hash
    except Malformed as why:
        state.add("leaf-malformed", name, str(why))  # L13
        return None
    if quoted.leaf.entry.hex() != quoted.digest:
        state.add("entry-differs", name, "the leaf is that of another entry")
    return quoted.leaf.hash


# ---------------------------------------------------------------- among themselves

def check_company_chain(state):
    """L15, as far as leaves are given: gaps are allowed, contradictions aren't."""
    whole = sorted((quoted.leaf.count, quoted.digest) for quoted in state.quoted.values() if quoted.leaf)
    chain = [state.quoted[digest] for _, digest in whole]
    own_entries = {leaf.entry for leaf in state.leaves if leaf}
    own_tags = {leaf.tag for leaf in state.leaves if leaf}
    hashes = {}
    for quoted in chain:
        hashes.setdefault(quoted.leaf.count, set()).add(quoted.leaf.hash)
    for before, quoted in zip([None] + chain[:-1], chain):
        name, leaf = "company/%s.leaf" % quoted.digest, quoted.leaf
        if leaf.entry in own_entries:
            state.add("leaf-repeated", name, "the entry is in the job's thread as well")
        if leaf.tag in own_tags:
            state.add("thread-tag", name, "its tag is that of the job's thread")
        if leaf.count == 1 and leaf.previous != bytes(32):
            state.add("thread-link", name, "a thread's first leaf names none before it")
        if leaf.count - 1 in hashes and leaf.previous not in hashes[leaf.count - 1]:
            state.add("thread-link", name, "it doesn't name the leaf of the count before it")
        if leaf.count == 0:
            state.add("thread-count", name, "counts begin with 1")
        if before:
            check_pair(state, name, before, quoted)


def check_pair(state, name, before, quoted):
    first, second = before.leaf, quoted.leaf
    if first.tag != second.tag:
        state.add("thread-tag", name, "its tag is not that of the other quoted entries")
    if first.count == second.count:
        state.add("thread-count", name, "another quoted leaf has count %d as well" % second.count)
    if None not in (before.index, quoted.index) and second.count - first.count > quoted.index - before.index:
        state.add("thread-count", name, "its count doesn't fit its place in the log")


def quoted_of_kind(state, kind):
    """Quoted entries of a kind that could be read."""
    return [quoted for _, quoted in sorted(state.quoted.items())
            if quoted.entry and is_read(quoted.entry) and quoted.entry.value["kind"] == kind]


def check_founding(state):
    """L28: the log's first entry names the log's origin and key from within."""
    foundings = quoted_of_kind(state, "company.founded")
    if not foundings:
        state.add("founding-missing", "-", "no `company.founded` is quoted")
    for quoted in foundings:
        body = quoted.entry.value["body"]
        if body["origin"] != state.origin:
            state.add("founding-differs", quoted.name, "it names another origin")
        if state.key and decode_base64(body["logKey"], 32) != state.key.public:
            state.add("founding-differs", quoted.name, "it names another key of the log")
        if quoted.index not in (None, 0) or (quoted.leaf and quoted.leaf.count != 1):
            state.add("founding-differs", quoted.name, "it is not the log's first entry")
