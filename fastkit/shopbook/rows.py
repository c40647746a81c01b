"""The rows of the user's own file, and the tables that hold them, migration by migration."""

from collections.abc import Mapping
from typing import Any, NamedTuple


class Owned(NamedTuple):
    """A tool at hand, and the room it was measured to need; None: not measured."""

    id: int
    tool: str  # an id of the data: ratchet, locking-pliers
    size: str  # in the user's words, or empty
    above_mm: float | None
    beside_mm: float | None
    swing_deg: float | None
    note: str


class Stocked(NamedTuple):
    """Something in the drawer."""

    id: int
    what: str
    amount: int
    place: str


class Attempt(NamedTuple):
    """What happened when a method was tried; damage and seizure are empty where nobody said."""

    id: int
    at: str  # UTC, as the clock then stood; order is by id
    method: str
    outcome: str  # ok, nothing, worse, broke
    damage: str
    seized: str
    kept: str  # name of the kept situation it belongs to, or empty
    said: str  # the situation as said, JSON of options


class Maker(NamedTuple):
    """A torque that a maker prints, as the user found it."""

    id: int
    at: str
    machine: str
    place: str
    torque_nm: float
    written: str  # the value as it was typed
    read_in: str


class Kept(NamedTuple):
    """A situation to go on with: the words and the options as typed."""

    id: int
    at: str
    name: str
    words: str
    options: str  # JSON


class KeptJob(NamedTuple):
    """A job under a name: the text of its file."""

    id: int
    at: str
    name: str
    text: str


class Undone(NamedTuple):
    """An attempt or maker's torque that was taken back."""

    id: int
    at: str
    note: int


TABLES: Mapping[Any, str] = {
    Owned: "tool",
    Stocked: "stock",
    Attempt: "attempt",
    Maker: "maker",
    Kept: "kept",
    Undone: "undone",
    KeptJob: "job",
}
SINCE: Mapping[Any, int] = {KeptJob: 2}  # version of the file that first has the table; else 1
FLOATS = ("_mm", "_deg", "_nm")  # columns that end so are REAL

# One script for each version. A script that changes a table's columns writes its rows again, so
# that `crc` (over table and values, id included) fits what is there.
MIGRATIONS = (
    """
    CREATE TABLE tool (
        id INTEGER PRIMARY KEY, tool TEXT NOT NULL, size TEXT NOT NULL, above_mm REAL,
        beside_mm REAL, swing_deg REAL, note TEXT NOT NULL, crc INTEGER NOT NULL) STRICT;
    CREATE TABLE stock (
        id INTEGER PRIMARY KEY, what TEXT NOT NULL, amount INTEGER NOT NULL CHECK (amount > 0),
        place TEXT NOT NULL, crc INTEGER NOT NULL) STRICT;
    CREATE TABLE attempt (
        id INTEGER PRIMARY KEY, at TEXT NOT NULL, method TEXT NOT NULL,
        outcome TEXT NOT NULL CHECK (outcome IN ('ok', 'nothing', 'worse', 'broke')),
        damage TEXT NOT NULL, seized TEXT NOT NULL, kept TEXT NOT NULL, said TEXT NOT NULL,
        crc INTEGER NOT NULL) STRICT;
    CREATE TABLE maker (
        id INTEGER PRIMARY KEY, at TEXT NOT NULL, machine TEXT NOT NULL, place TEXT NOT NULL,
        torque_nm REAL NOT NULL CHECK (torque_nm > 0), written TEXT NOT NULL,
        read_in TEXT NOT NULL, crc INTEGER NOT NULL) STRICT;
    CREATE TABLE kept (
        id INTEGER PRIMARY KEY, at TEXT NOT NULL, name TEXT NOT NULL, words TEXT NOT NULL,
        options TEXT NOT NULL, crc INTEGER NOT NULL) STRICT;
    CREATE TABLE undone (
        id INTEGER PRIMARY KEY, at TEXT NOT NULL, note INTEGER NOT NULL,
        crc INTEGER NOT NULL) STRICT;
    """,
    """
    CREATE TABLE job (
        id INTEGER PRIMARY KEY, at TEXT NOT NULL, name TEXT NOT NULL, text TEXT NOT NULL,
        crc INTEGER NOT NULL) STRICT;
    """,
)
