"""Columns of the thread tables that follow from the kept cells, family by family."""

from collections.abc import Iterator, Mapping
from typing import Any

from fastkit.compiler.reading import Fault, Row, Tables
from fastkit.mechanics import thread as profile
from fastkit.mechanics import thread_forms as forms

MM_PER_INCH = 25.4  # exact
# ISO 68-1, ASME B1.1, BS 84, BS 93, ISO 228-1, ISO 7-1, ASME B1.20.1, ISO 1478, DIN 40430
FLANK_ANGLE_DEG = {
    **{"M": 60.0, "UN": 60.0, "plug": 60.0, "BS": 55.0, "BA": 47.5, "G": 55.0, "R": 55.0},
    **{"NPT": 60.0, "ST": 60.0, "PG": 80.0},
}
# Families with a core printed beside the outside; the others follow from diameter and pitch.
WITH_CORE = {"ST", "PG"}
# Full depth of thread on the diameter, over the pitch, to which percentages refer: 3/4 H twice at
# 60 degrees, the depth twice for the British forms; a taper thread has none.
FULL_DEPTH = {
    **dict.fromkeys(("M", "UN", "plug"), 1.5 * profile.H_PER_P),
    **dict.fromkeys(("BS", "G"), 2 * forms.WHITWORTH_DEPTH),
    "BA": 2 * forms.ASSOCIATION_DEPTH,
}
# Screw thread of a wire insert's hole: the thread's own profile moved out by one wire.
TAP_MAJOR, TAP_PITCH, HOLE = 1.5 * profile.H_PER_P, 0.75 * profile.H_PER_P, 0.25 * profile.H_PER_P
TITLES = {  # by family, else by series
    "UN": "Unified thread, {series} series",
    "M": "metric thread, {series} series",
    "plug": "spark plug thread",
    "BSW": "British Standard Whitworth thread (BSW)",
    "BSF": "British Standard Fine thread (BSF)",
    "BA": "British Association thread",
    "G": "parallel pipe thread, ISO 228 (BSPP)",
    "R": "taper pipe thread, ISO 7 (BSPT)",
    "Rp": "parallel internal pipe thread, ISO 7 (BSPT)",
    "NPT": "American taper pipe thread",
    "NPTF": "American dryseal taper pipe thread",
    "ST": "tapping screw thread, ISO 1478",
    "AB": "inch tapping screw thread, types AB and B",
    "PG": "steel conduit thread",
}
Cells = dict[str, Any]


def title(cells: Mapping[str, Any]) -> str:
    """What a thread is, in words; empty for rows of another table."""
    series, family = cells.get("series") or "", cells.get("family") or ""
    words = TITLES.get(series) or TITLES.get(family, "")
    return words.format(series=series)


def complete(tables: Tables) -> Iterator[Fault]:
    """Add the derived columns to the thread tables, in place; faults where they cannot be."""
    for row in tables.get("pipe_gauge", ()):
        inch = row.cells.pop("gauge_in")
        if (row.cells["gauge_mm"] is None) == (inch is None):
            yield _either(row, "gauge_mm", "gauge_in")
        row.cells["gauge_mm"] = _mm(row.cells["gauge_mm"], inch)
    gauges = {row.cells["thread"]: row.cells["gauge_mm"] for row in tables.get("pipe_gauge", ())}
    for row in tables.get("thread", ()):
        yield from complete_thread(row, gauges)
    held = {row.cells["id"]: row.cells for row in tables.get("thread", ())}
    for row in tables.get("tap_drill", ()):
        row.cells["thread_pct"] = _percent(held.get(row.cells["thread"], {}), row.cells)
    for row in tables.get("wire_insert", ()):
        thread: Cells = held.get(row.cells["id"], {})
        d, p = thread.get("nominal_mm") or 0.0, thread.get("pitch_mm") or 0.0
        names = ("tap_major_mm", "tap_pitch_diameter_mm", "hole_min_mm")
        for name, share in zip(names, (TAP_MAJOR, TAP_PITCH, HOLE), strict=True):
            row.cells[name] = d + share * p


def complete_thread(row: Row, gauges: Mapping[Any, Any]) -> Iterator[Fault]:
    """Basic dimensions of one thread from its printed cells, in mm or in inches."""
    cells: Cells = row.cells
    inch, tpi, core = cells.pop("nominal_in"), cells["tpi"], cells.pop("core_mm")
    faults = []
    for metric, other, said in (("nominal_mm", inch, "nominal_in"), ("pitch_mm", tpi, "tpi")):
        if (cells[metric] is None) == (other is None):
            faults.append(_either(row, metric, said))
    family = cells["family"]
    if (core is not None) != (family in WITH_CORE):
        expected = f"a number for the families {', '.join(sorted(WITH_CORE))}, and for no other"
        faults.append(Fault(row.file, row.line, "core_mm", _shown(core), expected))
    gauge = gauges.get(cells["id"])
    if family == "NPT" and gauge is None:
        expected = "its hand-tight length in pipe_gauges.csv"
        faults.append(Fault(row.file, row.line, "id", cells["id"], expected))
    if not faults:
        d = cells["nominal_mm"] = _mm(cells["nominal_mm"], inch)
        p = cells["pitch_mm"] = MM_PER_INCH / tpi if tpi else cells["pitch_mm"]
        if d <= 2 * p:
            expected = f"more than twice the pitch {p:g}"
            faults.append(Fault(row.file, row.line, "nominal_mm", _shown(d), expected))
        elif core and not core < d:
            expected = f"less than the outside {d:g}"
            faults.append(Fault(row.file, row.line, "core_mm", _shown(core), expected))
        else:
            cells["flank_angle_deg"] = FLANK_ANGLE_DEG[family]
            basic = basic_dimensions(family, d, p, core, gauge)
            cells["pitch_diameter_mm"], cells["minor_mm"] = basic[:2]
            cells["root_mm"], cells["stress_area_mm2"] = basic[2:]
    yield from faults


def basic_dimensions(
    family: str, d: float, p: float, core: float | None, gauge: float | None
) -> forms.Basic:
    """Pitch, minor and root diameter [mm] and area [mm^2] by the family's own profile."""
    if core is not None:
        return forms.of_core(d, core)
    if gauge is not None and family == "NPT":
        return forms.taper_pipe(d, p, gauge)
    if family in {"BS", "G", "R"}:
        return forms.whitworth(d, p)
    if family == "BA":
        return forms.association(d, p)
    unified = family == "UN"
    area = profile.unified_stress_area if unified else profile.stress_area
    root = profile.unified_root_diameter if unified else profile.root_diameter
    d2, d1 = profile.pitch_diameter(d, p), profile.minor_diameter(d, p)
    return forms.Basic(d2, d1, root(d, p), area(d, p))


def _percent(thread: Cells, drill: Cells) -> float | None:
    depth = FULL_DEPTH.get(thread.get("family", ""))
    if depth is None or thread.get("nominal_mm") is None or not thread.get("pitch_mm"):
        return None
    share = (thread["nominal_mm"] - drill["drill_mm"]) / (depth * thread["pitch_mm"])
    return round(float(100 * share), 1)


def _either(row: Row, metric: str, said: str) -> Fault:
    expected = f"a number here or in {said}, and not in both"
    return Fault(row.file, row.line, metric, _shown(row.cells[metric]), expected)


def _mm(metric: Any, inch: Any) -> Any:
    return inch * MM_PER_INCH if inch else metric


def _shown(value: Any) -> str:
    return "" if value is None else f"{value:g}"
