"""L35, L36 and L41.10: slips that were handed out at the end of a pour."""

import formats
from values import Malformed


def check_slips(state):
    for name, data in state.slips:
        state.guarded("slip-malformed", name, check_slip, state, name, data)
    state.counts["slips"] = len(state.slips)


def check_slip(state, name, data):
    try:
        slip = formats.read_slip(data)
    except Malformed as why:
        state.fault("slip-malformed", name, why)
        return
    if slip.origin != state.origin:
        state.add("slip-disagrees", name, "the slip is of another log")
        return  # sizes and leaves of two logs can't be compared
    later = state.checkpoint is not None and slip.size > state.checkpoint.size
    if later:
        state.add("slip-later", name, "the slip is of size %d, the checkpoint of size %d"
                  % (slip.size, state.checkpoint.size))
    if slip.count <= len(state.leaf_hashes):
        if state.leaf_hashes[slip.count - 1] != slip.leaf:
            state.add("slip-disagrees", name, "the thread has another leaf at count %d" % slip.count)
    elif not later:  # of two, the record that is older needn't hold this leaf
        state.add("slip-disagrees", name, "the thread has no leaf at count %d" % slip.count)
    if state.checkpoint and not later:
        check_root(state, name, slip)


def check_root(state, name, slip):
    file = "earlier/%d.consistency" % slip.size
    if slip.size == state.checkpoint.size:
        root = state.checkpoint.root
    elif slip.size in state.earlier:
        root = state.earlier[slip.size].old_root
    else:
        if not state.has(file):
            state.add("consistency-missing", file, "nothing leads from the slip's size to the checkpoint")
        return  # one that is there but doesn't hold has its finding
    if root != slip.root:
        state.add("slip-disagrees", name, "the log had another root at the slip's size")
