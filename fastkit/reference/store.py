"""The compiled file: where it lies, opened read-only, and whether it is up to date."""

import os
import sqlite3
from pathlib import Path
from typing import Any

from fastkit.errors import Broken

BUILT = Path(__file__).with_name("reference.db")
CHECKOUT = Path(__file__).parents[2] / "data"  # beside the package in a checkout only
REBUILD = "python -m fastkit.compiler"
SCHEMA_VERSION = "1"


def data_folder() -> Path | None:
    """The folder the file is compiled from, where the package runs from a checkout; else None."""
    return CHECKOUT if (CHECKOUT / "sources.toml").is_file() else None


def remedy() -> str:
    """What puts a missing or damaged file right here: rebuild it, or install again."""
    return f"run `{REBUILD}`" if data_folder() else "install fastkit again"


def connect(path: Path | None = None) -> sqlite3.Connection:
    """
    Open the compiled file read-only.

    `immutable` spares the locks, so that a read-only folder does; `as_uri` escapes what a path
    may hold (`#`, `?`, blanks).

    Raises:
        Broken: When the file is missing, unreadable or not a compiled reference.
    """
    file = path or BUILT
    if not file.is_file():
        raise Broken(f"the compiled data file {file.name} is missing: {remedy()}")
    try:
        store = sqlite3.connect(f"{file.resolve().as_uri()}?mode=ro&immutable=1", uri=True)
        store.execute("SELECT 1 FROM meta LIMIT 1").fetchone()
    except sqlite3.Error as error:
        raise Broken(f"cannot read the data file {file.name} ({error}): {remedy()}") from error
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


def version_of(folder: Path) -> str:
    """First 12 hex digits of SHA-256 over the names and bytes of the data files, sorted by name."""
    from hashlib import sha256

    digest = sha256()
    for file in sorted(f for f in folder.iterdir() if f.suffix in {".csv", ".toml"}):
        digest.update(file.name.encode() + b"\0" + file.read_bytes() + b"\0")
    return digest.hexdigest()[:12]


def stale(path: Path | None = None) -> str | None:
    """
    One line where the compiled file is older than the data beside it and differs from it.

    The clock of the files decides first, because this runs with every command: only where a data
    file is newer are the contents compared.
    """
    file, folder = path or BUILT, data_folder()
    if folder is None or not file.is_file():
        return None
    built = file.stat().st_mtime_ns
    newest = max(
        folder.stat().st_mtime_ns, *(entry.stat().st_mtime_ns for entry in os.scandir(folder))
    )
    if newest <= built:
        return None
    return differs(path)


def differs(path: Path | None = None) -> str | None:
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
