"""Cells that print a row's own field, and the ids, sources and marks of the rows on a card."""

import sqlite3
from collections.abc import Callable, Iterable, Sequence
from math import copysign
from typing import Any, NamedTuple

from fastkit.deck.card import Block, Card, Cell, Gathered, Sketch, Table, inches, standing
from fastkit.notation.units import LBFT_NMM

INCH = 1 / 25.4
WIDE = "…"


def num(
    row: Any, field: str, look: str = "plain", factor: float = 1.0, digits: int = 3, unit: str = ""
) -> Cell:
    """
    The number in a row's field, with the row's mark; empty where it is not known.

    Args:
        row: A record of the data.
        field: Its field.
        look: A look of `card.Cell`.
        factor: What the number is multiplied by, such as tables.INCH.
        digits: Decimals kept at most.
        unit: Written after it.
    """
    value = getattr(row, field)
    if value is None:
        return Cell("", look)
    hair = copysign(1e-9, value)  # a half is rounded outward, as drill charts do: 3.175 is 3.18
    shown = f"{round(value * factor + hair, digits):.10g}{unit}"
    checked = getattr(row, "checked", "formula")  # what is computed has no standing of its own
    return Cell(shown, look, standing(checked), (row, field, factor))


def in_inches(row: Any, field: str, look: str = "small") -> Cell:
    """The length in a row's field as decimal inches, as drawings print it."""
    return Cell(inches(getattr(row, field)), look, "", (row, field, INCH))


def in_pounds(row: Any, field: str, look: str = "small") -> Cell:
    """The torque in N·m in a row's field as lb·ft."""
    return Cell(lbft(getattr(row, field)), look, "", (row, field, 1000 / LBFT_NMM))


def word(row: Any, field: str, look: str = "plain", limit: int = 60) -> Cell:
    """The words in a row's field, cut to a length."""
    text = str(getattr(row, field))
    return Cell(text if len(text) <= limit else text[: limit - 1].rstrip(" ,") + WIDE, look)


def head(text: str) -> Cell:
    """The name at the head of a row."""
    return Cell(text, "head")


def table(heads: Sequence[str | Cell], rows: Iterable[Sequence[Cell]], more: str = "") -> Table:
    """
    A table.

    Args:
        heads: Head of each column.
        rows: Cells of each row.
        more: Where the rows stand that a face has no room for: words of `fastkit find`.
    """
    return Table(tuple(heads), tuple(tuple(row) for row in rows), more)


def told(entries: Iterable[str], *rows: Any) -> Gathered:
    """
    Ids, sources and marks of what a card shows.

    Args:
        entries: Full entry ids, kind:key.
        rows: Records, or lists of them; None is left out.
    """
    every = [r for part in rows for r in (part if isinstance(part, list) else [part]) if r]
    return Gathered(
        entries=tuple(dict.fromkeys(entries)),
        sources=tuple(dict.fromkeys(r.source for r in every)),
        marks="".join(sorted({standing(r.checked) for r in every})),
    )


def practised(told: Gathered) -> Gathered:
    """The same, with sentences beside the numbers that are workshop practice."""
    return Gathered(
        entries=told["entries"],
        sources=tuple(dict.fromkeys((*told["sources"], "practice"))),
        marks="".join(sorted({*told["marks"], "p"})),
    )


def keyed(kind: str, rows: Iterable[Any], field: str = "id") -> list[str]:
    """Entry ids of rows by the field that holds their key."""
    return [f"{kind}:{getattr(r, field)}" for r in rows]


class Faces(NamedTuple):
    """Both faces of a card, and what they tell of the rows behind them."""

    front: tuple[Block, ...]
    back: tuple[Block, ...]
    told: Gathered
    back_title: str = ""


def sketch(
    id: str, family: str, title: str, question: str, faces: Callable[[sqlite3.Connection], Faces]
) -> Sketch:
    """
    A card that is made of faces when it is wanted.

    Args:
        id: The card's id.
        family: Its family.
        title: Its title.
        question: What it answers.
        faces: Makes its faces from the open reference.
    """

    def build(store: sqlite3.Connection) -> Card:
        made = faces(store)
        return Card(
            id,
            family,
            title,
            question,
            front=made.front,
            back=made.back,
            back_title=made.back_title,
            **made.told,
        )

    return Sketch(id, family, title, question, build)


def lbft(nm: float) -> str:
    """
    The same torque in lb·ft, three figures.

    Args:
        nm: Torque [N·m].
    """
    return f"{nm * 1000 / LBFT_NMM:.3g}"
