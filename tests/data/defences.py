"""What must hold within the data whatever single cell is wrong; each defence yields complaints."""

import csv
import re
from collections.abc import Callable, Iterable, Iterator
from functools import cache
from itertools import groupby
from math import cos, pi, radians
from pathlib import Path
from typing import Any

from tests.data.around_checks import LBIN_NM
from tests.data.around_defences import AROUND_DEFENCES
from tests.data.coat_defences import COAT_DEFENCES
from tests.data.designations import stuff_titles
from tests.data.grade_defences import GRADE_DEFENCES, MPA_PER_KSI
from tests.data.hardware_defences import HARDWARE_DEFENCES, by_rule
from tests.data.length_defences import LENGTH_DEFENCES
from tests.data.likeness_defences import LIKENESS_DEFENCES
from tests.data.lines import lines, set_screws, smooth
from tests.data.names import texts
from tests.data.repair_defences import REPAIR_DEFENCES
from tests.data.rules import formulas
from tests.data.thread_defences import STRESS_AREAS, THREAD_DEFENCES, inches, rising

Row = dict[str, Any]
Tables = dict[str, list[Row]]
HERE = Path(__file__).parent
KEYS = {  # the columns that name a row to the second copies; id where none are given
    **{"tap_drill": ("thread",), "pipe_gauge": ("thread",), "clearance_hole": ("size",)},
    "thread_limit": ("thread", "tolerance", "side", "dimension"),
    "grade_row": ("grade", "size_from_mm"),
    "grade_hardness": ("grade", "size_from_mm", "scale"),
    "nut_row": ("grade", "style", "series", "size_from_mm"),
    **{"grade_pair": ("grade", "mate"), "grade_mark": ("grade", "variant", "n")},
    **{"grade_limit": ("grade",), "nut_torque": ("thread", "nut")},
    "reuse_torque": ("thread", "nut"),
    **{"key_arm": ("drive",), "drive_torque": ("drive", "tool")},
    "hardware_dim": ("hardware", "dimension"),
    "recess_dim": ("standard", "size", "system", "dimension"),
    "length_range": ("standard", "size"),
    **{"nominal_length": ("length_mm",), "finish_corrosion": ("finish", "variant")},
    "wrench_opening": ("drive",),
    **{"set_screw_torque": ("size", "grade"), "form_drill": ("thread", "thread_pct")},
}
IN_INCHES = {"nominal_in": "nominal_mm", "core_in": "minor_mm"}  # others by their names

COLUMNS = ("head_diameter_mm", "head_height_mm", "bearing_diameter_mm")
# How far a head may lie off the line of its neighbours: a little more than the standard's own.
EVENNESS = {
    "": (0.082, 0.062, 0.071),
    **{
        "ISO 4762": (0.035, 0.01, 0.035),
        "ISO 7380-1": (0.051, 0.01, 1),
        "ISO 7380-2": (0.025, 0.01, 1),
    },
    **{"ISO 10642": (0.02, 0.035, 1), "ISO 14580": (0.046, 0.077, 1)},
    **{
        "ISO 14581": (0.082, 0.149, 1),
        "ISO 2009": (0.082, 0.149, 1),
        "ISO 7046": (0.082, 0.149, 1),
    },
    **{"ISO 4032": (0.055, 0.118, 0.033), "ISO 4035": (0.055, 0.066, 0.033)},
    **{"ISO 4014": (0.055, 0.028, 0.071), "ISO 4017": (0.055, 0.028, 0.071)},
    **{"ISO 4033": (0.032, 0.045, 0.033), "DIN 934": (0.065, 0.052, 0.078)},
    **{"DIN 933": (0.065, 0.028, 0.071), "EN 1662": (0.022, 0.068, 0.033)},
    **{"ISO 15071": (0.022, 0.068, 0.033), "EN 1665": (0.022, 0.052, 0.035)},
    **{"EN 1661": (0.024, 0.01, 0.035), "ISO 4161": (0.024, 0.01, 0.035)},
    **{"ISO 10511": (1, 0.115, 1), "ISO 7043": (0.03, 0.08, 0.04)},
    **{"ASME B18.3 cap": (0.042, 0.01, 1), "ASME B18.3 button": (0.051, 0.032, 1)},
    **{"ASME B18.3 flat": (0.039, 0.078, 1)},
}


