"""What must hold among coatings, compounds, grounds, tube fittings; all around the fastener."""

import csv
import re
from collections import defaultdict
from collections.abc import Callable, Iterator
from fractions import Fraction
from itertools import combinations, pairwise
from pathlib import Path

from tests.data.around_checks import LBIN_NM, Row, Tables, between, even, growing, ordered, size_mm
from tests.data.material_defences import bodies, engagement, galvanic, materials
from tests.data.screw_defences import plugs, tapping, tempers
from tests.data.tightening_defences import (
    embedding,
    measured,
    nut_factors,
    nut_torques,
    prevailing,
    tightening,
)

OZ_FT2 = 305.152  # g/m²: 28.349523125 g over (0.3048 m)²
OUTSIDE = {  # tables with second copies here, and the cells that name or derive
    "tube": {"id", "title", "form"},
    "expansion": {"stuff"},
}
FIRE = {  # flash point [degC], limits of the vapour [%]: NIOSH Pocket Guide
    **{"cleaner-acetone": (-18, 2.5, 12.8), "cleaner-isopropyl": (12, 2.0, 12.7)},
    **{"cleaner-heptane": (-4, 1.05, 6.7), "cleaner-mek": (-9, 1.4, 11.4)},
    **{"cleaner-ethanol": (13, 3.3, 19.0), "cleaner-hexane": (-22, 1.1, 7.5)},
    **{"cleaner-toluene": (4, 1.1, 7.1), "cleaner-xylene": (27, 0.9, 7.0)},
    **{"cleaner-methylene-chloride": (None, 13, 23), "penetrant-acetone-atf": (-18, 2.5, 12.8)},
}
PLATES_UM = (3, 5, 8, 10, 12, 15, 20, 25, 30)  # nominal thicknesses of ISO 4042
MELTS = {"zinc": 419.5, "cadmium": 321.1, "tin": 231.9}  # degC, IUPAC


def outside_copies() -> list[Row]:
    """Values printed by a publication of other origin than the one the data names."""
    path = Path(__file__).with_name("around_second.csv")
    with path.open(newline="", encoding="utf-8") as file:
        return list(csv.DictReader(file))


def copy_key(row: Row) -> str:
    """The key by which the second copies name a row: its id, or what it is of and its source."""
    return str(row.get("id") or f"{row['stuff']}@{row['source']}")


def copies(tables: Tables) -> Iterator[str]:
    """A held value differs from what a second publication prints."""
    for copy in outside_copies():
        row = next(r for r in tables[copy["table"]] if copy_key(r) == copy["key"])
        value, where = row[copy["column"]], f"{copy['table']} {copy['key']} {copy['column']}"
        if copy["within"] == "":
            if value != copy["printed"]:
                yield f"{where}: {value}, {copy['origin']}: {copy['printed']}"
        elif abs(value - float(copy["printed"])) > float(copy["within"]):
            yield f"{where}: {value}, {copy['origin']}: {copy['printed']}"


