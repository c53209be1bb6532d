"""Merkle trees of SPEC.md L11: hashes and the two checks of RFC 9162 sections 2.1.3.2 and 2.1.4.2."""

import hashlib

EMPTY_ROOT = hashlib.sha256(b"").digest()


def leaf_hash(data):
    """L5 and L11: SHA-256(0x00 || leaf)."""
    return hashlib.sha256(b"\x00" + data).digest()


def node_hash(left, right):
    """L11: SHA-256(0x01 || left || right)."""
    return hashlib.sha256(b"\x01" + left + right).digest()


def inclusion_holds(leaf, index, size, path, root):
    """L11: does the audit path lead from this leaf hash at this index to the root? Wrong lengths fail."""
    if index < 0 or index >= size:
        return False
    fn, sn, reached = index, size - 1, leaf
    for step in path:
        if sn == 0:
            return False
        if fn & 1 or fn == sn:
            reached = node_hash(step, reached)
            while not fn & 1 and fn != 0:
                fn, sn = fn >> 1, sn >> 1
        else:
            reached = node_hash(reached, step)
        fn, sn = fn >> 1, sn >> 1
    return sn == 0 and reached == root


def consistency_holds(old_size, old_root, new_size, new_root, path):
    """L11, with L34's case of an old size of 0. Equal sizes need equal roots and no hashes."""
    if old_size < 0 or old_size > new_size:
        return False
    if old_size == 0:
        if new_size == 0 and new_root != EMPTY_ROOT:
            return False
        return old_root == EMPTY_ROOT and not path
    if old_size == new_size:
        return old_root == new_root and not path
    if not path:
        return False
    if old_size & (old_size - 1) == 0:
        # The old tree is one whole node of the new one, so the proof doesn't repeat its hash.
        path = [old_root] + list(path)
    fn, sn = old_size - 1, new_size - 1
    while fn & 1:
        fn, sn = fn >> 1, sn >> 1
    old_reached = new_reached = path[0]
    for step in path[1:]:
        if sn == 0:
            return False
        if fn & 1 or fn == sn:
            old_reached = node_hash(step, old_reached)
            new_reached = node_hash(step, new_reached)
            while not fn & 1 and fn != 0:
                fn, sn = fn >> 1, sn >> 1
        else:
            new_reached = node_hash(new_reached, step)
        fn, sn = fn >> 1, sn >> 1
    return sn == 0 and old_reached == old_root and new_reached == new_root
