"""What must hold among lengths of screws, and of recesses and slots in their heads."""

from collections.abc import Callable, Iterator
from itertools import pairwise
from typing import Any

Row = dict[str, Any]
Tables = dict[str, list[Row]]
STEPS = (  # ISO 888: from, to, step
    *((2, 3, 0.5), (3, 6, 1), (6, 22, 2), (25, 25, 1), (28, 30, 2), (30, 90, 5)),
    *((90, 160, 10), (160, 500, 20)),
)
SAME_LENGTHS = (  # heads of one shape are made in the same lengths
    ("ISO 4762", "ISO 14579"),
    ("ISO 7380-1", "ISO 7380-2"),
    ("ISO 1207", "ISO 14580"),
    ("ISO 1207", "ISO 7048"),
    ("ISO 14583", "ISO 14581"),
    ("ISO 7046", "ISO 14583"),
    ("ISO 7046", "ISO 7045"),
)
APART = {("ISO 7045", "M5"): 45, ("ISO 14581", "M6"): 50}  # printed so; the other has one more
SHORT = {  # shortest length over the thread
    **{"ISO 4014": (3.6, 8.1), "ISO 4017": (1.2, 2.3), "ISO 4762": (1.2, 1.8)},
    **{"ISO 7380-1": (1.45, 2.05), "ISO 7380-2": (1.45, 2.05), "ISO 10642": (1.15, 2.7)},
    **{"ISO 4026": (0.95, 1.6), "ISO 2009": (1.15, 1.75)},
}
# Recess diameter less the greatest penetration, by drive: the wings taper, so it stays the same.
LESS_PENETRATION = {
    **{"PH0": (0.49, 0.76), "PH1": (1.04, 1.21), "PH2": (1.94, 2.06), "PH3": (3.2, 3.36)},
    **{"PH4": (4.2, 4.45), "PZ0": (0.63, 0.81), "PZ1": (0.94, 1.16), "PZ2": (1.79, 2.01)},
    **{"PZ3": (3.06, 3.26), "PZ4": (4.06, 4.31)},
}
TOLERANCES = (  # greatest less least penetration
    *(0.25, 0.27, 0.28, 0.3, 0.34, 0.35, 0.4, 0.43, 0.44, 0.45, 0.46, 0.5, 0.55),
    0.6,
)
SLOT_WIDTHS = (0.2, 0.25, 0.3, 0.4, 0.5, 0.6, 0.8, 1.0, 1.2, 1.6, 2.0, 2.5, 3.0, 4.0)


def expected_lengths() -> list[float]:
    """The lengths of ISO 888, one after another."""
    found = {
        low + n * step for low, high, step in STEPS for n in range(round((high - low) / step) + 1)
    }
    return sorted(found)


def lengths(tables: Tables) -> Iterator[str]:
    """Nominal lengths other than the steps of ISO 888 give; threaded lengths off its rule."""
    held = [row["length_mm"] for row in tables["nominal_length"]]
    if held != expected_lengths():
        yield f"nominal lengths: {sorted(set(held) ^ set(expected_lengths()))}"
    rows = tables["thread_length"]
    hexagon = [row for row in rows if row["rule"] == "hexagon"]
    for a, b in pairwise(hexagon):
        if a["to_mm"] != b["over_mm"]:
            yield f"thread length over {b['over_mm']}: the one before ends at {a['to_mm']}"
    given = [(row["over_mm"], row["to_mm"], row["plus_mm"]) for row in hexagon]
    if given != [(0, 125, 6), (125, 200, 12), (200, None, 25)]:  # ISO 888, clause 4
        yield f"threaded lengths {given}"
    if any(row["diameters"] != 2 or row["plus_mm"] not in (6, 12, 25) for row in rows):
        yield "threaded length other than 2 d + 6, 12 or 25"
    if any(row["over_mm"] for row in rows if row["rule"] == "socket"):
        yield "threaded length of a socket screw begins above 0"


def ranges(tables: Tables) -> Iterator[str]:
    """Lengths made that fall with the size, or that heads of the same shape do not share."""
    diameter = {row["size"]: row["nominal_mm"] for row in tables["thread"]}
    nominal = {row["length_mm"] for row in tables["nominal_length"]}
    held = {(row["standard"], row["size"]): row for row in tables["length_range"]}
    for (standard, size), row in held.items():
        d, short, long = diameter[size], row["shortest_mm"], row["longest_mm"]
        low, high = SHORT.get(standard, (1.0, 2.2))
        if not low <= short / d <= high:
            yield f"{standard} {size}: from {short}"
        most = 11.2 if d >= 2 else 12
        least = 0.49 * most if standard in ("ISO 4014", "ISO 4762", "ISO 14579") else 1.9
        if not least <= long / d <= most:
            yield f"{standard} {size}: to {long}"
        if not short < long or not {short, long} <= nominal:
            yield f"{standard} {size}: {short} to {long}"
    for a, b in pairwise(tables["length_range"]):
        if a["standard"] == b["standard"]:
            for name in ("shortest_mm", "longest_mm"):
                if a[name] > b[name] and (b["standard"], b["size"]) not in FALLS:
                    yield f"{b['standard']} {b['size']} {name}: {b[name]} after {a[name]}"
            if not b["longest_mm"] <= 2 * a["longest_mm"]:
                yield f"{b['standard']} {b['size']}: to {b['longest_mm']} after {a['longest_mm']}"
    for first, second in SAME_LENGTHS:
        for (standard, size), row in held.items():
            twin = held.get((second, size))
            if standard != first or twin is None or (second, size) in APART:
                continue
            for name in ("shortest_mm", "longest_mm"):
                if row[name] != twin[name]:
                    yield f"{first} and {second} {size} {name}: {row[name]}, {twin[name]}"
    for (standard, size), longest in APART.items():
        if held[standard, size]["longest_mm"] != longest:
            yield f"{standard} {size}: to {held[standard, size]['longest_mm']}"


