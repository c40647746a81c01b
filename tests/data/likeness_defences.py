"""
What like rows share: limits of use of one family, drawn marks, bosses, scatters, flare torques.

Few of these numbers follow from a formula. What is held here is what their own publications say of
several rows at once: the same for all of a family, in the order of their names, at the same places.
"""

import re
from collections.abc import Callable, Iterable, Iterator
from itertools import pairwise
from math import atan2, degrees, hypot
from typing import Any

from tests.data.around_checks import between, even, stepped

Row = dict[str, Any]
Tables = dict[str, list[Row]]
INNER, OUTER = 0.45, 0.80  # a radial line begins and ends here
CLOCK = (0.60, 0.80)  # the bar of a nut's clock mark
RADIAL_DEG = {  # where radial lines stand
    **dict.fromkeys(("SAE-5", "A449"), (90, 210, 330)),
    **{"SAE-5.2": (60, 90, 120), "SAE-7": (18, 90, 162, 234, 306)},
    **dict.fromkeys(("SAE-8", "A354-BD"), (30, 90, 150, 210, 270, 330)),
    **{"nut-SAE-5": (90, 210), "nut-SAE-8": (30, 90)},
}
TWELVE = {("nut-12", "clock"): 1}  # its bar stands where the dot of the others is, stroke 1
UNDERLINE = (-0.4, -0.3, 0.4, -0.3)


def use_limits(tables: Tables) -> Iterator[str]:
    """A grade that is not used at the temperatures of its family, families out of their order."""
    system = {row["id"]: row["system"] for row in tables["grade"]}
    held: dict[str, dict[tuple[float, float], list[str]]] = {}
    for row in tables["grade_limit"]:
        family, steel = system[row["grade"]], row["grade"].removeprefix("nut-")
        if family.startswith("ISO 3506"):
            family = "austenitic" if steel.startswith("A") else "other stainless"
        elif family.startswith("ISO 898"):
            family = "ISO 898"
        elif family == "ASTM A193":
            family = steel[:7]
        limits = (row["use_min_c"], row["use_max_c"])
        if None not in limits:
            held.setdefault(family, {}).setdefault(limits, []).append(row["grade"])
    for family, several in held.items():
        if len(several) > 1:
            odd = min(several.values(), key=len)
            yield f"{family}: {', '.join(odd)} used at other temperatures than the rest"
    low, high = ({f: next(iter(v))[n] for f, v in held.items()} for n in (0, 1))
    if not low["austenitic"] == low["A193-B8"] < low["ISO 898"] <= low["A193-B7"] < low["polymer"]:
        yield f"used in the cold: {low}"
    if low["other stainless"] != low["polymer"]:
        yield f"used in the cold: {low}"
    if low["SAE J429"] != low["ISO 898"] or not -5 < low["A193-B7"] - low["ISO 898"] < 5:
        yield f"carbon steel in the cold: {low}"
    if not high["A193-B7"] == high["A193-B8"] > high["austenitic"] == high["SAE J429"]:
        yield f"used when hot: {high}"
    if high["austenitic"] != 2 * high["ISO 898"] or high["other stainless"] != high["austenitic"]:
        yield f"used when hot: {high}"
    if not 0.6 < high["polymer"] / high["ISO 898"] < 0.7:
        yield f"polymer: to {high['polymer']}"


def drawn(tables: Tables) -> Iterator[str]:
    """Strokes that lie elsewhere than the mark says."""
    radial: dict[str, list[float]] = {}
    counted: dict[tuple[str, str], int] = {}
    for row in tables["grade_mark"]:
        key = (row["grade"], row["variant"])
        counted[key] = counted.get(key, TWELVE.get(key, 0)) + 1
        if row["n"] != counted[key]:
            yield f"{key}: stroke {counted[key]} is called {row['n']}"
        where = f"{row['grade']} {row['variant']} {row['n']}"
        start, end = (row["x1"], row["y1"]), (row["x2"], row["y2"])
        hour = re.fullmatch(r"nut-(\d+)", row["grade"]) if row["variant"] == "clock" else None
        if row["shape"] == "text" and start != (0, 0):
            yield f"{where}: text at {start}"
        elif row["shape"] == "dot" and start != (0, 0.7):
            yield f"{where}: dot at {start}"
        elif row["shape"] == "line" and hour:
            yield from spoke(where, start, end, 90 - 30 * int(hour[1]), CLOCK)
        elif row["shape"] == "line" and row["grade"] in RADIAL_DEG:
            angle = round(degrees(atan2(end[1], end[0]))) % 360
            radial.setdefault(row["grade"], []).append(angle)
            yield from spoke(where, start, end, angle, (INNER, OUTER))
        elif row["shape"] == "line" and (*start, *end) != UNDERLINE:
            yield f"{where}: {start} to {end}"
    for grade, expected in RADIAL_DEG.items():
        if sorted(radial.get(grade, ())) != list(expected):
            yield f"{grade}: lines at {sorted(radial.get(grade, ()))} degrees"


