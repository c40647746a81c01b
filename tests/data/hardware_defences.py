"""What must hold among hexagons, washers and other hardware: standard formulas, growth, fits."""

import re
from collections.abc import Callable, Iterator
from itertools import pairwise
from math import log
from typing import Any

Row = dict[str, Any]
Tables = dict[str, list[Row]]
# ISO 286-1: tolerances [mm] up to a nominal size [mm]
IT13 = ((3, 0.14), (6, 0.18), (10, 0.22), (18, 0.27), (30, 0.33), (50, 0.39))
IT14 = ((3, 0.25), (6, 0.30), (10, 0.36), (18, 0.43), (30, 0.52), (50, 0.62), (80, 0.74))
IT15 = ((18, 0.70), (30, 0.84), (50, 1.0), (80, 1.2), (120, 1.4))
IT16 = ((3, 0.60), (6, 0.75), (10, 0.90), (18, 1.1), (30, 1.3))
HEXAGONS = {  # standards whose corners follow ISO 4759-1, and which of them print its bearing face
    **dict.fromkeys(("ISO 4014", "ISO 4017", "ISO 4032", "ISO 4033", "ISO 4035"), True),
    **dict.fromkeys(("ISO 7040", "ISO 7719", "ISO 10511"), True),
    **dict.fromkeys(("DIN 933", "DIN 934", "DIN 1587"), False),
}
GRADE_A_MM = {"hexagon": 24, "nut": 16}  # product grade A to this thread size, B above
WASHERS = {  # least and greatest outer diameter over thread, and thickness over thread
    **{"ISO 7089": (1.75, 2.75), "ISO 7090": (1.75, 2.05), "ISO 7091": (1.75, 2.05)},
    **{"ISO 7092": (1.6, 2.3), "ISO 7093": (2.9, 3.3), "ISO 7094": (3.2, 3.8)},
    **{"DIN 7349": (2.0, 3.1), "DIN 127": (1.55, 2.25), "DIN 6796": (2.15, 2.55)},
    **{"DIN 6797": (1.55, 2.3), "DIN 7603": (1.15, 1.7)},
    **{"ASME B18.21.1 tooth": (1.5, 2.5), "ASME B18.21.1 plain": (1.6, 2.3)},
}
SHEETS = (  # thicknesses that strip and sheet come in
    *(0.3, 0.4, 0.5, 0.6, 0.7, 0.8, 0.9, 1, 1.2, 1.4, 1.5, 1.6, 1.75, 2, 2.2, 2.5, 3, 3.5, 4),
    *(4.5, 5, 5.5, 6, 6.5, 7, 8, 10),
)
COLUMNS = ("inner_mm", "outer_mm", "thickness_mm")
# How far a washer may lie off the line of its neighbours, on log scales: what the tables do.
BENDS = {"": (0.062, 0.13, 0.43), "ASME B18.21.1 tooth": (0.12, 0.13, 0.43)}


def grade_of(table: tuple[tuple[float, float], ...], size: float) -> float:
    """The tolerance of a nominal size."""
    return next((tolerance for most, tolerance in table if size <= most), 9.0)


def least_flats(flats: float, thread: float, form: str) -> float:
    """Least width across flats of a hexagon (ISO 4759-1) [mm]: h13, h14 or h15 by product grade."""
    if thread <= GRADE_A_MM[form]:
        return flats - grade_of(IT13 if flats <= 32 else IT14, flats)
    return flats - grade_of(IT14 if flats <= 18 else IT15, flats)


def corners(flats: float, thread: float, form: str) -> float:
    """Least width across corners of a hexagon (ISO 4759-1) [mm]: 1.13 of the least flats."""
    return 1.13 * least_flats(flats, thread, form)


def bearing(flats: float, thread: float, form: str) -> float:
    """Least diameter of the bearing face of a hexagon (ISO 4759-1) [mm]."""
    least = least_flats(flats, thread, form)
    return least - grade_of(IT16, flats) if flats < 21 else 0.95 * least


def by_rule(row: Row) -> tuple[str, ...]:
    """The columns of a head that `hexagons` computes."""
    if row["standard"] not in HEXAGONS:
        return ()
    both = ("head_diameter_mm", "bearing_diameter_mm")
    return both if HEXAGONS[row["standard"]] else both[:1]


