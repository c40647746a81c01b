"""
What like rows share: limits of use of one family, drawn marks, coats, lockers, vapours, bosses.

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


def rust_hours(tables: Tables) -> Iterator[str]:
    """Hours in salt spray out of the order that coats have."""
    rows = {(row["finish"], row["variant"]): row for row in tables["finish_corrosion"]}
    flakes = [row for row in rows.values() if row["source"] == "iso-10683"]
    for kind in ("with ", "without "):  # ISO 10683, table: four thicknesses, four times
        series = [row["red_rust_h"] for row in flakes if row["variant"].startswith(kind)]
        if series != [240, 480, 720, 960]:
            yield f"zinc flake {kind}chromium(VI): {series}"
    for finish in ("zinc-plated", "cadmium-plated"):
        for micrometre in (3, 5, 8, 12):
            classes = [
                row
                for (held, variant), row in rows.items()
                if held == finish and re.match(r"chromate [ABCD] ", variant)
                if row["thickness_um"] == micrometre
            ]
            for a, b in pairwise(classes):
                for name in ("white_rust_h", "red_rust_h"):
                    if a[name] and b[name] and b[name] < a[name] + (micrometre > 3):
                        yield f"{finish} {micrometre} µm {name}: {a[name]}, then {b[name]}"
            black = rows.get((finish, f"chromate Bk black, {micrometre} µm"))
            bleached = rows.get((finish, f"chromate B bleached, {micrometre} µm"))
            for name in ("white_rust_h", "red_rust_h") if black and bleached else ():
                if black[name] not in (None, bleached[name]):
                    yield f"{finish} {micrometre} µm {name}: black {black[name]}"
    white = {key: row["white_rust_h"] for key, row in rows.items()}
    red = {key: row["red_rust_h"] for key, row in rows.items()}
    for key, row in rows.items():
        said = re.search(r", (\d+) to \d+ µm$", key[1])
        if said and row["thickness_um"] != float(said[1]):
            yield f"{key}: {row['thickness_um']} µm"
        for name in ("white_rust_h", "red_rust_h"):  # days, half days and a few odd ones
            if row[name] and row[name] not in (1.5, 2, 6, 100) and row[name] % 12:
                yield f"{key} {name}: {row[name]}"
        both = row["white_rust_h"] and row["red_rust_h"] and row["source"] == "hardware-table"
        if both and not 1.9 < row["red_rust_h"] / row["white_rust_h"] < 3.1:
            yield f"{key}: {row['white_rust_h']} and {row['red_rust_h']}"
    inch = [white["zinc-plated", f"ASTM B633 type {name}"] for name in B633]
    if any(not 0 < b - a <= 60 for a, b in pairwise(inch)) or inch[0] * 10 != inch[3]:
        yield f"types III, V, II, VI: {inch}"
    if white["cadmium-plated", "type II chromated"] != inch[2]:
        yield "type II differs between cadmium and zinc"
    yellow = white["zinc-plated", "yellow chromate, older"]
    if yellow != white["zinc-plated", "chromate C iridescent yellow, 5 µm"]:
        yield f"yellow chromate: {yellow}"
    free = [white[key] for key in rows if "free of chromium" in key[1]]
    if any(not 72 <= value <= 120 for value in free):
        yield f"passivate free of chromium(VI): {free}"
    nickel = [white["zinc-nickel", name] for name in ZINC_NICKEL]
    for a, b in pairwise(nickel):
        if not 1.25 * a <= b <= 10 * a:
            yield f"zinc-nickel: {nickel}"
    if white["anodised", ANODISED] % 168 or white["anodised", ANODISED] > 504:  # weeks
        yield f"anodised: {white['anodised', ANODISED]}"
    bare, oiled = (
        [red[f"phosphate-{metal}", how] for metal in ("manganese", "zinc")]
        for how in ("bare", "oiled")
    )
    if not (bare[0] < bare[1] <= 2 and oiled[0] * 3 == oiled[1] and oiled[1] == 36 * bare[1]):
        yield f"phosphate: bare {bare}, oiled {oiled}"
    if oiled[0] != 16 * bare[0] or red["black-oxide", "with preservative oil"] != oiled[0]:
        yield f"phosphate and black oxide under oil: {oiled}"


B633 = (
    *("III colourless chromate", "V colourless passivate", "II coloured chromate"),
    "VI coloured passivate",
)
ZINC_NICKEL = (
    *("black passivate only", "passivate, hardware supplier"),
    "black passivate and chromium-free post-dip",
    "black passivate and organic or silicate sealer",
)
ANODISED = "types I and II, sealed: hardly any pits"


def coats(tables: Tables) -> Iterator[str]:
    """Thicknesses and temperatures of coats out of the order of their classes."""
    thick = {(row["finish"], row["variant"]): row for row in tables["finish_thickness"]}
    plate = {
        int(said[1]): (row["thickness_min_um"], row["thickness_max_um"])
        for (_, variant), row in thick.items()
        if (said := re.match(r"nominal (\d+)", variant))
    }
    for nominal, (low, high) in plate.items():
        if not low <= nominal <= high or high > 1.2 * nominal + 1.5:
            yield f"plating of {nominal} µm: {low} to {high}"
    least = {key: row["thickness_min_um"] for key, row in thick.items()}
    most = {key: row["thickness_max_um"] for key, row in thick.items()}
    service = [least["zinc-plated", name] for name in SERVICE]
    if service != [5, 8, 12, 25]:  # ISO 2081: Fe/Zn 5, 8, 12, 25
        yield f"service classes: {service}"
    cadmium = [least["cadmium-plated", f"class {n}"] for n in (1, 2, 3)]
    if any(abs(a - b) > 0.06 for a, b in zip(cadmium, (12.7, 7.62, 5.08), strict=True)):
        yield f"cadmium classes: {cadmium}"  # 0.0005, 0.0003, 0.0002 in
    strong = ("cadmium-plated", "high-strength process, 180 ksi and up")
    if (least[strong], most[strong]) != (cadmium[1], cadmium[0]):
        yield f"cadmium on strong steel: {least[strong]} to {most[strong]}"
    anodic = [(least["anodised", name], most["anodised", name]) for name in ANODIC]
    for a, b in pairwise(anodic):
        if not (2 * a[0] < b[0] and 3 * a[1] < b[1]):
            yield f"anodic coats: {anodic}"
    if anodic[0][1] != cadmium[1] or anodic[2][0] != cadmium[0] or anodic[1][1] != 25.4:
        yield f"anodic coats: {anodic}"  # 0.3, 1 and 0.5 mil
    hot = [least["hot-dip", name] for name in HOT_DIP]
    if hot[0] != 0.8 * hot[1] or hot[1] % 10:
        yield f"hot dip: local {hot[0]}, batch {hot[1]}"
    if most["nickel-plated", "barrier coating"] != service[3]:
        yield f"nickel: to {most['nickel-plated', 'barrier coating']}"
    heavy = [(least[f"phosphate-{m}", "heavy"], most[f"phosphate-{m}", "heavy"]) for m in METALS]
    if heavy[0][0] != heavy[1][0] or heavy[1][1] != 1.5 * heavy[0][1] != 3 * heavy[0][0]:
        yield f"heavy phosphate: {heavy}"
    for key, low in least.items():
        if most[key] and not 1.19 < most[key] / low < 16:
            yield f"{key}: {low} to {most[key]}"
    mil = most["black-oxide", "hot alkaline"] / 25.4 * 10
    if not 0.9 < mil < 1.05:
        yield f"black oxide: {mil:.2f} of 0.1 mil"
    limits = {
        (row["finish"], row["what"]): row["temperature_degc"] for row in tables["finish_limit"]
    }
    for (finish, what), value in limits.items():
        fahrenheit = 1.8 * value + 32
        whole = value % 50 == 0 or abs(fahrenheit / 10 - round(fahrenheit / 10)) < 0.111
        if what != "melts" and not whole and value not in (188, 320, 496):
            yield f"{finish} {what}: {value} is round in no scale"
        if what == "melts" and not 0.9 < (value + 273) / (MELTING.get(finish, value) + 273) < 1.1:
            yield f"{finish}: melts at {value}"
    if not 0.75 < limits["ptfe", "fume"] / limits["ptfe", "service"] < 0.95:
        yield f"ptfe: fume at {limits['ptfe', 'fume']}"
    heat = {(r["compound"], r["what"]): r["temperature_degc"] for r in tables["compound_limit"]}
    if limits["ptfe", "service"] != heat["sealant-ptfe-tape", "service to"]:
        yield f"ptfe: service {limits['ptfe', 'service']}, as tape otherwise"
    if limits["ptfe", "fume"] != heat["sealant-ptfe-tape", "gives fume from"]:
        yield f"ptfe: fume from {limits['ptfe', 'fume']}, as tape otherwise"
    cracks = limits["cadmium-plated", "cracks stressed steel"]
    if not 0.8 * limits["cadmium-plated", "service"] < cracks < limits["cadmium-plated", "service"]:
        yield f"cadmium cracks stressed steel at {cracks}"
    if (
        not 15
        < limits["zinc-plated", "melts"] - limits["zinc-plated", "cracks stressed steel"]
        < 25
    ):
        yield "zinc cracks stressed steel far from its melting"
    if not 50 <= limits["zinc-plated", "chromate fails"] <= 0.6 * limits["zinc-plated", "service"]:
        yield f"chromate fails at {limits['zinc-plated', 'chromate fails']}"
    if limits["zinc-flake", "service"] != 1.5 * limits["hot-dip", "service"]:
        yield f"zinc flake to {limits['zinc-flake', 'service']}, hot dip otherwise"


SERVICE = ("SC1, mild", "SC2, moderate", "SC3, severe", "SC4, very severe")
ANODIC = ("type I chromic", "type II sulphuric", "type III hard")
HOT_DIP = tuple(f"spun fasteners M8 to M64, {where}" for where in ("local", "batch average"))
METALS = ("manganese", "zinc")
MELTING = {"hot-dip": 419.5, "zinc-plated": 419.5, "cadmium-plated": 321.1, "tin-plated": 231.9}


def lockers(tables: Tables) -> Iterator[str]:
    """Compounds that do not share what their class shares; single values that became ranges."""
    for row in tables["locker_strength"]:
        if row["source"] == "threadlocker-table":
            for name in ("breakaway", "turning"):
                if row[f"{name}_min_nm"] != row[f"{name}_max_nm"]:
                    yield f"{row['compound']}: {name} is printed as one value"
    held = {(row["compound"], row["bolt"]): row for row in tables["locker_strength"]}
    names = ("low", "medium", "medium-oil", "high")
    inch = [held[f"threadlocker-{name}", "3/8-16"] for name in names]
    for a, b in pairwise(inch):
        if not 1.15 < b["breakaway_min_nm"] / a["breakaway_min_nm"] < 1.75:
            yield f"{b['compound']}: {b['breakaway_min_nm']} after {a['breakaway_min_nm']}"
        if not 1.1 < b["turning_min_nm"] / a["turning_min_nm"] < 3.6:
            yield f"{b['compound']}: turns on at {b['turning_min_nm']}"
    for row in inch:
        if not 0.3 <= row["turning_min_nm"] / row["breakaway_min_nm"] <= 1:
            yield f"{row['compound']}: {row['breakaway_min_nm']}, then {row['turning_min_nm']}"


COLD_ALIKE = (  # -65 °F, -100 °F and boiling helium: each of several compounds
    (
        *(f"threadlocker-{name}" for name in ("low", "medium", "medium-oil", "high", "wicking")),
        *("threadlocker-high-heat", "sealant-anaerobic", "grease-aircraft", "grease-automotive"),
    ),
    ("grease-instrument", "grease-molybdenum"),
    ("sealant-ptfe-tape", "sealant-expanded-ptfe"),
)
HOT = (  # compounds that go to the same temperature, the groups from the coolest
    ("grease-lithium",),
    ("grease-instrument", "grease-molybdenum"),
    ("sealant-hemp",),
    ("sealant-anaerobic", "grease-shipboard", "threadlocker-low", "threadlocker-medium"),
    ("grease-lithium-complex",),
    ("grease-aircraft",),
    ("grease-automotive",),
    ("grease-silicone",),
    ("sealant-ptfe-paste", "anti-seize-zinc"),
    ("sealant-silicone",),
    ("threadlocker-high-heat",),
    ("sealant-ptfe-tape",),
    ("grease-caliper",),
    ("sealant-expanded-ptfe",),
    ("anti-seize-molybdenum", "anti-seize-graphite"),
    ("anti-seize-mil-907",),
    ("dry-film-graphite",),
    ("anti-seize-aluminium",),
    ("anti-seize-copper",),
    ("anti-seize-white", "anti-seize-exhaust"),
    ("anti-seize-nickel",),
)


def compound_heat(tables: Tables) -> Iterator[str]:
    """Compounds out of the order in which they stand heat; classes that do not share a limit."""
    limits = {(r["compound"], r["what"]): r["temperature_degc"] for r in tables["compound_limit"]}
    for group in COLD_ALIKE:
        values = {limits[name, "service from"] for name in group}
        if len(values) > 1:
            yield f"{', '.join(group)}: service from {sorted(values)}"
    for (compound, what), value in limits.items():
        round_in_f = abs((1.8 * value + 32) / 5 - round((1.8 * value + 32) / 5)) < 0.13
        if what == "service from" and value % 10 and not round_in_f and value != -268:
            yield f"{compound}: service from {value}"
    ladder = []
    for group in HOT:
        values = {limits[name, "service to"] for name in group}
        if len(values) > 1:
            yield f"{', '.join(group)}: {sorted(values)}"
        ladder.append(max(values))
    for group, a, b in zip(HOT[1:], ladder, ladder[1:], strict=False):
        if not a < b < 1.43 * a:
            yield f"{group[0]}: to {b} after {a}"
    for name in ("medium-oil", "high", "wicking"):
        if limits[f"threadlocker-{name}", "service to"] != limits["threadlocker-low", "service to"]:
            yield f"threadlocker-{name}: {limits[f'threadlocker-{name}', 'service to']}"
    alike = (
        (("anti-seize", "grease burns off at"), ("sealant-ptfe-tape", "gives fume from")),
        (("anti-seize", "solids to at most"), ("anti-seize-nickel", "service to")),
        (("threadlocker-high", "lets go from"), ("threadlocker-wicking", "lets go from")),
        (("threadlocker-high", "lets go to"), ("threadlocker-wicking", "lets go to")),
        (("threadlocker-high", "lets go from"), ("threadlocker-medium", "lets go to")),
        (("threadlocker-medium", "lets go from"), ("threadlocker-low", "lets go to")),
        (("threadlocker-high", "lets go from"), ("threadlocker-high-heat", "service to")),
    )
    for first, second in alike:
        if limits[first] != limits[second]:
            yield f"{first} {limits[first]}, {second} {limits[second]}"
    high, heat = (
        limits[f"threadlocker-{name}", "lets go to"]
        - limits[f"threadlocker-{name}", "lets go from"]
        for name in ("high", "high-heat")
    )
    if abs(high - heat) > 1.5:  # 150 °F either way
        yield f"lets go over {high} and {heat}"
    if (
        abs(limits["threadlocker", "lets go from"] - limits["threadlocker-high", "lets go from"])
        > 2
    ):
        yield f"threadlocker: lets go from {limits['threadlocker', 'lets go from']}"


VAPOURS = {  # flash [degC], lower and upper limit [%]: safety cards of the pure substance or cut
    "penetrant-kerosene": ((37, 38), (0.6, 0.75), (4.6, 6)),
    "penetrant-naphtha": ((-40, -29), (0.9, 1.1), (5, 6)),
    "penetrant-dry-cleaning": ((37, 43), None, None),
    "penetrant-acetone-atf": ((-20, -17), (2, 2.6), (12.8, 13)),
    "penetrant-aerosol": ((-60, -60), (1.6, 1.9), (8.4, 9.6)),
    "penetrant-solids": ((93, 110), None, None),
    "penetrant-ester": ((140, 160), None, None),
    "cleaner-acetone": ((-20, -17), (2, 2.6), (12.8, 13)),
    "cleaner-isopropyl": ((11, 13), (2, 2.1), (12, 13)),
    "cleaner-heptane": ((-4, -3.5), (1, 1.1), (6.7, 7)),
    "cleaner-mek": ((-9, -8.5), (1.75, 1.9), (10, 11.5)),
    "cleaner-ethanol": ((12.5, 13.2), (3, 3.5), (19, 19.1)),
    "cleaner-hexane": ((-22.5, -21.5), (1.1, 1.2), (7.4, 7.6)),
    "cleaner-toluene": ((4, 4.5), (1.1, 1.3), (7, 7.2)),
    "cleaner-xylene": ((25, 32), (0.9, 1.1), (6.6, 7.1)),
    "cleaner-methylene-chloride": (None, (12, 13), (19, 23)),
}
CUTS = {  # greatest flash point and ignition of a cut [degC]
    "penetrant-kerosene": 72,
    "penetrant-dry-cleaning": 59,
    "penetrant-solids": 200,
    "penetrant-ester": 300,
}


def vapours(tables: Tables) -> Iterator[str]:
    """Flash points and limits off those of the substance."""
    for row in tables["flammability"]:
        spans = VAPOURS.get(row["compound"], (None, None, None))
        names = ("flash_min_degc", "lower_limit_pct", "upper_limit_pct")
        for name, span in zip(names, spans, strict=True):
            value = row[name]
            if value is not None and (span is None or not span[0] <= value <= span[1]):
                yield f"{row['compound']} {name}: {value}"
        most = row["flash_max_degc"]
        if most is not None and most != CUTS.get(row["compound"]):
            yield f"{row['compound']}: flash up to {most}"
        low, high = row["lower_limit_pct"], row["upper_limit_pct"]
        if low and high and low < 8 and not 2.5 <= high / low**0.5 <= 11:
            yield f"{row['compound']}: {low} to {high} %"


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
    *(use_limits, drawn, rust_hours, coats, lockers, compound_heat, vapours, bosses, series),
    *(engaged, ones, methods, flares),
)
