"""L57, L58 and L41.12: the log's part of time stamps. The responses themselves are left to `openssl ts -verify`."""

import formats
import merkle
import notes
from state import STAMP_NAME, is_read
from values import Malformed


def stamped(state):
    """The quoted entries that name a stamp, in the order of their counts."""
    found = [quoted for quoted in state.quoted.values() if quoted.entry and is_read(quoted.entry)
             and quoted.entry.value["kind"] == "checkpoint.stamped"]
    return sorted(found, key=lambda quoted: (quoted.leaf.count if quoted.leaf else 0, quoted.digest))


def check_stamps(state):
    sizes = set()
    for quoted in stamped(state):
        body = quoted.entry.value["body"]
        size = body["size"]
        if size in sizes:
            state.add("stamp-differs", quoted.name, "another quoted entry names a stamp of size %d" % size)
            continue
        sizes.add(size)
        state.guarded("stamp-differs", "stamps/%d.tsr" % size, check_stamp, state, quoted, body, size)
    for name, found in state.names(STAMP_NAME):
        if int(found.group(1)) not in sizes:
            state.add("file-unlisted", name, "no quoted entry names a stamp of this size")
    state.counts["stamps"] = len(sizes)


def check_stamp(state, quoted, body, size):
    name = "stamps/%d.tsr" % size
    if not state.has(name):
        state.add("stamp-missing", name, "the log names it, and it is not in the record")
    elif state.archive.members[name].sha256 != body["token"]:
        state.add("stamp-differs", name, "it is not the response that the log names")
    if quoted.index is not None and quoted.index < size:
        state.add("stamp-differs", name, "the entry that names it lies before the state that it is over")
    check_stamped_note(state, name, size)
    check_reach(state, size)


def check_stamped_note(state, name, size):
    """What is stamped is a checkpoint that the log signed, and the record's own follows from it."""
    if not state.has("earlier/%d.note" % size):
        state.missing("earlier/%d.note" % size)
    else:
        try:
            note = notes.read_note(state.read("earlier/%d.note" % size))
            if not state.verifies(note) or notes.read_checkpoint(note.text).size != size:
                raise Malformed("it is over no checkpoint of that size which the log signed")
        except Malformed as why:
            state.add("stamp-differs", name, str(why))
    if not state.has("earlier/%d.consistency" % size):
        state.add("consistency-missing", "earlier/%d.consistency" % size, "a stamp is over that size")


def check_reach(state, size):
    """Some leaf of the job's thread lies in the stamped tree."""
    name = "stamps/%d.tlog-proof" % size
    try:
        data = state.read(name)
        if data is None:
            return
        proof = formats.read_proof(data)
        if size not in state.earlier:
            return  # reported as such
        root = state.earlier[size].old_root
        if not any(hashed and merkle.inclusion_holds(hashed, proof.index, size, proof.path, root)
                   for hashed in state.leaf_hashes):
            raise Malformed("the audit path leads from none of the job's leaves to the stamped root")
    except Malformed as why:
        state.fault("inclusion-failed", name, why)
