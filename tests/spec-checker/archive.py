"""A strict reader of the ZIP form of SPEC.md L37: nothing hidden, nothing said twice in two ways.

The file is mapped and hashed in pieces, since a record's photos may be large.
"""

import hashlib
import mmap
import os
import struct
import zlib
from collections import namedtuple

import formats

END = struct.Struct("<4s4H2LH")
END64 = struct.Struct("<4sQ2H2L4Q")
LOCATOR64 = struct.Struct("<4sLQL")
CENTRAL = struct.Struct("<4s6H3L5H2L")
LOCAL = struct.Struct("<4s5H3L2H")
DESCRIPTOR = struct.Struct("<4s3L")     # signature, CRC, stored size, size
DESCRIPTOR64 = struct.Struct("<4sL2Q")

FULL16, FULL32 = 0xFFFF, 0xFFFFFFFF
UTF8_FLAG = 0x0800      # L37: says that names are UTF-8, which ASCII is
STREAM_FLAG = 0x0008    # L37: sizes and CRC are not in the local header but in a descriptor after the bytes
NO_TIME, FIRST_DAY = 0, 0x0021   # L37: 1980-01-01 00:00
PLAIN_FILE = 0x81A40000          # L37: the external attributes of a plain file, mode 0644
NEWEST_VERSION = 45     # what ZIP64 needs; anything above means a feature that a record doesn't use
PIECE = 1 << 20

Directory = namedtuple("Directory", "offset size count end")
Member = namedtuple("Member", "name offset size sha256")
Span = namedtuple("Span", "begin stop name start size crc")


