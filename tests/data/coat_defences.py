"""What coats, lockers, compounds and vapours share: classes in their order, limits of one kind."""

import re
from collections.abc import Callable, Iterator
from itertools import pairwise
from typing import Any

Row = dict[str, Any]
Tables = dict[str, list[Row]]


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


COAT_DEFENCES: tuple[Callable[[Tables], Iterator[str]], ...] = (
    *(rust_hours, coats, lockers, compound_heat, vapours),
)
