"""Trees and proofs by the definitions of RFC 6962 section 2.1, which are not the ways in which they are checked."""

import merkle


def split_of(size):
    """The largest power of two below the size."""
    return 1 << ((size - 1).bit_length() - 1)


def tree_root(hashes):
    if not hashes:
        return merkle.EMPTY_ROOT
    if len(hashes) == 1:
        return hashes[0]
    middle = split_of(len(hashes))
    return merkle.node_hash(tree_root(hashes[:middle]), tree_root(hashes[middle:]))


def audit_path(index, hashes):
    if len(hashes) <= 1:
        return []
    middle = split_of(len(hashes))
    if index < middle:
        return audit_path(index, hashes[:middle]) + [tree_root(hashes[middle:])]
    return audit_path(index - middle, hashes[middle:]) + [tree_root(hashes[:middle])]


def consistency_path(old_size, hashes, whole=True):
    if old_size == len(hashes):
        return [] if whole else [tree_root(hashes)]
    middle = split_of(len(hashes))
    if old_size <= middle:
        return consistency_path(old_size, hashes[:middle], whole) + [tree_root(hashes[middle:])]
    return consistency_path(old_size - middle, hashes[middle:], False) + [tree_root(hashes[:middle])]
