"""Writes IPs in the form of SPEC.md L37, and bent in any of its headers."""

import struct
import zlib


class Part:
    """One member, each header of which a test may bend: `local` and `central` override fields by name."""

    def __init__(self, name, data):
        self.name, self.data, self.before, self.after = name.encode("latin-1"), data, b"", b""
        self.local, self.central = {}, {}

    def stream(self, **changes):
        """Written as by one who streams (L37); `changes` bends the descriptor."""
        self.local.update(flags=8, crc=0, packed=0, size=0)
        self.central.update(flags=8)
        fields = dict({"mark": b"PK\x07\x08", "crc": zlib.crc32(self.data), "packed": len(self.data),
                       "size": len(self.data)}, **changes)
        self.after = struct.pack("<4s3L", fields["mark"], fields["crc"], fields["packed"], fields["size"])
        return self

    def fields(self, changes):
        fields = {"version": 20, "flags": 0, "method": 0, "time": 0, "date": 0x21, "crc": zlib.crc32(self.data),
                  "packed": len(self.data), "size": len(self.data), "name": self.name, "extra": b"", "comment": b""}
        fields.update(changes)
        return fields

    def local_bytes(self):
        f = self.fields(self.local)
        return struct.pack("<4s5H3L2H", b"PK\x03\x04", f["version"], f["flags"], f["method"], f["time"], f["date"],
                           f["crc"], f["packed"], f["size"], len(f["name"]), len(f["extra"])) + f["name"] + f["extra"]

    def central_bytes(self, offset):
        f = dict({"attributes": 0x81A40000, "made": 0x031E, "offset": offset}, **self.fields(self.central))
        return struct.pack("<4s6H3L5H2L", b"PK\x01\x02", f["made"], f["version"], f["flags"], f["method"], f["time"],
                           f["date"], f["crc"], f["packed"], f["size"], len(f["name"]), len(f["extra"]),
                           len(f["comment"]), 0, 0, f["attributes"], f["offset"]) + f["name"] + f["extra"] + f["comment"]


def parts_of(files):
    return [Part(name, files[name]) for name in sorted(files)]


def pack(parts, lead=b"", gap=b"", tail=b"", comment=b"", extra_count=0, zip64=None):
    """The IP; `zip64` is True to write its end record whether or not it is needed."""
    out, offsets = bytearray(lead), []
    for part in parts:
        out += part.before
        offsets.append(len(out))
        out += part.local_bytes() + part.data + part.after
    out += gap
    start = len(out)
    for part, offset in zip(parts, offsets):
        out += part.central_bytes(offset)
    size, count = len(out) - start, len(parts) + extra_count
    if zip64 or (zip64 is None and count >= 0xFFFF):
        end64 = len(out)
        out += struct.pack("<4sQ2H2L4Q", b"PK\x06\x06", 44, 45, 45, 0, 0, count, count, size, start)
        out += struct.pack("<4sLQL", b"PK\x06\x07", 0, end64, 1)
    short = min(count, 0xFFFF)
    out += struct.pack("<4s4H2LH", b"PK\x05\x06", 0, 0, short, short, size, start, len(comment)) + comment
    return bytes(out + tail)
