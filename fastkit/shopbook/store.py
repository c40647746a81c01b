"""
One SQLite file that is never half written: read without a lock, written by one at a time.

A file comes into being whole (written beside, synced, renamed). Journal TRUNCATE with
synchronous=FULL syncs the file before a commit and the shortened journal after it, so that what
was acknowledged is on the disk, and a reader needs no right to write. Each row carries a checksum.
"""

import os
import sqlite3
import stat
from collections.abc import Iterator
from contextlib import closing, contextmanager, suppress
from datetime import UTC, datetime
from itertools import chain, count
from pathlib import Path
from typing import Any, NamedTuple, TypeVar

from fastkit.errors import Broken
from fastkit.shopbook.carve import PAGE, carve, checksum, typed
from fastkit.shopbook.place import file, known
from fastkit.shopbook.rows import MIGRATIONS, SINCE, TABLES, Undone

Row = TypeVar("Row", bound=tuple[Any, ...])
WAIT_S = 20.0
SETTINGS = ("journal_mode=TRUNCATE", "synchronous=FULL", "fullfsync=ON", "secure_delete=ON")
# SQLITE_ERROR: a table or column is gone
DAMAGE = ("SQLITE_CORRUPT", "SQLITE_NOTADB", "SQLITE_ERROR")
NEXT_WRITE = "the next write sets it aside and goes on with what can be read"


class Damaged(Exception):
    """The file is not what was written; only this room sees it."""


class Held(NamedTuple):
    """What the file holds, and what is wrong with it, in one line."""

    rows: tuple[Any, ...]
    trouble: str | None

    def of(self, kind: type[Row]) -> list[Row]:
        """The rows of a kind in the order of writing; what was undone is left out."""
        gone = {row.note for row in self.rows if isinstance(row, Undone)}
        found: list[Any] = [row for row in self.rows if type(row) is kind]
        return [row for row in found if row.id not in gone]


class Pen(NamedTuple):
    """One open write: everything done with it is kept together, or nothing."""

    connection: sqlite3.Connection
    said: tuple[str, ...]  # what had to be done to the file first

    def held(self) -> Held:
        """What the file holds now."""
        return Held(tuple(_rows(self.connection)), None)

    def add(self, row: Row) -> Row:
        """The row as kept, with the next free number for its id."""
        highest = [
            self.connection.execute(f"SELECT max(id) FROM {table}").fetchone()[0] or 0
            for table in TABLES.values()
        ]
        kind: Any = type(row)
        numbered: Row = kind._make((max(highest) + 1, *row[1:]))
        return put(self.connection, numbered)

    def drop(self, kind: Any, id: int) -> None:
        """Take a row out."""
        self.connection.execute(f"DELETE FROM {TABLES[kind]} WHERE id = ?", (id,))


def put(connection: sqlite3.Connection, row: Row) -> Row:
    """Write one row with its checksum."""
    kind: Any = type(row)
    values = typed(kind, row)
    marks = ", ".join("?" * (len(values) + 1))
    columns = ", ".join((*kind._fields, "crc"))
    connection.execute(
        f"INSERT INTO {TABLES[kind]} ({columns}) VALUES ({marks})",
        (*values, checksum(kind, values)),
    )
    written: Row = kind._make(values)
    return written


def read() -> Held:
    """
    Everything in the own file; nothing where there is none, or no home for one. Writes nothing.

    A damaged file gives the rows that can be proved, and says so.

    Raises:
        Broken: When it cannot be read, or a newer fastkit has written it.
    """
    path = file() if known() else None
    if path is None or not _is_there(path):
        return Held((), None)
    try:
        with closing(_open(path, "ro")) as connection:
            _check(path, connection)
            return Held(tuple(_rows(connection)), None)
    except Damaged:
        rows, lost = carve(_bytes(path))
        more = f", at least {lost} cannot" if lost else ""
        said = f"{path} is damaged: {len(rows)} entries can be read{more}; {NEXT_WRITE}"
        return Held(tuple(rows), said)
    except sqlite3.Error as error:
        if _name(error) == "SQLITE_READONLY_ROLLBACK":
            with _writing(path):  # a write was cut off: taking the lock takes it back
                pass
            return read()
        raise Broken(f"cannot read {path}: {error}") from error


