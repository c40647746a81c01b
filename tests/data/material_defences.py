"""What must hold among grades of material, engagement and the galvanic series."""

import re
from collections import defaultdict
from collections.abc import Iterator
from itertools import combinations, pairwise

from tests.data.around_checks import Tables, between, stepped

COEFFICIENTS = {  # expansion by family [1e-6/K]: the span of the family in handbooks
    **{"steel": (10.9, 12.4), "stainless": (10.0, 17.4), "iron": (10.5, 11.5)},
    **{"aluminium": (21.4, 23.7), "magnesium": (25.5, 26.5), "copper": (16.5, 20.6)},
    **{"titanium": (8.5, 9.5), "nickel": (1.5, 14.0)},
}
MODULI = {  # Young's modulus by family [GPa]
    **{"steel": (205, 210), "stainless": (187, 200), "iron": (95, 130), "aluminium": (69, 74)},
    **{"magnesium": (43, 46), "copper": (100, 130), "titanium": (105, 118), "nickel": (175, 220)},
}
PRESSURE_SHARE = {  # limiting pressure over tensile strength, by edition and family
    **{("2003", "steel"): (0.86, 1.52), ("2003", "stainless"): (0.89, 1.27)},
    **{("2003", "iron"): (1.65, 3.61), ("2003", "aluminium"): (0.75, 1.53)},
    **{("2003", "magnesium"): (0.89, 0.92), ("2003", "titanium"): (0.99, 1.01)},
    **{("2003", "nickel"): (0.69, 0.71), ("1986", "steel"): (0.62, 0.88)},
    **{("1986", "stainless"): (0.41, 0.45), ("1986", "iron"): (1.36, 4.01)},
    **{("1986", "magnesium"): (0.69, 0.74), ("1986", "titanium"): (0.76, 0.78)},
}
USUAL_EXPANSION = {  # 1e-6/K, as metals handbooks agree on to 5 %
    **{"steel-a36": 11.7, "steel-1020": 11.7, "steel-1040": 11.3, "steel-1050": 11.2},
    **{"steel-4140": 12.2, "steel-4340": 12.3, "stainless-301": 16.9, "stainless-304": 17.3},
    **{"stainless-316": 16.0, "stainless-405": 10.8, "stainless-430": 10.4},
    **{"stainless-440a": 10.2, "stainless-17-7ph": 11.0, "1100": 23.6, "2014": 23.0},
    **{"2024": 23.1, "6061": 23.6, "7075": 23.5, "356.0": 21.5, "c11000": 17.0, "c17200": 17.1},
    **{"c26000": 20.0, "c36000": 20.5, "c93200": 18.0, "bronze": 18.0, "nickel-200": 13.3},
    **{"nickel-625": 12.8, "nickel-400": 13.9, "grey-iron": 11.2, "ductile-60-40-18": 11.2},
    **{"ductile-80-55-06": 10.8, "titanium-grade-1": 8.6, "ti-6al-4v": 8.6, "ti-5al-2.5sn": 9.4},
    **{"az31b": 26.0, "az91": 26.0},
}
BODIES = {  # body materials and the grades that they stand for, with shear over tensile strength
    "steel": ("s235", "2003", 0.62, "steel-1020", "carbon-steel"),
    "cast-iron": ("en-gjl-250", "2003", 1.1, "grey-iron", "grey-iron-any"),
    "aluminium": ("gk-alsi9cu3", "2003", 0.7, "356.0", "aluminium-alloys"),
    "magnesium": ("dg-mgal9", "1986", None, "az91", "magnesium-any"),
    "brass": (None, None, None, "c36000", "brass-any"),
    "sheet": (None, None, None, "steel-1020", "carbon-steel"),
}
RATIOS = {  # shear over tensile strength, as guides of other origin have it, roughly
    **{"steel-tempered": (0.58, 0.66), "stainless-austenitic": (0.75, 0.85)},
    **{"stainless-strain-hardened": (0.66, 0.74), "grey-iron": (0.9, 1.3)},
    **{"ductile-iron": (0.85, 0.95), "aluminium": (0.6, 0.75), "titanium": (0.55, 0.65)},
}
CHART = (  # the chart against silver chloride, from the basest
    *("magnesium", "magnesium-2mn", "magnesium-9al", "galvanised", "zinc-plated"),
    *("zinc-cadmium-solder", "zinc", "cadmium", "cadmium-plated", "aluminium-marine", "mild-steel"),
    *("alloy-steel", "aluminium-forged", "stainless-300-active", "tin", "manganese-bronze"),
    *("naval-brass", "yellow-brass"),
)
SEA_WATER = {  # groups of the anodic index, noblest first, and the same in the sea water series
    **{"silver": "silver", "nickel": "nickel", "copper": "copper", "brass": "naval-brass"},
    **{"steel": "carbon-steel", "aluminium": "aluminium-3003", "zinc": "zinc"},
}


