"""What must hold within the thread tables, family by family, whatever single cell is wrong."""

import re
from collections.abc import Callable, Iterable, Iterator
from fractions import Fraction
from itertools import pairwise
from typing import Any

Row = dict[str, Any]
Tables = dict[str, list[Row]]
STRESS_AREAS = {  # mm^2; EN ISO 898-1, table of minimum ultimate tensile loads, coarse thread
    **{"M3": 5.03, "M3.5": 6.78, "M4": 8.78, "M5": 14.2, "M6": 20.1, "M7": 28.9, "M8": 36.6},
    **{"M10": 58.0, "M12": 84.3, "M14": 115, "M16": 157, "M18": 192, "M20": 245, "M22": 303},
    **{"M24": 353, "M27": 459, "M30": 561, "M33": 694, "M36": 817},
}
PITCHES = (  # ISO 261, table 2
    *(0.2, 0.25, 0.3, 0.35, 0.4, 0.45, 0.5, 0.6, 0.7, 0.75, 0.8, 1, 1.25, 1.5, 1.75, 2, 2.5),
    *(3, 3.5, 4, 4.5, 5, 5.5, 6, 8),
)
DRILLS_IN = {  # number and letter drills; drill chart
    **{"#56": 0.0465, "#53": 0.0595, "#50": 0.0700, "#47": 0.0785, "#45": 0.0820, "#43": 0.0890},
    **{"#42": 0.0935, "#38": 0.1015, "#37": 0.1040, "#36": 0.1065, "#33": 0.1130, "#31": 0.1200},
    **{"#29": 0.1360, "#25": 0.1495, "#21": 0.1590, "#16": 0.1770, "#14": 0.1820, "#7": 0.2010},
    **{"#3": 0.2130, "F": 0.2570, "G": 0.2610, "I": 0.2720, "P": 0.3230, "Q": 0.3320},
    **{"R": 0.3390, "U": 0.3680, "X": 0.3970},
}
# Tap drill less minor diameter, over the pitch: as far as the printed drills of each series go.
# A taper thread's drill clears the minor diameter at the small end, not at the gauge plane.
DRILL_BAND = {
    **{"UNC": (0.0, 0.23), "UNF": (0.0, 0.34), "UNEF": (0.08, 0.28), "UN": (0.07, 0.1)},
    **{"BSW": (0.16, 0.3), "BSF": (0.12, 0.33), "BA": (0.19, 0.35), "G": (0.09, 0.29)},
    **{"R": (0.0, 0.08), "NPT": (-0.32, -0.03)},
}
# ISO 1478 made its sizes of the inch tapping screws: d1, d2 and pitch are theirs, rounded.
TWINS = {
    **{"ST1.5": "#0", "ST1.9": "#1", "ST2.2": "#2", "ST2.6": "#3", "ST2.9": "#4", "ST3.3": "#5"},
    **{"ST3.5": "#6", "ST3.9": "#7", "ST4.2": "#8", "ST4.8": "#10", "ST5.5": "#12"},
    **{"ST6.3": "1/4", "ST8": "5/16", "ST9.5": "3/8"},
}
ISO_7_GAUGE_TURNS = {  # gauge length over pitch: the standard's own whole and part turns
    **{"R1/16": 4.375, "R1/8": 4.375, "R1/4": 4.5, "R3/8": 4.75, "R1/2": 4.5, "R3/4": 5.25},
    **{"R1": 4.5, "R1-1/4": 5.5, "R1-1/2": 5.5, "R2": 6.875, "R2-1/2": 7.5625, "R3": 8.9375},
    **{"R4": 11, "R5": 12.375, "R6": 12.375},
}


def inches(text: str) -> Fraction:
    """1-1/4 -> 5/4; 0.050 -> 1/20; #8 -> 0.164."""
    if text.startswith("#"):
        return Fraction(60 + 13 * int(text[1:]), 1000)
    return sum((Fraction(part) for part in text.split("-")), Fraction(0))


