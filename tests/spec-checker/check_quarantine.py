"""L56: what a withdrawn device sent stands in the log only where an owner admitted it."""

from state import is_read

WAITING, ADMITTED, DECLINED, REFUSED = "waiting", "admitted", "declined", "refused"


def set_aside(state):
    """By entry hash (hex): the device that sent it and what became of it, as far as quoted entries say."""
    found = {}
    affairs = [quoted for quoted in state.quoted.values() if quoted.entry and quoted.leaf and is_read(quoted.entry)]
    for quoted in sorted(affairs, key=lambda quoted: (quoted.leaf.count, quoted.digest)):
        kind, body = quoted.entry.value["kind"], quoted.entry.value["body"]
        if kind == "push.quarantined":
            for digest in body["entries"]:
                found.setdefault(digest, (body["device"], WAITING))
        elif kind == "push.decided":
            for digest in body["entries"]:
                device, verdict = found.get(digest, (None, None))
                if device == body["device"] and verdict in (WAITING, DECLINED):
                    found[digest] = (device, body["verdict"])
        elif kind == "entry.refused":
            device, verdict = found.get(body["hash"], (None, None))
            if verdict == ADMITTED:
                found[body["hash"]] = (device, REFUSED)
    return found


def check_quarantine(state):
    found = set_aside(state)
    for line, leaf in enumerate(state.leaves, 1):
        device, verdict = found.get(leaf.entry.hex(), (None, ADMITTED)) if leaf else (None, ADMITTED)
        if verdict != ADMITTED:
            state.add("entry-set-aside", "thread.txt", "line %d: sent by %s after it was withdrawn, and %s"
                      % (line, device, verdict))
    for digest in state.quoted:
        if digest in found:
            state.add("entry-set-aside", "company/%s.leaf" % digest,
                      "an entry of the company's affairs that a withdrawn device sent")
    state.counts["set aside"] = len(found)
