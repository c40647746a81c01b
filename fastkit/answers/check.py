"""Is this installation sound: the compiled file, its links, its age, how far rows are checked."""

import sqlite3
from collections.abc import Iterable, Mapping
from pathlib import Path
from typing import NamedTuple

from fastkit.answers.held import held
from fastkit.errors import Broken
from fastkit.reference import store as files
from fastkit.shopbook import place
from fastkit.shopbook import store as own_file
from fastkit.version import VERSION

STATES = ("formula", "outside", "copied", "memory", "judgement")
# Rows without a value of their own: how people say things, and what a publication has wrong.
WORDS = ("alias", "saying", "phrase", "erratum")


class OwnFile(NamedTuple):
    """The user's own file: where it lies, and how many entries it holds."""

    path: str
    entries: int


class CheckAnswer(NamedTuple):
    """The state of the installation; `checked` counts hand-kept rows by state."""

    ok: bool
    version: str
    data_version: str | None
    rows: int | None
    checked: dict[str, int]
    problems: tuple[str, ...]
    own: OwnFile | None  # the user's own file; None where there is none


class Shares(NamedTuple):
    """
    How far the hand-kept facts are checked, by number of rows.

    Rows of words (`WORDS`) hold no value and are counted apart. The other rows are facts: those
    that a publication prints stand in `published` by state, workshop judgement in `judgement`.
    `numbers` are the published facts that hold a number, by state; the others say what they say
    in words, as marks and pairs of grades do.
    """

    words: int
    published: dict[str, int]
    numbers: dict[str, int]
    judgement: int

    def share(self, *states: str) -> float:
        """Rows in these states over the published facts."""
        return _share(self.published, states)

    def share_of_numbers(self, *states: str) -> float:
        """Rows in these states over the published facts that hold a number."""
        return _share(self.numbers, states)

    def share_of_all(self, *states: str) -> float:
        """Rows in these states over all facts, judgement included."""
        return _share({**self.published, "judgement": self.judgement}, states)


def _share(counts: Mapping[str, int], states: Iterable[str]) -> float:
    return sum(counts[state] for state in states) / max(sum(counts.values()), 1)


class MemoryRow(NamedTuple):
    """A row that nobody has found in a publication yet: its table, key and where it says to be."""

    table: str
    key: str
    source: str
    locator: str


def check(path: Path | None = None) -> CheckAnswer:
    """
    Look the installation over; what is wrong stands in `problems`, nothing is raised for it.

    Args:
        path: Compiled file to look at; the package's own if left out.
    """
    try:
        store = files.connect(path)
    except Broken as error:
        return CheckAnswer(False, VERSION, None, None, {}, (str(error),), None)
    problems: list[str] = []
    version, rows, checked = None, None, {}
    try:
        version, rows = held(store)
        problems += _damage(store)
        schema = files.meta(store).get("schema_version")
        if schema != files.SCHEMA_VERSION:
            expected = f"expected {files.SCHEMA_VERSION}: {files.remedy()}"
            problems.append(f"the compiled data file is laid out in version {schema}; {expected}")
        checked = _by_state(store)
        difference = files.differs(path)
        if difference:
            problems.append(difference)
    except Broken as error:
        problems.append(str(error))
    finally:
        store.close()
    own, trouble = _own()
    problems += trouble
    return CheckAnswer(not problems, VERSION, version, rows, checked, tuple(problems), own)


def _own() -> tuple[OwnFile | None, tuple[str, ...]]:
    """The user's own file, and what is wrong with it."""
    if not place.there():
        return None, ()
    try:
        found = own_file.read()
    except Broken as error:
        return None, (str(error),)
    own = OwnFile(str(place.file()), len(found.rows))
    return own, (found.trouble,) if found.trouble else ()


def _damage(store: sqlite3.Connection) -> list[str]:
    found = [
        f"damaged page or row: {row[0]}"
        for row in files.query(store, "PRAGMA integrity_check(20)")
        if row[0] != "ok"
    ]
    found += [
        f"table {table}, row {row}: names a row that {parent} does not hold"
        for table, row, parent, _ in files.query(store, "PRAGMA foreign_key_check")
    ]
    return [f"{problem}: {files.remedy()}" for problem in found]


def _by_state(store: sqlite3.Connection) -> dict[str, int]:
    """Hand-kept rows by how far they are checked, over every table that has the column."""
    counts = dict.fromkeys(STATES, 0)
    for table in checked_tables(store):
        for state, number in _states(store, table):
            counts[state] = counts.get(state, 0) + number
    return counts


def _states(store: sqlite3.Connection, table: str, where: str = "1") -> list[tuple[str, int]]:
    sql = f'SELECT checked, count(*) FROM "{table}" WHERE {where} GROUP BY checked'
    return [(str(state), int(number)) for state, number in files.query(store, sql)]


def shares(*, store: sqlite3.Connection | None = None) -> Shares:
    """How far the hand-kept facts are checked, words counted apart."""
    held_by = store or files.connect()
    words, published, numbers = 0, dict.fromkeys(STATES, 0), dict.fromkeys(STATES, 0)
    for table in checked_tables(held_by):
        if table in WORDS:
            words += sum(number for _, number in _states(held_by, table))
            continue
        for state, number in _states(held_by, table):
            published[state] += number
        for state, number in _states(held_by, table, _holds_a_number(held_by, table)):
            numbers[state] += number
    del numbers["judgement"]
    return Shares(words, published, numbers, published.pop("judgement"))


def _holds_a_number(store: sqlite3.Connection, table: str) -> str:
    """SQL for: some column of the row holds a measured number; flags and counts are integers."""
    sql = "SELECT name FROM pragma_table_info(?) WHERE type = 'REAL'"
    columns = [f'"{row[0]}" IS NOT NULL' for row in files.query(store, sql, (table,))]
    return " OR ".join(columns) or "0"


def memory_rows(*, store: sqlite3.Connection | None = None) -> tuple[MemoryRow, ...]:
    """Every hand-kept row that is known but not yet found in a publication."""
    held_by = store or files.connect()
    found = []
    for table in checked_tables(held_by):
        keys = files.query(
            held_by, "SELECT name FROM pragma_table_info(?) WHERE pk > 0 ORDER BY pk", (table,)
        )
        key = " || ' ' || ".join(f'"{row[0]}"' for row in keys)
        sql = f"SELECT {key}, source, locator FROM \"{table}\" WHERE checked = 'memory'"
        found += [MemoryRow(table, *map(str, row)) for row in files.query(held_by, sql)]
    return tuple(found)


def checked_tables(store: sqlite3.Connection) -> list[str]:
    """Tables whose rows are kept by hand: those with the columns `source` and `checked`."""
    sql = """
        SELECT t.name FROM sqlite_schema AS t
        WHERE t.type = 'table'
          AND EXISTS (SELECT 1 FROM pragma_table_info(t.name) WHERE name = 'checked')
          AND EXISTS (SELECT 1 FROM pragma_table_info(t.name) WHERE name = 'source')
        ORDER BY t.name
    """
    return [str(row[0]) for row in files.query(store, sql)]
