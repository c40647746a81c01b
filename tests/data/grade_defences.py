"""What must hold among grades: strengths, hardness, proof stresses, limits of use, pairs, marks."""

import re
from collections.abc import Callable, Iterator
from itertools import pairwise
from math import hypot
from typing import Any

Row = dict[str, Any]
Tables = dict[str, list[Row]]
MPA_PER_KSI = 6.894757  # 1 lbf/in2 = 4.4482216152605 N / (25.4 mm)^2
KSI = {  # tensile, yield, proof as printed in the inch standards, by grade and first size
    **{("SAE-1", 6.3): (60, 36, 33), ("SAE-2", 6.3): (74, 57, 55), ("SAE-2", 22.2): (60, 36, 33)},
    **{("SAE-4", 6.3): (115, 100, 65), ("SAE-5", 6.3): (120, 92, 85)},
    **{("SAE-5", 28.5): (105, 81, 74), ("SAE-5.2", 6.3): (120, 92, 85)},
    **{("SAE-7", 6.3): (133, 115, 105), ("SAE-8", 6.3): (150, 130, 120)},
    **{("SAE-8.2", 6.3): (150, 130, 120), ("A307", 6.3): (60, 36, 33)},
    **{("A325", 12.7): (120, 92, 85), ("A325", 28.5): (105, 81, 74)},
    **{("A354-BD", 6.3): (150, 130, 120), ("A449", 6.3): (120, 92, 85)},
    **{("A449", 28.5): (105, 81, 74), ("A449", 44.4): (90, 58, 55)},
    **{("A490", 12.7): (150, 130, 120)},
    **{("A574", 1.5): (180, 162, 140), ("A574", 12.71): (170, 153, 135)},
    **{("A193-B7", 6.3): (125, 105), ("A193-B7", 63.51): (115, 95), ("A193-B7", 101.61): (100, 75)},
    **{("A193-B8-1", 6.3): (75, 30), ("A193-B8M-1", 6.3): (75, 30)},
    **{("A193-B8-2", 6.3): (125, 100), ("A193-B8-2", 19.06): (115, 80)},
    **{("A193-B8-2", 25.41): (105, 65), ("A193-B8-2", 31.76): (100, 50)},
    **{("A193-B8M-2", 6.3): (110, 95), ("A193-B8M-2", 19.06): (100, 80)},
    **{("A193-B8M-2", 25.41): (95, 65), ("A193-B8M-2", 31.76): (90, 50)},
}
NUT_KSI = {  # proof stress, SAE J995
    **{("nut-SAE-2", "coarse", 6.3): 90, ("nut-SAE-5", "coarse", 6.3): 120},
    **{("nut-SAE-5", "coarse", 25.41): 105, ("nut-SAE-5", "fine", 6.3): 109},
    **{("nut-SAE-5", "fine", 25.41): 94, ("nut-SAE-8", "any", 6.3): 150},
}
STAINLESS_YIELD = {  # ISO 3506-1, by group and class
    **{("A", 50): 210, ("A", 70): 450, ("A", 80): 600, ("A", 100): 800},
    **{("D", 70): 450, ("D", 80): 600, ("D", 100): 800},
    **{("C", 50): 250, ("C", 70): 410, ("C", 80): 640, ("C", 110): 820},
    **{("F", 45): 250, ("F", 60): 410},
}
TENSILE_PER_HV = (2.9, 3.55)  # MPa; ISO 18265 has 3.1 to 3.4 for these steels
HRC_OF_HV = (  # ISO 18265, Table A.1
    *((240, 20.3), (270, 25.6), (300, 29.8), (330, 33.3), (360, 36.6), (400, 40.8), (440, 44.5)),
    *((480, 47.7), (520, 50.5), (560, 53.0)),
)
HRB_OF_HV = (  # ISO 18265, Table A.1, and above 240 HV as ISO 898-5 prints
    *((85, 41.0), (95, 52.0), (110, 62.3), (130, 71.2), (150, 78.7), (170, 85.0), (190, 89.5)),
    *((220, 95.0), (240, 98.1), (290, 105.0)),
)
BOUNDS = (
    *(6, 10, 12, 14, 16, 20, 24, 36, 39, 12.7, 19.05, 25.4, 31.75, 38.1, 63.5, 76.2, 101.6, 177.8),
)