@contextmanager
def writing() -> Iterator[Pen]:
    """
    One write, in the file when this ends without an error.

    Raises:
        Broken: When the file cannot be written; then nothing of it was kept.
    """
    with _writing(file()) as pen:
        yield pen


@contextmanager
def _writing(path: Path) -> Iterator[Pen]:
    try:
        _make_folder(path.parent)
        with _alone(path.parent):
            said = _ready(path)
            with closing(_open(path, "rw")) as connection:
                _begin(connection)
                yield Pen(connection, said)
                connection.execute("COMMIT")
    except sqlite3.Error as error:
        raise Broken(f"cannot write {path}: {error}; nothing was kept") from error
    except OSError as error:
        reason = error.strerror or error
        where = error.filename or path
        raise Broken(f"cannot write {where}: {reason}; nothing was kept") from error


def _ready(path: Path) -> tuple[str, ...]:
    """Make, mend or migrate the file; say what was done to one that was there."""
    if not _is_there(path):
        _build(path, ())
        return ()
    try:
        with closing(_open(path, "rw")) as connection:
            version = _check(path, connection)
    except Damaged:
        return (_set_aside(path),)
    if version == len(MIGRATIONS):
        return ()
    return (_migrate(path, version),)


def _check(path: Path, connection: sqlite3.Connection) -> int:
    """
    The version of a sound file.

    Raises:
        Damaged: When it is not sound.
        Broken: When it is newer than this fastkit.
    """
    try:
        version = int(connection.execute("PRAGMA user_version").fetchone()[0])
        if version > len(MIGRATIONS):
            raise Broken(
                f"{path} was written by a newer fastkit (version {version}): update this one"
            )
        if version < 1 or [("ok",)] != connection.execute("PRAGMA quick_check(1)").fetchall():
            raise Damaged
        list(_rows(connection))
    except UnicodeDecodeError as error:  # in what SQLite tells of the damage
        raise Damaged from error
    except sqlite3.DatabaseError as error:
        if _name(error).startswith(DAMAGE):
            raise Damaged from error
        raise
    return version


def _name(error: sqlite3.Error) -> str:
    """SQLite's name of an error; where Python itself could not read a text, that of damage."""
    return getattr(error, "sqlite_errorname", "SQLITE_CORRUPT")


def _rows(connection: sqlite3.Connection) -> Iterator[Any]:
    """Every row, each proved, in the order of writing; an older file lacks the later tables."""
    version = connection.execute("PRAGMA user_version").fetchone()[0]
    found = []
    for kind, table in TABLES.items():
        if SINCE.get(kind, 1) > version:
            continue
        columns = ", ".join((*kind._fields, "crc"))
        for *values, crc in connection.execute(f"SELECT {columns} FROM {table}"):
            if checksum(kind, tuple(values)) != crc:
                raise Damaged
            found.append(kind._make(values))
    yield from sorted(found, key=lambda row: row.id)


def _open(path: Path, mode: str) -> sqlite3.Connection:
    return sqlite3.connect(
        f"{path.as_uri()}?mode={mode}", uri=True, timeout=WAIT_S, isolation_level=None
    )


def _begin(connection: sqlite3.Connection) -> None:
    """Open a transaction that, once committed, a power cut cannot take back."""
    for pragma in SETTINGS:
        connection.execute(f"PRAGMA {pragma}").fetchall()
    connection.execute("BEGIN IMMEDIATE")


def _build(path: Path, rows: tuple[Any, ...]) -> None:
    """Make the file whole beside its place, then put it there."""
    fresh = path.with_suffix(".new")
    for stale in (fresh, _journal(fresh)):
        stale.unlink(missing_ok=True)
    os.close(os.open(fresh, os.O_CREAT | os.O_EXCL | os.O_WRONLY, 0o600))
    with closing(_open(fresh, "rw")) as connection:
        connection.execute(f"PRAGMA page_size={PAGE}")
        _begin(connection)
        _apply(connection, 0)
        for row in rows:
            put(connection, row)
        connection.execute("COMMIT")
    _journal(path).unlink(missing_ok=True)  # it belongs to what lay here before
    fresh.replace(path)
    _journal(fresh).unlink(missing_ok=True)
    _sync(path.parent)


