"""Entries: SPEC.md L5-L9, L28-L32, L50 and L53-L56."""

import re
from collections import namedtuple

import merkle
from canonical import parse_canonical
from values import KIND, LANGUAGE, UUID7, Malformed, decode_base64, is_hex64, is_integer, is_local_time, is_uuid

KNOWN_RELEASE = 2                # L6: the greatest `v` that this checker can read

# L50, L54: who makes a kind is said there; which members of its body are read here, in L8, L28-L32, L53 and L56.
KNOWN_KINDS = frozenset("""
    job.opened concrete.ordered ticket.recorded load.arrived discharge.started discharge.ended load.left water.added
    slump.measured photo.taken remark.made entry.withdrawn person.added role.changed device.withdrawn
    photo.received company.founded owner.named device.enrolled entry.refused""".split())
KINDS_OF_RELEASE_2 = frozenset("""
    customer.named site.addressed placement.planned mix.ordered concrete.held balance.ordered delivery.promised
    dispatch.called base.checked depth.measured crew.ready discharge.paused discharge.resumed admixture.added
    air.measured density.measured flow.measured temperature.measured cylinders.made strength.reported limit.waived
    load.accepted load.rejected load.placed loads.joined concrete.left ticket.signed weather.observed rain.fell
    finish.done joint.sawn cure.applied cover.placed slab.served editions.chosen push.decided push.quarantined
    checkpoint.stamped""".split())
SERVERS_KINDS = frozenset(
    "company.founded device.enrolled owner.named entry.refused photo.received push.quarantined checkpoint.stamped".split())

REQUIRED_MEMBERS = ("v", "id", "job", "kind", "body", "occurredAt", "recordedAt", "boot", "mono", "device", "by",
                    "source")
LASTING_MEMBERS = ("id", "job", "kind", "device")  # L9: besides `v`, what keeps its form in every release
OPTIONAL_MEMBERS = ("evidence", "corrects", "why")
PERSON_KNOWN = ("own-device", "picked", "pin", "passkey")
SOURCES = ("tap", "voice", "photo", "import", "server")
USES = ("phone", "office", "server")
MOST_SET_ASIDE = 100             # L56
ROLES = ("owner", "foreman", "crew", "office")


def _is_by(value):
    if value == {"known": "server"}:
        return True
    return (isinstance(value, dict) and set(value) == {"known", "person"} and value["known"] in PERSON_KNOWN
            and is_uuid(value["person"]))


def _is_why(value):
    return (isinstance(value, dict) and set(value) == {"lang", "text"} and isinstance(value["text"], str)
            and isinstance(value["lang"], str) and LANGUAGE.fullmatch(value["lang"]) is not None)


def _is_hash_list(value):
    return isinstance(value, list) and len(value) > 0 and all(is_hex64(item) for item in value)


def _is_sorted_hash_list(value):
    return _is_hash_list(value) and value == sorted(set(value))


def _is_set_aside(value):
    return _is_hash_list(value) and len(value) <= MOST_SET_ASIDE


def _is_text(value):
    return isinstance(value, str)


def _is_count(value):
    return is_integer(value) and value >= 0


def _is_count_from_1(value):
    return is_integer(value) and value >= 1


def _is_nonce(value):
    return isinstance(value, str) and re.fullmatch(r"(?:[0-9a-f]{2}){8,32}", value) is not None


def _is_key(value):
    try:
        return isinstance(value, str) and len(decode_base64(value, 32)) == 32
    except Malformed:
        return False


MEMBER_FORMS = {
    "id": lambda value: isinstance(value, str) and UUID7.fullmatch(value) is not None,
    "job": is_uuid,
    "kind": lambda value: isinstance(value, str) and KIND.fullmatch(value) is not None,
    "body": lambda value: isinstance(value, dict),
    "occurredAt": is_local_time,
    "recordedAt": is_local_time,
    "boot": is_uuid,
    "mono": _is_count,
    "device": is_uuid,
    "by": _is_by,
    "source": lambda value: value in SOURCES,
    "evidence": _is_hash_list,
    "corrects": _is_sorted_hash_list,
    "why": _is_why,
}

