"""
Cells that a standard's formula or a name gives: what it says, and how far the print may round.

`rules(table, row, tables)` yields column, value and allowance for every cell of a row that has one.
Where a standard knows two product grades, either will do.
"""

import re
from collections.abc import Callable, Iterator
from math import radians, sqrt, tan
from typing import Any

from tests.data.hardware_defences import HEXAGONS, corners
from tests.data.hardware_defences import bearing as bearing_face
from tests.data.thread_defences import inches

Row = dict[str, Any]
Tables = dict[str, list[Row]]
Rule = tuple[str, tuple[float, ...], float]  # column, what it may be, allowance
MM_PER_INCH = 25.4
# Standard tolerances in mm over ranges of size, ISO 286-1 Table 1: up to 3, 6, 10, 18, 30, 50, 80.
RANGES = (3, 6, 10, 18, 30, 50, 80, 120)
IT = {
    10: (0.040, 0.048, 0.058, 0.070, 0.084, 0.100, 0.120, 0.140),
    11: (0.060, 0.075, 0.090, 0.110, 0.130, 0.160, 0.190, 0.220),
    13: (0.14, 0.18, 0.22, 0.27, 0.33, 0.39, 0.46, 0.54),
    14: (0.25, 0.30, 0.36, 0.43, 0.52, 0.62, 0.74, 0.87),
    15: (0.40, 0.48, 0.58, 0.70, 0.84, 1.00, 1.20, 1.40),
    16: (0.60, 0.75, 0.90, 1.10, 1.30, 1.60, 1.90, 2.20),
}
WHOLE_FLATS = 21  # mm; from here up the bearing face is a share of the flats


def tolerance(grade: int, size_mm: float) -> float:
    """Standard tolerance of a grade at a size, both in mm (ISO 286-1)."""
    widths = zip(RANGES, IT[grade], strict=True)
    return next((width for limit, width in widths if size_mm <= limit), 9.0)


def least_flats(flats_mm: float) -> tuple[float, ...]:
    """Least width across flats in product grades A (h13, h14 above 32 mm) and B (h14 up to h15)."""
    a = tolerance(13 if flats_mm <= 32 else 14, flats_mm)
    b = tolerance(14 if flats_mm <= 18 else 15, flats_mm)
    return flats_mm - a, flats_mm - b


def head(row: Row, tables: Tables) -> Iterator[Rule]:
    """Corners, bearing face, height and cone of a head."""
    size = {thread["size"]: thread["nominal_mm"] for thread in tables["thread"]}[row["size"]]
    drive = next((d for d in tables["drive"] if d["id"] == row["drive"]), None)
    flats = drive["across_flats_mm"] if drive else None
    standard = row["standard"]
    if flats and standard in ("ASME B18.2.1", "ASME B18.2.2"):  # sharp corners
        yield "head_diameter_mm", (flats * 2 / sqrt(3),), 0.011
    elif flats and standard in HEXAGONS:  # ISO 4759-1
        yield "head_diameter_mm", (corners(flats, size, row["form"]),), 0.006
        if HEXAGONS[standard]:
            yield "bearing_diameter_mm", (bearing_face(flats, size, row["form"]),), 0.006
    if flats and standard in ("DIN 933", "DIN 934"):  # d_w = s least - IT16, or 0.95 s least
        bearing = tuple(
            0.95 * s if flats >= WHOLE_FLATS else s - tolerance(16, flats)
            for s in least_flats(flats)
        )
        # DIN 934 prints up to 0.34 mm less
        yield "bearing_diameter_mm", bearing, 0.34 if standard == "DIN 934" else 0.12
    if standard == "ISO 14579":  # the head of ISO 4762 with another recess
        name = f"ISO-4762-{row['size']}"
        twin = next((h for h in tables["head"] if h["id"] == name), {})
        for column in ("head_diameter_mm", "bearing_diameter_mm"):
            if twin.get(column):
                yield column, (twin[column],), 0.0
    if standard in ("ISO 4762", "ISO 14579", "ASME B18.3 cap") and row["head_height_mm"]:
        yield "head_height_mm", (size,), 0.001
    if row["cone_angle_deg"] and row["head_diameter_mm"]:
        height = (row["head_diameter_mm"] - size) / 2 / tan(radians(row["cone_angle_deg"] / 2))
        yield "head_height_mm", (height,), 0.011 * height


