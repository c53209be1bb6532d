"""Small values that occur in many formats, read strictly: every reader raises Malformed and nothing else."""

import base64
import binascii
import datetime
import re

MAX_INTEGER = 2 ** 53 - 1        # L2 and L51

UUID = re.compile(r"[0-9a-f]{8}-[0-9a-f]{4}-[0-9a-f]{4}-[0-9a-f]{4}-[0-9a-f]{12}")
UUID7 = re.compile(r"[0-9a-f]{8}-[0-9a-f]{4}-7[0-9a-f]{3}-[89ab][0-9a-f]{3}-[0-9a-f]{12}")
HEX64 = re.compile(r"[0-9a-f]{64}")
DECIMAL = re.compile(r"0|[1-9][0-9]{0,15}")
KIND = re.compile(r"[a-z]+\.[a-z]+")
LOCAL_TIME = re.compile(
    r"([0-9]{4})-([0-9]{2})-([0-9]{2})T([0-9]{2}):([0-9]{2})(?::([0-9]{2})(?:\.[0-9]{1,3})?)?"
    r"([+-])([0-9]{2}):([0-9]{2})")
UTC_TIME = re.compile(r"([0-9]{4})-([0-9]{2})-([0-9]{2})T([0-9]{2}):([0-9]{2}):([0-9]{2})\.([0-9]{3})Z")
LANGUAGE = re.compile(r"[A-Za-z]{1,8}(?:-[A-Za-z0-9]{1,8})*")
ORIGIN = re.compile(r"(?:screedbook|screedbook-demo)/(" + UUID.pattern + r")")


class Malformed(Exception):
    """These bytes aren't of the form that the rule gives."""


class FormatUnknown(Malformed):
    """The first line names a version that this page doesn't describe (L44)."""


def is_uuid(value):
    return isinstance(value, str) and UUID.fullmatch(value) is not None


def is_hex64(value):
    return isinstance(value, str) and HEX64.fullmatch(value) is not None


def is_integer(value):
    return isinstance(value, int) and not isinstance(value, bool)


def _is_clock_time(year, month, day, hour, minute, second):
    try:
        datetime.datetime(int(year), int(month), int(day), int(hour), int(minute), int(second or 0))
    except ValueError:
        return False
    return True


def is_local_time(value):
    """L6 `occurredAt`: local time with its offset."""
    found = LOCAL_TIME.fullmatch(value) if isinstance(value, str) else None
    if not found or not _is_clock_time(*found.groups()[:6]):
        return False
    sign, hours, minutes = found.group(7), int(found.group(8)), int(found.group(9))
    if sign == "-" and hours == minutes == 0:
        return False  # UTC is `+00:00`
    return minutes <= 59 and hours * 60 + minutes <= 14 * 60


def utc_milliseconds(value):
    """L38 `made`: the milliseconds since 1970 that this time names."""
    found = UTC_TIME.fullmatch(value)
    if not found or not _is_clock_time(*found.groups()[:6]):
        raise Malformed("'%s' is not a time as 2026-04-21T16:20:31.125Z" % value)
    whole = datetime.datetime(*(int(part) for part in found.groups()[:6]))
    since = whole - datetime.datetime(1970, 1, 1)
    return (since.days * 86400 + since.seconds) * 1000 + int(found.group(7))


def decode_base64(text, length=None):
    """L51: padded base64; other spellings of the same bytes are refused."""
    try:
        data = base64.b64decode(text.encode("ascii"), validate=True)
    except (UnicodeEncodeError, binascii.Error, ValueError):
        raise Malformed("not base64")
    if base64.b64encode(data).decode("ascii") != text:
        raise Malformed("base64 that is not in its one canonical spelling")
    if length is not None and len(data) != length:
        raise Malformed("base64 of %d bytes where %d belong" % (len(data), length))
    return data


def decimal(text):
    """L51: decimal without sign or leading zero, at most 2^53 - 1."""
    if not DECIMAL.fullmatch(text) or int(text) > MAX_INTEGER:
        raise Malformed("'%s' is not a decimal number" % text[:40])
    return int(text)


def text_of(data, what):
    try:
        return data.decode("utf-8")
    except UnicodeDecodeError:
        raise Malformed("%s is not UTF-8" % what)


def lines_of(text, what):
    """The lines of a text in which each line ends in a newline."""
    if not text.endswith("\n"):
        raise Malformed("the last line of %s doesn't end in a newline" % what)
    return text[:-1].split("\n")


def require_version(line, wanted):
    """L44: an unknown version isn't the same as a first line of another kind."""
    if line == wanted:
        return
    stem = re.match(r".*[/@]v", wanted).group(0)
    if re.fullmatch(re.escape(stem) + r"[0-9][0-9A-Za-z.\-]*", line):
        raise FormatUnknown("'%s' is a version that this checker doesn't know" % line[:80])
    raise Malformed("the first line is not '%s'" % wanted)
