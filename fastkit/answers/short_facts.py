"""Every entry's facts in short, in words, for a page that carries them all."""

import sqlite3
from collections.abc import Iterator
from typing import Any

from fastkit.answers.show import show, sources
from fastkit.answers.show_rows import Group, standing_of
from fastkit.answers.show_words import (
    GOVERNED,
    MAKER_GOVERNS,
    MARKS,
    PLANNED,
    Held,
    Row,
    first_rows,
    label,
    lists,
    own_values,
    row_words,
    value_words,
)
from fastkit.reference.store import query

MOST = 6  # rows of a list that are said, but for what can hurt someone
LEFT_OUT = {"limits_of_other_classes", "vetoes", "variants", "serves"}
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
        own = [held for held in own_values(answer.groups) if held.name not in PLANNED]
        held = (group for group in lists(answer.groups) if group.name not in LEFT_OUT)
        said_lists = [*_sentences(own), *map(_list, held)]
        used = dict.fromkeys(standing.source for _, standing in sources(answer.groups))
        places = [titles.setdefault(answer.titles.get(key, key), len(titles)) for key in used]
        said[id_] = [[*_values(own)], said_lists, places]
    return {
        "titles": [*titles],
        "governed": sorted(GOVERNED),
        "governs": MAKER_GOVERNS,
        "facts": said,
    }


def _values(own: list[Held]) -> Iterator[list[str]]:
    for name, value, row in own:
        if not isinstance(value, list):
            yield [label(name), value_words(name, value), _mark(row)]


def _sentences(own: list[Held]) -> Iterator[list[Any]]:
    """Lists of sentences among the values, as steps and cautions: whole."""
    for name, value, _ in own:
        if isinstance(value, list) and value:
            yield [label(name), [[text, ""] for text in value], 0]


def _list(group: Group) -> list[Any]:
    rows = first_rows(group, MOST)
    said = [[row_words(row), _mark(row)] for row in rows]
    return [label(group.name), said, len(group.rows) - len(rows)]


def _mark(row: Row) -> str:
    standing = standing_of(row)
    return MARKS.get(standing.checked, "").strip() if standing else ""
