"""The rows that a replacement rests on, fetched for one thread."""

import sqlite3
from collections.abc import Iterable, Mapping
from typing import NamedTuple

from fastkit.answers.sealed import sealed_names
from fastkit.answers.torque import TorqueAnswer
from fastkit.errors import Broken, Misuse
from fastkit.hardware.candidates import Asked, Facts
from fastkit.hardware.galvanic import galvanics
from fastkit.hardware.room import INNER, OUTER
from fastkit.notation.designation import parse
from fastkit.records.drive import Drive
from fastkit.records.friction import Friction
from fastkit.records.galvanic import AnodicIndex, Environment, Metal, SeaPotential
from fastkit.records.grade import Grade, GradeLimit, GradePair, GradeRow
from fastkit.records.head import Head
from fastkit.records.length import LengthRange, NominalLength, ThreadLength
from fastkit.records.material import Material
from fastkit.records.method import Variant
from fastkit.records.replacement import (
    InchLength,
    Lock,
    Make,
    Offer,
    PartWord,
    ReuseRule,
)
from fastkit.records.stuff import Engagement
from fastkit.records.thread import Thread
from fastkit.records.washer import Washer
from fastkit.reference.aliases import first_meant, readable
from fastkit.reference.lookup import many, nearest, one
from fastkit.shopbook.rows import Owned, Stocked
from fastkit.shopbook.store import read

METAL_OF = {  # what the surface of a body counts as
    "steel": "steel",
    "cast-iron": "cast-iron",
    "aluminium": "aluminium",
    "magnesium": "magnesium",
    "brass": "brass",
    "sheet": "steel",
    "plastic": "brass",  # of the insert
}
BOUGHT = frozenset(
    """3.6 4.6 4.8 5.6 5.8 6.8 8.8 9.8 10.9 12.9 A2-50 A2-70 A2-80 A4-50 A4-70 A4-80 A193-B7 SAE-1
    SAE-2 SAE-5 SAE-8 A574""".split()
)


class Rows(NamedTuple):
    """Everything that a replacement is chosen from."""

    facts: Facts
    lengths: tuple[NominalLength, ...]
    inches: tuple[InchLength, ...]
    threaded: tuple[ThreadLength, ...]
    ranges: tuple[LengthRange, ...]
    locks: tuple[Lock, ...]
    rules: tuple[ReuseRule, ...]
    engagements: tuple[Engagement, ...]
    washers: tuple[Washer, ...]  # of this size
    pairs: tuple[GradePair, ...]
    frictions: Mapping[str, Friction]


class Joint(NamedTuple):
    """What is asked of every option alike."""

    asked: Asked
    body: Material | None  # None: a nut
    grip_mm: float | None
    depth_mm: float | None
    wants_lock: bool
    conducts: bool
    known_nm: float | None
    before: TorqueAnswer | None  # the old part at the known torque
    degc: float | None
    thin_sheet: bool
    ground_nm: tuple[float, float] | None = None  # range for a ground bolt of this size
    creeps: bool = False  # what is clamped is plastic


class Own(NamedTuple):
    """What the user has: drives with a bit or key at hand, stock, what is wrong with the file."""

    drives: frozenset[str]
    stock: tuple[Stocked, ...]
    said: tuple[str, ...]


def own(store: sqlite3.Connection) -> tuple[Own, tuple[Owned, ...]]:
    """What the own file holds; trouble with it is said and keeps no answer from being given."""
    try:
        held = read()
    except Broken as error:
        return Own(frozenset(), (), (str(error),)), ()
    tools = tuple(held.of(Owned))
    sizes = " , ".join(f"{row.size} {row.note}" for row in tools if row.size)
    parts = parse(sizes, first_meant(store, sizes)) if sizes else ()
    drives = frozenset(part.key for part in parts if part.kind == "drive")
    said = (held.trouble,) if held.trouble else ()
    return Own(drives, tuple(held.of(Stocked)), said), tools


def rows(store: sqlite3.Connection, thread: Thread, tools: Iterable[Owned]) -> Rows:
    """Fetch what is made in a thread's size, and what choosing rests on."""
    heads = {head.standard: head for head in many(store, Head, size=thread.size)}
    inch = thread.family != "M"
    offers = tuple(row for row in many(store, Offer) if row.standard.startswith("ASME") == inch)
    wanted = {heads[row.standard].drive for row in offers if row.standard in heads}
    strengths: dict[str, list[GradeRow]] = {}
    for row in many(store, GradeRow):
        if row.grade in BOUGHT:
            strengths.setdefault(row.grade, []).append(row)
    return Rows(
        Facts(
            thread,
            offers,
            tuple(many(store, Make)),
            heads,
            {row.id: row for row in many(store, Drive) if row.id in wanted},
            {name: tuple(found) for name, found in strengths.items()},
            {row.grade: row for row in many(store, GradeLimit)},
            _variants(store, tools),
            galvanics(
                many(store, Metal),
                many(store, AnodicIndex),
                many(store, Environment),
                many(store, SeaPotential),
            ),
        ),
        tuple(many(store, NominalLength)),
        tuple(many(store, InchLength)),
        tuple(many(store, ThreadLength)),
        tuple(many(store, LengthRange, size=thread.size)),
        tuple(many(store, Lock)),
        tuple(many(store, ReuseRule)),
        tuple(many(store, Engagement)),
        tuple(many(store, Washer, size=thread.size)),
        tuple(many(store, GradePair)),
        {row.id: row for row in many(store, Friction)},
    )


def _variants(store: sqlite3.Connection, tools: Iterable[Owned]) -> tuple[Variant, ...]:
    """Tools that turn a sound drive, with the room that the user measured for them."""
    variants = (*many(store, Variant, method=INNER), *many(store, Variant, method=OUTER))
    own_tools = [row for row in tools if row[3:6] != (None, None, None)]
    if not own_tools:
        return variants
    from fastkit.answers.learned import measured  # brings the planner along, seldom needed

    return measured(variants, own_tools)


def phrases(store: sqlite3.Connection) -> Mapping[str, list[tuple[str, str]]]:
    """Words about old parts and their places, with all that each says."""
    found: dict[str, list[tuple[str, str]]] = {}
    for row in many(store, PartWord):
        found.setdefault(row.words, []).append((row.what, row.value))
    for words, hole in sealed_names(store).items():
        if words not in found:
            larger = hole.larger == "yes"  # as plugs are
            found[words] = [("kind", "drain-plug" if larger else "own-part")]
            if hole.critical:
                found[words].append(("safety", hole.critical))
    return found


def bolt_grades(store: sqlite3.Connection) -> list[str]:
    """Ids of the classes of bolts."""
    return [row.id for row in many(store, Grade, product="bolt")]


def body(store: sqlite3.Connection, text: str | None) -> Material | None:
    """
    Return the material of the internal thread; None for a nut.

    Raises:
        Misuse: When the data has no such material.
    """
    word = " ".join(readable(text or "steel").strip().lower().removeprefix("material:").split())
    word = {"aluminum": "aluminium", "alu": "aluminium", "iron": "cast-iron"}.get(word, word)
    word = word.replace(" ", "-")
    if word == "nut" or word.startswith("nut-"):
        return None
    found = one(store, Material, id=word)
    if found is None:
        held = [row.id for row in many(store, Material)]
        raise Misuse(
            f"unknown material {word[:40]!r}; expected nut, or one of {', '.join(held)}",
            nearest(word[:40], ["nut", *held], 1),
        )
    return found