def finishes(tables: Tables) -> Iterator[str]:
    """Thickness, mass, hours and temperatures of finishes that contradict one another."""
    yield from ordered(tables["finish_thickness"], "thickness_min_um", "thickness_max_um")
    for row in tables["finish_thickness"]:
        if nominal := re.match(r"nominal (\d+)", row["variant"]):
            middle = float(nominal[1])
            low, high = row["thickness_min_um"], row["thickness_max_um"]
            if abs(low - 0.9 * middle) > 0.51 or abs(high - 1.18 * middle) > 1.6:
                yield f"{row['variant']}: {low} to {high}"
        if row["source"] == "astm-b633" and row["thickness_min_um"] not in PLATES_UM:
            yield f"{row['variant']}: {row['thickness_min_um']} is no class"
        for name in ("thickness_min_um", "thickness_max_um"):
            mils = (row[name] or 0) / 25.4
            if row["source"] == "mil-a-8625" and abs(mils * 100 - round(mils * 100)) > 0.25:
                yield f"{row['variant']}: {mils} mil is not printed so"
        inch = re.search(r"(0\.000\d) (?:in least|to)", row["locator"])
        if inch and abs(row["thickness_min_um"] - float(inch[1]) * 25400) > 0.06:
            yield f"{row['variant']}: {row['thickness_min_um']} µm, {inch[1]} in"
    plate = [
        {"n": float(m[1])} | row
        for row in tables["finish_thickness"]
        if (m := re.match(r"nominal (\d+)", row["variant"]))
    ]
    yield from growing(plate, "n", "thickness_min_um")
    yield from growing(plate, "n", "thickness_max_um")
    for row in tables["coating_mass"]:
        ounces = re.search(r"([\d.]+) oz/ft²", row["locator"])
        if not ounces or abs(row["mass_g_m2"] - float(ounces[1]) * OZ_FT2) > 0.5:
            yield f"{row['variant']}: {row['mass_g_m2']} g/m²"
        if abs(row["thickness_um"] - row["mass_g_m2"] / 7.14) > 0.06:
            yield f"{row['variant']}: {row['thickness_um']} µm"
    hours = tables["finish_corrosion"]
    yield from ordered(hours, "white_rust_h", "red_rust_h")
    zinc: dict[str, dict[float, Row]] = defaultdict(dict)
    for row in hours:
        if said := re.search(r", ([\d.]+) µm$", row["variant"]):
            if float(said[1]) != row["thickness_um"]:
                yield f"{row['finish']} {row['variant']}: {row['thickness_um']}"
            zinc[f"{row['finish']} {row['variant'].partition(',')[0]}"][row["thickness_um"]] = row
        for name in ("white_rust_h", "red_rust_h"):
            if (
                row["source"] == "iso-4042"
                and row[name]
                and row[name] not in (2, 6)
                and row[name] % 12
            ):
                yield f"{row['variant']}: {row[name]} h is not printed so"
            if row["source"] == "iso-10683" and row[name] and row[name] % 240:
                yield f"{row['variant']}: {row[name]} h is not printed so"
    for name, by_thickness in zinc.items():
        series = [row | {"t": t} for t, row in sorted(by_thickness.items())]
        for column in ("white_rust_h", "red_rust_h"):
            known = [row for row in series if row[column]]
            yield from growing(known, "t", column)
            for thin, thick in pairwise(known):
                if thick[column] > (3.1 if thin["t"] > 4 else 5) * thin[column]:
                    yield f"{name} {column}: {thin[column]} to {thick[column]}"
        if name.startswith("cadmium-plated"):
            twin = zinc[name.replace("cadmium", "zinc")]
            for t, row in by_thickness.items():
                other = twin.get(t)
                if other and row["white_rust_h"] != other["white_rust_h"]:
                    yield f"{name} {t}: white rust differs from zinc"
                known = other and row["red_rust_h"] and other["red_rust_h"]
                if known and not 1.2 < row["red_rust_h"] / known < 2.1:
                    yield f"{name} {t}: red rust {row['red_rust_h']}"
    for row in tables["finish_limit"]:
        metal = row["finish"].partition("-")[0].replace("hot", "zinc")
        pure = row["what"] == "melts" and row["finish"] != "tin-zinc-plated" and metal in MELTS
        if pure and abs(row["temperature_degc"] - MELTS[metal]) > 0.6:
            yield f"{row['finish']} melts at {row['temperature_degc']}"
        if fahrenheit := re.search(r"(\d+) °F", row["note"] or ""):
            exact = (float(fahrenheit[1]) - 32) / 1.8
            if abs(row["temperature_degc"] - exact) > 0.9:
                yield f"{row['finish']} {row['what']}: {row['temperature_degc']}, {exact:.1f}"
    limits = {(r["finish"], r["what"]): r["temperature_degc"] for r in tables["finish_limit"]}
    for (finish, what), limit in limits.items():
        if what == "melts" and limits.get((finish, "service"), 0) >= limit:
            yield f"{finish}: service above its melting"


