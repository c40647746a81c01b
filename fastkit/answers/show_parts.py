"""The values of an entry, kind by kind, in groups that stand on one source each."""

import sqlite3
from collections.abc import Iterable
from typing import Any, NamedTuple

from fastkit.errors import NotHeld
from fastkit.records.drive import (
    CrossTip,
    Drive,
    DrivePin,
    DriveSystem,
    DriveTorque,
    KeyArm,
    WrenchOpening,
)
from fastkit.records.friction import Friction
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
from fastkit.records.hazard import Clearance, Hazard, Neighbour
from fastkit.records.head import Head
from fastkit.records.length import LengthRange, ScrewEnd
from fastkit.records.material import Material
from fastkit.records.method import BondEffect, Method, MethodHazard, MethodText, Variant, Veto
from fastkit.records.recess import RecessDim
from fastkit.records.seizure import Seizure
from fastkit.records.source import Source
from fastkit.records.tool import Tool
from fastkit.records.torque import TorqueRow
from fastkit.records.washer import Washer
from fastkit.reference.lookup import R, get, many, one

STANDING = ("source", "locator", "checked")
FORMULA = "formula"


class Standing(NamedTuple):
    """Where a value comes from and how far it is checked."""

    source: str
    locator: str
    checked: str


class Group(NamedTuple):
    """Rows of one sort; a group without a name holds one row, the entry's own values."""

    name: str
    rows: tuple[dict[str, Any], ...]


def standing_of(row: dict[str, Any]) -> Standing | None:
    """The standing of a row; None where it has none of its own."""
    if row.get("source") is None:
        return None
    return Standing(*(row[name] for name in STANDING))


def _standing(row: Any) -> dict[str, str]:
    return {name: getattr(row, name) for name in STANDING}


def drive(store: sqlite3.Connection, key: str) -> list[Group]:
    """Sizes of a drive, what its tools are proved to carry, arms of its key, heads that have it."""
    row = get(store, Drive, key)
    torques = many(store, DriveTorque, drive=key)
    weakest = min(torques, key=lambda torque: torque.proof_torque_nm, default=None)
    proof = {"proof_torque_nm": weakest.proof_torque_nm if weakest else None}
    arms = one(store, KeyArm, drive=key)
    heads = [
        {"head": f"head:{head.id}", "size": head.size} for head in many(store, Head, drive=key)
    ]
    return [
        Group("", (row._asdict(),)),
        Group("", ({**proof, **(_standing(weakest) if weakest else {})},)),
        Group("proof_torques", _rows(torques, "drive")),
        Group("key_arms", _rows([arms] if arms else [], "drive")),
        Group("tip", _rows(many(store, CrossTip, drive=key), "drive")),
        Group("pin", _rows(many(store, DrivePin, drive=key), "drive")),
        Group("wrench_opening", _rows(many(store, WrenchOpening, drive=key), "drive")),
        Group("heads", tuple(heads)),
        Group("recesses", _rows(many(store, RecessDim, drive=key), "drive")),
    ]


def grade(store: sqlite3.Connection, key: str) -> list[Group]:
    """A grade: its strength by size, hardness, what it goes with, limits of use, its mark."""
    limit = one(store, GradeLimit, grade=key)
    nuts = [
        {**_row(row, "grade"), "tensile_min_mpa": None, "yield_min_mpa": None}
        for row in many(store, NutRow, grade=key)
    ]
    return [
        Group("", (get(store, Grade, key)._asdict(),)),
        Group("rows", (*_rows(many(store, GradeRow, grade=key), "grade"), *nuts)),
        Group("hardness", _rows(many(store, Hardness, grade=key), "grade")),
        Group("limits", _rows([limit] if limit else [], "grade")),
        Group("goes_with", _rows(many(store, GradePair, grade=key), "grade")),
        Group("mate_of", _rows(many(store, GradePair, mate=key), "mate")),
        Group("mark_strokes", _rows(many(store, MarkStroke, grade=key), "grade")),
    ]


def head(store: sqlite3.Connection, key: str) -> list[Group]:
    """A head or nut of one standard and size, its recess and the lengths it is made in."""
    row = get(store, Head, key)
    where = {"standard": row.standard, "size": row.size}
    return [
        Group("", (row._asdict(),)),
        Group("recess", _rows(many(store, RecessDim, **where), *where)),
        Group("made_lengths", _rows(many(store, LengthRange, **where), *where)),
    ]


def screw_end(store: sqlite3.Connection, key: str) -> list[Group]:
    """A form of end of a screw."""
    return _plain(store, ScrewEnd, key)


def washer(store: sqlite3.Connection, key: str) -> list[Group]:
    """A washer of one standard and size."""
    return _plain(store, Washer, key)


