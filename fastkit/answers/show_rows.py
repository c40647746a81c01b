"""Groups of rows that stand on one source each, as the modules of `show` make them of records."""

import sqlite3
from collections.abc import Callable, Iterable
from typing import Any, NamedTuple

from fastkit.errors import NotHeld
from fastkit.reference.lookup import get, many

STANDING = ("source", "locator", "checked")
FORMULA = "formula"
WEAKEST_LAST = (FORMULA, "outside", "copied", "memory", "judgement")

Row = dict[str, Any]


class Standing(NamedTuple):
    """Where a value comes from and how far it is checked."""

    source: str
    locator: str
    checked: str


class Group(NamedTuple):
    """Rows of one sort; a group without a name holds one row, the entry's own values."""

    name: str
    rows: tuple[Row, ...]


Builder = Callable[[sqlite3.Connection, str], list[Group]]


def standing_of(row: Row) -> Standing | None:
    """The standing of a row; None where it has none of its own."""
    if row.get("source") is None:
        return None
    return Standing(*(row[name] for name in STANDING))


def standing(record: Any) -> Row:
    """The standing of a record, under the names of its columns."""
    return {name: getattr(record, name) for name in STANDING}


def listed(records: Iterable[Any], *left_out: str) -> tuple[Row, ...]:
    """Records as rows, without the columns that name the entry itself."""
    return tuple(row_of(record, *left_out) for record in records)


def row_of(record: Any, *left_out: str) -> Row:
    """One record as a row, without those columns."""
    return {k: v for k, v in record._asdict().items() if k not in left_out}


def held(records: list[Any], kind: str, key: str) -> list[Any]:
    """
    The records, of which there must be one.

    Raises:
        NotHeld: When there is none.
    """
    if not records:
        raise NotHeld(f"no {kind} {key[:60]!r} in the data")
    return records


def weakest(records: Iterable[Any]) -> Any:
    """The record of the lowest standing: what is computed from several is no better."""
    return max(records, key=lambda record: WEAKEST_LAST.index(record.checked))


def plain(record: Any) -> Builder:
    """Builder of an entry that is one row."""

    def build(store: sqlite3.Connection, key: str) -> list[Group]:
        return [Group("", (get(store, record, key)._asdict(),))]

    return build


def ranged(record: Any, column: str, low: str | None = None, high: str | None = None) -> Builder:
    """Builder of an entry that is what several publications say, with the range of it first."""

    def build(store: sqlite3.Connection, key: str) -> list[Group]:
        rows = held(many(store, record, **{column: key}), record.TABLE, key)
        published = Group("published", listed(rows, column, "title"))
        if low is None or high is None:
            return [Group("", ({column: key, **standing(rows[0])},)), published]
        least = weakest(rows)
        how = (least.source, "range over the rows", least.checked)
        whole = {
            low: min(getattr(row, low) for row in rows),
            high: max(getattr(row, high) for row in rows),
            **dict(zip(STANDING, how, strict=True)),
        }
        return [Group("", (whole,)), published]

    return build