def hexagons(tables: Tables) -> Iterator[str]:
    """Corners or bearing faces of a hexagon that ISO 4759-1 does not give."""
    threads = {row["size"]: row["nominal_mm"] for row in tables["thread"]}
    for row in tables["head"]:
        if row["standard"] not in HEXAGONS:
            continue
        flats = float(row["drive"].removeprefix("AF-").removesuffix("mm"))
        d, form = threads[row["size"]], row["form"]
        expected = {"head_diameter_mm": corners(flats, d, form)}
        if HEXAGONS[row["standard"]]:
            expected["bearing_diameter_mm"] = bearing(flats, d, form)
        for column, value in expected.items():
            if abs(row[column] - value) > 0.006:
                yield f"{row['id']} {column}: {row[column]}, by ISO 4759-1 {value:.2f}"


def caps(tables: Tables) -> Iterator[str]:
    """Cap screws with hexagon and with hexalobular socket share their head."""
    held = {row["id"]: row for row in tables["head"]}
    for row in tables["head"]:
        twin = held.get(row["id"].replace("ISO-14579", "ISO-4762"))
        if row["standard"] == "ISO 14579" and twin:
            for name in ("head_diameter_mm", "head_height_mm", "bearing_diameter_mm"):
                if row[name] != twin[name]:
                    yield f"{row['id']} {name}: {row[name]}, ISO 4762 {twin[name]}"


def nuts(tables: Tables) -> Iterator[str]:
    """A prevailing torque nut that is no taller than the thread part it must have."""
    plain = {row["size"]: row for row in tables["head"] if row["standard"] == "ISO 4032"}
    limits = {"ISO 7040": (1.03, 1.95), "ISO 7719": (1.02, 1.15), "ISO 10511": (0.71, 1.65)}
    limits |= {"ISO 7043": (1.33, 1.76), "DIN 1587": (1.88, 2.55)}
    for row in tables["head"]:
        if row["standard"] in limits:
            low, high = limits[row["standard"]]
            height = plain[row["size"]]["head_height_mm"]
            if not low <= row["head_height_mm"] / height <= high:
                yield f"{row['id']}: {row['head_height_mm']} high, plain nut {height}"


def washers(tables: Tables) -> Iterator[str]:
    """Washers that do not go on their thread, or do not grow evenly with it."""
    threads = {row["size"]: row["nominal_mm"] for row in tables["thread"]}
    holes = {row["size"]: row for row in tables["clearance_hole"]}
    groups: dict[str, list[Row]] = {}
    for row in tables["washer"]:
        d = threads[row["size"]]
        groups.setdefault(row["standard"], []).append(row | {"d": d})
        low, high = WASHERS[row["standard"]]
        if row["id"] != f"{row['standard'].replace(' ', '-')}-{row['size']}":
            yield f"{row['id']}: is not {row['standard']} {row['size']}"
        if not low * d < row["outer_mm"] < high * d:
            yield f"{row['id']}: outer {row['outer_mm']} on {d}"
        fits = 1.0 * d <= row["inner_mm"] <= max(1.14 * d, d + 0.75)
        if not (fits or (not row["size"].startswith("M") and d < row["inner_mm"] < 1.32 * d)):
            yield f"{row['id']}: inner {row['inner_mm']} on {d}"
        grain = 0.1 if row["size"].startswith("M") else 0.0254  # tenths, or thousandths of an inch
        for name in ("inner_mm", "outer_mm"):
            if abs(row[name] / grain - round(row[name] / grain)) > 0.004:
                yield f"{row['id']} {name}: {row[name]} is not printed so"
        if row["size"].startswith("M") and row["thickness_mm"] not in SHEETS:
            yield f"{row['id']}: no sheet of {row['thickness_mm']} mm"
        hole = holes.get(row["size"])
        fine = row["standard"] in ("ISO 7089", "ISO 7090", "ISO 7092", "DIN 6796", "DIN 6797")
        if fine and hole and d >= 3 and abs(row["inner_mm"] - hole["close_mm"]) > 0.11:
            yield f"{row['id']}: inner {row['inner_mm']}, close hole {hole['close_mm']}"
        if (
            row["standard"] == "ISO 7091"
            and hole
            and abs(row["inner_mm"] - hole["medium_mm"]) > 0.11
        ):
            yield f"{row['id']}: inner {row['inner_mm']}, medium hole {hole['medium_mm']}"
    for rows in groups.values():
        kept = sorted(rows, key=lambda row: row["d"])
        for small, large in pairwise(kept):
            for name in ("inner_mm", "outer_mm", "thickness_mm"):
                if small[name] > large[name]:
                    yield f"{large['id']} {name}: {large[name]} after {small[name]}"
        for a, b, c in zip(kept, kept[1:], kept[2:], strict=False):
            share = (log(b["d"]) - log(a["d"])) / (log(c["d"]) - log(a["d"]))
            limits = BENDS.get(b["standard"], BENDS[""])
            for name, limit in zip(COLUMNS, limits, strict=True):
                line = log(a[name]) + share * (log(c[name]) - log(a[name]))
                if abs(log(b[name]) - line) > limit:
                    yield f"{b['id']} {name}: {b[name]} off its neighbours' line"
    same = {row["size"]: row for row in groups["ISO 7089"]}
    for row in [*groups["ISO 7090"], *groups["ISO 7091"]]:
        twin = same.get(row["size"])
        if twin and (row["outer_mm"], row["thickness_mm"]) != (
            twin["outer_mm"],
            twin["thickness_mm"],
        ):
            yield f"{row['id']}: not the outline of {twin['id']}"


