"""The values of a thread and of a wire insert, in groups that stand on one source each."""

import sqlite3
from collections.abc import Iterator, Mapping
from typing import Any

from fastkit.answers.show_rows import FORMULA, STANDING, Builder, Group, listed, plain, standing
from fastkit.joint.classes import usual_classes
from fastkit.records.left_hand import LeftHand
from fastkit.records.thread import (
    ClassLimit,
    ClearanceHole,
    FormDrill,
    Insert,
    PipeGauge,
    TapDrill,
    Thread,
    ThreadLimit,
)
from fastkit.reference.lookup import get, many, one

FORMULAS = {  # source of the classes' formulas, by family
    **dict.fromkeys(("M", "plug"), ("iso-965-1", "by its formulas for grades and positions")),
    "UN": ("asme-b1-1", "section 5, by its formulas"),
    "BS": ("bs-84", "by its formulas, as carried in Machinery's Handbook, 31st ed."),
    "BA": ("bs-93", "by its formulas, as carried in Machinery's Handbook, 31st ed."),
}


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
        Group("", ({**values, **standing(row)},)),
        *([Group("", ({"gauge_mm": gauge.gauge_mm, **standing(gauge)},))] if gauge else ()),
        Group("", (_drill(first),)),
        Group("", (_hole(hole),)),
        *([Group("", ({"insert": f"insert:{key}", **standing(insert)},))] if insert else ()),
        Group("limits", tuple(limits(store, row))),
        Group("tap_drills", listed(drills, "thread")),
        Group("form_drills", listed(many(store, FormDrill, thread=key), "thread")),
        Group("limits_of_other_classes", tuple(limits(store, row, usual=False))),
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
        Group("", ({**drill, **standing(row)},)),
        Group("", ({**tap, **dict(zip(STANDING, how, strict=True))},)),
    ]


def _drill(drill: TapDrill | None) -> dict[str, Any]:
    return {
        "tap_drill_mm": drill.drill_mm if drill else None,
        **(standing(drill) if drill else {}),
    }


def _hole(hole: ClearanceHole | None) -> dict[str, Any]:
    fits = ("close_mm", "medium_mm", "coarse_mm")
    values = {f"clearance_{fit}": getattr(hole, fit) if hole else None for fit in fits}
    return {**values, **(standing(hole) if hole else {})}


def limits(store: sqlite3.Connection, row: Thread, usual: bool = True) -> Iterator[dict[str, Any]]:
    """Limits of size in the usual classes, by formula and as printed; or those of the others."""
    key, said = FORMULAS.get(row.family, ("", ""))
    names = usual_classes(row)
    for limit in many(store, ClassLimit, thread=row.id):
        if (limit.tolerance in names) == usual:
            yield {
                "class": limit.tolerance,
                **{name: getattr(limit, name) for name in ("side", "dimension")},
                **{"min_mm": round(limit.min_mm, 3), "max_mm": round(limit.max_mm, 3)},
                **dict(zip(STANDING, (key, said, FORMULA), strict=True)),
            }
    for printed in many(store, ThreadLimit, thread=row.id) if usual else ():
        yield {
            "class": printed.tolerance,
            **{name: getattr(printed, name) for name in ("side", "dimension", "min_mm", "max_mm")},
            **standing(printed),
        }


KINDS: Mapping[str, Builder] = {
    "thread": thread,
    "insert": insert,
    "left-hand": plain(LeftHand),
}
