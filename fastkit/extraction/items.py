"""Stretches of a text that were understood as one thing; what is denied of them, what was tried."""

from collections.abc import Iterable, Mapping
from typing import NamedTuple

from fastkit.records.source import Phrase

# what a negation makes of an option; what it makes nothing of is not so, and that is all
_DENIED = {"tool": "lack", "kin": "lack", "can": "cannot"}


class Item(NamedTuple):
    """A stretch of the text that was understood as one thing; `at` is its first word."""

    at: int
    span: tuple[int, ...]
    clause: int
    part: int
    text: str
    rows: tuple[Phrase, ...]


def says(item: Item, option: str, value: str) -> bool:
    """Say whether an item fills an option with a value."""
    return any(row.option == option and row.value == value for row in item.rows)


def turned(items: Iterable[Item], firsts: Mapping[int, str]) -> tuple[list[Item], list[Item]]:
    """
    Return the items with what is denied turned round and what was tried kept apart.

    Args:
        items: In the order of the text.
        firsts: The first word of each clause.

    Returns:
        The items, and those of them that say nothing and so count as unread.
    """
    items = list(items)
    kept: list[Item] = []
    unread: list[Item] = []
    denied: tuple[int, int] | None = None
    tried_clause: int | None = None
    said_tried = {item.clause for item in items if says(item, "cue", "tried")}
    for item in items:
        if says(item, "cue", "not"):
            denied = (item.clause, item.part)
            continue
        negated = denied == (item.clause, item.part)
        goes_on = firsts.get(item.clause) in ("then", "and", "also")
        tried = item.clause in said_tried or (tried_clause == item.clause - 1 and goes_on)
        tried_clause = item.clause if tried else tried_clause
        drop = ("tool", "kin") if tried and not negated else ("method",)
        rows = [row for row in item.rows if row.option.rstrip("?") not in drop]
        if negated:
            rows = [
                row._replace(option=_DENIED[row.option]) for row in rows if row.option in _DENIED
            ]
        else:
            rows = [row for row in rows if row.option != "kin"]
            if not rows and not tried:
                unread.append(item)
        kept.append(item._replace(rows=tuple(rows)))
    return kept, unread