def ranges(tables: Tables) -> Iterator[str]:
    """Bounds in mm that are not what the printed range says."""
    for table in ("grade_row", "nut_row"):
        for row in tables[table]:
            said = row["size_range"]
            unit = 25.4 if said.endswith(" in") else 1.0
            numbers = [float(text) * unit for text in re.findall(r"\d+\.?\d*", said)]
            bounded = numbers and not said.startswith("d > ")
            if bounded and abs(numbers[-1] - row["size_to_mm"]) > 0.06:
                yield f"{row['grade']} {said}: to {row['size_to_mm']}"
            first = numbers[0] if len(numbers) > 1 else None
            if first is not None and abs(first - row["size_from_mm"]) > 0.1:
                yield f"{row['grade']} {said}: from {row['size_from_mm']}"
            if first is None and row["size_from_mm"] not in (0, 1.5, 6.3, 16.01, 12.71):
                yield f"{row['grade']} {said}: from {row['size_from_mm']}"


def grades(tables: Tables) -> Iterator[str]:
    """Strengths that do not fit the class's name, one another or the printed inch values."""
    system = {row["id"]: row["system"] for row in tables["grade"]}
    for row in tables["grade_row"]:
        name, tensile, yield_ = row["grade"], row["tensile_min_mpa"], row["yield_min_mpa"]
        proof, elongation = row["proof_mpa"], row["elongation_min_pct"]
        if (yield_ and not yield_ < tensile) or (proof and not proof < yield_):
            yield f"{name}: {tensile}, {yield_}, {proof}"
        if system[name] == "ISO 898-1":  # Rm/100 and ten times the yield ratio
            hundreds, tenths = name.split(".")
            nominal, ratio = 100 * int(hundreds), int(tenths) / 10
            if not nominal <= tensile <= 1.1 * nominal:
                yield f"{name}: tensile {tensile}"
            if not ratio * nominal <= yield_ <= 1.065 * ratio * nominal:
                yield f"{name}: yield {yield_}"
            if not 0.87 * yield_ < proof < 0.95 * yield_:
                yield f"{name}: proof {proof} of {yield_}"
            if elongation and not 0.75 < elongation * tensile / 9600 < 1.25:
                yield f"{name}: elongation {elongation}"
        elif system[name] == "ISO 3506-1":  # a tenth of the tensile strength
            hardest = int(name.split("-")[1])
            if tensile != 10 * hardest or yield_ != STAINLESS_YIELD[name[0], hardest]:
                yield f"{name}: tensile {tensile}, yield {yield_}"
        elif key := KSI.get((name, row["size_from_mm"])):
            for value, ksi in zip((tensile, yield_, proof), key, strict=False):
                if value is None or abs(value - ksi * MPA_PER_KSI) > 0.6:
                    yield f"{name}: {value} MPa, {ksi} ksi"
        elif system[name] not in ("ISO 8839", "titanium", "polymer"):
            yield f"{name} from {row['size_from_mm']}: no printed inch value"
        elif yield_ and not 0.38 < yield_ / tensile < 0.93:
            yield f"{name}: yield {yield_} of {tensile}"
    groups: dict[str, list[Row]] = {}
    for row in tables["grade_row"]:
        groups.setdefault(row["grade"], []).append(row)
        inch = (row["grade"], row["size_from_mm"]) in KSI
        grain = [row[name] for name in ("tensile_min_mpa", "yield_min_mpa") if not inch]
        if any(value and value % 5 for value in grain) and row["grade"] != "PA66":
            yield f"{row['grade']}: {grain} are not printed to 5 MPa"
        elongation = row["elongation_min_pct"]
        if elongation and (elongation % 1 or not 4 <= elongation <= 35):
            yield f"{row['grade']}: elongation {elongation}"
    for name, rows in groups.items():
        for first, second in pairwise(sorted(rows, key=lambda row: row["size_from_mm"])):
            if not first["size_to_mm"] < second["size_from_mm"]:
                yield f"{name}: {first['size_range']} and {second['size_range']} overlap"
            if name != "8.8" and second["tensile_min_mpa"] > first["tensile_min_mpa"]:
                yield f"{name}: stronger from {second['size_from_mm']} mm on"
            if (second["elongation_min_pct"] or 99) < (first["elongation_min_pct"] or 0):
                yield f"{name}: less tough from {second['size_from_mm']} mm on"
        for row in rows:
            if not row["size_from_mm"] < row["size_to_mm"] or row["size_to_mm"] not in BOUNDS:
                yield f"{name}: {row['size_from_mm']} to {row['size_to_mm']}"


