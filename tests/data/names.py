"""
Cells of text that a name gives: what a standard calls a part of it, marks on it, pairs with it.

`TEXTS[table](row, tables)` yields column and text for every cell that the standard's way of naming
settles. A row that is a name and no more (a ring for a shaft of 20 mm) is compared with a second
publication when that one prints a dimension or a strength of the same part: see `standing`.
"""

import re
from collections.abc import Callable, Iterator
from math import cos, radians, sin
from typing import Any

from tests.data.designations import stuff

Row = dict[str, Any]
Tables = dict[str, list[Row]]
PARTS = {  # standard: family, title
    "DIN-471": ("retaining ring, shaft", "Retaining ring for a shaft of {0} mm (DIN 471)"),
    "DIN-472": ("retaining ring, bore", "Retaining ring for a bore of {0} mm (DIN 472)"),
    "DIN-6799": (
        "retaining ring, radial",
        "Radial ring for a groove of {0} mm on shafts of {1:g} to {2:g} mm (DIN 6799)",
    ),
    "DIN-938": ("stud", "Stud {0}, metal end about 1 d (DIN 938)"),
    "DIN-939": ("stud", "Stud {0}, metal end about 1.25 d (DIN 939)"),
    "ISO-4026": ("set screw, flat point", "Set screw {0} with flat point (ISO 4026)"),
    "ISO-4027": ("set screw, cone point", "Set screw {0} with cone point (ISO 4027)"),
    "ISO-4028": ("set screw, dog point", "Set screw {0} with dog point (ISO 4028)"),
    "ISO-4029": ("set screw, cup point", "Set screw {0} with cup point (ISO 4029)"),
}
# ISO 898-1: the mark is obligatory for these and for 8.8 and up, and left out of the others.
MARKED = ("4.6", "5.6")
LINES = {"three": 3, "five": 5, "six": 6}
INNER, OUTER, DOT = 0.45, 0.8, 0.7  # how far from the centre our strokes lie
BAR = (0.6, 0.8)  # of a bar at its hour
SOFTEST = {"HV": (320, 390), "HRC": (32, 39)}  # from which hydrogen wants care, and is a risk
TURNS = {"a third of a turn on": 120, "a sixth of a turn on": -60}


def hardware(row: Row, tables: Tables) -> Iterator[tuple[str, str]]:
    """Family, title and thread, all of them by the standard and the size in the id."""
    standard, _, size = row["id"].rpartition("-")
    if standard not in PARTS:
        return
    family, title = PARTS[standard]
    shaft = next(
        (
            dim
            for dim in tables["hardware_dim"]
            if dim["hardware"] == row["id"] and dim["dimension"] == "shaft"
        ),
        {"low_mm": 0.0, "high_mm": 0.0},
    )
    yield "family", family
    yield "title", title.format(size, shaft["low_mm"], shaft["high_mm"])
    if size.startswith("M"):
        yield "thread", size


def grade(row: Row, tables: Tables) -> Iterator[tuple[str, str]]:
    """The mark that is the designation itself: ISO 898-1 and -2, ISO 3506-1 and -2, ASTM A193."""
    name = row["id"].removeprefix("nut-")
    match row["system"]:
        case "ISO 898-1" if name != "12.9":
            unmarked = "" if name in MARKED or float(name) > 8 else ", often unmarked"
            yield "mark", f"{name} on the head{unmarked}"
        case "ISO 898-2" if name.startswith("0"):
            yield "mark", f"{name} on a face; thin nut, of less than full loadability"
        case "ISO 898-2":
            bar = f"a bar at the {name} of a clock face whose twelve is a dot"
            yield "mark", f"{name} on a face, or {bar}"
        case "ISO 3506-1":
            yield "mark", f"{name} on the head"
        case "ISO 3506-2":
            yield "mark", f"{name} on a face" + ("; thin nut" if "-0" in name else "")
        case "ASTM A193" if not name.endswith("-2"):
            yield "mark", f"{name.split('-')[1]} on the head or stud end"


