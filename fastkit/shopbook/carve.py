"""
Rows out of the raw bytes of a damaged own file, each proved by its own checksum.

Pages, cells and records as the SQLite file format defines them (sqlite.org, "Database File
Format", sections 1.6 and 2.1).
"""

import struct
from collections.abc import Iterator
from typing import Any
from zlib import crc32

from fastkit.shopbook.rows import FLOATS, TABLES

PAGE = 4096  # set when the file is made
LEAF = 0x0D  # first byte of a page that holds rows of a table
INT_SIZES = (0, 1, 2, 3, 4, 6, 8)  # bytes by serial type


def checksum(kind: Any, values: tuple[Any, ...]) -> int:
    """CRC-32 over a row's table and values; it tells a row from one whose bits have changed."""
    return crc32(repr((TABLES[kind], *values)).encode())


def typed(kind: Any, values: tuple[Any, ...]) -> tuple[Any, ...]:
    """The values as SQLite gives them back: floats in REAL columns, nought without a sign."""
    return tuple(
        float(value) + 0.0 if isinstance(value, int | float) and name.endswith(FLOATS) else value
        for name, value in zip(kind._fields, values, strict=True)
    )


def carve(raw: bytes) -> tuple[list[Any], int]:
    """
    The rows that can be proved, ordered by id, and how many records were seen that cannot.

    Args:
        raw: The whole file, or what is left of it.
    """
    found: dict[tuple[str, int], Any] = {}
    lost = 0
    for start in range(0, len(raw), PAGE):
        head = start + (100 if start == 0 else 0)  # the file header lies on the first page
        if len(raw) < head + 8 or raw[head] != LEAF:
            continue
        (cells,) = struct.unpack_from(">H", raw, head + 3)
        for number in range(min(cells, PAGE // 4)):
            try:
                (at,) = struct.unpack_from(">H", raw, head + 8 + 2 * number)
                row = _row(raw, start + at)
            except (struct.error, IndexError, ValueError):
                lost += 1  # a cell that points nowhere, or a record that breaks off
                continue
            if row is not None:
                found[TABLES[type(row)], row.id] = row
            elif start:  # the first page holds the schema
                lost += 1
    return sorted(found.values(), key=lambda row: row.id), lost


def _row(raw: bytes, at: int) -> Any:
    """The row whose cell begins at a place; None where no table's checksum fits it."""
    size, at = _varint(raw, at)
    rowid, at = _varint(raw, at)
    values = _record(_payload(raw, at, size))
    for kind in TABLES:
        fields: Any = kind
        if len(values) == len(fields._fields) + 1:
            plain = typed(kind, (rowid, *values[1:-1]))
            if checksum(kind, plain) == values[-1]:
                return fields._make(plain)
    return None


def _payload(raw: bytes, at: int, size: int) -> bytes:
    """A record whole, from its cell and the overflow pages behind it."""
    most, least = PAGE - 35, (PAGE - 12) * 32 // 255 - 23
    if size <= most:
        local = size
    else:
        local = least + (size - least) % (PAGE - 4)
        local = local if local <= most else least
    parts = [raw[at : at + local]]
    left, follow = size - local, raw[at + local : at + local + 4]
    for _ in range(left // (PAGE - 4) + 1):
        if left <= 0:
            break
        start = (int.from_bytes(follow, "big") - 1) * PAGE
        if not 0 <= start < len(raw):
            raise ValueError("an overflow page that is not there")
        follow = raw[start : start + 4]
        parts.append(raw[start + 4 : start + 4 + min(left, PAGE - 4)])
        left -= PAGE - 4
    return b"".join(parts)


def _record(payload: bytes) -> list[Any]:
    end, at = _varint(payload, 0)
    types = []
    while at < end:
        serial, at = _varint(payload, at)
        types.append(serial)
    values, at = [], end
    for serial, size in _sizes(types):
        piece = payload[at : at + size]
        if len(piece) < size:
            raise ValueError("a record that breaks off")
        values.append(_value(serial, piece))
        at += size
    return values


def _sizes(types: list[int]) -> Iterator[tuple[int, int]]:
    for serial in types:
        if serial < len(INT_SIZES):
            yield serial, INT_SIZES[serial]
        else:
            yield serial, 8 if serial == 7 else max(0, (serial - 12) // 2)


def _value(serial: int, piece: bytes) -> Any:
    if serial == 0:
        return None
    if serial < len(INT_SIZES):
        return int.from_bytes(piece, "big", signed=True)
    if serial == 7:
        return struct.unpack(">d", piece)[0]
    if serial in (8, 9):
        return serial - 8
    return piece.decode() if serial % 2 else piece


def _varint(raw: bytes, at: int) -> tuple[int, int]:
    """A number of one to nine bytes and the place behind it."""
    value = 0
    for count in range(9):
        byte = raw[at + count]
        if count == 8:
            return value << 8 | byte, at + 9
        value = value << 7 | byte & 0x7F
        if byte < 0x80:
            return value, at + count + 1
    raise ValueError("unreachable")  # pragma: no cover