@cache
def second_copies() -> list[Row]:
    """Values printed by a publication of other origin than the one the data names."""
    found: list[Row] = []
    for path in sorted(HERE.glob("*_copies.csv")):
        with path.open(newline="", encoding="utf-8") as file:
            found += csv.DictReader(file)
    return found


def row_key(table: str, row: Row) -> str:
    """The key by which the second copies name a row."""
    cells = (row[name] for name in KEYS.get(table, ("id",)))
    return "@".join(f"{cell:g}" if isinstance(cell, float) else str(cell) for cell in cells)


def held_column(column: str) -> str:
    """The column of the data behind one that is printed in ksi, or as a load: `proof_mpa@M8`."""
    plain = column.partition("@")[0]
    return plain.removesuffix("_ksi") + "_mpa" if plain.endswith("_ksi") else plain


def printed_value(row: Row, column: str) -> float | None:
    """The value of a column, or of one that a publication prints in its own unit."""
    match column:
        case "stress_area_in2":
            return float(row["stress_area_mm2"]) / 25.4**2
        case "turns_per_inch":
            return 25.4 / float(row["pitch_mm"])
        case "core_mm":
            return float(row["minor_mm"])
    if column.endswith("_inlb"):
        return float(row[f"{column[:-5]}_nm"]) / LBIN_NM
    if column.endswith("_in"):
        return float(row[IN_INCHES.get(column, f"{column[:-3]}_mm")]) / 25.4
    value = row[held_column(column)]
    if value is None:
        return None
    if "@" in column:  # as a load in N
        return float(value * STRESS_AREAS[column.partition("@")[2]])
    return float(value / MPA_PER_KSI if column.endswith("_ksi") else value)


def copies(tables: Tables) -> Iterator[str]:
    """A held value differs from what a second publication prints."""
    printed = second_copies()
    held = {
        (table, row_key(table, row)): row
        for table in sorted({copy["table"] for copy in printed})
        for row in tables[table]
    }
    for copy in printed:
        row = held.get((copy["table"], copy["key"]))
        where = f"{copy['table']} {copy['key']} {copy['column']}"
        if row is None:
            yield f"{where}: no such row, {copy['origin']}: {copy['printed']}"
            continue
        if copy["within"] in ("", "words"):
            said = row[copy["column"]] or ""
            words = copy["printed"].split() if copy["within"] else ()
            if not all(word in said for word in words) or (not words and said != copy["printed"]):
                yield f"{where}: {said}, {copy['origin']}: {copy['printed']}"
            continue
        value = printed_value(row, copy["column"])
        if value is None or abs(value - float(copy["printed"])) > float(copy["within"]) + 1e-9:
            yield f"{where}: {value}, {copy['origin']}: {copy['printed']}"


def drives(tables: Tables) -> Iterator[str]:
    """Dimensions that the size does not mean, or that do not fit one another."""
    for row in tables["drive"]:
        name, flats = row["id"], row["across_flats_mm"]
        sized = re.fullmatch(r"(?:hex|AF)-(.+?)(mm|in)", name)
        if sized:
            nominal = float(sized[1]) if sized[2] == "mm" else float(inches(sized[1])) * 25.4
            if abs(flats - nominal) > 0.0006:
                yield f"{name}: {flats} across flats"
            low, high = row["across_flats_min_mm"], row["across_flats_max_mm"]
            if low and not (0.94 * nominal < low < high <= 1.02 * nominal):
                yield f"{name}: key {low} to {high}"
        if row["system"] == "slot":
            width, thick = map(float, name.removeprefix("slot-").split("x"))
            if (width, thick) != (row["across_points_mm"], flats):
                yield f"{name}: blade {row['across_points_mm']} x {flats}"
        if row["system"] == "hexalobular":
            ratio = row["across_valleys_mm"] / row["across_points_mm"]
            if not 0.708 < ratio < 0.733:
                yield f"{name}: B/A {ratio:.3f}"
    for system in ("hexalobular", "external-hexalobular", "square", "cross-h", "cross-z"):
        group = [row for row in tables["drive"] if row["system"] == system]
        for row in group:
            row["n"] = float(re.sub(r"\D", "", row["id"])) + 1
        for column in ("across_points_mm", "depth_mm", "across_flats_min_mm", "wing_mm"):
            yield from rising(group, "n", column, strictly=True)
        if system == "hexalobular":
            yield from smooth(group, "across_points_mm", "depth_mm", 0.066)
        if system == "external-hexalobular":
            yield from smooth(group, "n", "across_points_mm", 0.065)
        for row in group:
            low, high = row["across_flats_min_mm"], row["across_flats_max_mm"]
            if low and not low < high < 1.03 * low:
                yield f"{row['id']}: square {low} to {high}"