def spoke(
    where: str,
    start: tuple[float, float],
    end: tuple[float, float],
    angle: float,
    radii: tuple[float, float],
) -> Iterator[str]:
    """A line that does not run along a ray from the first radius to the second."""
    for (x, y), radius in zip((start, end), radii, strict=True):
        off = (degrees(atan2(y, x)) - angle + 180) % 360 - 180
        if abs(hypot(x, y) - radius) > 0.0015 or abs(off) > 0.12:
            yield f"{where}: a point at ({x}, {y})"


BOSS_FAMILIES = (("pa6", "pa66", "pbt"), ("abs", "abs-pc-blend"))  # plastics of like stiffness


def bosses(tables: Tables) -> Iterator[str]:
    """Bosses out of proportion, or other than those of like plastics."""
    rows = {row["stuff"]: row for row in tables["boss"]}
    columns = ("hole_d", "outer_d", "length_d")
    yield from stepped(rows.values(), "hole_d", 0.01)
    yield from stepped(rows.values(), "outer_d", 0.05)
    yield from stepped(rows.values(), "length_d", 0.1)
    for names in BOSS_FAMILIES:
        if len({tuple(rows[name][column] for column in columns) for name in names}) > 1:
            yield f"{', '.join(names)}: not the same boss"
    for name, row in rows.items():
        if not -0.21 <= row["length_d"] - row["outer_d"] <= 0.06 and name[:2] not in ("pc", "pp"):
            yield f"{name}: {row['outer_d']} across, {row['length_d']} deep"
        if not 2.2 < row["outer_d"] / row["hole_d"] < 3.0:
            yield f"{name}: hole {row['hole_d']}, outside {row['outer_d']}"
        filled = re.match(r"(.+)-gf\d+$", name)
        plain = rows.get(filled[1]) if filled else None
        if plain and row["hole_d"] - plain["hole_d"] not in Near((0.0, 0.05, 0.07)):
            yield f"{name}: hole {row['hole_d']}, unfilled {plain['hole_d']}"
        if (
            plain
            and name.startswith("pa6")
            and (row["outer_d"], row["length_d"])
            <= (
                plain["outer_d"],
                plain["length_d"],
            )
        ):
            yield f"{name}: glass makes no larger boss"
    if not rows["abs"]["hole_d"] - 0.03 < rows["asa"]["hole_d"] < rows["abs"]["hole_d"]:
        yield f"asa: hole {rows['asa']['hole_d']}"
    for name in ("outer_d", "length_d"):
        if rows["asa"][name] != rows["abs"][name]:
            yield f"asa {name}: {rows['asa'][name]}"
    pa46 = rows["pa46"], rows["pa46-gf30"]
    for name in ("outer_d", "length_d"):
        if pa46[0][name] != pa46[1][name] or not 0 <= pa46[0][name] - rows["pa6"][name] < 0.11:
            yield f"pa46 {name}: {pa46[0][name]} and {pa46[1][name]}"


class Near(tuple[float, ...]):
    """Values to compare with within a thousandth."""

    def __contains__(self, value: object) -> bool:
        return isinstance(value, float) and any(abs(value - own) < 0.001 for own in self)


