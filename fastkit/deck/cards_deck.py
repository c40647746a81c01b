"""Cards about the deck: index, how to prove the print, where the numbers come from."""

import re
import sqlite3
from collections.abc import Sequence

from fastkit.answers.cards import rows
from fastkit.deck.card import (
    MARKS,
    MEANING,
    Card,
    Cell,
    Drawing,
    Figure,
    Figures,
    Sketch,
    Table,
    Text,
    clean,
)
from fastkit.deck.drawings import ID1_HEIGHT_MM, ID1_WIDTH_MM, id1_outline, scale_bar
from fastkit.records.source import Source

INDEX = ("index", "start", "What is where", "Which card answers?")
VERIFY = ("verify-the-print", "deck", "Is this print true?", "Prove it before you trust a gauge.")
SOURCES = ("sources", "deck", "Sources and marks", "What stands behind the numbers?")
FRONT, BACK = 11, 17
"""Sources that a face has room for."""


def verify(_: sqlite3.Connection) -> Card:
    """How to prove that the print is true to scale, with two things at hand."""
    return Card(
        *VERIFY,
        ("source:iso-iec-7810",),
        ("iso-iec-7810",),
        front=(
            Drawing(scale_bar(50), "50.0 mm (1.97 in) from end to end"),
            Figures((Figure("A rule on the bar must read", "50.0", "mm", "within 0.2 mm"),)),
            Drawing(scale_bar(50.8, step_mm=12.7), "2.00 in (50.8 mm) from end to end"),
            Text(
                "Then turn over: any bank or identity card of the common size must cover the "
                "outline, edge on edge, along and across."
            ),
            Text(
                "Short or long? Print again at 100 %, without fitting to the page. A bar of "
                "48.5 mm is a 97 % print: every gauge in it is 3 % small, a 10 mm hexagon shows "
                "as 9.7.",
                "small",
            ),
        ),
        back=(
            Drawing(id1_outline()),
            Text("Lay a bank card here.", "strong"),
            Figures((Figure("along", f"{ID1_WIDTH_MM:.2f}", "mm", "3.370 in"),)),
            Figures((Figure("across", f"{ID1_HEIGHT_MM:.2f}", "mm", "2.125 in"),)),
            Text("Size ID-1 of ISO/IEC 7810. The line must be half hidden all round."),
        ),
        bare_back=True,
    )


def sources(store: sqlite3.Connection, cards: Sequence[Card]) -> Card:
    """The sources that the deck's cards name, and what the marks mean."""
    named = dict.fromkeys(s for card in cards for s in card.sources)
    held = {s.id: s for s in rows(store, Source)}
    found = [held[key] for key in named if key in held]
    front, back = found[:FRONT], found[FRONT : FRONT + BACK]
    left = len(found) - len(front) - len(back)

    def table(part: Sequence[Source]) -> Table:
        return Table((), tuple((Cell(_said(s), "fine"),) for s in part))

    return Card(
        *SOURCES,
        tuple(f"source:{s.id}" for s in found),
        (),
        front=(
            Table((), tuple((Cell(mark, "big"), Cell(words)) for mark, words in MEANING.items())),
            Text("No mark: computed by a published formula, or copied from the source.", "small"),
            table(front),
        ),
        back=(
            table(back),
            Text(
                f"{f'And {left} more: fastkit sources. ' if left else ''}One entry "
                "with its source: fastkit show ID. The maker's value goes before "
                "any number here.",
                "small",
            ),
        ),
        marks="".join(MARKS),
        back_title="Sources, more",
    )


def _said(source: Source) -> str:
    """Key and title on one line; a number in brackets says again what the key says."""
    return clean(f"{source.id}: {re.sub(r' *[(][^)]*[)]', '', source.title)}", 52)


def index(cards: Sequence[tuple[int, Sketch]]) -> Card:
    """What is where."""
    half = (len(cards) + 1) // 2

    def table(part: Sequence[tuple[int, Sketch]]) -> Table:
        return Table((), tuple((Cell(str(n), "head"), Cell(c.title, "plain")) for n, c in part))

    return Card(
        *INDEX,
        (),
        (),
        front=(table(cards[:half]),),
        back=(table(cards[half:]),),
        back_title="What is where, more",
    )
