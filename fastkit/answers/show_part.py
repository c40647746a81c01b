"""The values of grades and of parts: heads, washers, ends of screws, other hardware."""

import sqlite3
from collections.abc import Mapping

from fastkit.answers.show_rows import Builder, Group, listed, plain, row_of
from fastkit.records.grade import (
    Grade,
    GradeLimit,
    GradePair,
    GradeRow,
    Hardness,
    MarkStroke,
    NutRow,
)
from fastkit.records.hardware import Hardware, HardwareDim
from fastkit.records.head import Head
from fastkit.records.length import LengthRange, ScrewEnd
from fastkit.records.recess import RecessDim
from fastkit.records.washer import Washer
from fastkit.reference.lookup import get, many, one


def grade(store: sqlite3.Connection, key: str) -> list[Group]:
    """A grade: its strength by size, hardness, what it goes with, limits of use, its mark."""
    limit = one(store, GradeLimit, grade=key)
    nuts = [
        {**row_of(row, "grade"), "tensile_min_mpa": None, "yield_min_mpa": None}
        for row in many(store, NutRow, grade=key)
    ]
    return [
        Group("", (get(store, Grade, key)._asdict(),)),
        Group("rows", (*listed(many(store, GradeRow, grade=key), "grade"), *nuts)),
        Group("hardness", listed(many(store, Hardness, grade=key), "grade")),
        Group("limits", listed([limit] if limit else [], "grade")),
        Group("goes_with", listed(many(store, GradePair, grade=key), "grade")),
        Group("mate_of", listed(many(store, GradePair, mate=key), "mate")),
        Group("mark_strokes", listed(many(store, MarkStroke, grade=key), "grade")),
    ]


def head(store: sqlite3.Connection, key: str) -> list[Group]:
    """A head or nut of one standard and size, its recess and the lengths it is made in."""
    row = get(store, Head, key)
    where = {"standard": row.standard, "size": row.size}
    return [
        Group("", (row._asdict(),)),
        Group("recess", listed(many(store, RecessDim, **where), *where)),
        Group("made_lengths", listed(many(store, LengthRange, **where), *where)),
    ]


def hardware(store: sqlite3.Connection, key: str) -> list[Group]:
    """A piece of hardware and its dimensions."""
    dims = many(store, HardwareDim, hardware=key)
    return [*plain(Hardware)(store, key), Group("dimensions", listed(dims, "hardware"))]


KINDS: Mapping[str, Builder] = {
    "grade": grade,
    "head": head,
    "screw-end": plain(ScrewEnd),
    "washer": plain(Washer),
    "hardware": hardware,
}