class Archive:
    """Members by name; `faults` is a list of (name or '-', sentence), each a `zip-malformed`."""

    def __init__(self, path):
        self.members, self.faults = {}, []
        self.file = open(path, "rb")
        self.length = os.fstat(self.file.fileno()).st_size
        self.map = mmap.mmap(self.file.fileno(), 0, access=mmap.ACCESS_READ) if self.length else b""
        try:
            self._read()
        except struct.error:
            self._fault("-", "the ZIP ends in the middle of one of its headers")

    def close(self):
        if self.length:
            self.map.close()
        self.file.close()

    def read(self, name, limit):
        """A member's bytes, or None where there are more than `limit`."""
        member = self.members[name]
        return self.map[member.offset:member.offset + member.size] if member.size <= limit else None

    def _fault(self, name, sentence):
        self.faults.append((name, sentence))

    def _unpack(self, form, offset):
        if offset < 0 or offset + form.size > self.length:
            raise struct.error("beyond the file")
        return form.unpack(self.map[offset:offset + form.size])

    # ------------------------------------------------------------ the end record

    def _read(self):
        directory = self._directory()
        if directory is None:
            return
        spans = self._members(directory)
        self._take_all(spans, directory)

    def _end_offset(self):
        """Where the end record stands: at the very end (L37: no byte lies outside)."""
        exact = self.length - END.size
        if exact >= 0 and self.map[exact:exact + 4] == b"PK\x05\x06" and self.map[exact + 20:] == b"\0\0":
            return exact
        window = max(0, self.length - END.size - FULL16)
        found = self.map[window:].rfind(b"PK\x05\x06")
        if found < 0:
            self._fault("-", "this is no ZIP file, or its end is missing")
            return None
        self._fault("-", "there are bytes after the ZIP's end record, or a comment in it")
        return window + found

    def _directory(self):
        end = self._end_offset()
        if end is None:
            return None
        _, disk, first_disk, here, count, size, offset, _ = self._unpack(END, end)
        if disk or first_disk or here != count:
            self._fault("-", "the ZIP is one of several parts")
        if count == FULL16 or size == FULL32 or offset == FULL32:
            return self._directory64(end, count, size, offset)
        return Directory(offset, size, count, end)

    def _directory64(self, end, count, size, offset):
        """ZIP64, only where a number really doesn't fit the older form."""
        mark, disk, start, disks = self._unpack(LOCATOR64, end - LOCATOR64.size)
        if mark != b"PK\x06\x07":
            # Then 0xFFFF may be a plain count of members.
            return Directory(offset, size, count, end)
        mark, length, _, _, on, first, here64, count64, size64, offset64 = self._unpack(END64, start)
        if (mark != b"PK\x06\x06" or length != END64.size - 12 or start + END64.size != end - LOCATOR64.size
                or disk or on or first or disks != 1 or here64 != count64):
            self._fault("-", "the ZIP64 end record is out of form")
            return None
        for short, long, full in ((count, count64, FULL16), (size, size64, FULL32), (offset, offset64, FULL32)):
            if short != (long if long < full else full):
                self._fault("-", "the ZIP64 end record and the plain one don't agree")
        if count64 < FULL16 and size64 < FULL32 and offset64 < FULL32:
            self._fault("-", "a ZIP64 end record where none is needed")
        return Directory(offset64, size64, count64, start)

    # ------------------------------------------------------------ members

    def _members(self, directory):
        """Every member of the central directory; gives the stretch of bytes that each takes."""
        at, stop, spans = directory.offset, directory.offset + directory.size, []
        if stop != directory.end:
            self._fault("-", "the central directory doesn't end where the end record begins")
        for _ in range(directory.count):
            if at + CENTRAL.size > self.length or self.map[at:at + 4] != b"PK\x01\x02":
                self._fault("-", "the central directory holds fewer members than it says")
                break
            fields = self._unpack(CENTRAL, at)
            after = at + CENTRAL.size + sum(fields[10:13])
            span = self._member(at, fields)
            if span:
                spans.append(span)
            at = after
        if at != stop:
            self._fault("-", "the central directory is not as long as the end record says")
        return spans

    def _member(self, at, fields):
        (_, _, version, flags, method, time, date, crc, packed, size, name_length, extra_length, comment_length,
         disk, _, attributes, offset) = fields
        raw_name = self.map[at + CENTRAL.size:at + CENTRAL.size + name_length]
        extra = self.map[at + CENTRAL.size + name_length:at + CENTRAL.size + name_length + extra_length]
        name = raw_name.decode("latin-1")
        problem = formats.name_problem(name)
        if problem:
            self._fault(name, "the name %s" % problem)
        if comment_length or disk:
            self._fault(name, "the member has a comment or lies on another part")
        wide = self._wide(name, extra, (size, packed, offset))
        if wide is None:
            return None
        size, packed, offset = wide
        if method != 0 or packed != size:
            self._fault(name, "the member is not stored as it is (method %d)" % method)
        if flags & ~(UTF8_FLAG | STREAM_FLAG):
            self._fault(name, "the member has flags 0x%04x: encrypted, patched or the like" % flags)
        if (time, date) != (NO_TIME, FIRST_DAY):
            self._fault(name, "the member's time is not 1980-01-01 00:00")
        if attributes != PLAIN_FILE:
            self._fault(name, "the member's attributes are 0x%08x, not those of a plain file" % attributes)
        if version > NEWEST_VERSION:
            self._fault(name, "the member needs a newer ZIP than records are made with")
        stated = (version, flags, method, time, date, crc, raw_name, size, packed)
        start = self._local(name, offset, stated)
        if start is None:
            return None
        stop = start + packed
        if flags & STREAM_FLAG:
            stop += self._descriptor(name, stop, crc, size, packed)
        return Span(offset, stop, name, start, packed, crc)

    def _descriptor(self, name, at, crc, size, packed):
        """How long the data descriptor after the member's bytes is, it having been compared with the directory."""
        form = DESCRIPTOR64 if max(size, packed) >= FULL32 else DESCRIPTOR
        if at + form.size > self.length or self.map[at:at + 4] != b"PK\x07\x08":
            self._fault(name, "there is no data descriptor with its signature after the member's bytes")
            return 0
        if self._unpack(form, at)[1:] != (crc, packed, size):
            self._fault(name, "the data descriptor and the central directory don't agree")
        return form.size

    def _wide(self, name, extra, values):
        """The sizes and offset; those that say 0xFFFFFFFF are in the ZIP64 field, and no other field may be there."""
        wanted = [number for number, value in enumerate(values) if value == FULL32]
        if not wanted and extra == b"":
            return values
        form = struct.Struct("<2H%dQ" % len(wanted))
        if not wanted or len(extra) != form.size:
            self._fault(name, "an extra field that has no place in a record")
            return values if not wanted else None
        kind, length, *numbers = form.unpack(extra)
        if kind != 1 or length != form.size - 4 or any(number < FULL32 for number in numbers):
            self._fault(name, "a ZIP64 field out of form or where none is needed")
            return None
        values = list(values)
        for number, value in zip(wanted, numbers):
            values[number] = value
        return tuple(values)

    def _local(self, name, offset, stated):
        """Where the member's bytes begin, its local header having been compared with the central one."""
        if offset + LOCAL.size > self.length or self.map[offset:offset + 4] != b"PK\x03\x04":
            self._fault(name, "there is no local header where the directory says")
            return None
        _, version, flags, method, time, date, crc, packed, size, name_length, extra_length = self._unpack(LOCAL, offset)
        at = offset + LOCAL.size
        raw_name = self.map[at:at + name_length]
        extra = self.map[at + name_length:at + name_length + extra_length]
        start = at + name_length + extra_length
        wide = self._wide(name, extra, (size, packed))
        if wide is None:
            return None
        if flags & STREAM_FLAG:
            if (crc, size, packed, extra) != (0, 0, 0, b""):
                self._fault(name, "the local header states sizes or a CRC although a data descriptor follows")
            crc, wide = stated[5], stated[7:]
        if (version, flags, method, time, date, crc, raw_name) + wide != stated:
            self._fault(name, "the local header and the central directory don't agree")
        return start

    def _take(self, span):
        _, _, name, start, size, crc = span
        if start + size > self.length:
            self._fault(name, "the member's bytes go beyond the file")
            return
        if name in self.members:
            self._fault(name, "two members have this name")
            return
        digest, reached = hashlib.sha256(), 0
        for at in range(start, start + size, PIECE):
            piece = self.map[at:min(at + PIECE, start + size)]
            digest.update(piece)
            reached = zlib.crc32(piece, reached)
        if reached != crc:
            self._fault(name, "the member's CRC is not that of its bytes")
        self.members[name] = Member(name, start, size, digest.hexdigest())

    def _take_all(self, spans, directory):
        """L37: members lie one after the other from the first byte to the directory."""
        reached = 0
        for span in sorted(spans):
            if span.begin < reached:
                # Not hashed either: many members over the same bytes would keep a checker busy for days.
                self._fault(span.name, "the member lies over another one")
                continue
            if span.begin > reached:
                self._fault(span.name, "bytes lie before this member that belong to nothing")
            reached = span.stop
            self._take(span)
        if reached != directory.offset:
            self._fault("-", "the central directory doesn't begin where the last member ends")