def compounds(tables: Tables) -> Iterator[str]:
    """Strengths out of the order of their names; temperatures and limits out of order."""
    rows = tables["locker_strength"]
    yield from ordered(rows, "breakaway_min_nm", "breakaway_max_nm")
    yield from ordered(rows, "turning_min_nm", "turning_max_nm")
    held = {(row["compound"], row["bolt"]): row for row in rows}
    for bolt in ("3/8-16", "M10"):
        for a, b in pairwise(("low", "medium", "high")):
            for name in ("breakaway_min_nm", "breakaway_max_nm", "turning_max_nm"):
                weak, strong = (held[f"threadlocker-{s}", bolt][name] for s in (a, b))
                if not 1.2 < strong / weak < 4.5:
                    yield f"{bolt} {name}: {a} {weak}, {b} {strong}"
    for row in rows:
        m = held.get((row["compound"], "M10"), row)
        if not m["breakaway_min_nm"] <= row["breakaway_min_nm"] <= m["breakaway_max_nm"]:
            yield f"{row['compound']}: inch and metric bolts disagree"
    limits: dict[str, dict[str, float]] = defaultdict(dict)
    for row in tables["compound_limit"]:
        limits[row["compound"]][row["what"]] = row["temperature_degc"]
    for compound, known in limits.items():
        if known.get("service from", -300) >= known.get("service to", 2000):
            yield f"{compound}: service {known}"
        if known.get("lets go from", -300) > known.get("lets go to", 2000):
            yield f"{compound}: lets go {known}"
        if compound.startswith("threadlocker-high") and known["lets go from"] < known["service to"]:
            yield f"{compound}: lets go within its service"
        for what, value in known.items():
            fahrenheit = 1.8 * value + 32
            if (
                value % 10
                and abs(fahrenheit / 50 - round(fahrenheit / 50)) > 0.09
                and value not in (-54, -55, -268)
            ):
                yield f"{compound}: {what} {value}, {fahrenheit:.0f} in Fahrenheit"
            bounds = (-268, 1316) if what != "service from" else (-268, -28)
            if not bounds[0] <= value <= bounds[1]:
                yield f"{compound}: {what} {value}"
    for row in tables["flammability"]:
        yield from ordered([row], "flash_min_degc", "flash_max_degc", "ignition_degc")
        yield from ordered([row], "lower_limit_pct", "upper_limit_pct")
        flash, lower, upper = FIRE.get(row["compound"], (None, None, None))
        for name, value, within in (
            ("flash_min_degc", flash, 2.1),
            ("lower_limit_pct", lower, 1.05),
            ("upper_limit_pct", upper, 0.9),
        ):
            if value is not None and row[name] is not None and abs(row[name] - value) > within:
                yield f"{row['compound']}: {name} {row[name]}, usually {value}"
    yield from between(tables["flammability"], "flash_min_degc", -60, 150)
    yield from between(tables["flammability"], "lower_limit_pct", 0.7, 12)
    yield from between(tables["flammability"], "upper_limit_pct", 5, 23)


def grounds(tables: Tables) -> Iterator[str]:
    """Limits that no such joint has; torques that the inch value does not give."""
    for row in tables["ground_limit"]:
        if row["resistance_max_ohm"] is None and row["drop_max_v"] is None:
            yield f"{row['joint']} {row['part']}: no limit"
        if row["resistance_max_ohm"]:
            thousandths = row["resistance_max_ohm"] * 1000
            if round(thousandths, 4) not in (1, 2, 2.5, 3, 10, 15, 100, 1000):
                yield f"{row['joint']} {row['part']}: {thousandths} mΩ"
        drop = row["drop_max_v"]
        if drop is not None and drop not in (0, 0.05, 0.09, 0.1, 0.2, 0.3, 0.4, 0.5, 0.8):
            yield f"{row['joint']} {row['part']}: {drop} V"
    yield from ground_relations(tables["ground_limit"])
    nuts = {(r["thread"], r["nut"]): r for r in tables["nut_torque"]}
    for row in tables["ground_torque"]:
        if said := re.search(r"([\d.]+)(?: to ([\d.]+))? lb·in", row["locator"]):
            wanted = [float(value) * LBIN_NM for value in said.groups() if value]
            held = [v for v in (row["torque_min_nm"], row["torque_max_nm"]) if v is not None]
            if any(abs(a - b) > 0.001 * b + 0.001 for a, b in zip(held, wanted, strict=True)):
                yield f"{row['joint']} {row['size']}: {held}, {wanted}"
        if row["source"] == "ac-43-13-1b":
            nut = nuts[row["size"], "tension"]
            if abs(nut["torque_min_nm"] - row["torque_min_nm"]) > 0.01:
                yield f"{row['size']}: {row['torque_min_nm']}, nut {nut['torque_min_nm']}"
    bonds = [r | {"d": size_mm(r["size"])} for r in tables["ground_torque"] if "UN" in r["size"]]
    for series in ("UNC", "UNF"):
        group = [r for r in bonds if r["joint"] == "facility-bond" and r["size"].endswith(series)]
        yield from growing(group, "d", "torque_min_nm")
        yield from even(group, "d", "torque_min_nm", 0.42)


