"""What a life hangs on, read from a line: one list for what goes back, how tight and what mends."""

import re
import sqlite3
from collections.abc import Iterable
from typing import NamedTuple

from fastkit.errors import Misuse
from fastkit.records.critical import Critical
from fastkit.reference.lookup import keys, many, nearest
from fastkit.reference.spelling import mended
from fastkit.reference.store import connect

HARDEST = ("none", "check", "plain")  # what governs where several hang on it


class Hangs(NamedTuple):
    """What hangs on a thread, the hardest first, and the words that said so."""

    rows: tuple[Critical, ...]
    words: frozenset[str]


def hangs(store: sqlite3.Connection, line: str) -> Hangs:
    """Return what the words of a line name, in whatever order they stand."""
    said = f"{line} {mended(store, line)}"
    found = {row: named(said, row.words) for row in many(store, Critical)}
    rows = sorted((row for row in found if found[row]), key=lambda row: HARDEST.index(row.replaced))
    return Hangs(tuple(rows), frozenset().union(*found.values()))


def named(line: str, names: str) -> frozenset[str]:
    """
    Words of a line that say one of some names: all its words, none of those behind its `not`.

    >>> sorted(named("m8 bolts, blade of the mower", "mower blade; swing not arm"))
    ['blade', 'mower']
    """
    typed = set(re.findall(r"[a-z]+", line.lower()))
    said = typed | {word.removesuffix("s") for word in typed}
    found: set[str] = set()
    for name in names.split("; "):
        words, _, others = name.partition(" not ")
        if said.issuperset(words.split()) and said.isdisjoint(others.split()):
            found |= {word for word in typed if {word, word.removesuffix("s")} & {*words.split()}}
    return frozenset(found)


def is_governed(row: Critical) -> bool:
    """Whether the maker's part and torque alone go there."""
    return row.replaced != "plain"


def critical(store: sqlite3.Connection, name: str) -> Critical:
    """
    Return what is called so.

    Raises:
        Misuse: When nothing is.
    """
    held = {row.id: row for row in many(store, Critical)}
    if name not in held:
        raise Misuse(
            f"nothing called {name[:40]!r} hangs on a thread; expected one of {', '.join(held)}",
            nearest(name, held, 1),
        )
    return held[name]


def critical_ids(store: sqlite3.Connection | None = None) -> list[str]:
    """What may hang on a thread, by its ids."""
    return keys(store or connect(), Critical)


def unsaid(words: Iterable[str], found: Hangs) -> list[str]:
    """The words that say nothing of it; numbers are none of them."""
    letters = {word: frozenset(re.findall(r"[a-z]+", word.lower())) for word in words}
    return [word for word, of in letters.items() if not of or not of <= found.words]
