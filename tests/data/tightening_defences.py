"""What must hold among nut factors, friction, tightening, tools and self-locking nuts."""

import re
from collections import defaultdict
from collections.abc import Iterator
from itertools import groupby, pairwise

from tests.data.around_checks import (
    LBIN_NM,
    Row,
    Tables,
    between,
    even,
    growing,
    ordered,
    size_mm,
    stepped,
)

FUB_109 = 1000.0  # MPa, EN 1993-1-8 Table 3.1


def nut_factors(tables: Tables) -> Iterator[str]:
    """Nut factors out of range or of their step; factors of torque; coefficients of friction."""
    rows = tables["nut_factor"]
    yield from ordered(rows, "k_min", "k_max")
    yield from between(rows, "k_min", 0.08, 0.30)
    yield from between(rows, "k_max", 0.09, 0.52)
    fine = ("bolt-handbook", "galling-chapter", "en-1090-2")
    coarse = [row for row in rows if row["source"] not in fine]
    yield from stepped(coarse, "k_min", 0.01)
    by_condition = {row["condition"]: row["k_max"] for row in coarse}
    falling = ("plain-black", "plain", "lightly-oiled", "anti-seize", "waxed", "grip-nut")
    for first, second in pairwise(falling):
        if not by_condition[first] > by_condition[second]:
            yield f"nut factor of {first} is not above {second}"
    factors = tables["torque_factor"]
    yield from ordered(factors, "factor_min", "factor_max")
    printed = [row for row in factors if row["id"] not in ("molybdenum-paste", "anti-seize-shop")]
    for column in ("factor_min", "factor_max"):
        yield from stepped(printed, column, 0.05)
        yield from between(factors, column, 0.55, 1.35)
    paste = next(row for row in factors if row["id"] == "molybdenum-paste")
    if abs(paste["factor_max"] - 19.9 / 28.9) > 0.005:
        yield "molybdenum paste: 19.9 lb·ft for 28.9"
    bolts = {row["id"]: row["factor_max"] for row in factors}
    for bolt in ("plain", "zinc", "cadmium", "phosphate"):
        plain, oiled, waxed = (
            bolts[f"{bolt}-bolt+{nut}-nut"] for nut in ("plain", "phosphate-oiled", "zinc-waxed")
        )
        if not waxed < oiled < plain:
            yield f"{bolt} bolt: {waxed}, {oiled}, {plain}"


def measured(tables: Tables) -> Iterator[str]:
    """Measured friction: ranges by the mean and tolerance as printed; total between its parts."""
    for row in tables["measured_friction"]:
        yield from ordered([row], "mu_min", "mu_max")
        yield from between([row], "mu_min", 0.08, 0.45)
        printed = re.findall(r"(total|thread|head) ([\d.]+) ± ([\d.]+)", row["locator"])
        for part, mean, tolerance in printed:
            name = "mu" if part == "total" else f"mu_{part}"
            low, high = row[f"{name}_min"], row[f"{name}_max"]
            wanted = (float(mean) - float(tolerance), float(mean) + float(tolerance))
            if abs(low - wanted[0]) > 1e-6 or abs(high - wanted[1]) > 1e-6:
                yield f"{row['id']} {part}: {low} to {high}, printed {mean} ± {tolerance}"
    slip = tables["slip_friction"]
    yield from ordered(slip, "mu_min", "mu_max")
    yield from between(slip, "mu_min", 0.05, 0.28)
    yield from between(slip, "mu_max", 0.07, 0.30)
    dry = {row["pair"]: row["mu_max"] for row in slip if row["state"] == "dry"}
    for row in slip:
        if row["state"] == "lubricated" and row["mu_max"] > dry[row["pair"]] + 1e-9:
            yield f"{row['pair']}: slips less with oil"


