"""L13-L15, L33 and L41.3: the leaves of the job's thread, and proofs of leaves in the checkpoint's tree."""

import formats
import merkle
import notes
from state import LIST_FILE
from values import Malformed, text_of


def check_thread(state):
    name = "thread.txt"
    try:
        data = state.read(name, LIST_FILE)
        if data is None:
            return
        lines = text_of(data, "the thread").split("\n")
        if lines.pop() != "":
            state.add("leaf-malformed", name, "the last line doesn't end in a newline")
        if not lines:
            raise Malformed("the thread has no leaf")
    except Malformed as why:
        state.fault("leaf-malformed", name, why)
        return
    for number, line in enumerate(lines, 1):
        take_leaf(state, number, line)
    check_chain(state)
    state.counts["leaves"] = sum(1 for leaf in state.leaves if leaf)


def take_leaf(state, number, line):
    leaf = hashed = None
    try:
        leaf = formats.read_leaf(line)
        hashed = leaf.hash
    except formats.LeafFormatUnknown as why:
        hashed = why.hash
        state.add("leaf-format-unknown", "thread.txt", "line %d: %s" % (number, why))  # L14
    except Malformed as why:
        state.add("leaf-malformed", "thread.txt", "line %d: %s" % (number, why))  # L13
    state.leaves.append(leaf)
    state.leaf_hashes.append(hashed)


def check_chain(state):
    """L15: one tag, counts without gap, each leaf naming the one before, no entry twice."""
    name, seen = "thread.txt", {}
    tag = next((leaf.tag for leaf in state.leaves if leaf), None)
    previous = bytes(32)  # L13: what a thread's first leaf names
    for number, (leaf, hashed) in enumerate(zip(state.leaves, state.leaf_hashes), 1):
        if leaf:
            if leaf.count != number:
                state.add("thread-count", name, "line %d has count %d" % (number, leaf.count))
            if previous is not None and leaf.previous != previous:
                state.add("thread-link", name, "line %d doesn't name the leaf before it" % number)
            if leaf.tag != tag:
                state.add("thread-tag", name, "line %d has another tag than the first" % number)
            if leaf.entry in seen:
                state.add("leaf-repeated", name, "line %d has the entry of line %d once more"
                          % (number, seen[leaf.entry]))
            seen.setdefault(leaf.entry, number)
        previous = hashed


def check_thread_inclusion(state):
    last = state.leaf_hashes[-1] if state.leaf_hashes else None
    state.thread_index = check_inclusion(state, "thread.tlog-proof", last)
    if state.thread_index is not None:
        check_room(state, "thread.tlog-proof", state.leaves[-1], state.thread_index)


def check_inclusion(state, name, leaf_hash):
    """The index of this leaf in the checkpoint's tree, where its proof shows it (L33)."""
    try:
        data = state.read(name)
        if data is None or state.checkpoint is None:
            return None
        proof = formats.read_proof(data)
        if proof.note != state.checkpoint_note:
            # L41.3: it may have other bytes, but it must be the same checkpoint, signed by the log.
            note = notes.read_note(proof.note)
            if not state.verifies(note):
                raise Malformed("no signature of the log's key verifies over the proof's checkpoint")
            if notes.read_checkpoint(note.text) != state.checkpoint:
                raise Malformed("the proof is of another checkpoint than the record's")
        if leaf_hash is None:
            raise Malformed("the leaf that it should prove can't be read")
        if not merkle.inclusion_holds(leaf_hash, proof.index, state.checkpoint.size, proof.path,
                                      state.checkpoint.root):
            raise Malformed("the audit path doesn't lead from the leaf to the checkpoint's root")
    except Malformed as why:
        state.fault("inclusion-failed", name, why)
        return None
    return proof.index


def check_room(state, name, leaf, index):
    """L15: the leaves that its count says came before need places before it."""
    if leaf and leaf.count > index + 1:
        state.add("thread-count", name, "count %d at index %d: fewer leaves came before" % (leaf.count, index))
