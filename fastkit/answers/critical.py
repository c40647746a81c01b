"""What a life hangs on, read from a line: one list for what goes back, how tight and what mends."""

import re
import sqlite3
from collections.abc import Iterable
from typing import NamedTuple

from fastkit.errors import Misuse
from fastkit.notation.names import words_said
from fastkit.records.critical import Critical
from fastkit.reference.lookup import keys, many, nearest
from fastkit.reference.names import nameable
from fastkit.reference.store import connect

HANGS = "a life hangs on it: {0}"
HARDEST = ("none", "check", "plain")  # what governs where several hang on it


class Hangs(NamedTuple):
    """What hangs on a thread, the hardest first, and the words that said so."""

    rows: tuple[Critical, ...]
    words: frozenset[str]


def hangs(store: sqlite3.Connection, line: str) -> Hangs:
    """Return what a line from `reference.spelling.heard` names."""
    found = {row: words_said(line, row.words) for row in nameable(store, Critical, line)}
    rows = sorted((row for row in found if found[row]), key=lambda row: HARDEST.index(row.replaced))
    return Hangs(tuple(rows), frozenset().union(*found.values()))


def before_loosened(
    store: sqlite3.Connection, line: str, taken: frozenset[str]
) -> tuple[tuple[str, ...], frozenset[str]]:
    """
    Return what must be so before a thread is loosened that a life hangs on, and its names.

    A name whose words are all `taken` for something else, `can't swing`, `on a ladder`, is none.
    """
    rows = [row for row in hangs(store, line).rows if row.loosened]
    names = {row: words_said(line, row.words) for row in rows}
    meant = [row for row in rows if not names[row] <= taken]
    told = tuple(HANGS.format(row.loosened) for row in meant)
    return told, frozenset[str]().union(*(names[row] for row in meant))


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
