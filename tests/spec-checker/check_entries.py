"""L1-L9, L16, L44 and L41.4: the entries' bytes."""

import canonical
from entries import read_entry
from state import ENTRY_NAME
from values import Malformed


def check_entries(state):
    for name, found in state.names(ENTRY_NAME):
        state.guarded("entry-malformed", name, check_thread_entry, state, name, int(found.group(1)))
    state.counts["entries"] = len(state.entries)
    state.counts["withheld"] = state.withheld()


def check_thread_entry(state, name, count):
    if not 1 <= count <= len(state.leaves):
        state.add("file-unlisted", name, "the thread has no leaf of this count")  # L39
        return
    entry, placed = check_entry(state, name, state.job)
    if entry is None:
        return
    state.entries[count] = entry
    leaf = state.leaves[count - 1]
    if leaf and leaf.entry != entry.hash:
        state.add("entry-differs", name, "the bytes are not those that the leaf commits to")
    elif leaf and placed:
        report_unread(state, name, entry)


def check_entry(state, name, thread):
    """One entry's bytes, and whether its `job` is that of the thread."""
    try:
        data = state.read(name, 2 * canonical.MAX_ENTRY_BYTES)
    except Malformed as why:
        state.fault("entry-malformed", name, why)
        return None, False
    if data is None:
        return None, False
    entry = read_entry(data)
    for problem in entry.problems:
        state.add("entry-malformed", name, problem)
    job = entry.value.get("job") if entry.value else None
    placed = thread is None or job == thread
    if not placed and isinstance(job, str):
        state.add("entry-thread", name, "its `job` is not that of the thread")  # L16
    return entry, placed


def report_unread(state, name, entry):
    """L44: only of an entry whose hash and place hold."""
    if entry.unread:
        state.add("entry-unread", name, entry.unread)
