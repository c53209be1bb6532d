"""L34, L39 and L41.8: the company checkpoints that heads have seen, and the ways from them to this record's."""

import formats
import merkle
import notes
from check_stamps import stamped
from state import EARLIER_NAME
from values import Malformed


def check_earlier(state):
    for name, found in state.names(EARLIER_NAME):
        size, ending = int(found.group(1)), found.group(2)
        if size == 0 or (state.checkpoint and size == state.checkpoint.size):
            state.add("file-unlisted", name, "no file leads from size 0 or from the checkpoint itself")  # L39
        elif ending == "consistency":
            state.guarded("consistency-failed", name, check_consistency, state, size, name)
    # The notes come after, since they are compared with what holds.
    over = {quoted.entry.value["body"]["size"] for quoted in stamped(state)}
    for name, found in state.names(EARLIER_NAME):
        if found.group(2) == "note":
            size = int(found.group(1))
            if size not in state.seen and size not in over and not state.head_unread:
                state.add("file-unlisted", name, "no head in this record has seen this checkpoint, and no stamp is over it")  # L39
            state.guarded("earlier-differs", name, check_earlier_note, state, size, name)
    for head, name in state.heads.values():
        check_seen(state, name, head)
    state.counts["earlier"] = len(state.earlier)


def check_consistency(state, size, name):
    """L34: from the size in the file's name to the record's checkpoint."""
    try:
        proof = formats.read_consistency(state.read(name))
        if proof.old_size != size:
            raise Malformed("the old size is not that of the file's name")
        if not state.checkpoint or (proof.new_size, proof.new_root) != state.checkpoint[1:]:
            raise Malformed("it doesn't lead to the record's checkpoint")
        if not merkle.consistency_holds(*proof):
            raise Malformed("the hashes don't lead from the old root to the new one")
    except Malformed as why:
        state.fault("consistency-failed", name, why)
        return
    state.earlier[size] = proof


def check_earlier_note(state, size, name):
    try:
        note = notes.read_note(state.read(name))
        if not state.verifies(note):
            raise Malformed("no signature of the log's key verifies over this checkpoint")
    except Malformed as why:
        state.fault("earlier-signature", name, why)
        return
    try:
        checkpoint = notes.read_checkpoint(note.text)
    except Malformed as why:
        state.fault("earlier-differs", name, why)
        return
    proof = state.earlier.get(size)
    if checkpoint.origin != state.origin or checkpoint.size != size or (proof and checkpoint.root != proof.old_root):
        state.add("earlier-differs", name, "it is not the checkpoint from which the consistency file leads")


def check_seen(state, name, head):
    size = head.seen_size
    if size == 0 or not state.checkpoint:
        return
    if size > state.checkpoint.size:
        state.add("seen-ahead", name, "the head has seen size %d, beyond the checkpoint" % size)
        return
    if size == state.checkpoint.size:
        if head.seen_root != state.checkpoint.root:
            state.add("consistency-failed", name, "the head has seen another root at the checkpoint's own size")
        return
    file = "earlier/%d.consistency" % size
    if not state.has(file):
        state.add("consistency-missing", file, "a head has seen size %d" % size)
    elif size in state.earlier and state.earlier[size].old_root != head.seen_root:
        state.add("consistency-failed", file, "a head has seen another root of size %d" % size)
    if not state.has("earlier/%d.note" % size):
        state.missing("earlier/%d.note" % size)