def series(tables: Tables) -> Iterator[str]:
    """Metals out of the order in which the list prints them."""
    printed: dict[str, list[Row]] = {}
    for row in tables["sea_potential"]:
        printed.setdefault(row["electrode"], []).append(row)
    equal = {("stainless-304-passive", "nickel-copper-400"), ("carbon-steel", "cast-iron")}
    for a, b in pairwise(printed["saturated calomel"]):
        same = (a["metal"], b["metal"]) in equal
        if (same and a["potential_v"] != b["potential_v"]) or (
            not same and not 0.005 < a["potential_v"] - b["potential_v"] < 0.26
        ):
            yield f"{b['metal']}: {b['potential_v']} after {a['metal']} {a['potential_v']}"
    calomel = {row["metal"]: row["potential_v"] for row in printed["saturated calomel"]}
    for metal, low, high in (
        ("graphite", 0.2, 0.3),  # galvanic series charts print a range for each
        ("aluminium-3003", -1.0, -0.76),
        ("stainless-410-active", -0.58, -0.46),
        ("stainless-316-passive", -0.1, 0.0),
    ):
        if not low <= calomel[metal] <= high:
            yield f"{metal}: {calomel[metal]}"
    silver = {row["metal"]: row["potential_v"] for row in printed["silver chloride"]}
    for metal in ("yellow-brass", "manganese-bronze"):
        if silver[metal] != silver["naval-brass"]:
            yield f"{metal}: {silver[metal]}, naval brass {silver['naval-brass']}"
    for metal in ("naval-brass", "zinc"):
        if not 0.01 < calomel[metal] - silver[metal] < 0.06:
            yield f"{metal}: {calomel[metal]} and {silver[metal]} against the two electrodes"
    if not 0.01 < calomel["stainless-304-active"] - silver["stainless-300-active"] < 0.06:
        yield f"stainless 300, active: {silver['stainless-300-active']}"
    magnesium = [silver[name] for name in ("magnesium", "magnesium-2mn", "magnesium-9al")]
    if any(not 0.05 < b - a < 0.1 for a, b in pairwise(magnesium)):
        yield f"magnesium and its alloys: {magnesium}"


def engaged(tables: Tables) -> Iterator[str]:
    """Engagement that differs where its table gives one value for several bodies or bolts."""
    held = {
        (row["body"], row["bolts"], row["series"]): row["length_d"]
        for row in tables["engagement"]
        if row["source"] in ("machine-elements-book", "engagement-trials")
    }
    steels = [f"steel-{name}" for name in ("to-400", "400-600", "600-800", "over-800")]
    alike = [
        *((a, b, "3.6 and 4.6") for a, b in pairwise(steels)),
        *((a, b, "4.8 to 6.8") for a, b in pairwise(steels)),
        ("steel-400-600", "steel-600-800", "8.8"),
        *(("steel-to-400", "aluminium-alloy-hardened", c) for c in ("3.6 and 4.6", "4.8 to 6.8")),
        ("cast-iron", "copper-alloys", "3.6 and 4.6"),
        ("aluminium-pure", "aluminium-almg3", "8.8"),
    ]
    for first, second, bolts in alike:
        if held[first, bolts, "coarse"] != held[second, bolts, "coarse"]:
            yield f"{first} and {second} differ for {bolts}"
    for body, a, b in (
        ("copper-alloys", "3.6 and 4.6", "4.8 to 6.8"),
        ("cast-iron", "4.8 to 6.8", "8.8"),
        ("steel-over-800", "8.8", "10.9"),
        ("steel-600-800", "8.8", "10.9"),
    ):
        if held[body, a, "coarse"] != held[body, b, "coarse"]:
            yield f"{body}: {a} and {b} differ"
    if held["aluminium-pure", "10.9", "coarse"] != 1.25 * held["aluminium-pure", "8.8", "coarse"]:
        yield "pure aluminium: 10.9 takes a quarter more"
    rules = {
        (r["body"], r["source"]): r["length_d"] for r in tables["engagement"] if r["bolts"] == "any"
    }
    for (body, source), value in rules.items():
        expected = {"equal-material": 1.0, "softer-material": 1.5, "steel-and-iron": 1.25}
        if value != expected.get(body, 2.0):  # of aluminium and softer: twice the diameter
            yield f"{body} by {source}: {value}"
    with_insert, without = (
        row["length_d"]
        for body in ("aluminium-250-insert", "aluminium-250")
        for row in tables["engagement"]
        if row["body"] == body
    )
    if with_insert != 0.75 * without:
        yield f"an insert makes {without} into {with_insert}"


def single(rows: Iterable[Row], low: str, high: str, name: Callable[[Row], str]) -> Iterator[str]:
    """Rows whose publication prints one value, and that hold a range."""
    for row in rows:
        if row[low] != row[high]:
            yield f"{name(row)}: {row[low]} to {row[high]}, printed as one value"


ONE_SLIP = (
    *(("cast-iron+cast-iron", "lubricated"), ("bronze+steel", "lubricated")),
    *(("bronze+cast-iron", "dry"), ("copper+steel", "dry"), ("aluminium+aluminium", "dry")),
)
RANGED_SOURCES = ("harvester-flare-torques", "engine-flare-torques", "practice")


