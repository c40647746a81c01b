"""Words that tell of danger, whoever says them: what must be so before any work."""

import re
import sqlite3
from collections.abc import Iterable

from fastkit.notation.names import blank, named
from fastkit.records.source import DangerWord
from fastkit.reference.names import nameable

DENIED = re.compile(r"\b(?:no|not|isnt|isn't|without|never|off) (?:(?:a|an|any|at|in|on|the) )*$")


def dangers(store: sqlite3.Connection, line: str) -> list[DangerWord]:
    """Return what a line from `reference.spelling.heard` tells of, unless it denies it."""
    return [
        row
        for row in nameable(store, DangerWord, line)
        if any(_said(line, place) for _, places in named(line, row.words) for place in places)
    ]


def _said(line: str, place: Iterable[tuple[int, int]]) -> bool:
    return any(not DENIED.search(line[:start]) for start, _ in place)


def without(text: str, rows: Iterable[DangerWord]) -> str:
    """Return a text without the words that told of dangers: nothing else is read from them."""
    for row in rows:
        text = blank(text, row.words)
    return text


def must_be(rows: Iterable[DangerWord]) -> tuple[str, ...]:
    """Return what is said of dangers before anything else."""
    return tuple(f"{row.title}: {row.first}" for row in rows)