def drive(row: Row, tables: Tables) -> Iterator[Rule]:
    """Sizes that are their own name; limits of metric keys."""
    name = row["id"]
    if sized := re.fullmatch(r"(?:hex|AF)-(.+?)(mm|in)", name):
        nominal = float(inches(sized[1])) * (MM_PER_INCH if sized[2] == "in" else 1)
        yield "across_flats_mm", (nominal,), 0.0006
        if row["system"] == "hex-socket" and sized[2] == "mm" and nominal >= 1.5:
            # ISO 2936: h10 up to 10 mm, h11 above; the two smallest keys have less
            width = 0.02 if nominal == 1.5 else tolerance(10 if nominal <= 10 else 11, nominal)
            yield "across_flats_max_mm", (nominal,), 0.0006
            yield "across_flats_min_mm", (nominal - width,), 0.0025
        if row["system"] == "hexagon" and sized[2] == "mm":  # ISO 4759-1, product grade A
            least = least_flats(nominal)[0]
            yield "across_flats_min_mm", (least,), 0.0006
            yield "across_flats_max_mm", (nominal,), 0.0006
            yield "across_points_mm", (1.13 * least,), 0.0051
    elif double := re.fullmatch(r"12pt-(.+)mm", name):
        yield "across_flats_mm", (float(double[1]),), 0.0
    elif name.endswith("-tamper"):  # the plain recess with a pin
        plain = next(d for d in tables["drive"] if d["id"] == name.removesuffix("-tamper"))
        for column in ("points", "valleys", "flats", "flats_min", "flats_max"):
            value = plain[f"across_{column}_mm"]
            if value is not None:
                yield f"across_{column}_mm", (value,), 0.0
    elif square := re.fullmatch(r"driving-square-(.+)mm", name):  # ISO 1174-1: h11 of the inch size
        eighths = SQUARES[square[1]]
        nominal = MM_PER_INCH * eighths / 8
        yield "across_flats_max_mm", (nominal,), 0.0051
        yield "across_flats_min_mm", (nominal - tolerance(11, nominal),), 0.0051
    elif blade := re.fullmatch(r"slot-(.+)x(.+)", name):
        yield "across_points_mm", (float(blade[1]),), 0.0
        yield "across_flats_mm", (float(blade[2]),), 0.0


SQUARES = {"6.3": 2, "10": 3, "12.5": 4, "20": 6, "25": 8}  # eighths of an inch by the name in mm


def nptf(row: Row, tables: Tables, table: str) -> Row | None:
    """The NPT row of an NPTF thread: ASME B1.20.3 changes crests and roots, no size or gauge."""
    key = "id" if table == "thread" else "thread"
    if not row[key].endswith("-NPTF"):
        return None
    return next(other for other in tables[table] if other[key] == row[key].removesuffix("F"))


def thread(row: Row, tables: Tables) -> Iterator[Rule]:
    """Dryseal pipe threads have the sizes of NPT."""
    if plain := nptf(row, tables, "thread"):
        yield "nominal_mm", (plain["nominal_mm"],), 0.0
        yield "pitch_mm", (plain["pitch_mm"],), 0.0


def pipe_gauge(row: Row, tables: Tables) -> Iterator[Rule]:
    """Dryseal pipe threads have the hand-tight length of NPT."""
    if plain := nptf(row, tables, "pipe_gauge"):
        yield "gauge_mm", (plain["gauge_mm"],), 0.0


def tap_drill(row: Row, tables: Tables) -> Iterator[Rule]:
    """ISO 2306: the drill next to diameter less pitch; 8-UN: just that, in eighths of an inch."""
    thread = next(t for t in tables["thread"] if t["id"] == row["thread"])
    if thread["family"] == "M":
        yield "drill_mm", (thread["nominal_mm"] - thread["pitch_mm"],), 0.0601
    elif thread["id"].endswith("-8-UN"):
        yield "drill_mm", (thread["nominal_mm"] - thread["pitch_mm"],), 0.0001


def thread_limit(row: Row, tables: Tables) -> Iterator[Rule]:
    """ISO 228-1: class B has twice the tolerance of A; ISO 7-1: 1 1/4 turns over the taper."""
    thread = next(t for t in tables["thread"] if t["id"] == row["thread"])
    basic, p = thread["pitch_diameter_mm"], thread["pitch_mm"]
    if row["tolerance"] == "B":
        same = ("thread", "side", "dimension")
        for other in tables["thread_limit"]:
            if other["tolerance"] == "A" and all(other[n] == row[n] for n in same):
                yield "min_mm", (basic - 2 * (other["max_mm"] - other["min_mm"]),), 0.0016
        yield "max_mm", (basic,), 0.0011
    if thread["series"] == "Rp":
        yield "min_mm", (basic - 1.25 * p / 16,), 0.0016
        yield "max_mm", (basic + 1.25 * p / 16,), 0.0016


def form_drill(row: Row, tables: Tables) -> Iterator[Rule]:
    """The hole for forming, as makers of taps print: d - 0.0068 P times the per cent of thread."""
    thread = next(t for t in tables["thread"] if t["id"] == row["thread"])
    share = 0.0068 * row["thread_pct"]
    yield "drill_mm", (thread["nominal_mm"] - share * thread["pitch_mm"],), 0.012