def grade_pair(row: Row, tables: Tables) -> Iterator[tuple[str, str]]:
    """
    The bolt that a nut's name calls for.

    ISO 898-2: the highest class with the nut's number before its point. ISO 3506-2: a nut of the
    bolt's own designation; a thin nut has half the number.
    """
    name = row["grade"].removeprefix("nut-")
    if re.fullmatch(r"\d+", name) and not name.startswith("0"):
        bolts = [g["id"] for g in tables["grade"] if g["system"] == "ISO 898-1"]
        yield "mate", max((b for b in bolts if b.split(".")[0] == name), default="")
        yield "how", "highest-bolt"
    elif thin := re.fullmatch(r"([A-F]\d)-0(\d+)", name):
        yield "mate", f"{thin[1]}-{2 * int(thin[2])}"
        yield "how", "like-strength"
    elif re.fullmatch(r"[A-F]\d-\d+", name):
        yield "mate", name
        yield "how", "highest-bolt"


def grade_limit(row: Row, tables: Tables) -> Iterator[tuple[str, str]]:
    """The embrittlement flag, by hardness; austenitic steels are not prone to it."""
    if re.match(r"A\d-", row["grade"]):
        yield "embrittlement", "none"
    hard = [h for h in tables["grade_hardness"] if h["grade"] == row["grade"]]
    hard = [h for h in hard if h["scale"] in SOFTEST]
    if not hard or any(h["checked"] == "memory" for h in hard):
        return
    risk = any((h["high"] or 0) > SOFTEST[h["scale"]][1] for h in hard)
    care = any((h["low"] or 0) >= SOFTEST[h["scale"]][0] for h in hard)
    yield "embrittlement", "risk" if risk else "care" if care else "none"


def grade_mark(row: Row, tables: Tables) -> Iterator[tuple[str, Any]]:
    """A stroke drawn by rule from the words of the mark."""
    words = next(g["mark"] or "" for g in tables["grade"] if g["id"] == row["grade"])
    yield from zip(("shape", "x1", "y1", "x2", "y2", "text"), stroke(row, words), strict=True)


def stroke(row: Row, words: str) -> tuple[Any, ...]:
    """Shape, ends and text of the n-th stroke of a mark in *words*."""
    n = row["n"]
    if row["variant"] == "clock":
        hour = int(row["grade"].removeprefix("nut-"))
        if n == 1:
            return ("dot", *polar(90, DOT), None, None, None)
        return ("line", *polar(90 - 30 * hour, BAR[0]), *polar(90 - 30 * hour, BAR[1]), None)
    if lines := re.search(r"(three|five|six) radial lines(, close together)?", words):
        step = 30 if lines[2] else 360 / LINES[lines[1]]
        start = 60 if lines[2] else 90
        return radial(start + step * (n - 1))
    for said, turn in TURNS.items():
        if said in words:
            return radial(90 + turn * (n - 1))
    if n == 2 and "underlined" in words:
        return ("line", -0.4, -0.3, 0.4, -0.3, None)
    symbol = re.match(r"[\w.-]+", words)
    return ("text", 0.0, 0.0, None, None, symbol[0] if symbol else "")


def radial(angle_deg: float) -> tuple[Any, ...]:
    """A line from the centre's side to the rim's."""
    return ("line", *polar(angle_deg, INNER), *polar(angle_deg, OUTER), None)


def polar(angle_deg: float, radius: float) -> tuple[float, float]:
    """A point, to three places as the file holds it; no negative zero."""
    angle = radians(angle_deg)
    return round(radius * cos(angle), 3) + 0.0, round(radius * sin(angle), 3) + 0.0


TEXTS: dict[str, Callable[[Row, Tables], Iterator[tuple[str, Any]]]] = {
    "hardware": hardware,
    "grade": grade,
    "grade_pair": grade_pair,
    "grade_mark": grade_mark,
    "grade_limit": grade_limit,
    "stuff": stuff,
}


def named(table: str, row: Row, tables: Tables) -> set[str]:
    """Columns of *row* that hold what the name gives."""
    if table not in TEXTS:
        return set()
    return {name for name, value in TEXTS[table](row, tables) if alike(row[name], value)}


def alike(held: Any, value: Any) -> bool:
    """Texts that are the same, numbers to the third place."""
    if isinstance(held, float) and isinstance(value, float):
        return abs(held - value) < 0.0006
    return bool(held == value)


def texts(tables: Tables) -> Iterator[str]:
    """A text that is not what the name gives."""
    for table, rule in TEXTS.items():
        for row in tables.get(table, ()):
            for column, value in rule(row, tables):
                if not alike(row[column], value):
                    name = row.get("id") or row["grade"]
                    yield f"{table} {name} {column}: {row[column]!r}, by its name {value!r}"