def rings(tables: Tables) -> Iterator[str]:
    """Retaining rings that do not sit in their groove, or do not grow with the shaft."""
    dims: dict[str, dict[str, Row]] = {}
    for row in tables["hardware_dim"]:
        dims.setdefault(row["hardware"], {})[row["dimension"]] = row
        named = [row[name] for name in ("value_mm", "low_mm", "high_mm")]
        if not any(named) or (named[1] and named[2] and not named[1] < named[2]):
            yield f"{row['hardware']} {row['dimension']}: {named}"
    for standard, sign, free in (("DIN-471", -1, "inner"), ("DIN-472", 1, "outer")):
        kept = []
        for name, own in dims.items():
            if not re.fullmatch(rf"{standard}-\d+", name):
                continue
            d = float(name.rpartition("-")[2])
            groove, ring = (
                own["groove_diameter"]["value_mm"],
                own[f"free_{free}_diameter"]["value_mm"],
            )
            thick, width = own["thickness"]["value_mm"], own["groove_width"]["value_mm"]
            depth = sign * (groove - d) / 2
            if not 0.01 * d < depth < 0.036 * d + 0.07:
                yield f"{name}: groove {groove}"
            if not 0.4 * depth < sign * (ring - groove) < 0.024 * d + 1.4 * depth + 0.15:
                yield f"{name}: ring {ring} free, groove {groove}"
            if round(width - thick, 3) != (0.1 if thick < 2 else 0.15):
                yield f"{name}: ring {thick} thick, groove {width}"
            kept.append((d, groove, ring, thick))
        for small, large in pairwise(sorted(kept)):
            if not (small[1] < large[1] and small[2] < large[2] and small[3] <= large[3]):
                yield f"{standard} {large[0]:g}: does not grow"
            step = large[0] - small[0]
            if abs(large[1] - small[1] - step) > 0.62 or abs(large[2] - small[2] - step) > 1.25:
                yield f"{standard} {large[0]:g}: groove {large[1]}, ring {large[2]} after {small}"
    clips = [own for name, own in dims.items() if name.startswith("DIN-6799")]
    for own in clips:
        groove, outer = own["groove_diameter"]["value_mm"], own["outer_diameter"]["value_mm"]
        if not 1.75 * groove < outer < 2.85 * groove:
            yield f"radial ring {groove}: outer {outer}"
        if not groove < own["shaft"]["low_mm"] < own["shaft"]["high_mm"] < 1.75 * groove + 0.05:
            yield f"radial ring {groove}: shaft from {own['shaft']['low_mm']}"
    for small, large in pairwise(clips):
        for name in ("groove_diameter", "outer_diameter", "thickness"):
            if small[name]["value_mm"] > large[name]["value_mm"]:
                yield f"radial ring {large['groove_diameter']['value_mm']}: {name} falls"
        ratio = large["thickness"]["value_mm"] / small["thickness"]["value_mm"]
        if ratio > 1.3:
            yield f"radial ring {large['groove_diameter']['value_mm']}: thickness jumps"


