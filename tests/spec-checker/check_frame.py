"""L37-L40, L41.1 and L41.2: the ZIP, the key, the manifest, the files, the sums and the checkpoint."""

import formats
import notes
from state import (AUTHOR_NAME, CHECK_PAGE, COMPANY_NAME, EARLIER_NAME, ENTRY_NAME, LIST_FILE, REQUIRED, STAMP_NAME,
                   TABLE_NAME, one_line)
from values import Malformed, lines_of, text_of


def check_zip(state):
    for name, sentence in state.archive.faults:
        state.add("zip-malformed", name, sentence)  # L37
    state.counts["files"] = len(state.archive.members)


def check_key(state):
    """L40: the key from `log.vkey`, unless one was given, and then they must be equal."""
    own = None
    try:
        data = state.read("log.vkey")
        if data is not None:
            own = notes.read_verifier_key(one_line(data, "verifier key"))
    except Malformed as why:
        state.fault("key-malformed", "log.vkey", why)
    if state.given_key and own and own != state.given_key:
        state.add("key-differs", "log.vkey", "the record's key is not the key that was given")
    state.key = state.given_key or own
    state.counts["key"] = "given" if state.given_key else "from-record"
    if state.key:
        state.take_origin(state.key.name)  # L12: the key's name is the origin


# ---------------------------------------------------------------- manifest, files, sums

def check_manifest(state):
    name = "manifest.note"
    try:
        data = state.read(name, notes.MAX_MANIFEST_BYTES)
        if data is None:
            return
        note = notes.read_note(data, notes.MAX_MANIFEST_BYTES)
    except Malformed as why:
        state.fault("manifest-malformed", name, why)
        return
    if not state.verifies(note):
        state.add("manifest-signature", name, "no signature of the log's key verifies over the manifest")
    try:
        state.manifest = formats.Manifest(note.text)
    except Malformed as why:
        state.fault("manifest-malformed", name, why)
        return
    for problem in state.manifest.problems:
        state.add("manifest-malformed", name, problem)
    state.job = state.manifest.job
    if state.manifest.origin and state.key and state.manifest.origin != state.key.name:
        state.add("manifest-malformed", name, "the origin is not the name of the log's key")
    if state.manifest.origin and not state.origin:
        state.take_origin(state.manifest.origin)


def check_files(state):
    """L37-L39: exactly the files that the manifest lists, with the bytes that it lists, and none without a place."""
    for name in REQUIRED:
        if not state.has(name):
            state.missing(name)
    if not any(state.names(TABLE_NAME)):
        state.add("file-missing", "tables/", "there is no table in the record")
    for name in sorted(state.archive.members):
        if not has_place(name):
            state.add("file-unlisted", name, "a record has no file of this name")
    if state.manifest is None:
        return
    listed = state.manifest.files
    for name, digest in sorted(listed.items()):
        if not state.has(name):
            state.missing(name)
        elif state.archive.members[name].sha256 != digest:
            state.add("file-differs", name, "the bytes are not those that the manifest lists")
    for name in sorted(set(state.archive.members) - set(listed) - {"manifest.note"}):
        state.add("file-unlisted", name, "the manifest doesn't list this file")


def has_place(name):
    """L39. Names below photos/ have a code of their own."""
    return (name in REQUIRED or name == CHECK_PAGE or name.startswith("photos/")
            or any(shape.fullmatch(name)
                   for shape in (ENTRY_NAME, AUTHOR_NAME, COMPANY_NAME, EARLIER_NAME, STAMP_NAME, TABLE_NAME)))


def check_sums(state):
    """L39: every file but itself and the manifest, in its order; L41.1: as the manifest has it."""
    name = "SHA256SUMS"
    try:
        data = state.read(name, LIST_FILE)
        if data is None:
            return
        lines = lines_of(text_of(data, "the file"), "the file")
        pairs = [formats.read_sums_line(line) for line in lines]
    except Malformed as why:
        state.fault("sums-differ", name, why)
        return
    sums = dict(pairs)
    if len(sums) != len(pairs):
        state.add("sums-differ", name, "a name occurs twice")
    if state.manifest is None:
        return
    wanted = {file: digest for file, digest in state.manifest.files.items() if file != name}
    differing = [file for file in sorted(set(sums) | set(wanted)) if sums.get(file) != wanted.get(file)]
    for file in differing:
        state.add("sums-differ", name, "it doesn't agree with the manifest about %s" % file)
    if not differing and list(sums) != list(wanted):
        state.add("sums-differ", name, "its lines are not in the manifest's order")


# ---------------------------------------------------------------- the checkpoint

def check_checkpoint(state):
    name, manifest = "checkpoint.note", state.manifest
    if manifest and manifest.size is not None:
        # Stands in where the note can't be read, so that the rest is checked all the same.
        state.checkpoint = notes.Checkpoint(state.origin, manifest.size, manifest.root)
    try:
        data = state.read(name)
        if data is None:
            return
        note = notes.read_note(data)
        if not state.verifies(note):
            state.add("checkpoint-signature", name, "no signature of the log's key verifies over it")
        checkpoint = notes.read_checkpoint(note.text)
    except Malformed as why:
        state.fault("checkpoint-malformed", name, why)
        return
    state.checkpoint, state.checkpoint_note = checkpoint, data
    if state.origin and checkpoint.origin != state.origin:
        state.add("checkpoint-differs", name, "its origin is not the log's")  # L20
    if manifest and manifest.size is not None and (manifest.size, manifest.root) != checkpoint[1:]:
        state.add("checkpoint-differs", name, "its size or root is not that of the manifest's line")


def check_made(state):
    """L38: `made` is the last leaf's time of receipt, which is known where the record holds that leaf."""
    if not state.manifest or state.manifest.made is None or not state.checkpoint:
        return
    placed = [(quoted.index, quoted.leaf) for quoted in state.quoted.values()]
    if state.leaves:
        placed.append((state.thread_index, state.leaves[-1]))
    for index, leaf in placed:
        if index == state.checkpoint.size - 1 and leaf and leaf.received != state.manifest.made:
            state.add("manifest-malformed", "manifest.note",
                      "`made` is not the time of receipt of the checkpoint's last leaf")