def threads(tables: Tables) -> Iterator[str]:
    """An id that its cells do not spell, a pitch out of the series, an area off the printed one."""
    by_family: dict[str, list[Row]] = {}
    for row in tables["thread"]:
        by_family.setdefault(row["family"], []).append(row)
        said = spelt(row)
        if said != (row["id"], row["size"]):
            yield f"{row['id']}, {row['size']}: cells spell {said[0]}, {said[1]}"
        yield from SHAPES[row["family"]](row)
        printed = STRESS_AREAS.get(row["size"]) if row["series"] == "coarse" else None
        if printed and abs(row["stress_area_mm2"] - printed) > 0.006 * printed:
            yield f"{row['id']}: stress area {row['stress_area_mm2']}, printed {printed}"
    yield from metric_series(by_family["M"])
    for fine, coarse in (("UNF", "UNC"), ("UNEF", "UNF"), ("BSF", "BSW")):
        yield from finer(tables["thread"], fine, coarse)
    for series in ("coarse", "UNC", "UNF", "UNEF", "BSW", "BSF", "NPT", "ST", "AB", "PG", "R"):
        group = [row for row in tables["thread"] if row["series"] == series]
        yield from rising(group, "nominal_mm", "pitch_mm")
    yield from pipes(tables)


def spelt(row: Row) -> tuple[str, str]:
    """Id and size as the row's numbers spell them."""
    d, p, tpi, size, series = (row[n] for n in ("nominal_mm", "pitch_mm", "tpi", "size", "series"))
    inch = _inch(d, size.startswith("#"))
    match row["family"]:
        case "M":
            return f"M{d:g}x{p:g}", f"M{d:g}"
        case "plug" if tpi:
            return f"plug-{inch}-{tpi:g}", f"plug-{inch}"
        case "plug":
            return f"plug-M{d:g}x{p:g}", f"plug-M{d:g}"
        case "UN":
            return f"{inch}-{tpi:g}-{series}", inch
        case "BS":
            return f"{inch}-{tpi:g}-{series}", f"{inch}W"
        case "NPT":
            return f"{size.removesuffix(' NPT')}-{tpi:g}-{series}", size
        case "ST" if tpi:
            return f"{size.removesuffix(' AB')}-{tpi:g}-AB", size
    return size, size


def _inch(d_mm: float, numbered: bool) -> str:
    """1.25 in -> 1-1/4; 0.164 in -> #8 where sizes are numbered."""
    if numbered:
        number = (d_mm / 25.4 - 0.060) / 0.013
        return f"#{round(number, 4):g}"
    whole, part = divmod(Fraction(d_mm / 25.4).limit_denominator(64), 1)
    return f"{whole}-{part}" if whole and part else f"{whole or part}"


def metric(row: Row) -> Iterator[str]:
    """A pitch that the standard does not list, or one too coarse or too fine for the diameter."""
    d, p = row["nominal_mm"], row["pitch_mm"]
    if p not in PITCHES or not 0.014 * d <= p <= 0.26 * d:
        yield f"{row['id']}: pitch {p} on {d}"


def association(row: Row) -> Iterator[str]:
    """Pitch 0.9^k, diameter 6 p^1.2, rounded (BS 93)."""
    pitch = 0.9 ** int(row["id"].removeprefix("BA-"))
    diameter = 6 * pitch**1.2
    digits = 1 if diameter > 0.95 else 2
    if row["pitch_mm"] != round(pitch, 2) or abs(row["nominal_mm"] - diameter) > 0.6 * 10**-digits:
        yield f"{row['id']}: {row['nominal_mm']} x {row['pitch_mm']}, formula {diameter:.3f}"


def tapping(row: Row) -> Iterator[str]:
    """A metric tapping screw off its inch twin, a core off the depth of the thread."""
    d, p, core = row["nominal_mm"], row["pitch_mm"], row["minor_mm"]
    if not 0.29 < (d - core) / (2 * p) < 0.65:
        yield f"{row['id']}: core {core} in {d}, pitch {p}"


