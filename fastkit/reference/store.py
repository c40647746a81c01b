"""The compiled file: where it lies, opened read-only, and whether it is up to date."""

import os
import sqlite3
from os import path as paths  # pathlib costs a tenth of the bare imports at every start
from typing import TYPE_CHECKING, Any

from fastkit.errors import Broken

if TYPE_CHECKING:
    from pathlib import Path

ROOM = paths.dirname(paths.abspath(__file__))
BUILT = paths.join(ROOM, "reference.db")
CHECKOUT = paths.join(paths.dirname(paths.dirname(ROOM)), "data")  # in a checkout only
REBUILD = "python -m fastkit.compiler"
SCHEMA_VERSION = "1"
UNESCAPED = frozenset(
    b"abcdefghijklmnopqrstuvwxyzABCDEFGHIJKLMNOPQRSTUVWXYZ0123456789-._~/"
)  # RFC 3986, unreserved, and the separator


def data_folder() -> str | None:
    """The folder the file is compiled from, where the package runs from a checkout; else None."""
    return CHECKOUT if paths.isfile(paths.join(CHECKOUT, "sources.toml")) else None


def remedy() -> str:
    """What puts a missing or damaged file right here: rebuild it, or install again."""
    return f"run `{REBUILD}`" if data_folder() else "install fastkit again"


def address(file: str, query: str) -> str:
    """
    The file as SQLite's URI, with what a path may hold (`#`, `?`, blanks, any byte) escaped.

    >>> address("/a#b/c d.db", "mode=ro")
    'file:///a%23b/c%20d.db?mode=ro'
    """
    plain = os.fsencode(paths.abspath(file).replace(os.sep, "/"))
    escaped = "".join(chr(b) if b in UNESCAPED else f"%{b:02X}" for b in plain)
    return f"file://{'' if escaped.startswith('/') else '/'}{escaped}?{query}"


def connect(path: "Path | str | None" = None) -> sqlite3.Connection:
    """
    Open the compiled file read-only; `immutable` spares the locks, so that any folder will do.

    Raises:
        Broken: When the file is missing, unreadable or not a compiled reference.
    """
    file = os.fspath(path or BUILT)
    name = paths.basename(file)
    if not paths.isfile(file):
        raise Broken(f"the compiled data file {name} is missing: {remedy()}")
    try:
        store = sqlite3.connect(address(file, "mode=ro&immutable=1"), uri=True)
        store.execute("SELECT 1 FROM meta LIMIT 1").fetchone()
    except sqlite3.Error as error:
        raise Broken(f"cannot read the data file {name} ({error}): {remedy()}") from error
    return store


def query(
    store: sqlite3.Connection, sql: str, values: tuple[Any, ...] = ()
) -> list[tuple[Any, ...]]:
    """
    All rows of one question to the file.

    Raises:
        Broken: When the file is damaged or lacks a table or column.
    """
    try:
        return store.execute(sql, values).fetchall()
    except sqlite3.Error as error:
        raise Broken(f"the compiled data file cannot answer ({error}): {remedy()}") from error


def meta(store: sqlite3.Connection) -> dict[str, str]:
    """What the file says about itself: data_version, rows, schema_version."""
    return {str(key): str(value) for key, value in query(store, "SELECT key, value FROM meta")}


def version_of(folder: "Path | str") -> str:
    """First 12 hex digits of SHA-256 over the names and bytes of the data files, sorted by name."""
    from hashlib import sha256
    from pathlib import Path

    digest = sha256()
    for file in sorted(f for f in Path(folder).iterdir() if f.suffix in {".csv", ".toml"}):
        digest.update(file.name.encode() + b"\0" + file.read_bytes() + b"\0")
    return digest.hexdigest()[:12]


def stale(path: "Path | str | None" = None) -> str | None:
    """
    One line where the compiled file is older than the data beside it and differs from it.

    The clock of the files decides first, because this runs with every command: only where a data
    file is newer are the contents compared.
    """
    file, folder = os.fspath(path or BUILT), data_folder()
    if folder is None or not paths.isfile(file):
        return None
    stats = [os.stat(folder), *(entry.stat() for entry in os.scandir(folder))]
    newest = max(stat.st_mtime_ns for stat in stats)
    return differs(path) if newest > os.stat(file).st_mtime_ns else None


def differs(path: "Path | str | None" = None) -> str | None:
    """One line where the compiled file was made from other data than lie in the checkout."""
    folder = data_folder()
    if folder is None:
        return None
    store = connect(path)
    held = meta(store).get("data_version", "none")
    store.close()
    found = version_of(folder)
    if held == found:
        return None
    return f"the compiled data file ({held}) is out of date, data/ is {found}: run `{REBUILD}`"