def torques(tables: Tables) -> Iterator[str]:
    """Proof torques off the cube of the size, or off what the same table prints beside them."""
    held = {row["id"]: row for row in tables["drive"]}
    rows = [row | {"drive_row": held[row["drive"]]} for row in tables["drive_torque"]]
    for row in rows:
        drive = row["drive_row"]
        row["x"] = (
            drive["across_flats_mm"]
            if drive["system"] in ("hexagon", "hex-socket")
            else drive["across_points_mm"] or float(re.sub(r"\D", "", drive["id"])) + 1
        )
        if drive["system"] == "slot":  # ISO 2380-1: width times thickness squared
            expected = drive["across_points_mm"] * drive["across_flats_mm"] ** 2
            if abs(row["proof_torque_nm"] - expected) > 0.04 * expected + 0.05:
                yield f"{row['drive']}: {row['proof_torque_nm']} N·m, b times a² {expected:.2f}"
    # How far a size may lie off its neighbours' line: what the printed tables themselves do.
    for tool, system, least, limit in (
        *(("ring wrench", "hexagon", 0, 0.006), ("socket", "hexagon", 0, 0.006)),
        *(("open wrench", "hexagon", 7.0, 0.036), ("open wrench", "hexagon", 0, 0.145)),
        # from 29 mm up ISO 2936 prints one value: the key is no longer what limits it
        *(("key", "hex-socket", 0, 0.045), ("bit", "cross-h", 0, 0.155)),
        *(("bit", "hexalobular", 1.6, 0.117), ("bit", "hexalobular", 0, 0.55)),
    ):
        group = [
            row
            for row in rows
            if row["tool"] == tool and row["drive_row"]["system"] == system and row["x"] >= least
        ]
        yield from rising(group, "x", "proof_torque_nm")
        even = [row for row in group if tool != "key" or row["x"] < 28]
        yield from smooth(even, "x", "proof_torque_nm", limit)
        if tool == "bit" and least:
            yield from smooth([r for r in even if r["x"] < 8], "x", "proof_torque_nm", 0.05)
            yield from smooth([r for r in even if r["x"] > 11], "x", "proof_torque_nm", 0.05)
    pairs = {(row["drive"], row["tool"]): row["proof_torque_nm"] for row in rows}
    for (drive, tool), torque in pairs.items():
        if tool == "socket" and torque != pairs[drive, "ring wrench"]:
            yield f"{drive}: socket {torque}, ring wrench {pairs[drive, 'ring wrench']}"
        if tool == "open wrench" and not torque < pairs.get((drive, "ring wrench"), 1e9):
            yield f"{drive}: open wrench {torque} above the ring wrench"
        twin = drive.replace("PH", "PZ") if drive.startswith("PH") else drive
        if pairs[twin, tool] != torque:
            yield f"{drive}: {torque}, {twin}: {pairs[twin, tool]}"


def arms(tables: Tables) -> Iterator[str]:
    """Arms of keys that do not grow evenly with the size."""
    flats = {row["id"]: row["across_flats_mm"] for row in tables["drive"]}
    rows = [row | {"x": flats[row["drive"]]} for row in tables["key_arm"]]
    for column, limit in (("short_arm_mm", 0.081), ("long_arm_mm", 0.048)):
        yield from rising(rows, "x", column)
        yield from smooth([row for row in rows if row["x"] > 0.9], "x", column, limit)
        yield from smooth(rows, "x", column, 0.21)