def points(tables: Tables) -> Iterator[str]:
    """Studs and points of set screws that the thread does not explain."""
    threads = {row["size"]: row["nominal_mm"] for row in tables["thread"]}
    thread_of = {row["id"]: threads.get(row["thread"] or "") for row in tables["hardware"]}
    bounds = {
        ("ISO-4026", "point_diameter"): (0.48, 0.76),
        ("ISO-4028", "point_diameter"): (0.48, 0.76),
        ("ISO-4028", "point_length_short"): (0.245, 0.256),
        ("ISO-4028", "point_length_long"): (0.495, 0.505),
        ("ISO-4029", "point_diameter"): (0.46, 0.71),
        ("ISO-4027", "tip_flat"): (0.245, 0.255),
        ("DIN-938", "metal_end"): (0.92, 1.01),
        ("DIN-939", "metal_end"): (1.19, 1.31),
    }
    last: dict[tuple[str, str], tuple[float, float]] = {}
    for row in tables["hardware_dim"]:
        key = ("-".join(row["hardware"].split("-")[:2]), row["dimension"])
        d = thread_of[row["hardware"]]
        if key not in bounds or d is None:
            continue
        value = row["value_mm"] or row["low_mm"]
        low, high = bounds[key]
        short = 0.256 if d > 2 else 0.26
        if not low <= value / d <= (short if key[1] == "point_length_short" else high):
            yield f"{row['hardware']} {row['dimension']}: {value} on {d}"
        before = last.get(key)
        if before and not value > before[1]:
            yield f"{row['hardware']} {row['dimension']}: {value} after {before[1]}"
        last[key] = (d, value)
    flat = {
        r["hardware"][9:]: r["value_mm"]
        for r in tables["hardware_dim"]
        if "ISO-4026" in r["hardware"]
    }
    for row in tables["hardware_dim"]:
        dog = row["hardware"].startswith("ISO-4028") and row["dimension"] == "point_diameter"
        if dog and row["value_mm"] != flat.get(row["hardware"][9:]):
            yield f"{row['hardware']}: not the point of the flat one"


def pins(tables: Tables) -> Iterator[str]:
    """Holes for a pin that do not fit in their recess; a bored bit that carries another share."""
    drives = {row["id"]: row for row in tables["drive"]}
    plain = {row["drive"]: row["proof_torque_nm"] for row in tables["drive_torque"]}
    hole = {row["drive"]: row["hole_mm"] for row in tables["drive_pin"]}
    for name, size in hole.items():
        core = drives[name]["across_valleys_mm"] or drives[name]["across_flats_mm"]
        if not 0.34 * core < size < 0.68 * core:
            yield f"{name}: hole {size} in {core}"
        own = plain.get(name)
        if own is not None:
            expected = plain[name.removesuffix("-tamper")] * (1 - (size / core) ** 4)
            if abs(own - expected) > 0.006 * expected:
                yield f"{name}: {own} N·m, by its bore {expected:.3g}"


def crosses(tables: Tables) -> Iterator[str]:
    """Tips of cross bits that do not go with their wings."""
    wings = {row["id"]: row["wing_mm"] for row in tables["drive"]}
    for row in tables["cross_tip"]:
        if not 1.3 < row["tip_mm"] / wings[row["drive"]] < 1.6:
            yield f"{row['drive']}: tip {row['tip_mm']} on a wing of {wings[row['drive']]}"


def squares(tables: Tables) -> Iterator[str]:
    """Driving squares whose limits or torques do not grow with the size."""
    rows = [row for row in tables["drive"] if row["system"] == "driving-square"]
    limits = {(row["drive"], row["tool"]): row["proof_torque_nm"] for row in tables["drive_torque"]}
    for row in rows:
        nominal = float(row["size"].removesuffix(" mm"))
        low, high = row["across_flats_min_mm"], row["across_flats_max_mm"]
        inch = min((6.35, 9.525, 12.7, 19.05, 25.4), key=lambda size: abs(size - nominal))
        if abs(high - inch) > 0.006 or not 0.08 < high - low < 0.135:
            yield f"{row['id']}: {low} to {high}"
        part, square = (limits[row["id"], tool] for tool in ("driving part", "socket square"))
        if not 1.08 < square / part < 1.13:
            yield f"{row['id']}: {part} and {square} N·m"
    for small, large in pairwise(rows):
        ratio = large["across_flats_max_mm"] / small["across_flats_max_mm"]
        step = limits[large["id"], "driving part"] / limits[small["id"], "driving part"]
        if not ratio**1.85 < step < ratio**3.3:
            yield f"{large['id']}: {step:.2f} of the next smaller"


HARDWARE_DEFENCES: tuple[Callable[[Tables], Iterator[str]], ...] = (
    *(hexagons, caps, nuts, washers, rings, points, pins, crosses, squares),
)
