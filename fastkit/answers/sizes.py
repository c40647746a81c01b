"""Sizes for the fastener in hand in words: the rows fetched, each with where it comes from."""

import sqlite3
from collections.abc import Callable, Mapping
from typing import Any, NamedTuple

from fastkit.answers.wording import size_sentence
from fastkit.extraction.facts import Facts
from fastkit.extraction.situation import Situation
from fastkit.extraction.sizes import Piece, Size, Stock, sizes
from fastkit.extraction.warmth import SOFT_C
from fastkit.records.drilling import DrillOut, DrillShare, SpiralExtractor
from fastkit.records.drive import DriveTorque
from fastkit.records.head import Head
from fastkit.records.thread import Insert, TapDrill, Thread
from fastkit.records.washer import Washer
from fastkit.reference.lookup import many, one

COARSE = ("coarse", "UNC")
PLAIN_NUTS = {"M": "ISO 4032", "UN": "ASME B18.2.2"}
MARKS: Mapping[str, str] = {"judgement": "practice", "memory": "from memory"}


class Told(NamedTuple):
    """One size in words; `mm` where it is a length, `values` as the sentence took them."""

    what: str
    mm: float | None
    says: str
    source: str
    checked: str
    values: tuple[str | float, ...]

    def document(self) -> dict[str, Any]:
        """Return the JSON of it."""
        fields = self._asdict()
        del fields["values"]
        return fields


def teller(
    store: sqlite3.Connection,
    situation: Situation,
    facts: Facts,
    shank_nmm: float,
    body_known: bool = True,
) -> Callable[[str], tuple[Told, ...]]:
    """Return a function that tells the sizes of a method on this fastener."""
    piece = Piece(situation, facts, _stock(store, facts.thread), shank_nmm)

    def told(method: str) -> tuple[Told, ...]:
        return tuple(
            Told(size.what, size.mm, size_sentence(size), size.source, size.checked, size.values)
            for found in sizes(method, piece)
            for size in ((found,) if body_known else _of_either(found))
        )

    return told


def _of_either(size: Size) -> tuple[Size, ...]:
    """Return a glow as what steel and iron alone stand, after what a light body does."""
    if size.what != "heat" or "glow" not in size.values:
        return (size,)
    light = size._replace(what="heat_of_light", values=(SOFT_C,))
    return light, size._replace(values=(*size.values[:-1], "iron_glow"))


def marked(told: tuple[Told, ...]) -> str:
    """Return sizes in one line, each from memory or from practice marked as such."""
    marks = [MARKS.get(size.checked, "") for size in told]
    parts = []
    for number, (size, mark) in enumerate(zip(told, marks, strict=True)):
        last = number + 1 == len(told) or marks[number + 1] != mark
        parts.append(f"{size.says} ({mark})" if mark and last else size.says)
    return "; ".join(parts)


def _stock(store: sqlite3.Connection, thread: Thread) -> Stock:
    drills = {row.purpose: row for row in many(store, DrillOut, thread=thread.id)}
    number = drills["spiral-extractor"].extractor if "spiral-extractor" in drills else None
    standard = PLAIN_NUTS.get(thread.family)
    heads = {row.size: row for row in many(store, Head, standard=standard)} if standard else {}
    coarse = [
        row
        for series in COARSE
        for row in many(store, Thread, family=thread.family, series=series)
        if row.size in heads
    ]
    return Stock(
        drills,
        {row.purpose: row for row in many(store, DrillShare)},
        one(store, SpiralExtractor, id=number) if number else None,
        one(store, TapDrill, thread=thread.id),
        one(store, Insert, id=thread.id),
        sorted(((row, heads[row.size]) for row in coarse), key=lambda pair: pair[0].nominal_mm),
        many(store, Washer, standard="ISO 7089"),
        {row.drive: row for row in many(store, DriveTorque, tool="blade")},
    )