def heads(tables: Tables) -> Iterator[str]:
    """Heads that do not grow with the thread, or whose parts do not fit one another."""
    threads_ = {row["size"]: row["nominal_mm"] for row in tables["thread"]}
    hole = {row["size"]: row["medium_mm"] for row in tables["clearance_hole"]}
    drives_ = {row["id"]: row for row in tables["drive"]}
    rows = []
    for head in tables["head"]:
        drive = drives_.get(head["drive"] or "")
        flats = drive and drive["across_flats_mm"]
        rows.append(head | {"d": threads_[head["size"]], "flats": flats, "drive_row": drive})
    for row in rows:
        d, flats, outer = row["d"], row["flats"], row["head_diameter_mm"]
        bearing, height = row["bearing_diameter_mm"], row["head_height_mm"]
        name = row["id"]
        if row["id"] != f"{row['standard']}-{row['size']}".replace(" ", "-"):
            yield f"{name}: is not {row['standard']} {row['size']}"
        if outer and not 1.2 * d < outer < 3.2 * d:
            yield f"{name}: head {outer} on {d}"
        if bearing and not hole.get(row["size"], d) < bearing < outer:
            yield f"{name}: bearing {bearing} between hole and {outer}"
        if row["form"] in ("hexagon", "nut") and outer and not flanged(row):
            # corners of a hexagon: 1.155 when sharp, at least 1.12 of the smallest flats
            if not 1.06 * flats < outer < 1.17 * flats:
                yield f"{name}: corners {outer} on flats {flats}"
            least = 0.85 if flats > 8 else 0.82 if flats > 5.5 else 0.7
            most = 0.98 if row["standard"] == "BS 1083" else 0.96
            if bearing and not least * flats < bearing < most * flats:
                yield f"{name}: bearing {bearing} on flats {flats}"
        if row["standard"] == "ISO 4762":
            if height != d:
                yield f"{name}: height {height} is not d"
            rim = 0.7 if d < 3 else 1.0 if d <= 10 else 0.0
            if abs(outer - 1.5 * d - rim) > (0.11 if d < 3 else 0.01):
                yield f"{name}: head {outer} on {d}"
            if not 0.88 * outer < bearing < 0.982 * outer:
                yield f"{name}: bearing {bearing} under {outer}"
        if row["standard"][:8] == "ISO 7380" and abs(height - 0.55 * d) > 0.004 * d:
            yield f"{name}: button {height} high on {d}"
        if row["standard"] in ("ASME B18.2.1", "ASME B18.2.2"):
            in_64ths = height / 25.4 * 64
            if abs(in_64ths - round(in_64ths)) > 0.03:
                yield f"{name}: height {height} is no 64th of an inch"
        if row["standard"] == "ASME B18.3 cap" and abs(height - d) > 0.001:
            yield f"{name}: height {height} is not d"
        if row["cone_angle_deg"]:
            cone = (outer - d) / 2 / tan_half(row["cone_angle_deg"])
            if abs(cone - height) > 0.011 * height or row["cone_angle_deg"] not in (82, 90):
                yield f"{name}: cone {cone:.2f} high, printed {height}"
        if drive := row["drive_row"]:
            across = drive["across_points_mm"] or flats
            inside = drive["system"] in ("hex-socket", "hexalobular")
            if across and inside and not 0.3 * d < across < 0.97 * (outer or 2 * d):
                yield f"{name}: drive {row['drive']} in {outer}"
    for _, group in groupby(rows, key=lambda row: row["standard"]):
        kept = list(group)
        for column in (*COLUMNS, "flats"):
            yield from rising(kept, "d", column)
        limits = EVENNESS.get(kept[0]["standard"], EVENNESS[""])
        for column, limit in zip(COLUMNS, limits, strict=True):
            if column in by_rule(kept[0]):
                continue
            yield from smooth(kept, "d", column, limit)
    yield from head_pairs(rows)