def ones(tables: Tables) -> Iterator[str]:
    """Single values that became ranges, and spans that their publication gives to all alike."""
    yield from single(
        (r for r in tables["slip_friction"] if (r["pair"], r["state"]) in ONE_SLIP),
        *("mu_min", "mu_max"),
        lambda row: f"{row['pair']} {row['state']}",
    )
    yield from single(
        (r for r in tables["tube_torque"] if r["source"] not in RANGED_SOURCES),
        *("torque_min_nm", "torque_max_nm"),
        lambda row: f"{row['tube']} {row['source']}",
    )
    by = {(r["pair"], r["state"]): (r["mu_min"], r["mu_max"]) for r in tables["slip_friction"]}
    for key, (low, high) in by.items():
        if key[1] == "dry" and low != high and not 1.95 <= high / low <= 2.85:
            yield f"{key}: {low} to {high}"


def methods(tables: Tables) -> Iterator[str]:
    """Scatters that their lists give to several methods alike."""
    rows = {(r["method"], r["source"]): r for r in tables["tightening_method"]}

    def scatter(method: str, source: str) -> tuple[float, float]:
        row = rows[method, source]
        return row["scatter_min_pct"], row["scatter_max_pct"]

    def alpha(method: str) -> tuple[float, float]:
        row = rows[method, "vdi-2230-1"]
        return row["alpha_min"], row["alpha_max"]

    for (method, source), row in rows.items():
        if source not in ("vdi-2230-1986", "vdi-2230-1", "machinerys-handbook-31") and (
            row["scatter_min_pct"] != row["scatter_max_pct"]
        ):
            yield f"{method} by {source}: one value"
    handbook, manual = "machinerys-handbook-31", "nsts-08307"
    alike = (
        (
            scatter("yield-controlled", "vdi-2230-1986"),
            scatter("angle-controlled", "vdi-2230-1986"),
        ),
        (alpha("yield-controlled"), alpha("angle-controlled")),
        (scatter("ultrasonic", handbook), scatter("strain-gauge", handbook)),
        (scatter("indicating-washer", handbook), scatter("indicating-washer", manual)),
        (scatter("elongation", manual), scatter("instrumented-bolt", manual)),
        (scatter("by-feel", handbook), scatter("torque-dry", manual)),
        (scatter("torque-estimated", handbook), scatter("torque-lubricated", manual)),
        (scatter("torque-estimated", "bolting-glossary"), scatter("torque-cadmium", manual)),
    )
    for first, second in alike:
        if first != second:
            yield f"scatter {first} and {second}"
    old = {
        m: scatter(m, "vdi-2230-1986")
        for m in ("power-driver", "impact", "hydraulic", "torque-tested")
    }
    if old["power-driver"][1] != old["impact"][0] or old["hydraulic"][1] != old["torque-tested"][1]:
        yield f"1986 edition: {old}"
    pulse, best = alpha("pulse-cell"), alpha("yield-controlled")
    if pulse != (best[0], alpha("torque-estimated")[1]):
        yield f"pulse cell {pulse}: between yield control and a torque wrench"
    if alpha("torque-estimated-a")[1] != alpha("impact")[0]:
        yield f"class A {alpha('torque-estimated-a')}: ends where impact begins"
    ladder = ("ultrasonic", "elongation", "yield-controlled", "hydraulic", "torque-tested")
    for a, b in pairwise([*map(alpha, ladder), alpha("torque-estimated")]):
        if not (a[0] <= b[0] <= a[0] + 0.25 and a[1] <= b[1] <= a[1] + 0.45):
            yield f"alpha {b} after {a}"


def flares(tables: Tables) -> Iterator[str]:
    """Torques of flare nuts off the line of their list."""
    diameter = {row["id"]: row["tube_mm"] for row in tables["tube"]}
    form = {row["id"]: row["form"] for row in tables["tube"]}
    rows = [
        row | {"mm": diameter[row["tube"]], "ratio": row["torque_max_nm"] / row["torque_min_nm"]}
        for row in tables["tube_torque"]
        if form[row["tube"]] == "flare-37"
    ]
    for source, limit in (
        ("harvester-flare-torques", 0.39),
        ("engine-flare-torques", 0.3),
        ("farm-flare-torques", 0.3),
    ):
        own = [row for row in rows if row["source"] == source]
        for name in ("torque_min_nm", "torque_max_nm"):
            yield from even(own, "mm", name, limit)
    yield from between(
        (r for r in rows if r["source"] == "harvester-flare-torques" and r["mm"] > 7),
        *("ratio", 1.08, 1.13),
    )
    yield from between(
        (r for r in rows if r["source"] == "engine-flare-torques" and r["mm"] > 10),
        *("ratio", 1.14, 1.34),
    )


LIKENESS_DEFENCES: tuple[Callable[[Tables], Iterator[str]], ...] = (
    *(use_limits, drawn, bosses, series),
    *(engaged, ones, methods, flares),
)
