"""Every entry's facts in short, in words, for a page that carries them all."""

import sqlite3
from collections.abc import Iterator
from typing import Any

from fastkit.answers.show import show, sources
from fastkit.answers.show_rows import standing_of
from fastkit.answers.show_words import (
    GOVERNED,
    GUARDS,
    MAKER_GOVERNS,
    MARKS,
    PLANNED,
    UNSAID,
    UNSHOWN,
    Row,
    label,
    row_words,
    value_words,
)
from fastkit.reference.store import query

MOST = 6  # rows of a list that are said, but for what can hurt someone
LEFT_OUT = {"limits_of_other_classes", "vetoes", "variants", "serves", *UNSAID}
NOT_SAID = UNSHOWN | PLANNED
ELSEWHERE = {"torque"}  # kinds that have a view of their own


def facts(store: sqlite3.Connection) -> dict[str, Any]:
    """
    The short facts of every entry, ready for JSON; the same data give the same mapping.

    `titles` names sources; `governed` lists the kinds of which a maker's word goes before ours, as
    `governs` says; `facts` has, by entry id, [values, lists, places of its sources in `titles`].
    A value is [name, words, mark], a list [name, [[words, mark], …], rows left out]; a mark is
    memory, practice or empty.

    Raises:
        Broken: When the reference cannot be read.
    """
    titles: dict[str, int] = {}
    said = {}
    for id_, kind in query(store, "SELECT id, kind FROM entry ORDER BY rowid"):
        if kind in ELSEWHERE:
            continue
        answer = show(id_, store=store)
        own = [row for group in answer.groups if not group.name for row in group.rows]
        held = (group for group in answer.groups if group.name and group.name not in LEFT_OUT)
        lists = [*_sentences(own), *(_list(g.name, g.rows) for g in held if g.rows)]
        used = dict.fromkeys(standing.source for _, standing in sources(answer.groups))
        places = [titles.setdefault(answer.titles.get(key, key), len(titles)) for key in used]
        said[id_] = [[*_values(own)], lists, places]
    return {
        "titles": [*titles],
        "governed": sorted(GOVERNED),
        "governs": MAKER_GOVERNS,
        "facts": said,
    }


def _values(own: list[Row]) -> Iterator[list[str]]:
    for row in own:
        for name, value in row.items():
            if value is not None and name not in NOT_SAID and not isinstance(value, list):
                yield [label(name), value_words(name, value), _mark(row)]


def _sentences(own: list[Row]) -> Iterator[list[Any]]:
    """Lists of sentences among the values, as steps and cautions: whole."""
    for row in own:
        for name, value in row.items():
            if isinstance(value, list) and value:
                yield [label(name), [[text, ""] for text in value], 0]


def _list(name: str, rows: tuple[Row, ...]) -> list[Any]:
    most = len(rows) if name in GUARDS else MOST
    said = [[row_words(row), _mark(row)] for row in rows[:most]]
    return [label(name), said, max(len(rows) - most, 0)]


def _mark(row: Row) -> str:
    standing = standing_of(row)
    return MARKS.get(standing.checked, "").strip() if standing else ""
