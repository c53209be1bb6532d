"""L32, L53 and L41.9: the photos."""

from state import PHOTO_NAME, is_read
from values import is_hex64


def check_photos(state):
    held, named = set(), photos_named(state)
    for name in sorted(state.archive.members):
        if not name.startswith("photos/"):
            continue
        found = PHOTO_NAME.fullmatch(name)
        digest = state.archive.members[name].sha256
        held.add(digest)
        if not found or found.group(1) != digest:
            state.add("photo-differs", name, "the name is not the SHA-256 of the bytes")
        elif named is not None and digest not in named:
            state.add("file-unlisted", name, "no entry of this record names this photo")  # L39
    state.counts["photos"] = len(held)
    received = {entry.value["body"]["photo"] for entry in entries_of(state, "photo.received").values()}
    for count, entry in sorted(entries_of(state, "photo.taken").items()):
        photo = entry.value["body"]["photo"]
        if photo in received and photo not in held:
            state.add("photo-missing", "entries/%06d.json" % count,
                      "its photo %s was received but is not in the record" % photo)


def entries_of(state, kind):
    return {count: entry for count, entry in state.entries.items()
            if is_read(entry) and entry.value["kind"] == kind}


def photos_named(state):
    """What the given entries name; None where an entry that isn't given or can't be read might name more."""
    if len(state.entries) < len(state.leaves) or not all(is_read(entry) for entry in state.entries.values()):
        return None
    named = set()
    for entry in state.entries.values():
        named.update(entry.value.get("evidence", ()))
        if is_hex64(entry.value["body"].get("photo")):
            named.add(entry.value["body"]["photo"])
    return named
