"""Stretches of a text that were understood as one thing; what is denied of them, what was tried."""

from collections.abc import Collection, Iterable, Sequence
from typing import NamedTuple

from fastkit.records.source import FILLERS, Phrase

# what a negation makes of an option; what it makes nothing of is not so, and that is all
_DENIED = {"tool": "lack", "kin": "lack", "can": "cannot"}
# words over which a negation reaches what it denies, and further from one thing to the next
_OVER = (FILLERS - frozenset("and but for from plus then with".split())) | frozenset(
    "in on by any close even look looks near seem seems".split()
)
_ONWARD = frozenset("or nor a an any the".split())


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


def turned(
    items: Iterable[Item], words: Sequence[str], going_on: Collection[int]
) -> tuple[list[Item], list[Item]]:
    """
    Return the items with what is denied turned round and what was tried kept apart.

    A negation reaches every tool and move of its part, but a state or a neighbour only at once:
    one that is wrongly taken for denied is a danger.

    Args:
        items: In the order of the text.
        words: All words of the text.
        going_on: The clauses that go on with what the one before them began.

    Returns:
        The items, and those of them that say nothing and so count as unread.
    """
    items = list(items)
    kept: list[Item] = []
    unread: list[Item] = []
    denied: tuple[int, int] | None = None
    ends, onward = -1, False  # of the last word that denies or is denied, and which of them
    tried_clause: int | None = None
    said_tried = {item.clause for item in items if says(item, "cue", "tried")}
    for item in items:
        if says(item, "cue", "not"):
            denied, ends, onward = (item.clause, item.part), max(item.span), False
            continue
        negated = denied == (item.clause, item.part)
        at_once = negated and _reaches(words[ends + 1 : item.at], onward)
        if at_once:
            ends, onward = max(item.span), True
        goes_on = item.clause in going_on
        tried = item.clause in said_tried or (tried_clause == item.clause - 1 and goes_on)
        tried_clause = item.clause if tried else tried_clause
        drop = ("tool", "kin") if tried and not negated else ("method",)
        rows = [row for row in item.rows if row.option.rstrip("?") not in drop]
        if negated:
            rows = [
                row._replace(option=_DENIED.get(row.option, row.option))
                for row in rows
                if row.option in _DENIED or not at_once
            ]
        else:
            rows = [row for row in rows if row.option != "kin"]
            if not rows and not tried:
                unread.append(item)
        kept.append(item._replace(rows=tuple(rows)))
    return kept, unread


def _reaches(between: Sequence[str], onward: bool) -> bool:
    """Say whether a negation reaches over words, onward from what it has denied already."""
    if onward:
        return not {"or", "nor"}.isdisjoint(between) and _ONWARD.issuperset(between)
    return _OVER.issuperset(between)