def _apply(connection: sqlite3.Connection, version: int) -> None:
    for script in MIGRATIONS[version:]:
        for statement in filter(str.strip, script.split(";")):
            connection.execute(statement)
    connection.execute(f"PRAGMA user_version={len(MIGRATIONS)}")


def _migrate(path: Path, version: int) -> str:
    """Bring an older file up to date, with a dated copy of it kept beside."""
    copy = _beside(path, f"version-{version}")
    os.close(os.open(copy, os.O_CREAT | os.O_EXCL | os.O_WRONLY, 0o600))
    with closing(_open(path, "ro")) as source, closing(_open(copy, "rw")) as target:
        source.backup(target)
    _sync(copy)
    _sync(copy.parent)
    with closing(_open(path, "rw")) as connection:
        _begin(connection)
        _apply(connection, version)
        connection.execute("COMMIT")
    return f"{path} brought from version {version} to {len(MIGRATIONS)}; as it was: {copy}"


def _set_aside(path: Path) -> str:
    """Put a new file with all rows that can be proved in the place of a damaged one."""
    aside = _beside(path, "damaged")
    for source, target in ((path, aside), (_journal(path), _journal(aside))):
        if source.exists():
            _copy(source, target)
    # a write that was cut off is taken back first; where even that fails the bytes speak
    with suppress(sqlite3.Error, UnicodeDecodeError), closing(_open(aside, "rw")) as connection:
        connection.execute("SELECT count(*) FROM sqlite_master").fetchone()
    rows, lost = carve(_bytes(aside))
    _build(path, tuple(rows))
    more = f", at least {lost} could not" if lost else ""
    return f"{path} was damaged: set aside as {aside}; {len(rows)} entries were recovered{more}"


def _beside(path: Path, word: str) -> Path:
    """A name beside the file, with the date, that nothing has yet."""
    stem = f"{path.stem}.{word}-{datetime.now(UTC):%Y%m%d-%H%M%S}"
    tails = chain(("",), (f"-{n}" for n in count(2)))
    names = (path.with_name(f"{stem}{tail}.db") for tail in tails)
    return next(name for name in names if not name.exists())


def _copy(source: Path, target: Path) -> None:
    raw = _bytes(source)
    os.close(os.open(target, os.O_CREAT | os.O_EXCL | os.O_WRONLY, 0o600))
    with target.open("wb") as out:
        out.write(raw)
        out.flush()
        os.fsync(out.fileno())


@contextmanager
def _alone(folder: Path) -> Iterator[None]:
    """Hold the one lock of all writers, which ends with the process that holds it."""
    lock = folder / "shopbook.lock"
    os.close(os.open(lock, os.O_CREAT | os.O_RDWR, 0o600))
    with closing(_open(lock, "rw")) as connection:
        connection.execute("BEGIN EXCLUSIVE")
        yield


def _make_folder(folder: Path) -> None:
    if not folder.is_dir():
        folder.mkdir(mode=0o700, parents=True, exist_ok=True)
        _sync(folder.parent)


def _sync(path: Path) -> None:
    """Bring a file, or the names in a folder, to the disk; where folders cannot be opened: no."""
    if os.name == "posix" or path.is_file():
        handle = os.open(path, os.O_RDONLY)
        try:
            os.fsync(handle)
        finally:
            os.close(handle)


def _is_there(path: Path) -> bool:
    try:
        mode = path.stat().st_mode
    except (FileNotFoundError, NotADirectoryError):
        return False
    except OSError as error:
        raise Broken(f"cannot read {path}: {error.strerror or error}") from error
    if not stat.S_ISREG(mode):
        raise Broken(f"{path} is not a file: the own file cannot lie there")
    return True


def _journal(path: Path) -> Path:
    return path.with_name(f"{path.name}-journal")


def _bytes(path: Path) -> bytes:
    try:
        return path.read_bytes()
    except OSError as error:
        raise Broken(f"cannot read {path}: {error.strerror or error}") from error