FALLS = {("ISO 4017", "M4"), ("ISO 4017", "M16"), ("ISO 4017", "M20"), ("ISO 4017", "M24")}


def recesses(tables: Tables) -> Iterator[str]:
    """Recesses whose diameter and penetration disagree; slots off the widths of the standard."""
    held = {
        (row["standard"], row["size"], row["system"], row["dimension"]): row
        for row in tables["recess_dim"]
    }
    for key, row in held.items():
        standard, size, system, dimension = key
        named = [row[name] for name in ("value_mm", "low_mm", "high_mm")]
        if not any(named):
            yield f"{key}: no value"
        if dimension == "penetration":
            other = held[standard, size, system, "diameter"]
            nearest, most = LESS_PENETRATION[row["drive"]]
            apart = other["value_mm"] - row["high_mm"]
            wide = round(row["high_mm"] - row["low_mm"], 3)
            if other["drive"] != row["drive"] or not nearest <= apart <= most:
                yield f"{key}: {row['high_mm']} deep, {other['value_mm']} across"
            if wide not in TOLERANCES:
                yield f"{key}: {row['low_mm']} to {row['high_mm']}"
        least = row["low_mm"] if dimension == "slot_width" else None
        if least and round(least - 0.06, 3) not in SLOT_WIDTHS:
            yield f"{key}: {least}"
    yield from slots(held)
    yield from grown(tables)


def slots(held: dict[tuple[str, str, str, str], Row]) -> Iterator[str]:
    """Slots of one size that differ between heads, or that are out of proportion."""
    for (standard, size, system, dimension), row in held.items():
        if dimension != "slot_width":
            continue
        twin = held.get(("ISO 1207", size, system, dimension))
        if twin and standard in ("ISO 1580", "ISO 2009") and twin["low_mm"] != row["low_mm"]:
            yield f"{standard} {size}: slot {row['low_mm']}, ISO 1207 {twin['low_mm']}"
        deep = held[standard, size, system, "slot_depth"]
        depth = deep["value_mm"] or deep["low_mm"] or deep["high_mm"]
        width = row["low_mm"] or row["high_mm"]
        low, high = PROPORTION[standard]
        if not low <= depth / width <= high:
            yield f"{standard} {size}: slot {width} wide, {depth} deep"


PROPORTION = {  # depth of a slot over its width
    **{"ISO 1207": (0.8, 1.08), "ISO 1580": (0.75, 1.0), "ISO 2009": (0.66, 1.0)},
    **{"ISO 7434": (1.6, 2.75), "ISO 7436": (1.7, 2.75), "ASME B18.6.3 slotted pan": (0.93, 1.6)},
}


def grown(tables: Tables) -> Iterator[str]:
    """Dimensions that fall, or leap, from one size of a standard to the next."""
    size = {row["size"]: row["nominal_mm"] for row in tables["thread"]}
    groups: dict[tuple[Any, ...], list[tuple[float, float]]] = {}
    for row in tables["recess_dim"]:
        key = tuple(row[name] for name in ("standard", "system", "drive", "dimension"))
        for name in ("value_mm", "low_mm", "high_mm"):
            if row[name]:
                groups.setdefault((*key, name), []).append((size[row["size"]], row[name]))
    for key, points in groups.items():
        for (d, a), (e, b) in pairwise(sorted(points)):
            if b < a or (e > d and not b / a <= (e / d) ** 2.7 + 0.12):
                yield f"{key}: {b} at {e} after {a} at {d}"
    depths = [row for row in tables["recess_dim"] if row["dimension"] == "depth"]
    points_across = {row["id"]: row["across_points_mm"] for row in tables["drive"]}
    for row in depths:
        share = (row["value_mm"] or row["low_mm"]) / points_across[row["drive"]]
        low, high = DEPTHS[row["standard"]]
        if not low <= share <= high:
            yield f"{row['standard']} {row['size']}: {row['value_mm']} deep in {row['drive']}"


DEPTHS = {  # of a hexalobular recess, over its points
    **{"ISO 14579": (0.39, 0.56), "ISO 14580": (0.32, 0.52)},
    **{"ISO 14583": (0.3, 0.5), "ISO 14581": (0.27, 0.4)},
}

LENGTH_DEFENCES: tuple[Callable[[Tables], Iterator[str]], ...] = (lengths, ranges, recesses)