def tightening(tables: Tables) -> Iterator[str]:
    """Scatter and alpha_A that contradict one another; turns, structural torques, tool classes."""
    rows = tables["tightening_method"]
    yield from ordered(rows, "scatter_min_pct", "scatter_max_pct")
    yield from ordered(rows, "alpha_min", "alpha_max")
    by_source: dict[str, dict[str, Row]] = defaultdict(dict)
    for row in rows:
        by_source[row["source"]][row["method"]] = row
        for end in ("min", "max"):
            share = row[f"scatter_{end}_pct"]
            if share is not None:
                wanted = (1 + share / 100) / (1 - share / 100)
                if abs(row[f"scatter_alpha_{end}"] - wanted) > 0.006:
                    yield f"{row['method']}: alpha {row[f'scatter_alpha_{end}']}, {share} %"
    for source in ("machinerys-handbook-31", "nsts-08307", "bolting-glossary"):
        for row in by_source[source].values():
            for name in ("scatter_min_pct", "scatter_max_pct"):
                if row[name] % 5 and row[name] not in (1, 3, 8):
                    yield f"{row['method']}: {row[name]} % is not printed so"
    for method, low, high in (("torque-estimated", 23, 30), ("hydraulic", 9, 23)):
        for held in by_source.values():
            if method in held and held[method]["scatter_max_pct"] is not None:
                yield from between([held[method]], "scatter_max_pct", low, high)
    dry, cadmium, oiled = (
        by_source["nsts-08307"][f"torque-{s}"]["scatter_max_pct"]
        for s in ("dry", "cadmium", "lubricated")
    )
    if not oiled < cadmium < dry:
        yield f"lubricated {oiled}, cadmium {cadmium}, dry {dry}"
    yield from stepped(rows, "alpha_min", 0.1)
    yield from stepped(rows, "alpha_max", 0.1)
    old, new = by_source["vdi-2230-1986"], by_source["vdi-2230-1"]
    for method in ("hydraulic", "torque-tested", "impact"):
        for end in ("min", "max"):
            a, b = old[method][f"scatter_alpha_{end}"], new[method][f"alpha_{end}"]
            if abs(a - b) > 0.015 * b:
                yield f"{method}: alpha {b}, by the scatter of the 1986 edition {a}"
    if old["torque-estimated"]["scatter_alpha_min"] != new["torque-estimated"]["alpha_min"]:
        yield "torque-estimated: the editions begin at different values"
    ladder = ("hydraulic", "torque-tested", "torque-estimated", "power-driver", "impact")
    for first, second in pairwise(ladder):
        if old[first]["scatter_max_pct"] > old[second]["scatter_max_pct"]:
            yield f"{first} scatters more than {second}"
    for first, second in pairwise(("hydraulic", "torque-tested", "torque-estimated", "impact")):
        if new[first]["alpha_min"] > new[second]["alpha_min"]:
            yield f"alpha of {first} above {second}"
    turns = sorted(tables["turn_of_nut"], key=lambda row: (row["faces"], row["grip_from_d"]))
    first_turn = {"both faces square": 120, "one face sloped up to 1:20": 180}
    for faces, group in groupby(turns, key=lambda row: str(row["faces"])):
        for n, row in enumerate(group):
            if (row["grip_from_d"], row["grip_to_d"]) != ((0, 4), (4, 8), (8, 12))[n]:
                yield f"{faces}: grip {row['grip_from_d']} to {row['grip_to_d']}"
            if row["rotation_deg"] != first_turn.get(faces, 240) + 60 * n:
                yield f"{faces}: {row['rotation_deg']} degrees"
    threads = {row["id"]: row for row in tables["thread"]}
    bolts = [row | {"d": size_mm(row["thread"])} for row in tables["structural_torque"]]
    for row in bolts:
        preload, area = row["preload_n"], threads[row["thread"]]["stress_area_mm2"]
        if abs(preload - 0.7 * FUB_109 * area) > 0.004 * preload:  # EN 1993-1-8 3.6
            yield f"{row['thread']}: preload {preload}, not 0.7 fub As"
        if not 0.118 < row["torque_nm"] * 1000 / (preload * row["d"]) < 0.145:
            yield f"{row['thread']}: torque {row['torque_nm']}"
    yield from even(bolts, "d", "torque_nm", 0.12)
    for row in tables["wrench_class"]:
        rigid = row["id"] in {f"type-{n}-class-{c}" for n, c in ("1b", "1c", "2a", "2b", "2c")}
        if (row["small_deviation_pct"], row["deviation_pct"]) != (6, 4 if rigid else 6):
            yield f"{row['id']}: {row['small_deviation_pct']}, {row['deviation_pct']} %"


def embedding(tables: Tables) -> Iterator[str]:
    """Embedding that falls with roughness, or is more under tension than under shear."""
    held = {(r["place"], r["load"], r["roughness"]): r["embedding_um"] for r in tables["embedding"]}
    yield from stepped(tables["embedding"], "embedding_um", 0.5)
    grades = ("rz-below-10", "rz-10-to-40", "rz-40-to-160")
    for place in ("thread", "bearing face", "interface"):
        for load in ("axial", "shear"):
            values = [held[place, load, grade] for grade in grades]
            if values != sorted(values) or not 1.5 <= values[0] <= values[-1] <= 6.5:
                yield f"embedding {place} {load}: {values}"
            for small, large in pairwise(values):
                if large > 1.6 * small:
                    yield f"embedding {place} {load}: {small} to {large}"
        for grade in grades:
            if held[place, "axial", grade] > held[place, "shear", grade]:
                yield f"embedding {place} {grade}: less under shear"
    if any(held["thread", load, grade] != 3 for load in ("axial", "shear") for grade in grades):
        yield "embedding of the thread is not 3"