def materials(tables: Tables) -> Iterator[str]:
    """Properties that no material of the family has, or that contradict one another."""
    family = {row["id"]: row["family"] for row in tables["stuff"]}
    for row in tables["pressure_limit"]:
        low, high = PRESSURE_SHARE[row["edition"], family[row["stuff"]]]
        if not low <= row["pressure_mpa"] / row["tensile_mpa"] <= high:
            yield f"{row['stuff']}: {row['pressure_mpa']} of {row['tensile_mpa']}"
        iron = re.search(r"gj[ls]-(\d+)", row["stuff"])
        older = re.search(r"printed St (\d+)", row["locator"]) if row["edition"] == "1986" else None
        said = float(iron[1]) if iron else 10 * float(older[1]) if older else row["tensile_mpa"]
        if row["tensile_mpa"] != said:
            yield f"{row['stuff']}: tensile {row['tensile_mpa']}, named {said}"
        for name in ("pressure_mpa", "tensile_mpa"):
            if row[name] % 10:
                yield f"{row['stuff']}: {name} {row[name]} is not printed so"
    expansions: dict[str, list[float]] = defaultdict(list)
    for row in tables["expansion"]:
        low, high = COEFFICIENTS[family[row["stuff"]]]
        micro = row["expansion_per_k"] * 1e6
        expansions[row["stuff"]].append(micro)
        usual = USUAL_EXPANSION.get(row["stuff"], micro)
        book = row["source"] == "materials-science-9"
        if not (low <= micro <= high and abs(micro - usual) < (0.05 if book else 0.1) * usual):
            yield f"{row['stuff']}: expansion {micro}, usually {usual}"
    for stuff, values in expansions.items():
        if max(values) > 1.1 * min(values) or values[0] < values[-1]:
            yield f"{stuff}: expansion {values}"
    for row in tables["elasticity"]:
        low, high = MODULI[family[row["stuff"]]]
        if not low <= row["modulus_mpa"] / 1000 <= high:
            yield f"{row['stuff']}: modulus {row['modulus_mpa']}"
        isotropic, shear = row["modulus_mpa"] / 2 / (1 + row["poisson"]), row["shear_modulus_mpa"]
        if shear is not None and abs(shear - isotropic) > 0.011 * isotropic:
            yield f"{row['stuff']}: shear modulus {shear}, by E and nu {isotropic}"
    for row in tables["shear_strength"]:
        cast = ".0" in row["stuff"]
        share = row["shear_mpa"] / row["tensile_mpa"]
        if not ((0.69, 0.87) if cast else (0.55, 0.745))[0] <= share <= (0.87 if cast else 0.745):
            yield f"{row['stuff']}: shear {share:.2f} of tensile"
        for name in ("shear_mpa", "tensile_mpa"):
            if row["source"] == "aluminium-typical":
                ksi = row[name] / 6.894757
                if abs(ksi - round(ksi)) > 0.08:
                    yield f"{row['stuff']}: {name} is no whole number of ksi"
            elif row["source"] == "aluminium-selection" and row[name] % 5:
                yield f"{row['stuff']}: {name} {row[name]} is not printed so"
    for row in tables["shear_ratio"]:
        yield from between([row], "ratio", *RATIOS[row["id"]])


def bodies(tables: Tables) -> Iterator[str]:
    """Body materials whose values are not those of the grade that they stand for."""
    pressures = {(r["stuff"], r["edition"]): r for r in tables["pressure_limit"]}
    expansions = {r["stuff"]: r["expansion_per_k"] for r in reversed(tables["expansion"])}
    moduli = {r["stuff"]: r["modulus_mpa"] for r in tables["elasticity"]}
    for row in tables["material"]:
        if row["id"] not in BODIES:
            continue
        grade, edition, ratio, expanding, elastic = BODIES[row["id"]]
        wanted = {
            "expansion_per_k": expansions[expanding],
            "modulus_mpa": moduli[elastic],
        }
        if grade:
            limit = pressures[grade, edition]
            wanted["bearing_limit_mpa"] = limit["pressure_mpa"]
            if ratio:
                wanted["shear_strength_mpa"] = ratio * limit["tensile_mpa"]
        for name, value in wanted.items():
            if row[name] is None or abs(row[name] - value) > 0.002 * value:
                yield f"{row['id']} {name}: {row[name]}, its grade {value}"
        shear = row["shear_strength_mpa"]
        if shear is not None and not 100 <= shear <= 300:
            yield f"{row['id']}: shear strength {shear}"


