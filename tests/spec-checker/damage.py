"""Damages the bytes of a record's members and mends the ZIP's own sums over them."""

import io
import struct
import zipfile
import zlib


def sizes_of(record):
    """The names and sizes of all members that have any bytes."""
    with zipfile.ZipFile(io.BytesIO(record)) as archive:
        return [(info.filename, info.file_size) for info in archive.infolist() if info.file_size]


def data_of(record, name):
    """Where a member's bytes begin, and how many they are."""
    with zipfile.ZipFile(io.BytesIO(record)) as archive:
        info = archive.getinfo(name)
    name_length, extra_length = struct.unpack_from("<2H", record, info.header_offset + 26)
    return info.header_offset + 30 + name_length + extra_length, info.file_size


def central_of(record, name):
    """Where a member's header in the directory begins."""
    with zipfile.ZipFile(io.BytesIO(record)) as archive:
        at = archive.start_dir
    while record[at:at + 4] == b"PK\x01\x02":
        name_length, extra_length, comment_length = struct.unpack_from("<3H", record, at + 28)
        if record[at + 46:at + 46 + name_length] == name.encode("utf-8"):
            return at
        at += 46 + name_length + extra_length + comment_length
    raise KeyError(name)


def flip_in_member(record, name, at, bits=1):
    """The record with these bits of the member's byte at `at` flipped, and its CRC made right wherever it is stated."""
    start, size = data_of(record, name)
    central = central_of(record, name)
    damaged = bytearray(record)
    damaged[start + at] ^= bits
    crc = struct.pack("<L", zlib.crc32(damaged[start:start + size]))
    damaged[central + 16:central + 20] = crc
    flags, = struct.unpack_from("<H", record, central + 8)
    if flags & 8:
        stated = start + size + 4  # in the descriptor, after its signature
    else:
        with zipfile.ZipFile(io.BytesIO(record)) as archive:
            stated = archive.getinfo(name).header_offset + 14
    damaged[stated:stated + 4] = crc
    return bytes(damaged)