BODY_FORMS = {
    "company.founded": {"name": _is_text, "zone": _is_text, "origin": _is_text, "logKey": _is_key},      # L28
    "device.enrolled": {"device": is_uuid, "key": _is_key, "use": lambda value: value in USES + ("shared",)},  # L29, L55
    "device.withdrawn": {"device": is_uuid},                                                             # L29
    "owner.named": {"person": is_uuid, "name": _is_text},                                                # L30
    "person.added": {"person": is_uuid, "name": _is_text, "role": lambda value: value in ROLES},         # L30
    "role.changed": {"person": is_uuid, "role": lambda value: value in ROLES},                           # L30
    "entry.refused": {"hash": is_hex64, "code": _is_text, "device": is_uuid},                            # L31
    "push.quarantined": {"device": is_uuid, "entries": _is_set_aside},                                   # L56
    "push.decided": {"device": is_uuid, "entries": _is_set_aside,
                     "verdict": lambda value: value in ("admitted", "declined")},                        # L56
    "checkpoint.stamped": {"size": _is_count_from_1, "token": is_hex64, "nonce": _is_nonce, "stampedAt": is_local_time},  # L57
    "photo.received": {"photo": is_hex64, "bytes": _is_count},                                           # L32
    "photo.taken": {"photo": is_hex64, "bytes": _is_count},                                              # L53
}


def body_problems(kind, entry):
    """What is amiss in the body of a kind that this page describes (L8, L28-L32, L53); other members pass."""
    body = entry["body"]
    problems = ["`body.%s` is missing or not as it should be" % name
                for name, holds in BODY_FORMS.get(kind, {}).items() if name not in body or not holds(body[name])]
    if kind == "entry.withdrawn" and (body != {} or "corrects" not in entry):
        problems.append("a withdrawal has an empty body and names what it takes back")  # L8
    if kind in SERVERS_KINDS and entry["by"]["known"] != "server":
        problems.append("`by` is not the server, who alone makes entries of this kind")  # L28-L32
    if kind == "photo.taken" and body.get("photo") not in entry.get("evidence", ()):
        problems.append("`body.photo` doesn't stand in the evidence")  # L53
    if kind == "device.enrolled" and body.get("use") == "shared" and entry["v"] < 2:
        problems.append("`body.use` is `shared`, which came with release 2")  # L55
    if kind == "device.enrolled" and "use" in body:
        # L29: only the server has no person.
        if body["use"] == "server" and "person" in body:
            problems.append("`body.person` of the server's own enrolment")
        if body["use"] != "server" and not is_uuid(body.get("person")):
            problems.append("`body.person` is missing or not a UUID")
    return problems


def is_known_kind(kind, release):
    """L54: a kind that is newer than the entry's release is an unknown one."""
    return kind in KNOWN_KINDS or (kind in KINDS_OF_RELEASE_2 and release >= 2)


def entry_problems(entry):
    """L6: every way in which this parsed entry is not one of the releases that are known."""
    problems = ["`%s` is missing" % name for name in REQUIRED_MEMBERS if name not in entry]
    problems += ["`%s` is not a member of an entry" % name[:40] for name in sorted(entry)
                 if name not in REQUIRED_MEMBERS + OPTIONAL_MEMBERS]
    bad = [name for name, holds in MEMBER_FORMS.items() if name in entry and not holds(entry[name])]
    problems += ["`%s` is not as it should be" % name for name in bad]
    if "why" in entry and "corrects" not in entry:
        problems.append("`why` stands without `corrects`")
    if not problems and is_known_kind(entry["kind"], entry["v"]):
        problems += body_problems(entry["kind"], entry)
    return problems


Entry = namedtuple("Entry", "hash value problems unread")


def read_entry(data):
    """L1-L9: the entry, what is amiss in it, and why it couldn't be read (if only that)."""
    hashed = merkle.leaf_hash(data)  # L5
    try:
        value = parse_canonical(data)
        if not isinstance(value, dict):
            raise Malformed("not an object")
        release = value.get("v")
        if not is_integer(release) or release < 1:
            raise Malformed("`v` is not a positive integer")
    except Malformed as why:
        return Entry(hashed, None, [str(why)], None)
    if release > KNOWN_RELEASE:
        problems = ["`%s` is not as it should be" % name for name in LASTING_MEMBERS
                    if name not in value or not MEMBER_FORMS[name](value[name])]
        return Entry(hashed, value, problems, None if problems else "it is of release %d" % release)  # L9
    problems = entry_problems(value)
    unread = None
    if not problems and not is_known_kind(value["kind"], release):
        unread = "this checker doesn't know the kind %s of release %d" % (value["kind"], release)  # L44
    return Entry(hashed, value, problems, unread)