def engagement(tables: Tables) -> Iterator[str]:
    """Engagement that falls for a stronger bolt or a weaker body."""
    rows = tables["engagement"]
    yield from between(rows, "length_d", 0.8, 2.5)
    yield from stepped(rows, "length_d", 0.05)
    classes = ("3.6 and 4.6", "4.8 to 6.8", "8.8", "10.9", "12.9")
    held = {(r["body"], r["bolts"], r["series"], r["source"]): r["length_d"] for r in rows}
    for body, series, source in {(r["body"], r["series"], r["source"]) for r in rows}:
        known = [held[k] for c in classes if (k := (body, c, series, source)) in held]
        if known != sorted(known) and body != "steel-over-800":  # errata: 1.2 below two of 1.0
            yield f"{body} {series}: {known}"
    trials = ("steel-360", "steel-500", "steel-800")
    for weak, strong in pairwise(trials):
        for bolts in classes[2:]:
            a, b = (held[body, bolts, "coarse", "engagement-trials"] for body in (weak, strong))
            if b > a:
                yield f"{strong} {bolts}: {b}, {weak} {a}"
    for body in (*trials, "grey-iron"):
        for bolts in ("8.8", "10.9"):
            a, b = (held[body, bolts, s, "engagement-trials"] for s in ("coarse", "fine"))
            if not a <= b <= 1.26 * a:
                yield f"{body} {bolts}: fine {b}, coarse {a}"
    for bolts in classes[2:]:
        a, b = (
            held[body, bolts, "coarse", "engagement-trials"] for body in ("steel-360", "grey-iron")
        )
        if a != b:
            yield f"{bolts}: grey iron {b}, soft steel {a}"
    for row in rows:
        named = re.search(r"(?:of|above) (\d{3})", row["title"])
        said = float(named[1]) if named else None
        if row["tensile_min_mpa"] not in (None, said):
            yield f"{row['body']}: tensile {row['tensile_min_mpa']}, named {said}"
    bosses = {row["stuff"]: row["hole_d"] for row in tables["boss"]}
    for stuff, hole in bosses.items():  # glass makes it stiffer: a wider hole
        plain = bosses.get(stuff.removesuffix("-gf30"), hole)
        if stuff.endswith("-gf30") and not -0.001 <= hole - plain <= 0.075:
            yield f"{stuff}: hole {hole}, unfilled {plain}"
    yield from between(tables["boss"], "hole_d", 0.7, 0.85)
    yield from between(tables["boss"], "outer_d", 1.8, 2.5)
    yield from between(tables["boss"], "length_d", 1.7, 2.2)


def galvanic(tables: Tables) -> Iterator[str]:
    """Indices out of the list's order and step; pairs whose verdict the limits do not give."""
    indices = {row["id"]: row["index_v"] for row in tables["anodic_index"]}
    values = list(indices.values())
    if values != sorted(set(values)):
        yield f"anodic indices: {values}"
    yield from stepped(tables["anodic_index"], "index_v", 0.05)
    yield from between(tables["anodic_index"], "index_v", 0, 1.85)
    for first, second in pairwise(values):
        if second - first > 0.51:
            yield f"anodic index: {first} to {second}"
    sea: dict[str, dict[str, float]] = defaultdict(dict)
    for row in tables["sea_potential"]:
        sea[row["electrode"]][row["metal"]] = row["potential_v"]
    calomel = sea["saturated calomel"]
    for (noble, a), (base, b) in pairwise(SEA_WATER.items()):
        if not (indices[noble] < indices[base] and calomel[a] > calomel[b]):
            yield f"{noble} and {base}: the list and sea water disagree"
    listed = [
        row["potential_v"]
        for row in tables["sea_potential"]
        if row["electrode"] == "saturated calomel"
    ]
    if listed != sorted(listed, reverse=True):
        yield "the series against calomel is out of order"
    for metal in calomel.keys() & sea["silver chloride"].keys():
        apart = calomel[metal] - sea["silver chloride"][metal]  # electrodes: 0.0 to 0.05 V apart
        if not -0.01 < apart < 0.06:
            yield f"{metal}: {calomel[metal]} and {sea['silver chloride'][metal]}"
    yield from between(tables["sea_potential"], "potential_v", -1.73, 0.25)
    chart = [sea["silver chloride"][metal] for metal in CHART]
    if chart != sorted(chart):
        yield "the chart against silver chloride is out of order"
    for series in (listed[::-1], chart):
        for low, high in pairwise(series):
            if high - low > 0.45:
                yield f"sea water: nothing between {low} and {high}"
    yield from stepped(
        [r for r in tables["sea_potential"] if r["electrode"] == "silver chloride"],
        "potential_v",
        0.01,
    )
    passive = {k: v for k, v in calomel.items() if k.endswith("-passive")}
    for metal, potential in passive.items():
        active = calomel[metal.replace("-passive", "-active")]
        if not 0.1 < potential - active < 0.5:
            yield f"{metal}: {potential}, active {active}"
    limits = {row["id"]: row["limit_v"] for row in tables["environment"]}
    if limits != {"harsh": 0.15, "normal": 0.25, "controlled": 0.5}:
        yield f"galvanic limits {limits}"
    group = {row["id"]: indices[row["anodic_index"]] for row in tables["metal"]}
    held = {row["id"]: row for row in tables.get("pair", ())}  # computed: not among kept rows
    for first, second in combinations(sorted(group), 2) if held else ():
        row = held[f"{first}+{second}"]
        apart = abs(group[first] - group[second])
        if abs(row["difference_v"] - apart) > 1e-6:
            yield f"{row['id']}: {row['difference_v']}"
        for name, limit in limits.items():
            if (row[name] == "fit") != (apart <= limit + 1e-9):
                yield f"{row['id']} {name}: {row[name]}"