def ground_relations(rows: list[Row]) -> Iterator[str]:
    """Limits of joints that are the same, larger or the sum of others."""
    ohm, volt = (
        {row["part"]: row[name] for row in rows if row[name] is not None}
        for name in ("resistance_max_ohm", "drop_max_v")
    )
    for part, value in volt.items():
        nothing = part.startswith(("battery post to its", "each connection"))
        if (value == 0) != nothing:
            yield f"{part}: {value} V"
    alike = (
        ("radio frequency, class R", "exposed frame of equipment to structure"),
        ("each face within equipment", "exposed frame of equipment to structure"),
        ("shock and fault, class H", "personnel shock"),
        ("equipment frame to structure, older limit", "static ground receptacle to structure"),
        ("equipment frame to structure, older limit", "personnel shock"),
        ("static charge, class S", "across a mechanical face"),
    )
    for a, b in alike:
        if ohm[a] != ohm[b]:
            yield f"{a} {ohm[a]}, {b} {ohm[b]}"
    ladder = (
        *("connector shell to case, any two points on a cabinet", "each face within equipment"),
        *("each connection of a bonding jumper", "enclosure to structure, all faces"),
        *("cable shield to enclosure", "personnel shock", "static charge, class S"),
    )
    for a, b in pairwise(ladder):
        if not 1.15 < ohm[b] / ohm[a] < 11:
            yield f"{a} {ohm[a]}, {b} {ohm[b]}"
    per_100_amperes = "any cable circuit for each 100 A"
    if abs(ohm[per_100_amperes] * 100 - volt[per_100_amperes]) > 1e-9:
        yield f"{per_100_amperes}: {ohm[per_100_amperes]}, {volt[per_100_amperes]}"
    tester = [
        volt[f"{name}, tester manual"] for name in ("ground circuit", "positive circuit", "total")
    ]
    if abs(tester[0] + tester[1] - tester[2]) > 1e-9 or not tester[0] < tester[1]:
        yield f"tester manual: {tester}"
    posts = {
        volt[part]
        for part in (
            *("battery ground post to frame", "frame to starter field frame"),
            *(
                "insulated post to starter terminal",
                "cable under 3 ft (0.9 m)",
                "mechanical switch",
            ),
        )
    }
    if posts != {0.1}:
        yield f"one part of a starter circuit: {posts}"
    steps = (
        *("cable under 3 ft (0.9 m)", "cable of 3 to 6 ft (0.9 to 1.8 m)"),
        *("magnetic switch", "battery post to solenoid battery terminal", "whole insulated side"),
    )
    for a, b in pairwise(steps):
        if not 0.05 < volt[b] - volt[a] < 0.15:
            yield f"{a} {volt[a]}, {b} {volt[b]}"
    twice = ("solenoid switch", "whole ground side", "alternator and large loads, 20 to 100 A")
    for part in (*twice, "battery and starter cables, above 100 A", per_100_amperes):
        if volt[part] != volt["cable of 3 to 6 ft (0.9 to 1.8 m)"]:
            yield f"{part}: {volt[part]} V"
    if volt["heavy switches and solenoids, above 100 A"] != volt["magnetic switch"]:
        yield "heavy switches and magnetic switches differ"


