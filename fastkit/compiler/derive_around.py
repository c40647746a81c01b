"""Cells and rows around the fastener that follow from others: units, flares, pairs, drills."""

from collections.abc import Iterator, Mapping
from fractions import Fraction
from itertools import combinations
from math import floor
from typing import Any, NamedTuple

from fastkit.compiler.reading import Fault, Row, Tables
from fastkit.mechanics.extractor import bore_within_wall, drill_at_most

MM_PER_INCH = 25.4  # exact
NM_PER_INLB = 4.4482216152605 * 0.0254  # exact: pound-force times inch
Cells = dict[str, Any]
SMALLEST_DRILL_MM = 1.0
BOLTS = ("M", "UN", "BS", "BA")  # families of thread that a bolt has
ENVIRONMENTS = ("harsh", "normal", "controlled")  # columns of a pair


class Computed(NamedTuple):
    """Rows that are computed whole, and the key and title of the entry of each."""

    rows: list[Cells]
    kind: str
    entries: dict[str, str]


def complete_around(tables: Tables) -> list[Fault]:
    """Add the derived columns to the rows of *tables*, in place; faults where they cannot be."""
    for row in tables.get("reuse_torque", ()):
        _inlb(row, "drag_min")
    for row in tables.get("nut_torque", ()):
        for name in ("torque_min", "torque_max", "limit"):
            _inlb(row, name)
    for row in tables.get("tightening_method", ()):
        for end in ("min", "max"):
            share: Any = row.cells[f"scatter_{end}_pct"]
            row.cells[f"scatter_alpha_{end}"] = (
                None if share is None else round((100 + share) / (100 - share), 2)
            )
    for row in tables.get("coating_mass", ()):
        cells: Cells = row.cells
        cells["thickness_um"] = round(cells["mass_g_m2"] / cells["density_g_cm3"], 1)
    faults = []
    for row in tables.get("tube", ()):
        faults += _thread(row)
    for row in tables.get("tube_nut_hex", ()):
        faults += _hexagon(row)
    return faults


def _inlb(row: Row, name: str) -> None:
    cells: Cells = row.cells
    cells[f"{name}_nm"] = round(cells.pop(f"{name}_inlb") * NM_PER_INLB, 3)


def inches(text: str) -> float:
    """1-1/16 -> 26.9875 mm."""
    return float(sum((Fraction(part) for part in text.split("-")), Fraction(0))) * MM_PER_INCH


def _thread(row: Row) -> list[Fault]:
    text = str(row.cells["thread"])
    try:
        if text.startswith("M"):
            diameter, pitch = map(float, text[1:].split("x"))
        else:
            size, _, per_inch = text.rpartition("-")
            diameter, pitch = inches(size), MM_PER_INCH / float(per_inch)
    except (ValueError, ZeroDivisionError):
        expected = "a thread such as 3/8-24 or M10x1"
        return [Fault(row.file, row.line, "thread", text, expected)]
    row.cells.update(thread_mm=round(diameter, 4), pitch_mm=round(pitch, 4))
    return []


def _hexagon(row: Row) -> list[Fault]:
    text = str(row.cells["hexagon"])
    try:
        flats = inches(text[:-2]) if text.endswith("in") else float(text.removesuffix("mm"))
    except (ValueError, ZeroDivisionError):
        expected = "flats such as 3/8in or 11mm"
        return [Fault(row.file, row.line, "hexagon", text, expected)]
    row.cells["across_flats_mm"] = round(flats, 4)
    return []


def computed(tables: Tables) -> Mapping[str, Computed]:
    """Pairs of metals and drills by thread, by table."""
    drills = list(_drills(tables))
    titles = {row["thread"]: f"Broken bolt {row['thread']}: extractors" for row in drills}
    pairs, names = list(_pairs(tables)), _titles(tables)
    return {
        "pair": Computed(
            pairs,
            "pair",
            {p["id"]: f"Galvanic pair: {names[p['first']]}, {names[p['second']]}" for p in pairs},
        ),
        "drill_out": Computed(drills, "broken", titles),
    }


def _titles(tables: Tables) -> dict[Any, str]:
    return {row.cells["id"]: str(row.cells["title"]) for row in tables.get("metal", ())}


def _pairs(tables: Tables) -> Iterator[Cells]:
    """Every two metals: the one of the greater index corrodes where the limit is passed."""
    index: dict[Any, Any] = {
        row.cells["id"]: row.cells["index_v"] for row in tables.get("anodic_index", ())
    }
    limit: dict[Any, Any] = {
        row.cells["id"]: row.cells["limit_v"] for row in tables.get("environment", ())
    }
    metals: dict[str, float] = {
        str(row.cells["id"]): index[row.cells["anodic_index"]]
        for row in tables.get("metal", ())
        if index.get(row.cells["anodic_index"]) is not None
    }
    if any(limit.get(name) is None for name in ENVIRONMENTS):
        return
    for first, second in combinations(sorted(metals), 2):
        apart = round(metals[first] - metals[second], 3)
        yield {
            "id": f"{first}+{second}",
            "first": first,
            "second": second,
            "difference_v": abs(apart),
            "corrodes": (first if apart > 0 else second) if apart else None,
            **{name: "fit" if abs(apart) <= limit[name] else "unfit" for name in ENVIRONMENTS},
        }


def _drills(tables: Tables) -> Iterator[Cells]:
    """Largest drill for each purpose that leaves its wall, or that of the largest extractor."""
    shares: list[Cells] = [row.cells for row in tables.get("drill_share", ())]
    rows: list[Cells] = [row.cells for row in tables.get("spiral_extractor", ())]
    by_drill = {cells["drill_mm"]: cells["id"] for cells in rows}
    for row in tables.get("thread", ()):
        thread: Cells = row.cells
        root: Any = thread.get("root_mm")
        for share in shares if root and thread["family"] in BOLTS else ():
            most = min(share["share_max"] * root, bore_within_wall(root, share["wall_min_mm"]))
            drill = floor(10 * most + 1e-9) / 10
            if drill < SMALLEST_DRILL_MM:
                continue
            spiral = share["purpose"] == "spiral-extractor"
            size = drill_at_most(drill, tuple(by_drill)) if spiral else None
            extractor = by_drill[size] if size else None
            drill = round(size, 2) if size else drill
            yield {
                "thread": thread["id"],
                "purpose": share["purpose"],
                "drill_mm": drill,
                "wall_mm": round((root - drill) / 2, 2),
                "extractor": extractor,
            }