def nuts(tables: Tables) -> Iterator[str]:
    """Proof stresses that do not fit the class, the printed inch value, or the next size."""
    for row in tables["nut_row"]:
        name, proof = row["grade"], row["proof_mpa"]
        if ksi := NUT_KSI.get((name, row["series"], row["size_from_mm"])):
            if abs(proof - ksi * MPA_PER_KSI) > 0.6:
                yield f"{name}: {proof} MPa, {ksi} ksi"
        elif re.match(r"nut-[ACF]\d-", name):
            if proof != 10 * int(name.rpartition("-")[2]):
                yield f"{name}: {proof}"
        elif row["style"] == "thin":
            if proof != {"nut-04": 380, "nut-05": 500}[name]:
                yield f"{name}: {proof}"
        elif (
            not 0.95 <= proof / (100 * int(name[4:])) < (1.45 if row["series"] == "fine" else 1.27)
        ):
            yield f"{name}: {proof}"
        if "SAE" not in name and proof % 5:
            yield f"{name}: {proof} is not printed to 5 MPa"
        if not row["size_from_mm"] < row["size_to_mm"]:
            yield f"{name}: {row['size_range']}"
    groups: dict[tuple[str, ...], list[Row]] = {}
    for row in tables["nut_row"]:
        groups.setdefault((row["grade"], row["style"], row["series"]), []).append(row)
    for name, rows in groups.items():
        for first, second in pairwise(sorted(rows, key=lambda row: row["size_from_mm"])):
            if not first["size_to_mm"] < second["size_from_mm"]:
                yield f"{name}: {first['size_range']} and {second['size_range']} overlap"
            step = second["proof_mpa"] / first["proof_mpa"]
            if not (0.85 if "SAE" in name[0] else 0.965) < step < 1.125:
                yield f"{name}: {first['proof_mpa']}, then {second['proof_mpa']}"
    for name, rows in groups.items():  # a higher class carries more at every size
        number = re.fullmatch(r"nut-(\d+)", name[0])
        for other, beside in groups.items():
            higher = re.fullmatch(r"nut-(\d+)", other[0])
            same = (
                number and higher and name[1:] == other[1:] and "0" not in (name[0][4], other[0][4])
            )
            if not same or not number or not higher or int(number[1]) >= int(higher[1]):
                continue
            for low in rows:
                for high in beside:
                    d = max(low["size_from_mm"], high["size_from_mm"])
                    both = d <= low["size_to_mm"] and d <= high["size_to_mm"]
                    if both and not low["proof_mpa"] < high["proof_mpa"]:
                        yield f"{name} and {other} at {d}"


def along(points: tuple[tuple[float, float], ...], x: float) -> float:
    """Straight between the points, and straight on beyond the ends."""
    after = next((i for i, point in enumerate(points) if point[0] >= x), len(points) - 1)
    (x1, y1), (x2, y2) = points[max(after - 1, 0)], points[max(after, 1)]
    return y1 + (y2 - y1) * (x - x1) / (x2 - x1)


def hardness(tables: Tables) -> Iterator[str]:
    """Scales of one class that do not say the same, and hardness that the strength contradicts."""
    held = {
        (row["grade"], row["size_from_mm"], row["scale"]): row for row in tables["grade_hardness"]
    }
    tensile = {(r["grade"], r["size_from_mm"]): r["tensile_min_mpa"] for r in tables["grade_row"]}
    for (name, size, scale), row in held.items():
        if row["low"] and row["high"] and not row["low"] < row["high"]:
            yield f"{name} {scale}: {row['low']} to {row['high']}"
        least, most = {"HV": (95, 560), "HBW": (90, 532), "HRB": (52, 105), "HRC": (19, 53)}[scale]
        if any(
            end and (end * 2 % 1 or not least <= end <= most) for end in (row["low"], row["high"])
        ):
            yield f"{name} {scale}: {row['low']} to {row['high']}"
        if name.startswith("nut-") and scale == "HV" and row["high"] not in (302, 353):
            yield f"{name}: {row['high']} HV, neither 30 nor 36 HRC"
        vickers = held.get((name, size, "HV"))
        for end in ("low", "high"):
            value = row[end]
            reference = vickers and vickers[end]
            if value is None or reference is None or scale == "HV":
                continue
            expected = {
                "HBW": 0.951 * reference,
                "HRC": along(HRC_OF_HV, reference),
                "HRB": along(HRB_OF_HV, reference),
            }[scale]
            if abs(value - expected) > {"HBW": 0.012 * expected, "HRC": 1.4, "HRB": 2.6}[scale]:
                yield f"{name} {scale} {end}: {value}, from {reference} HV {expected:.1f}"
        strength = tensile.get((name, size))
        if scale == "HV" and strength and row["low"]:
            least, most = TENSILE_PER_HV
            if not least < strength / row["low"] < most:
                yield f"{name}: {row['low']} HV for {strength} MPa"
        if scale == "HRC" and strength and row["low"] and not vickers:
            backward = tuple((hrc, hv) for hv, hrc in HRC_OF_HV)
            if not 2.9 < strength / along(backward, row["low"]) < 3.55:
                yield f"{name}: {row['low']} HRC for {strength} MPa"
    starts: dict[str, set[float]] = {}
    for row in (*tables["grade_row"], *tables["nut_row"]):
        starts.setdefault(row["grade"], set()).add(row["size_from_mm"])
    hard: dict[tuple[str, str], set[float]] = {}
    for name, size, scale in held:
        hard.setdefault((name, scale), set()).add(size)
        if size not in starts.get(name, {0}) and size not in (15.9, 25.41):
            yield f"{name} {scale}: no size from {size}"
    for (name, scale), sizes in hard.items():
        if min(sizes) != min(starts.get(name, {0})):
            yield f"{name} {scale}: from {min(sizes)} only"
    for grade, low, high in (("SAE-1", 70, 100), ("SAE-2", 80, 100), ("SAE-5", 25, 34)):
        scale = "HRC" if grade == "SAE-5" else "HRB"
        if (row := held[grade, 6.3, scale]) and (row["low"], row["high"]) != (low, high):
            yield f"{grade} {scale}: {row['low']} to {row['high']}"