def conduit(row: Row) -> Iterator[str]:
    """A depth other than that of the 80 degree profile, 0.48 P."""
    d, p, core = row["nominal_mm"], row["pitch_mm"], row["minor_mm"]
    if row["id"] != row["size"] or not 0.47 < (d - core) / (2 * p) < 0.484:
        yield f"{row['id']}: core {core} in {d}, pitch {p}"


def pipe(row: Row) -> Iterator[str]:
    """A pipe thread without its size in the name."""
    if row["family"] != "NPT" and row["id"] != f"{row['series']}{row['id'][len(row['series']) :]}":
        yield f"{row['id']}: series {row['series']}"


def nothing(row: Row) -> Iterator[str]:
    """Spelling says it all."""
    yield from ()


SHAPES: dict[str, Callable[[Row], Iterator[str]]] = {
    **dict.fromkeys(("M", "plug"), metric),
    **dict.fromkeys(("UN", "BS"), nothing),
    **dict.fromkeys(("G", "R", "NPT"), pipe),
    **{"BA": association, "ST": tapping, "PG": conduit},
}
SHAPES["plug"] = nothing


def metric_series(rows: Iterable[Row]) -> Iterator[str]:
    """A fine pitch that is not finer than the coarse one of its size."""
    by_size = {row["size"]: row["pitch_mm"] for row in rows if row["series"] == "coarse"}
    for row in rows:
        if row["series"] == "fine" and not row["pitch_mm"] < by_size.get(row["size"], 99):
            yield f"{row['id']}: fine, but not finer than the coarse pitch"


def finer(rows: Iterable[Row], fine: str, coarse: str) -> Iterator[str]:
    """A series that is not finer than another at the same size."""
    held = {row["size"]: row["tpi"] for row in rows if row["series"] == coarse}
    for row in rows:
        if row["series"] == fine and row["size"] in held and not row["tpi"] > held[row["size"]]:
            yield f"{row['id']}: not finer than {coarse}"


def pipes(tables: Tables) -> Iterator[str]:
    """Pipe threads that differ between their standards, or gauge lengths off their turns."""
    held = {row["id"]: row for row in tables["thread"]}
    gauges = {row["thread"]: row["gauge_mm"] for row in tables["pipe_gauge"]}
    for row in tables["thread"]:
        name = row["id"]
        if row["family"] == "R":
            twin = held["G" + name.removeprefix("Rp").removeprefix("R")]
            if (row["nominal_mm"], row["tpi"]) != (twin["nominal_mm"], twin["tpi"]):
                yield f"{name}: is not {twin['id']}"
        if row["series"] == "NPTF" and row["nominal_mm"] != held[name[:-1]]["nominal_mm"]:
            yield f"{name}: is not {name[:-1]}"
        if row["series"] == "NPTF" and gauges[name] != gauges[name[:-1]]:
            yield f"{name}: hand-tight length is not that of {name[:-1]}"
        if name in TWINS:
            inch = next(r for r in tables["thread"] if r["size"] == f"{TWINS[name]} AB")
            # the standard rounds to 0.01 mm and the pitch to 0.1 mm
            for column, within in (("nominal_mm", 0.006), ("minor_mm", 0.006), ("pitch_mm", 0.051)):
                if abs(row[column] - inch[column]) > within:
                    yield f"{name}: {column} {row[column]}, inch size {inch[column]}"
    for name, gauge in gauges.items():
        row = held[name]
        if name in ISO_7_GAUGE_TURNS:
            if abs(gauge - ISO_7_GAUGE_TURNS[name] * row["pitch_mm"]) > 0.06:
                yield f"{name}: gauge length {gauge}"
        elif not 4.0 < gauge / row["pitch_mm"] < 6.8:
            yield f"{name}: {gauge / row['pitch_mm']:.2f} turns by hand"
    taper = [held[name] | {"gauge_mm": gauge} for name, gauge in gauges.items()]
    for series in ("R", "NPT"):
        group = [row for row in taper if row["series"] == series]
        yield from rising(group, "nominal_mm", "gauge_mm")
    pipe_d = [row for row in tables["thread"] if row["series"] == "NPT"]
    for row in pipe_d:  # the outside of a pipe exceeds its name by less and less
        name = float(inches(row["size"].removesuffix(" NPT"))) * 25.4
        if not 6 < row["nominal_mm"] - name < 13:
            yield f"{row['id']}: pipe {row['nominal_mm']}"
    for series in ("G", "NPT"):
        group = sorted((r for r in tables["thread"] if r["series"] == series), key=_by_name)
        yield from rising([r | {"n": _by_name(r)} for r in group], "n", "nominal_mm", True)


