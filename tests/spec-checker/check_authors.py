"""L22-L29, L52, L55, L41.6 and L41.7: who made the entries, and whether a device has signed two histories."""

import formats
import merkle
import notes
from check_company import quoted_of_kind
from state import AUTHOR_NAME, device_of, is_read
from values import Malformed, decode_base64


class Author:
    """An entry whose author must be shown."""

    def __init__(self, digest, name, entry):
        self.digest, self.name, self.entry = digest, name, entry
        self.device = device_of(entry) if entry else None


# ---------------------------------------------------------------- devices

def find_server(enrolments):
    """L29: the one that enrolled itself at index 1; a quoted enrolment whose index could not be shown stands in."""
    own = [quoted for quoted in enrolments
           if quoted.entry.value["body"]["use"] == "server"
           and quoted.entry.value["body"]["device"] == quoted.entry.value["device"]]
    for index in (1, None):
        for quoted in own:
            if quoted.index == index:
                return quoted
    return None


def collect_devices(state):
    """L29 and L41.6: the devices that the server device enrolled, itself included."""
    enrolments = quoted_of_kind(state, "device.enrolled")
    # The first in the log counts, those of which the place isn't known come last.
    enrolments.sort(key=lambda quoted: (quoted.index is None, quoted.index or 0))
    first = find_server(enrolments)
    state.server = first.entry.value["device"] if first else None
    for quoted in enrolments:
        body = quoted.entry.value["body"]
        if state.server is None or quoted.entry.value["device"] != state.server:
            state.add("device-unknown", quoted.name, "this enrolment is not written by the server device")
        elif body["use"] == "server" and quoted is not first:
            state.add("device-unknown", quoted.name, "there is one server device, and this enrols another")
        elif body["device"] in state.devices:
            state.add("device-unknown", quoted.name, "the device %s is enrolled once more" % body["device"])
        else:
            state.devices[body["device"]] = decode_base64(body["key"], 32)
            state.enrolled[body["device"]] = body
    state.counts["devices"] = len(state.devices)


def device_unknown(state, name, device):
    state.add("device-unknown", name, "no quoted entry enrols the device %s" % device)


# ---------------------------------------------------------------- authors

def all_authors(state):
    """Every given entry, and each withheld one whose proof is there all the same."""
    found = {}
    for count, entry in sorted(state.entries.items()):
        found.setdefault(entry.hash, Author(entry.hash, "entries/%06d.json" % count, entry))
    for _, quoted in sorted(state.quoted.items()):
        if quoted.entry:
            found.setdefault(quoted.entry.hash, Author(quoted.entry.hash, quoted.name, quoted.entry))
    withheld = {leaf.entry for leaf in state.leaves if leaf} - set(found)
    for name, shape in state.names(AUTHOR_NAME):
        digest = bytes.fromhex(shape.group(1))
        if digest in withheld:
            found[digest] = Author(digest, name, None)
        elif digest not in found:
            state.add("file-unlisted", name, "it proves an entry that this record doesn't hold")  # L39
    return found.values()


def check_authors(state):
    shown, proofs = {}, 0
    for author in all_authors(state):
        name = "authors/%s.tlog-proof" % author.digest.hex()
        check_by(state, author)
        if author.device and author.device not in state.devices:
            device_unknown(state, author.name, author.device)
        if not state.has(name):
            state.add("author-missing", author.name, "there is no proof of this entry's author")
            continue
        proofs += 1
        state.guarded("author-proof", name, check_author, state, author, name, shown)
    state.counts["authors"] = proofs
    state.counts["heads"] = len(state.heads)
    check_forks(state)


def check_by(state, author):
    """L41.6: `by` is the server's exactly if the device is the server device."""
    if author.entry and is_read(author.entry) and state.server:
        if (author.entry.value["by"]["known"] == "server") != (author.device == state.server):
            state.add("author-differs", author.name, "`by` and `device` don't agree whether the server made it")
        check_hands(state, author)


def check_hands(state, author):
    """L55: `by` fits whose hands the device is in."""
    by, enrolled = author.entry.value["by"], state.enrolled.get(author.device)
    if by["known"] == "server" or enrolled is None or enrolled["use"] == "server":
        return
    if enrolled["use"] == "shared":
        if by["known"] == "own-device":
            state.add("author-differs", author.name, "the phone is shared, and `by` says that it is one's own")
    elif by["known"] == "picked" or by["person"] != enrolled["person"]:
        state.add("author-differs", author.name, "the device is one person's, and `by` is not that person on it")


def check_author(state, author, name, shown):
    """L27: an audit path from the entry's hash to a head of its device."""
    try:
        proof = formats.read_proof(state.read(name))
    except Malformed as why:
        state.head_unread = True
        state.fault("author-proof", name, why)
        return
    head = check_head(state, name, proof.note, author.device)
    if head is None:
        return
    if not merkle.inclusion_holds(author.digest, proof.index, head.size, proof.path, head.root):
        state.add("author-proof", name, "the audit path doesn't lead from the entry to the head's root")
        return
    if (proof.note, author.device) in state.heads:
        other = shown.setdefault((head.origin, proof.index), author.digest)
        if other != author.digest:
            # L41.7: trees that hold different entries at one index can't be consistent, whatever their sizes.
            state.add("heads-fork", name, "another entry stands at index %d of this device's log" % proof.index)


def check_head(state, name, data, device):
    """L23, L24 and L18: the head, if it has the form of one; noted in `heads` where it also verifies."""
    if (data, device) in state.heads:
        return state.heads[data, device][0]
    try:
        note = notes.read_note(data)
        first = note.text.split("\n", 1)[0]
        owner, _ = notes.read_head_origin(first, state.origin or "")
    except Malformed as why:
        state.head_unread = True
        state.fault("head-malformed", name, why)
        return None
    if device is None and owner not in state.devices:
        device_unknown(state, name, owner)
    verified = False
    if device not in (None, owner):
        state.add("head-signature", name, "the head is that of another device than the entry's")  # L52
    elif owner in state.devices:
        verified = notes.note_verifies(note, notes.make_key(first, state.devices[owner]), state.verifier)
        if not verified:
            state.add("head-signature", name, "no signature of the device's key verifies over the head")
    try:
        head = notes.read_head(note.text)
    except Malformed as why:
        state.head_unread = True
        state.fault("head-malformed", name, why)
        return None
    state.seen.setdefault(head.seen_size, name)
    if verified:
        state.heads[data, device] = (head, name)
    return head


# ---------------------------------------------------------------- forks

def check_forks(state):
    """L25 and L41.7: the heads of one device and epoch that have one size have one root."""
    roots = {}
    for head, name in state.heads.values():
        if roots.setdefault((head.origin, head.size), head.root) != head.root:
            state.add("heads-fork", name, "two heads of size %d of %s have different roots" % (head.size, head.origin))