def hardware(store: sqlite3.Connection, key: str) -> list[Group]:
    """A piece of hardware and its dimensions."""
    dims = many(store, HardwareDim, hardware=key)
    return [*_plain(store, Hardware, key), Group("dimensions", _rows(dims, "hardware"))]


def torque(store: sqlite3.Connection, key: str) -> list[Group]:
    """Torque of a thread in a grade, a row for each friction condition, and what went in."""
    thread_, _, grade_ = key.partition("@")
    rows = many(store, TorqueRow, thread=thread_, grade=grade_)
    if not rows:
        raise NotHeld(f"no torque {key[:60]!r} in the data")
    same = ("utilisation_pct", "bearing_diameter_mm", "hole_mm", "wrench_error_pct")
    how = dict(zip(STANDING, ("vdi-2230-1", "torque from preload", FORMULA), strict=True))
    inputs = {"thread": thread_, "grade": grade_, **{name: getattr(rows[0], name) for name in same}}
    shown = [
        {
            "friction": row.friction,
            "mu": row.mu_mid,
            "mu_min": row.mu_min,
            "mu_max": row.mu_max,
            "torque_min_nm": row.torque_min_nm,
            "torque_nm": row.torque_nm,
            "torque_max_nm": row.torque_max_nm,
            "preload_n": row.preload_n,
            # no torque is surer than the friction that went in
            **_standing(get(store, Friction, row.friction)),
        }
        for row in rows
    ]
    return [Group("", ({**inputs, **how},)), Group("rows", tuple(shown))]


def method(store: sqlite3.Connection, key: str) -> list[Group]:
    """A way of loosening: what it does, with which tools, what it gives off, where it is out."""
    row = get(store, Method, key)
    texts = sorted(many(store, MethodText, method=key), key=lambda text: text.n)
    given_off = [
        get(store, Hazard, given.hazard) for given in many(store, MethodHazard, method=key)
    ]
    lists = {
        "steps": [text.text for text in texts if text.part == "step"],
        "cautions": [text.text for text in texts if text.part == "caution"],
    }
    return [
        Group("", ({**row._asdict(), **lists},)),
        Group("hazards", _rows(given_off)),
        Group("variants", _rows(many(store, Variant, method=key), "method")),
        Group("vetoes", _rows(many(store, Veto, method=key), "method")),
        Group("bond_effects", _rows(many(store, BondEffect, method=key), "method")),
    ]


def friction(store: sqlite3.Connection, key: str) -> list[Group]:
    """A friction condition."""
    return _plain(store, Friction, key)


def material(store: sqlite3.Connection, key: str) -> list[Group]:
    """A body material."""
    return _plain(store, Material, key)


def hazard(store: sqlite3.Connection, key: str) -> list[Group]:
    """A hazard, how far it must stay from what, and the methods that give it off."""
    methods = [{"method": f"method:{m.method}"} for m in many(store, MethodHazard, hazard=key)]
    return [
        Group("", (get(store, Hazard, key)._asdict(),)),
        Group("clearances", _rows(many(store, Clearance, hazard=key), "hazard")),
        Group("methods", tuple(methods)),
    ]


def neighbour(store: sqlite3.Connection, key: str) -> list[Group]:
    """A neighbour of the work and how far each hazard must stay from it."""
    return [
        Group("", (get(store, Neighbour, key)._asdict(),)),
        Group("clearances", _rows(many(store, Clearance, neighbour=key), "neighbour")),
    ]


def seizure(store: sqlite3.Connection, key: str) -> list[Group]:
    """A state of seizure and what each treatment leaves of it."""
    return [
        *_plain(store, Seizure, key),
        Group("bond_effects", _rows(many(store, BondEffect, seizure=key), "seizure")),
    ]


def system(store: sqlite3.Connection, key: str) -> list[Group]:
    """A system of drives and its sizes."""
    sizes = [{"drive": f"drive:{row.id}"} for row in many(store, Drive, system=key)]
    return [*_plain(store, DriveSystem, key), Group("drives", tuple(sizes))]


def tool(store: sqlite3.Connection, key: str) -> list[Group]:
    """A tool and what is done with it, with the room that takes."""
    return [
        *_plain(store, Tool, key),
        Group("variants", _rows(many(store, Variant, tool=key), "tool")),
    ]


def source(store: sqlite3.Connection, key: str) -> list[Group]:
    """A published source."""
    return [Group("", (get(store, Source, key)._asdict(),))]


def _plain(store: sqlite3.Connection, record: type[R], key: str) -> list[Group]:
    row: Any = get(store, record, key)
    return [Group("", (row._asdict(),))]


def _rows(rows: Iterable[Any], *left_out: str) -> tuple[dict[str, Any], ...]:
    """Rows as mappings, without the column that names the entry itself."""
    return tuple(_row(row, *left_out) for row in rows)


def _row(row: Any, *left_out: str) -> dict[str, Any]:
    return {k: v for k, v in row._asdict().items() if k not in left_out}