def prevailing(tables: Tables) -> Iterator[str]:
    """Prevailing torques that do not grow with the thread, or not between on, off and fifth off."""
    columns = ("first_on_max_nm", "first_off_min_nm", "fifth_off_min_nm")
    rows = [row | {"d": size_mm(row["thread"])} for row in tables["prevailing_torque"]]
    for row in rows:
        on, off, fifth = (row[name] for name in columns)
        if not 3.5 < on / off < 7.7 or not 0.64 < fifth / off < 0.82:
            yield f"{row['thread']} {row['nut_class']}: {on}, {off}, {fifth}"
    held = {(row["thread"], row["nut_class"]): row for row in rows}
    for (thread, nut_class), row in held.items():
        low = held.get((thread, "04"), row)
        if nut_class == "5, 6 and 8" and any(row[name] != low[name] for name in columns):
            yield f"{thread}: classes 5 to 8 differ from 04"
        if nut_class == "05, 10 and 12":
            for name in columns if low is not row else ():
                if not 1.07 < row[name] / low[name] < 1.46:
                    yield f"{thread} {name}: {row[name]} against {low[name]}"
    for nut_class in {row["nut_class"] for row in rows}:
        group = [row for row in rows if row["nut_class"] == nut_class]
        for name in columns:
            yield from growing(group, "d", name)
            yield from even(group, "d", name, 0.13)
        by_size: dict[float, set[tuple[float, ...]]] = defaultdict(set)
        for row in group:
            by_size[row["d"]].add(tuple(row[name] for name in columns))
        for d, kinds in by_size.items():
            if len(kinds) > 1:
                yield f"M{d:g}: fine and coarse differ"
    used = [row | {"d": size_mm(row["thread"])} for row in tables["reuse_torque"]]
    for row in used:
        inlb = row["drag_min_nm"] / LBIN_NM
        if abs(inlb * 2 - round(inlb * 2)) > 0.02:
            yield f"{row['thread']}: {inlb} lb·in is not printed so"
    civil = {r["thread"]: r["drag_min_nm"] for r in used if r["source"] == "ac-43-13-1b"}
    army = {r["thread"]: r["drag_min_nm"] for r in used if r["source"] == "tm-1-1500-204"}
    for thread in civil.keys() & army.keys():
        if not 1.4 < army[thread] / civil[thread] < 2.5:
            yield f"{thread}: {army[thread]} against {civil[thread]}"
    for source in {row["source"] for row in used}:
        for nut in {row["nut"] for row in used}:
            for fine in (True, False):
                group = [
                    row
                    for row in used
                    if (row["source"], row["nut"]) == (source, nut)
                    and ("UNF" in row["thread"] or "UNS" in row["thread"]) == fine
                ]
                yield from growing(group, "d", "drag_min_nm")
                yield from even(
                    group, "d", "drag_min_nm", 0.16 if source != "tm-9-6115-604" else 0.45
                )


def nut_torques(tables: Tables) -> Iterator[str]:
    """Aircraft nut torques: shear nuts take 0.6 of tension nuts; all grow with the thread."""
    rows = [row | {"d": size_mm(row["thread"])} for row in tables["nut_torque"]]
    columns = ("torque_min_nm", "torque_max_nm", "limit_nm")
    yield from ordered(rows, *columns)
    held = {(row["thread"], row["nut"]): row for row in rows}
    for row in rows:
        for name in columns:
            inlb = row[name] / LBIN_NM
            if abs(inlb - round(inlb)) > 0.02:
                yield f"{row['thread']}: {inlb} lb·in is not printed so"
        if row["nut"] == "tension":
            shear = held[row["thread"], "shear"]
            for name in columns:
                if not 0.53 < shear[name] / row[name] < 0.66:
                    yield f"{row['thread']} {name}: shear {shear[name]}, tension {row[name]}"
        if not 1.3 < row["limit_nm"] / row["torque_max_nm"] < 2.6:
            yield f"{row['thread']} {row['nut']}: limit {row['limit_nm']}"
    for nut in ("tension", "shear"):
        for fine in (True, False):
            group = [
                row for row in rows if row["nut"] == nut and ("UNC" not in row["thread"]) == fine
            ]
            for name in columns:
                yield from growing(group, "d", name)