def drive_torque(row: Row, tables: Tables) -> Iterator[Rule]:
    """ISO 2380-1: a blade of width b and thickness a is tested with b times a squared, N·m."""
    if row["tool"] == "blade" and (blade := re.fullmatch(r"slot-(.+)x(.+)", row["drive"])):
        torque = float(blade[1]) * float(blade[2]) ** 2
        yield "proof_torque_nm", (torque,), 0.04 * torque + 0.05


def hardware_dim(row: Row, tables: Tables) -> Iterator[Rule]:
    """DIN 471 and 472: the groove is 0.1 mm wider than the ring, 0.15 mm from 2 mm on."""
    if row["dimension"] == "groove_width":
        thick = next(
            r["value_mm"]
            for r in tables["hardware_dim"]
            if r["hardware"] == row["hardware"] and r["dimension"] == "thickness"
        )
        yield "value_mm", (thick + (0.1 if thick < 2 else 0.15),), 0.0005


def wrench_opening(row: Row, tables: Tables) -> Iterator[Rule]:
    """ASME B18.2.2: least opening 1.005 W + 0.001 in, greatest 1.01 W + 0.005 in."""
    width = float(inches(row["drive"].removeprefix("AF-").removesuffix("in")))
    yield "opening_min_in", (1.005 * width + 0.001,), 0.00095
    yield "opening_max_in", (1.01 * width + 0.005,), 0.00145


def drive_system(row: Row, tables: Tables) -> Iterator[Rule]:
    """A tool fits again after a full turn divided by the corners that the name says."""
    counted = [CORNERS[word] for word in row["id"].split("-") if word in CORNERS]
    if counted:
        yield "symmetry_deg", (360 / counted[0],), 0.0


CORNERS = {
    "five": 5,
    "triple": 12,
    "twelve": 12,
    "spanner": 2,
    "hexalobular": 6,
    "cross": 4,
    "square": 4,
    "slot": 2,
    "hex": 6,
    "hexagon": 6,
}


def washer(row: Row, tables: Tables) -> Iterator[Rule]:
    """The bore of a normal washer is the close hole of ISO 273."""
    hole = next((h for h in tables["clearance_hole"] if h["size"] == row["size"]), None)
    if row["standard"] in ("ISO 7089", "ISO 7090") and hole:
        yield "inner_mm", (hole["close_mm"],), 0.0


def grade_row(row: Row, tables: Tables) -> Iterator[Rule]:
    """
    ISO 3506-1: the class is a tenth of the tensile strength.

    The three classes of the austenitic steels A1 to A5 share one line each, which A2 stands for.
    """
    if stainless := re.fullmatch(r"([ACDF]\d)-(\d+)", row["grade"]):
        yield "tensile_min_mpa", (10 * float(stainless[2]),), 0.0
        for twin in tables["grade_row"]:
            if stainless[1] in ("A1", "A3", "A4", "A5") and twin["grade"] == f"A2-{stainless[2]}":
                yield "yield_min_mpa", (twin["yield_min_mpa"],), 0.0


def length_range(row: Row, tables: Tables) -> Iterator[Rule]:
    """ISO 14579 is made in the lengths of ISO 4762."""
    if row["standard"] == "ISO 14579":
        for twin in tables["length_range"]:
            if twin["standard"] == "ISO 4762" and twin["size"] == row["size"]:
                yield "shortest_mm", (twin["shortest_mm"],), 0.0
                yield "longest_mm", (twin["longest_mm"],), 0.0


def friction(row: Row, tables: Tables) -> Iterator[Rule]:
    """The middle is the mean of the ends."""
    yield "mu_mid", ((row["mu_min"] + row["mu_max"]) / 2,), 1e-9


RULES: dict[str, Callable[[Row, Tables], Iterator[Rule]]] = {
    "head": head,
    "drive": drive,
    "thread": thread,
    "pipe_gauge": pipe_gauge,
    "tap_drill": tap_drill,
    "thread_limit": thread_limit,
    "form_drill": form_drill,
    "drive_torque": drive_torque,
    "drive_system": drive_system,
    "wrench_opening": wrench_opening,
    "hardware_dim": hardware_dim,
    "washer": washer,
    "grade_row": grade_row,
    "length_range": length_range,
    "friction": friction,
}


def given(table: str, row: Row, tables: Tables) -> set[str]:
    """Columns of *row* that hold what their formula gives."""
    return {
        column
        for column, values, within in (RULES[table](row, tables) if table in RULES else ())
        if row[column] is not None and min(abs(row[column] - v) for v in values) <= within + 1e-9
    }


def formulas(tables: Tables) -> Iterator[str]:
    """A cell that is not what its formula or its name gives."""
    for table in RULES:
        for row in tables.get(table, ()):
            for column, values, within in RULES[table](row, tables):
                if row[column] is None:
                    continue
                off = min(abs(row[column] - value) for value in values)
                if off > within + 1e-9:
                    name = row.get("id") or row.get("thread") or row.get("drive") or row.get("size")
                    yield f"{table} {name} {column}: {row[column]:g}, by its rule {values[0]:.4g}"
