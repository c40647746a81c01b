"""Rows of the compiled file as records, found by equal columns."""

import sqlite3
from collections.abc import Iterable
from typing import Any, ClassVar, Protocol, Self, TypeVar

from fastkit.errors import NotHeld
from fastkit.reference.store import query


class Row(Protocol):
    """What every record has: the table it lies in and its columns in order."""

    TABLE: ClassVar[str]
    _fields: ClassVar[tuple[str, ...]]

    @classmethod
    def _make(cls, iterable: Iterable[Any]) -> Self: ...


R = TypeVar("R", bound=Row)


def many(store: sqlite3.Connection, record: type[R], **equal: str | float | None) -> list[R]:
    """All records whose columns equal the values given, in the order of the data files."""
    columns = ", ".join(f'"{name}"' for name in record._fields)
    unknown = equal.keys() - set(record._fields)
    if unknown:
        raise ValueError(f"{record.TABLE} has no column {', '.join(sorted(unknown))}")
    where = " AND ".join(f'"{name}" IS ?' for name in equal)
    sql = f'SELECT {columns} FROM "{record.TABLE}"' + (f" WHERE {where}" if where else "")
    rows = query(store, f"{sql} ORDER BY rowid", tuple(equal.values()))
    return [record._make(row) for row in rows]


def one(store: sqlite3.Connection, record: type[R], **equal: str | float | None) -> R | None:
    """The first such record, or None."""
    found = many(store, record, **equal)
    return found[0] if found else None


def get(store: sqlite3.Connection, record: type[R], key: str) -> R:
    """
    The record whose `id` is *key*.

    Raises:
        NotHeld: When there is none; `nearest` holds the nearest keys of the table.
    """
    found = one(store, record, id=key)
    if found is None:
        keys = [str(row[0]) for row in query(store, f'SELECT id FROM "{record.TABLE}"')]
        raise NotHeld(f"no {record.TABLE} {key[:60]!r} in the data", nearest(key, keys))
    return found


def nearest(word: str, choices: Iterable[str], count: int = 3) -> tuple[str, ...]:
    """The *count* choices spelt most like *word*, best first; ties by length, then letters."""
    from rapidfuzz.distance import JaroWinkler

    lower = word[:80].lower()
    ranked = sorted(
        choices,
        key=lambda choice: (-JaroWinkler.similarity(lower, choice.lower()), len(choice), choice),
    )
    return tuple(ranked[:count])
