"""Rows of the compiled file as records, found by equal columns."""

import re
import sqlite3
from collections.abc import Iterable
from typing import Any, TypeVar

from fastkit.errors import NotHeld
from fastkit.records.bench import Usual
from fastkit.reference.store import query

RESEMBLES = 0.6  # of 1; below it two words have little in common
R = TypeVar("R", bound=tuple[Any, ...])  # a record of fastkit.records


def many(store: sqlite3.Connection, record: type[R], **equal: str | float | None) -> list[R]:
    """All records whose columns equal the values given, in the order of the data files."""
    shape: Any = record  # no type says that a record's class knows its table
    columns = ", ".join(f'"{name}"' for name in shape._fields)
    unknown = equal.keys() - set(shape._fields)
    if unknown:
        raise ValueError(f"{shape.TABLE} has no column {', '.join(sorted(unknown))}")
    where = " AND ".join(f'"{name}" IS ?' for name in equal)
    sql = f'SELECT {columns} FROM "{shape.TABLE}"' + (f" WHERE {where}" if where else "")
    rows = query(store, f"{sql} ORDER BY rowid", tuple(equal.values()))
    return [shape._make(row) for row in rows]


def one(store: sqlite3.Connection, record: type[R], **equal: str | float | None) -> R | None:
    """The first such record, or None."""
    found = many(store, record, **equal)
    return found[0] if found else None


def usual(store: sqlite3.Connection, what: str, of: str) -> str | None:
    """What something is likeliest to be where nobody said it; None where nothing is usual."""
    row = one(store, Usual, what=what, of=of)
    return row.value if row else None


def get(store: sqlite3.Connection, record: type[R], key: str) -> R:
    """
    The record whose `id` is *key*.

    Raises:
        NotHeld: When there is none; `nearest` holds the nearest keys of the table.
    """
    found = one(store, record, id=key)
    if found is None:
        shape: Any = record
        raise NotHeld(
            f"no {shape.TABLE} {key[:60]!r} in the data", nearest(key, keys(store, record))
        )
    return found


def keys(store: sqlite3.Connection, record: type[R]) -> list[str]:
    """Every key of a record's table."""
    shape: Any = record
    return [str(row[0]) for row in query(store, f'SELECT id FROM "{shape.TABLE}" ORDER BY rowid')]


def nearest(word: str, choices: Iterable[str], count: int = 3) -> tuple[str, ...]:
    """
    The *count* choices nearest to *word*, best first.

    Choices of the same form (`T20` to `T21`, `hex-6mm` to `hex-13mm`) come first, the nearest
    number leading; then the nearest spelling, the shorter and the earlier letters first.
    """
    from rapidfuzz.distance import JaroWinkler

    lower = word[:80].lower()
    form, size = _form(lower)

    def distance(choice: str) -> tuple[float, ...]:
        other, number = _form(choice.lower())
        alike = "#" in form and "#" in other and other.partition("#")[0] == form.partition("#")[0]
        apart = abs(number - size) if alike else float("inf")
        fraction = ("/" in choice) != ("/" in lower)
        spelt = JaroWinkler.similarity(lower, choice.lower())
        return (not alike, fraction, other != form, apart, -spelt, len(choice))

    ranked = sorted(choices, key=lambda choice: (distance(choice), choice))
    return tuple(ranked[:count])


def resembling(word: str, choices: Iterable[str]) -> tuple[str, ...]:
    """The nearest choices where the first of them resembles the word at all; else none."""
    from rapidfuzz.distance import JaroWinkler

    near = nearest(word, choices)
    alike = near and JaroWinkler.similarity(word[:80].lower(), near[0].lower()) >= RESEMBLES
    return near if alike else ()


def _form(key: str) -> tuple[str, float]:
    """A key with its first number or fraction taken out, and that number."""
    match = re.match(r"([a-z]*[-#]?)((?:\d{1,3}-)?\d{1,4}/\d{1,4}|\d{1,6}(?:\.\d{1,6})?)", key)
    if match is None:
        return key, 0.0
    whole, _, part = match[2].rpartition("-")
    above, _, below = part.partition("/")
    size = float(whole or 0) + float(above) / (float(below or 1) or 1.0)
    tail = re.search(r"[a-z]*$", key[match.end() :])  # mm, in, h of 45H, unc
    return f"{match[1]}#{tail[0] if tail else ''}", size