def _by_name(row: Row) -> float:
    return float(inches(re.sub(r"-[\d.]+-NPTF?$|^G", "", row["id"])))


def limits(tables: Tables) -> Iterator[str]:
    """Printed limits that do not start at the basic size, or whose width their group lacks."""
    held = {row["id"]: row for row in tables["thread"]}
    width: dict[tuple[Any, ...], set[float]] = {}
    for row in tables["thread_limit"]:
        thread, low, high = held[row["thread"]], row["min_mm"], row["max_mm"]
        where = f"{row['thread']} {row['tolerance']} {row['side']} {row['dimension']}"
        if not low < high:
            yield f"{where}: {low} to {high}"
        basic = {
            "major": thread["nominal_mm"],
            "pitch": thread["pitch_diameter_mm"],
            "minor": thread["minor_mm"],
        }[row["dimension"]]
        if thread["series"] == "Rp":
            start = (low + high) / 2
        else:
            start = high if row["side"] == "external" else low
        if abs(start - basic) > 0.0016:
            yield f"{where}: {start}, basic {basic:.4f}"
        if thread["family"] in {"G", "R"}:
            group = thread["tpi"], thread["nominal_mm"] > 60
            key = (thread["series"], row["tolerance"], row["side"], row["dimension"], *group)
            width.setdefault(key, set()).add(round(high - low, 3))
        elif not 0.02 < (high - low) / thread["pitch_mm"] < 0.29:
            yield f"{where}: {high - low:.3f} wide"
    for key, found in width.items():
        if max(found) - min(found) > 0.0011:
            yield f"limits {key}: {sorted(found)}"
    yield from g_widths(tables)


def g_widths(tables: Tables) -> Iterator[str]:
    """ISO 228-1: B is twice A, the major diameter twice the pitch diameter of A."""
    wide = {
        (row["thread"], row["tolerance"], row["dimension"]): row["max_mm"] - row["min_mm"]
        for row in tables["thread_limit"]
        if row["side"] == "external" and row["thread"].startswith("G")
    }
    for thread in {key[0] for key in wide}:
        one = wide[thread, "A", "pitch"]
        for key in ((thread, "B", "pitch"), (thread, "A", "major")):
            if abs(wide[key] - 2 * one) > 0.0011:
                yield f"{key}: {wide[key]:.3f} is not twice {one:.3f}"


def tap_drills(tables: Tables) -> Iterator[str]:
    """A drill outside 55 to 100 % of a full thread, or off the others of its series."""
    held = {row["id"]: row for row in tables["thread"]}
    for row in tables["tap_drill"]:
        thread = held[row["thread"]]
        share = (thread["nominal_mm"] - row["drill_mm"]) / (1.082532 * thread["pitch_mm"])
        if thread["family"] in {"M", "UN"} and not 0.55 <= share <= 1.0:
            yield f"{row['thread']} drill {row['drill_mm']}: {share:.0%} of the thread"
        yield from named(row)
        if row["checked"] != "outside" and thread["family"] == "M":
            off = row["drill_mm"] - (thread["nominal_mm"] - thread["pitch_mm"])
            if abs(off) > 0.06:
                yield f"{row['thread']} drill {row['drill_mm']}: {off:+.2f} from d - P"
        if thread["series"] in DRILL_BAND:
            low, high = DRILL_BAND[thread["series"]]
            over = (row["drill_mm"] - thread["minor_mm"]) / thread["pitch_mm"]
            if not low <= over <= high:
                yield f"{row['thread']} drill {row['drill_mm']}: minor and {over:.2f} P"


