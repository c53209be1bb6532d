"""The canonical JSON of SPEC.md L1-L4."""

import json

from values import MAX_INTEGER, Malformed, is_integer, text_of

MAX_ENTRY_BYTES = 16384          # L3
MAX_ENTRY_DEPTH = 12             # L3

ESCAPES = {'"': '\\"', "\\": "\\\\", "\b": "\\b", "\f": "\\f", "\n": "\\n", "\r": "\\r", "\t": "\\t"}


def canonical_string(value):
    """RFC 8785 section 3.2.2.2."""
    parts = ['"']
    for character in value:
        if character in ESCAPES:
            parts.append(ESCAPES[character])
        elif character < " ":
            parts.append("\\u%04x" % ord(character))
        else:
            parts.append(character)
    parts.append('"')
    return "".join(parts)


def canonical_text(value, depth=1):
    """L1-L3: the canonical form of objects, arrays, strings and integers; all else is refused."""
    if isinstance(value, str):
        return canonical_string(value)
    if is_integer(value):
        if abs(value) > MAX_INTEGER:
            raise Malformed("an integer beyond 2^53 - 1")
        return str(value)
    if not isinstance(value, (dict, list)):
        raise Malformed("true, false, null or a fraction occurs")
    if depth > MAX_ENTRY_DEPTH:
        raise Malformed("values nest more than %d deep" % MAX_ENTRY_DEPTH)
    if isinstance(value, list):
        return "[" + ",".join(canonical_text(item, depth + 1) for item in value) + "]"
    # UTF-16 code units order some names otherwise than code points do.
    names = sorted(value, key=lambda name: name.encode("utf-16-be", "surrogatepass"))
    return "{" + ",".join(canonical_string(name) + ":" + canonical_text(value[name], depth + 1)
                          for name in names) + "}"


def _pairs_without_repeats(pairs):
    value = dict(pairs)
    if len(value) != len(pairs):
        raise Malformed("an object has a member name twice")  # L4
    return value


def _small_integer(text):
    if len(text) > 17:
        raise Malformed("an integer beyond 2^53 - 1")
    return int(text)


def _refuse_number(text):
    raise Malformed("'%s' is not an integer" % text[:40])  # L2


DECODER = json.JSONDecoder(object_pairs_hook=_pairs_without_repeats, parse_int=_small_integer,
                           parse_float=_refuse_number, parse_constant=_refuse_number)


def parse_canonical(data):
    """L1-L4: parse, write canonically, compare bytes."""
    if len(data) > MAX_ENTRY_BYTES:
        raise Malformed("longer than %d bytes" % MAX_ENTRY_BYTES)  # L3
    try:
        value = DECODER.decode(text_of(data, "the entry"))
    except (json.JSONDecodeError, RecursionError) as why:
        raise Malformed("not a JSON text that can be read (%s)" % type(why).__name__)
    try:
        again = canonical_text(value).encode("utf-8")
    except UnicodeEncodeError:
        raise Malformed("a string holds a lone surrogate")  # L2
    if again != data:
        raise Malformed("the bytes are not their own canonical form")  # L4
    return value
