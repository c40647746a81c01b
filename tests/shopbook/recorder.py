"""
A layer under SQLite and `os` that writes down every change to a folder, in order; run as a process.

SQLite's own file layer (sqlite.org, "The SQLite OS Interface or VFS") stays at work: of each file
that it opens, `xWrite`, `xTruncate` and `xSync` are led through here first. What the store does
with `os` (new files, renames, fsync of files and folders) is taken down beside it.
"""

import _sqlite3
import ctypes as c
import os
import pickle
import sys
from collections.abc import Callable
from typing import Any

from fastkit.shopbook import rows, store
from fastkit.shopbook.rows import SINCE, Attempt

P, I, I64 = c.c_void_p, c.c_int, c.c_int64  # noqa: E741
WRITE, TRUNCATE = c.CFUNCTYPE(I, P, P, I, I64), c.CFUNCTYPE(I, P, I64)
SYNC, CLOSE = c.CFUNCTYPE(I, P, I), c.CFUNCTYPE(I, P)
OPEN = c.CFUNCTYPE(I, P, P, P, I, P)  # SQLite keeps the name where it lies
DELETE = c.CFUNCTYPE(I, P, c.c_char_p, I)


class Vfs(c.Structure):
    """sqlite3_vfs as far as what is replaced; the rest is copied as bytes."""

    _fields_ = (
        ("version", I),
        ("file_size", I),
        ("longest", I),
        ("next", P),
        ("name", c.c_char_p),
        ("data", P),
        ("open", OPEN),
        ("delete", DELETE),
        ("rest", P * 16),
    )


class Methods(c.Structure):
    """sqlite3_io_methods, all of its versions."""

    _fields_ = (
        ("version", I),
        ("close", CLOSE),
        ("read", P),
        ("write", WRITE),
        ("truncate", TRUNCATE),
        ("sync", SYNC),
        ("rest", P * 13),
    )


class File(c.Structure):
    """sqlite3_file: its methods; what belongs to the layer below lies behind."""

    _fields_ = (("methods", c.POINTER(Methods)),)


LOG: list[tuple[Any, ...]] = []
KEPT: list[object] = []  # what SQLite points to must not be collected


def record_sqlite() -> None:
    """Put the layer in, as the one that every connection of this process gets."""
    library = c.CDLL(_sqlite3.__file__)  # symbols of what it is linked with, too
    library.sqlite3_vfs_find.restype = c.POINTER(Vfs)
    below = library.sqlite3_vfs_find(None).contents

    def opened(vfs: int, at: int | None, file: int, flags: int, out: int) -> int:
        name = os.fsdecode(c.string_at(at)) if at else ""
        fresh = not os.path.exists(name)  # noqa: PTH110
        status = below.open(c.addressof(below), at, file, flags, out)
        if status == 0 and name:
            if fresh:
                LOG.append(("create", name))
            _lead_through(file, name)
        return int(status)

    def deleted(vfs: int, name: bytes, sync: int) -> int:
        LOG.append(("unlink", os.fsdecode(name)))
        return int(below.delete(c.addressof(below), name, sync))

    mine = Vfs.from_buffer_copy(below)
    mine.name, mine.open, mine.delete = b"recorder", OPEN(opened), DELETE(deleted)
    KEPT.extend((mine, library, below))
    assert library.sqlite3_vfs_register(c.byref(mine), 1) == 0


def _lead_through(address: int, name: str) -> None:
    """Lead what changes an open file through the log."""
    file = File.from_address(address)
    real = file.methods.contents
    handle = len(KEPT)
    LOG.append(("open", handle, name))

    def write(at: int, data: int, size: int, offset: int) -> int:
        LOG.append(("write", handle, offset, c.string_at(data, size)))
        return int(real.write(at, data, size, offset))

    def truncate(at: int, size: int) -> int:
        LOG.append(("truncate", handle, size))
        return int(real.truncate(at, size))

    def sync(at: int, flags: int) -> int:
        LOG.append(("sync", handle))
        return int(real.sync(at, flags))

    mine = Methods.from_buffer_copy(real)
    mine.version = min(mine.version, 2)  # no memory map, which would pass by
    mine.write, mine.truncate, mine.sync = WRITE(write), TRUNCATE(truncate), SYNC(sync)
    KEPT.extend((mine, real))
    file.methods = c.pointer(mine)


def record_os() -> None:
    """The same for what the store does itself."""
    paths: dict[int, str] = {}

    def around(name: str, told: Callable[..., None]) -> None:
        real = getattr(os, name)

        def call(*args: Any, **more: Any) -> Any:
            fresh = name == "open" and not os.path.exists(args[0])  # noqa: PTH110
            found = real(*args, **more)
            told(found, fresh, *map(str, args))
            return found

        setattr(os, name, call)

    def opened(handle: int, fresh: bool, path: str, *_: str) -> None:
        paths[handle] = path
        if fresh:
            LOG.append(("create", path))

    def renamed(_: None, __: bool, source: str, target: str) -> None:
        LOG.append(("rename", source, target))

    around("open", opened)
    around("fsync", lambda _, __, handle: LOG.append(("fsync", paths[int(handle)])))
    around("rename", renamed)
    around("replace", renamed)
    around("unlink", lambda _, __, path, *___: LOG.append(("unlink", path)))


def main(out: str, version: int, count: int) -> None:
    """Write so many notes, the first into a file of a version (0: into none); keep the log."""
    whole, tables = rows.MIGRATIONS, dict(rows.TABLES)
    if version:
        store.MIGRATIONS = whole[:version]
        store.TABLES = {k: name for k, name in tables.items() if SINCE.get(k, 1) <= version}
    record_sqlite()
    record_os()
    for number in range(count):
        if number == 1:
            store.MIGRATIONS, store.TABLES = whole, tables
        with store.writing() as pen:
            pen.add(Attempt(0, "", f"n{number}", "ok", "worn", "rusted", "", "x" * 900 * number))
        LOG.append(("said", number))
    with open(out, "wb") as file:  # noqa: PTH123
        pickle.dump(LOG, file)


if __name__ == "__main__":
    main(sys.argv[1], int(sys.argv[2]), int(sys.argv[3]))