def limits(tables: Tables) -> Iterator[str]:
    """A temperature range that is none, an embrittlement flag that the hardness does not give."""
    reached: dict[str, tuple[list[bool], list[bool]]] = {}
    for row in tables["grade_hardness"]:
        least, most = {"HV": (320, 390), "HRC": (32, 39)}.get(row["scale"], (9999, 9999))
        cares, risks = reached.setdefault(row["grade"], ([], []))
        cares.append((row["low"] or 0) >= least)
        risks.append((row["high"] or 0) > most)
    for row in tables["grade_limit"]:
        low, high = row["use_min_c"], row["use_max_c"]
        if (low is None) != (high is None) or (low is not None and not low < 0 < 90 < high):
            yield f"{row['grade']}: {low} to {high}"
        cares, risks = reached.get(row["grade"], ([], []))
        expected = "risk" if any(risks) else "care" if any(cares) else "none"
        nut = row["grade"].startswith("nut-")
        if cares and not nut and row["embrittlement"] != expected:
            yield f"{row['grade']}: {row['embrittlement']}, by hardness {expected}"


def pairs(tables: Tables) -> Iterator[str]:
    """A nut set beside a bolt of another strength than its proof stress."""
    tensile: dict[str, float] = {}
    for row in tables["grade_row"]:
        tensile.setdefault(row["grade"], row["tensile_min_mpa"])
    proof: dict[str, list[float]] = {}
    for row in tables["nut_row"]:
        proof.setdefault(row["grade"], []).append(row["proof_mpa"])
    for row in tables["grade_pair"]:
        if row["mate"] not in tensile:
            yield f"{row['grade']}: {row['mate']} has no strength"
        elif row["how"] == "highest-bolt" and not (
            max(proof[row["grade"]]) >= 0.97 * tensile[row["mate"]]
        ):
            yield f"{row['grade']} does not carry {row['mate']}"
    paired = {row["grade"] for row in tables["grade_pair"]}
    for row in tables["grade"]:
        if row["product"] != "bolt" and row["id"] not in paired:
            yield f"{row['id']}: nothing it goes with"


def marks(tables: Tables) -> Iterator[str]:
    """Strokes that do not draw: no end, outside the head, or lines that the words do not count."""
    words = {row["id"]: row["mark"] or "" for row in tables["grade"]}
    lines: dict[str, int] = {}
    for row in tables["grade_mark"]:
        drawn = row["x2"] is not None and row["y2"] is not None
        if drawn != (row["shape"] == "line") or bool(row["text"]) != (row["shape"] == "text"):
            yield f"{row['grade']} {row['n']}: {row['shape']}"
        if hypot(row["x1"], row["y1"]) > 0.9 or (drawn and hypot(row["x2"], row["y2"]) > 0.9):
            yield f"{row['grade']} {row['n']}: outside the head"
        if row["shape"] == "text" and row["text"] not in words[row["grade"]]:
            yield f"{row['grade']}: {row['text']} is not in {words[row['grade']]!r}"
        plain = row["variant"] == "head" and "underlined" not in words[row["grade"]]
        if row["shape"] == "line" and plain:
            lines[row["grade"]] = lines.get(row["grade"], 0) + 1
    counted = {"three": 3, "five": 5, "six": 6}
    for grade, mark in words.items():
        found = re.search(r"(three|five|six) radial lines", mark)
        if found and lines.get(grade) != counted[found[1]] and grade != "SAE-8.2":
            yield f"{grade}: {lines.get(grade)} lines, {mark}"


GRADE_DEFENCES: tuple[Callable[[Tables], Iterator[str]], ...] = (
    *(ranges, grades, nuts, hardness, limits, pairs, marks),
)