def named(row: Row) -> Iterator[str]:
    """An inch drill that is not the size its name says."""
    if name := row["drill_name"]:
        inch = DRILLS_IN[name] if name in DRILLS_IN else float(inches(name))
        if abs(row["drill_mm"] / 25.4 - inch) > 0.00006:
            yield f"{row['drill_mm']} mm: drill {name} is {inch} in"


def form_drills(tables: Tables) -> Iterator[str]:
    """Holes for forming taps: d - 0.0068 per cent P, the rule of the trade, to the hundredth."""
    held = {row["id"]: row for row in tables["thread"]}
    for row in tables["form_drill"]:
        thread = held[row["thread"]]
        rule = thread["nominal_mm"] - 0.0068 * row["thread_pct"] * thread["pitch_mm"]
        if abs(row["drill_mm"] - rule) > 0.011:
            yield f"{row['thread']}: {row['drill_mm']} at {row['thread_pct']} %, rule {rule:.3f}"


def inserts(tables: Tables) -> Iterator[str]:
    """Drills for wire inserts under the hole's least minor diameter, or far above it."""
    held = {row["id"]: row for row in tables["thread"]}
    for row in tables["wire_insert"]:
        p = held[row["id"]]["pitch_mm"]
        over = (row["drill_mm"] - row["hole_min_mm"]) / p
        if not -0.003 < over < 0.22:
            yield f"insert {row['id']}: drill {row['drill_mm']}, {over:.2f} P over the least"
        yield from named(row)


def holes(tables: Tables) -> Iterator[str]:
    """Holes that are not larger than the thread, in the order close, medium, coarse."""
    nominal = {row["size"]: row["nominal_mm"] for row in tables["thread"]}
    rows = [row | {"d": nominal[row["size"]]} for row in tables["clearance_hole"]]
    held = {row["size"]: row for row in rows}
    fits = ("close_mm", "medium_mm", "coarse_mm")
    for row in rows:
        small = 1.6 if row["d"] < 3 and not row["size"].startswith("M") else 1.38
        if not row["d"] < row["close_mm"] < row["medium_mm"] < row["coarse_mm"] < small * row["d"]:
            yield f"hole {row['size']}: {row['close_mm']}, {row['medium_mm']}, {row['coarse_mm']}"
        slack = 0.1 if row["size"].startswith("M") else 0.25
        if row["medium_mm"] > 1.18 * row["d"] + slack or row["close_mm"] > 1.1 * row["d"] + slack:
            yield f"hole {row['size']}: wider than any other of its fit"
        if row["size"].endswith("W"):
            twin = held[row["size"][:-1]]
            if [row[f] for f in fits] != [twin[f] for f in fits]:
                yield f"hole {row['size']}: is not that of {twin['size']}"
    for family in ("M", ""):
        group = [row for row in rows if row["size"].startswith("M") == bool(family)]
        for column in fits:
            yield from rising(group, "d", column, strictly=True)


def rising(rows: Iterable[Row], x: str, y: str, strictly: bool = False) -> Iterator[str]:
    """*y* falls (or, *strictly*, stands still) where *x* grows."""
    kept = sorted((row for row in rows if row.get(y) is not None), key=lambda row: row[x])
    for small, large in pairwise(kept):
        if small[x] < large[x] and (small[y] > large[y] or (strictly and small[y] == large[y])):
            yield f"{y} falls from {small[y]} to {large[y]} between {small[x]} and {large[x]}"


THREAD_DEFENCES: tuple[Callable[[Tables], Iterator[str]], ...] = (
    *(threads, limits, tap_drills, form_drills, inserts, holes),
)
