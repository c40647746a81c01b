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
FIRST, FRONT, BACK = 15, 28, 23
"""Lines of sources that a face has room for: the first, with the marks; a front; a back."""

A4_EDGE_MM = 210.0
"""Short edge of an A4 sheet, ISO 216."""

LETTERS = 44
"""Letters on such a line."""

NUMBERED = re.compile(r"(?:asme|astm|bs|din|iso|sae|vdi)-[a-z]{0,4}-?\d\S*")
"""Keys that are the name of a standard: what is listed by number alone."""

FAMILY_TITLES = {
    "start": "FIRST",
    "emergency": "STUCK, BROKEN",
    "loosen": "LOOSEN",
    "torque": "TIGHTEN",
    "gauge": "WHAT IS IT",
    "replace": "REPLACE",
    "repair": "REPAIR",
    "deck": "THE DECK",
}


def verify(_: sqlite3.Connection) -> Card:
    """How to prove that the print is true to scale, with two things at hand."""
    return Card(
        *VERIFY,
        ("source:iso-iec-7810", "source:iso-216"),
        ("iso-iec-7810", "iso-216"),
        front=(
            Drawing(scale_bar(50), "50.0 mm (1.97 in) from end to end"),
            Figures((Figure("A rule on the bar must read", "50.0", "mm", "within 0.2 mm"),)),
            Drawing(scale_bar(50.8, step_mm=12.7), "2.00 in (50.8 mm) from end to end"),
            Drawing(scale_bar(A4_EDGE_MM / 4, step_mm=A4_EDGE_MM / 8)),
            Figures(
                (
                    Figure(
                        "No rule? Fold an A4 edge of 210 in half twice",
                        f"{A4_EDGE_MM / 4:g}",
                        "mm",
                        "ISO 216. Letter: 53.98 mm, the width of the outline behind",
                    ),
                )
            ),
            Text("Then turn over: a bank or identity card must cover the outline, edge on edge."),
            Text(
                "Short or long? Print again at 100 %, not fitted to the page: a bar of 48.5 shows "
                "a 10 mm hexagon as 9.7. Held to the light, 1 mm between front and back does no "
                "harm.",
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


def sources(store: sqlite3.Connection, cards: Sequence[Card]) -> list[Card]:
    """
    The sources that the deck's cards name, on as many cards as they need, and the marks' meaning.

    Args:
        store: Open reference.
        cards: The cards before these.
    """
    named = dict.fromkeys(s for card in cards for s in card.sources)
    held = {s.id: s for s in rows(store, Source)}
    found = sorted((held[key] for key in named if key in held), key=lambda s: (s.kind, s.id))
    faces: list[list[Source]] = [[]]
    left = FIRST
    for source in found:
        if NUMBERED.fullmatch(source.id):
            continue
        lines = -(-len(_said(source)) // LETTERS)
        if faces[-1] and lines > left:
            faces.append([])
            left = FRONT if len(faces) % 2 else BACK
        faces[-1].append(source)
        left -= lines
    pages = [faces[k : k + 2] for k in range(0, len(faces), 2)]
    numbered = [source for source in found if NUMBERED.fullmatch(source.id)]
    return [
        _sources(n, len(pages), page, numbered if n == len(pages) else [])
        for n, page in enumerate(pages, 1)
    ]


def source_ids(count: int) -> tuple[str, str, str, str]:
    """Id, family, title and question of a card of sources by its place."""
    id, family, title, question = SOURCES
    return (
        (id, family, title, question)
        if count == 1
        else (
            f"{id}-{count}",
            family,
            f"{title}, {count}",
            f"{question} Card {count}.",
        )
    )


def _sources(
    number: int, of: int, page: Sequence[Sequence[Source]], numbered: Sequence[Source]
) -> Card:
    """One card of sources, marks first on the first, the standards by number on the last."""
    front, back = page[0], page[1] if len(page) > 1 else ()
    legend = (
        Table((), tuple((Cell(mark, "big"), Cell(words)) for mark, words in MEANING.items())),
        Text("No mark: computed by a published formula, or copied from the source.", "small"),
    )
    said = Text(
        "One entry with its source and edition: fastkit show ID. All: fastkit sources. The "
        "maker's value goes before any number here.",
        "small",
    )
    return Card(
        *source_ids(number),
        tuple(f"source:{s.id}" for part in (*page, numbered) for s in part),
        (),
        front=(*(legend if number == 1 else ()), _listed(front)),
        back=(
            *((_listed(back),) if back else ()),
            *((_by_number(numbered),) if numbered else ()),
            said,
        ),
        marks="".join(MARKS),
        back_title=f"Sources, {number} of {of}",
    )


def _listed(part: Sequence[Source]) -> Table:
    """Sources, one a row: key, then title."""
    return Table((), tuple((Cell(_said(s), "note"),) for s in part), "source")


def _by_number(part: Sequence[Source]) -> Table:
    """Standards by who gives them out and their numbers, as the feet of cards name them."""
    numbers: dict[str, list[str]] = {}
    for source in part:
        body, _, number = source.id.partition("-")
        numbers.setdefault(body, []).append(number)
    lines = (
        (Cell(body.upper(), "key"), Cell(", ".join(them).upper(), "note"))
        for body, them in numbers.items()
    )
    return Table(("", "standards, by their numbers"), tuple(lines))


def _said(source: Source) -> str:
    """Key and title, without what the key says already in brackets."""
    return f"{source.id}: {re.sub(r' *[(][^)]*[)]', '', source.title)}"


def index(cards: Sequence[tuple[int, Sketch]]) -> Card:
    """What is where, by family, in two columns a face."""
    lines: list[tuple[Cell, Cell]] = []
    family = ""
    for number, card in cards:
        if card.family != family:
            family = card.family
            lines.append((Cell("", "key"), Cell(FAMILY_TITLES[family], "group")))
        lines.append((Cell(str(number), "nr"), Cell(clean(card.title, 21), "fine")))
    side = -(-len(lines) // 4)
    empty = (Cell("", "key"), Cell("", "fine"))
    columns = [lines[k * side : (k + 1) * side] for k in range(4)]
    columns = [c + [empty] * (side - len(c)) for c in columns]
    faces = [
        Table((), tuple((*a, *b) for a, b in zip(*columns[k : k + 2], strict=True))) for k in (0, 2)
    ]
    entries, sources = ("source:practice",), ("practice",)
    return Card(
        *INDEX, entries, sources, (faces[0],), (faces[1],), back_title="What is where, more"
    )