def flanged(row: Row) -> bool:
    """Whether the head diameter is that of a flange."""
    return row["standard"] in ("EN 1661", "ISO 4161", "ISO 7043")


def tan_half(angle_deg: float) -> float:
    """Tangent of half an angle in degrees."""
    half = radians(angle_deg / 2)
    return cos(pi / 2 - half) / cos(half)


def head_pairs(rows: Iterable[Row]) -> Iterator[str]:
    """Standards that share a head must agree."""
    held = {(row["standard"], row["size"]): row for row in rows}
    everything = ("drive", *COLUMNS)
    shared: list[tuple[str, str, tuple[str, ...], float]] = [
        ("ISO 4014", "ISO 4017", everything, 0.005),
        ("ISO 2009", "ISO 14581", ("head_diameter_mm", "head_height_mm"), 0.0),
        ("ISO 2009", "ISO 7046", ("head_diameter_mm", "head_height_mm"), 0.0),
        ("ISO 14583", "ISO 7045", ("head_diameter_mm", "head_height_mm"), 0.0),
        ("ISO 1207", "ISO 7048", ("head_diameter_mm", "head_height_mm"), 0.0),
        ("ISO 1207", "ISO 14580", ("head_diameter_mm",), 0.0),
        ("ISO 4032", "ISO 4033", ("drive", "head_diameter_mm", "bearing_diameter_mm"), 0.005),
        ("ISO 4032", "ISO 4035", ("drive", "head_diameter_mm", "bearing_diameter_mm"), 0.02),
        ("EN 1662", "ISO 15071", COLUMNS, 0.0),
        ("EN 1661", "ISO 4161", COLUMNS, 0.0),
        ("ISO 14579", "ISO 14583", ("drive",), 0.0),
        ("ISO 14580", "ISO 14583", ("drive",), 0.0),
        ("ISO 14581", "ISO 14583", ("drive",), 0.0),
        ("ISO 7380-1", "ISO 7380-2", ("drive", "head_height_mm"), 0.0),
        ("DIN 933", "DIN 934", ("drive", "head_diameter_mm"), 0.022),
        ("ISO 4014", "DIN 933", ("head_height_mm",), 0.0),
        ("ASME B18.2.1", "ASME B18.2.2", ("head_diameter_mm",), 0.1),
    ]
    for first, second, columns, within in shared:
        for (standard, size), row in held.items():
            other = held.get((second, size))
            if standard != first or other is None:
                continue
            for column in columns:
                a, b = row[column], other[column]
                same = a == b if isinstance(a, str) or within == 0 else True
                if not same or (
                    within and isinstance(a, float) and b and abs(a - b) > within * b + 1e-9
                ):
                    yield f"{first} and {second} {size} {column}: {a}, {b}"


def frictions(tables: Tables) -> Iterator[str]:
    """A range out of order, a condition off its VDI class."""
    classes = {
        row["id"][-1].upper(): row for row in tables["friction"] if row["id"][:6] == "class-"
    }
    for row in tables["friction"]:
        low, high = row["mu_min"], row["mu_max"]
        if not low < high:
            yield f"{row['id']}: {low} to {high}"
        if named := re.search(r"class ([A-E])", row["locator"]):
            same = classes[named[1]]
            if (low, high) != (same["mu_min"], same["mu_max"]):
                yield f"{row['id']}: is not class {named[1]}"


DEFENCES: tuple[Callable[[Tables], Iterator[str]], ...] = (
    *(copies, formulas, lines, set_screws, *THREAD_DEFENCES),
    *(drives, torques, arms, heads, frictions, *GRADE_DEFENCES, texts, stuff_titles),
    *HARDWARE_DEFENCES,
    *LENGTH_DEFENCES,
    *LIKENESS_DEFENCES,
    *COAT_DEFENCES,
    *AROUND_DEFENCES,
    *REPAIR_DEFENCES,
)


def complaints(tables: Tables) -> list[str]:
    """Everything that any defence finds wrong."""
    return [found for defence in DEFENCES for found in defence(tables)]
