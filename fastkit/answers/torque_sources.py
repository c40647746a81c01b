"""Where each part of a torque answer comes from, and how far it is checked."""

import sqlite3
from typing import Any, NamedTuple

from fastkit.answers.torque_parts import Parts
from fastkit.records.source import Source
from fastkit.reference.lookup import many, one

RULES = {  # how a bearing diameter that no table prints was found
    "iso-rule": ("iso-4759-1", "across flats and bearing face", "formula"),
    "inch-rule": ("asme-b18-2-1", "washer face 0.95 of across flats", "memory"),
    "round-rule": ("practice", "bearing face 0.95 of the head", "judgement"),
}
FORMULAS_ONLY = {  # sources that no row of the data stands on
    "fed-std-h28-2b": "Screw-thread standards for federal services (FED-STD-H28/2B)",
    "iso-6789-1": "Hand torque tools: requirements and testing (ISO 6789-1)",
}


class Used(NamedTuple):
    """One source, and what of the answer stands on it."""

    id: str
    title: str
    locator: str
    checked: str
    used_for: str


def used_of(store: sqlite3.Connection, row: Any, of: str) -> Used:
    """One row of the data as a source, with its title."""
    found = one(store, Source, id=row.source)
    return Used(row.source, found.title if found else row.source, row.locator, row.checked, of)


def used_titles(store: sqlite3.Connection, parts: Parts) -> tuple[Used, ...]:
    """Every source of the answer, with its title and how far each value is checked."""
    titles = {**FORMULAS_ONLY, **{source.id: source.title for source in many(store, Source)}}
    return tuple(
        Used(source, titles.get(source, source), locator, checked, of)
        for source, locator, checked, of in _used(parts)
    )


def _used(parts: Parts) -> list[tuple[str, str, str, str]]:
    found: list[tuple[str, str, str, str]] = []

    def row(record: Any, of: str) -> None:
        found.append((record.source, record.locator, record.checked, of))

    row(parts.thread, "thread")
    row(parts.strength, "strength")
    found.append(("vdi-2230-1", "eq. (R13/1), (R8/4)", "formula", "torque and preload"))
    if parts.friction is not None:
        row(parts.friction, "friction")
    if parts.head is not None:
        row(parts.head, "head")
    if parts.seat is not None and parts.seat.rule in RULES:
        found.append((*RULES[parts.seat.rule], "bearing face"))
    if parts.hole is not None:
        row(parts.hole, "hole")
    if parts.material is not None:
        row(parts.material, "body")
    if parts.material is not None and parts.material.shear_strength_mpa is not None:
        found.append(("fed-std-h28-2b", "thread shear areas", "formula", "thread strip"))
        bending = "4.2.3.1, modification factors for thread bending"
        found.append(("iso-tr-16224", bending, "copied", "thread strip"))
        ratios = "clause 5.5.5, bolts' shear over tensile strength, 0.8 P of run-out"
        found.append(("vdi-2230-1", ratios, "memory", "thread strip"))
    if parts.nut is not None:
        row(parts.nut, "nut")
    if parts.washer is not None:
        row(parts.washer, "washer")
    if parts.drive_torque is not None:
        drive = parts.drive_torque
        found.append((drive.source, drive.locator, drive.checked, f"drive, {drive.tool}"))
    found.append(("iso-6789-1", "permissible deviation", "copied", "wrench error"))
    if parts.reused:
        found.append(("practice", "friction up to a quarter higher", "judgement", "reused"))
    found.append(("iso-898-7", "breaking torque by X Rm", "formula", "breaking torque"))
    found.append(
        ("practice", "clamp 40 % where none is named, scale steps", "judgement", "lower edge")
    )
    return found
