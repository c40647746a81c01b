"""The values of a thread and of a wire insert, in groups that stand on one source each."""

import sqlite3
from collections.abc import Iterable, Iterator
from typing import Any

from fastkit.answers.show_parts import FORMULA, STANDING, Group
from fastkit.mechanics import thread_forms, tolerance
from fastkit.records.left_hand import LeftHand
from fastkit.records.thread import (
    ClearanceHole,
    FormDrill,
    Insert,
    PipeGauge,
    TapDrill,
    Thread,
    ThreadLimit,
)
from fastkit.reference.lookup import get, many, one

Pair = tuple[float, float]
EXTRA_FINE_PITCHES = 9.0  # ASME B1.1: engagement of extra fine and special series, in pitches


def thread(store: sqlite3.Connection, key: str) -> list[Group]:
    """Basic sizes, drills, clearance holes and limits of a thread."""
    row = get(store, Thread, key)
    values = row._asdict()
    values = {"major_mm": values.pop("nominal_mm"), **values}
    drills = many(store, TapDrill, thread=key)
    first = drills[0] if drills else None
    hole = one(store, ClearanceHole, size=row.size)
    gauge = one(store, PipeGauge, thread=key)
    insert = one(store, Insert, id=key)
    return [
        Group("", ({**values, **_standing(row)},)),
        *([Group("", ({"gauge_mm": gauge.gauge_mm, **_standing(gauge)},))] if gauge else ()),
        Group("", (_drill(first),)),
        Group("", (_hole(hole),)),
        *([Group("", ({"insert": f"insert:{key}", **_standing(insert)},))] if insert else ()),
        Group("limits", tuple(limits(store, row))),
        Group("tap_drills", _rows(drills)),
        Group("form_drills", _rows(many(store, FormDrill, thread=key))),
    ]


def insert(store: sqlite3.Connection, key: str) -> list[Group]:
    """Drill and tap for the hole of a wire insert; tap and least hole follow from the thread."""
    row = get(store, Insert, key)
    drill = {"thread": f"thread:{key}", "drill_mm": row.drill_mm, "drill_name": row.drill_name}
    tap = {
        "tap_major_mm": row.tap_major_mm,
        "tap_pitch_diameter_mm": row.tap_pitch_diameter_mm,
        "hole_min_mm": row.hole_min_mm,
    }
    how = ("asme-b18-29-1", "d + 1.299 P, d + 0.6495 P, d + 0.2165 P", FORMULA)
    return [
        Group("", ({**drill, **_standing(row)},)),
        Group("", ({**tap, **dict(zip(STANDING, how, strict=True))},)),
    ]


def left_hand(store: sqlite3.Connection, key: str) -> list[Group]:
    """A place where the thread is left-hand."""
    return [Group("", (get(store, LeftHand, key)._asdict(),))]


def _standing(row: Any) -> dict[str, str]:
    return {name: getattr(row, name) for name in STANDING}


def _drill(drill: TapDrill | None) -> dict[str, Any]:
    standing = _standing(drill) if drill else {}
    return {"tap_drill_mm": drill.drill_mm if drill else None, **standing}


def _hole(hole: ClearanceHole | None) -> dict[str, Any]:
    fits = ("close_mm", "medium_mm", "coarse_mm")
    values = {f"clearance_{fit}": getattr(hole, fit) if hole else None for fit in fits}
    return {**values, **(_standing(hole) if hole else {})}


def _rows(rows: Iterable[Any]) -> tuple[dict[str, Any], ...]:
    return tuple({k: v for k, v in row._asdict().items() if k != "thread"} for row in rows)


def limits(store: sqlite3.Connection, row: Thread) -> Iterator[dict[str, Any]]:
    """Limits of size in the usual classes, by the standards' formulas, else as printed."""
    for name, side, dimension, (low, high), said in _by_formula(row):
        yield {
            **{"class": name, "side": side, "dimension": dimension},
            **{"min_mm": round(low, 3), "max_mm": round(high, 3)},
            **dict(zip(STANDING, said, strict=True)),
        }
    for printed in many(store, ThreadLimit, thread=row.id):
        yield {
            "class": printed.tolerance,
            **{name: getattr(printed, name) for name in ("side", "dimension", "min_mm", "max_mm")},
            **_standing(printed),
        }


def _by_formula(row: Thread) -> Iterator[tuple[str, str, str, Pair, tuple[str, str, str]]]:
    """Class, side, dimension, limits [mm] and standing, for the families that have formulas."""
    d, p = row.nominal_mm, row.pitch_mm
    if row.family == "BA":
        said = ("bs-93", "normal bolts and nuts by its formulas", FORMULA)
        bolt, nut = thread_forms.association_bolt(d, p), thread_forms.association_nut(d, p)
        if bolt.major:
            yield "normal", "external", "major", bolt.major, said
        yield "normal", "external", "pitch", bolt.pitch, said
        yield "normal", "internal", "pitch", nut.pitch, said
        yield "normal", "internal", "minor", nut.minor, said
        return
    if row.family in {"M", "plug"}:
        out, hole = tolerance.iso_external(d, p), tolerance.iso_internal(d, p)
        classes, said = ("6g", "6H"), ("iso-965-1", "6g and 6H by its formulas", FORMULA)
        if row.tpi:  # the inch spark plug has no class here
            return
    elif row.family == "UN":
        turns = EXTRA_FINE_PITCHES if row.series in {"UNEF", "UNS"} else None
        out = tolerance.unified_external(d, p, turns)
        hole = tolerance.unified_internal(d, p, turns)
        classes, said = ("2A", "2B"), ("asme-b1-1", "2A and 2B by its formulas", FORMULA)
    else:
        return
    yield classes[0], "external", "major", (out.d_min, out.d_max), said
    yield classes[0], "external", "pitch", (out.d2_min, out.d2_max), said
    yield classes[1], "internal", "pitch", (hole.d2_min, hole.d2_max), said
    yield classes[1], "internal", "minor", (hole.d1_min, hole.d1_max), said