def tubes(tables: Tables) -> Iterator[str]:
    """Tubes that their id does not spell; nuts smaller than their thread; torques out of line."""
    held = {row["id"]: row for row in tables["tube"]}
    for row in held.values():
        size = row["id"].partition("in-")[0] if "in-" in row["id"] else None
        spelt = (
            float(sum((Fraction(part) for part in size.split("-")), Fraction(0))) * 25.4
            if size
            else float(row["id"].partition("mm-")[0])
        )
        if abs(row["tube_mm"] - spelt) > 0.006:
            yield f"{row['id']}: tube {row['tube_mm']}"
        if not 1.18 < row["thread_mm"] / row["tube_mm"] < 2.6:
            yield f"{row['id']}: thread {row['thread']}"
        if not 0.9 <= row["pitch_mm"] <= 2.2:
            yield f"{row['id']}: pitch {row['pitch_mm']}"
    for form in ("inverted", "flare-45", "flare-37"):
        group = [r for r in held.values() if r["form"] == form and "in-" in r["id"]]
        yield from growing(group, "tube_mm", "thread_mm")
        yield from growing(group, "tube_mm", "pitch_mm")
        yield from even(group, "tube_mm", "thread_mm", 0.115)
    for row in tables["tube_nut_hex"]:
        tube = held[row["tube"]]
        outer = tube["form"] in ("inverted", "iso", "jis")  # the nut is a hollow screw
        ratio = row["across_flats_mm"] / tube["thread_mm"]
        if not ((0.99, 1.31) if outer else (1.13, 1.3))[0] <= ratio <= 1.31:
            yield f"{row['tube']}: flats {row['across_flats_mm']} on {tube['thread']}"
    torques = tables["tube_torque"]
    yield from ordered(torques, "torque_min_nm", "torque_max_nm")
    for form, source in {(held[r["tube"]]["form"], r["source"]) for r in torques}:
        group = [
            row | {"mm": held[row["tube"]]["tube_mm"]}
            for row in torques
            if (held[row["tube"]]["form"], row["source"]) == (form, source)
        ]
        for name in ("torque_min_nm", "torque_max_nm"):
            yield from growing(group, "mm", name)
            if form == "flare-37":
                yield from even(group, "mm", name, 0.39)
    by_tube: dict[str, list[Row]] = defaultdict(list)
    for row in torques:
        by_tube[row["tube"]].append(row)
    for tube_id, several in by_tube.items():
        for a, b in combinations(several, 2):
            middle = [(row["torque_min_nm"] + row["torque_max_nm"]) / 2 for row in (a, b)]
            if max(middle) > 1.61 * min(middle):
                yield f"{tube_id}: {middle} by {a['source']} and {b['source']}"


def forms(tables: Tables) -> Iterator[str]:
    """Flares of another angle than their name says; a seat is a little sharper than its flare."""
    for row in tables["tube_form"]:
        named = re.search(r"(\d+)°", row["title"])
        if row["flare_deg"] != (float(named[1]) if named else None):
            yield f"{row['id']}: flare {row['flare_deg']}"
        if row["seat_deg"] is not None and not 2 <= row["flare_deg"] - row["seat_deg"] <= 4:
            yield f"{row['id']}: seat {row['seat_deg']}"


def drills(tables: Tables) -> Iterator[str]:
    """Holes that leave no wall, extractors that do not fit their hole."""
    root = {row["id"]: row["root_mm"] for row in tables["thread"]}
    share = {row["purpose"]: row for row in tables["drill_share"]}
    spiral = {row["id"]: row for row in tables["spiral_extractor"]}
    for row in tables.get("drill_out", ()):
        rule = share[row["purpose"]]
        if row["drill_mm"] > rule["share_max"] * root[row["thread"]] + 1e-6:
            yield f"{row['thread']} {row['purpose']}: {row['drill_mm']}"
        if row["wall_mm"] < rule["wall_min_mm"] - 0.006:
            yield f"{row['thread']} {row['purpose']}: wall {row['wall_mm']}"
        if row["extractor"] and abs(spiral[row["extractor"]]["drill_mm"] - row["drill_mm"]) > 0.006:
            yield f"{row['thread']}: {row['extractor']} does not fit"
    sizes = list(spiral.values())
    for small, large in pairwise(sizes):
        if small["bolt_to_mm"] != large["bolt_from_mm"] or small["drill_mm"] >= large["drill_mm"]:
            yield f"{small['id']} and {large['id']}"


AROUND_DEFENCES: tuple[Callable[[Tables], Iterator[str]], ...] = (
    *(
        copies,
        bodies,
        nut_factors,
        measured,
        tightening,
        embedding,
        prevailing,
        nut_torques,
        materials,
    ),
    *(engagement, galvanic, finishes, compounds, grounds, tubes, forms, drills),
    *(plugs, tapping, tempers),
)
