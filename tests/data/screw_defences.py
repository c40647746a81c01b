"""What must hold of screws that do not clamp: spark plugs, tapping screws; of tempering."""

from collections import defaultdict
from collections.abc import Iterator
from math import pi

from tests.data.around_checks import Row, Tables, even, growing, ordered, size_mm

LBFT_NM = 1.3558179483314  # exact to the digits shown
CHART_LBFT = (
    5.8,
    7.2,
    8.7,
    10.8,
    14.5,
    18.0,
    21.6,
    25.3,
    32.5,
)  # 0.8 to 4.5 kgf·m as it prints them
BORON = ".2"  # SAE grades of low-carbon boron steel, tempered at 650 °F, the others at 800 °F
CORE_MPA = (520.0, 760.0)  # torsional stress of case hardened cores at ISO 2702's least torque


def plugs(tables: Tables) -> Iterator[str]:
    """Printed in round units; no less for a larger plug; aluminium no more than iron."""
    groups: defaultdict[tuple[str, ...], list[Row]] = defaultdict(list)
    for row in tables.get("plug_torque", ()):
        sized = {**row, "size_mm": size_mm(row["thread"].removeprefix("plug-") + "-UN")}
        groups[row["seat"], row["head"], row["source"]].append(sized)
        for end in ("torque_min_nm", "torque_max_nm"):
            if round(row[end], 1) not in _round(row["source"]):
                yield f"{row['thread']}: {end} {row[end]} is no round number of {row['source']}"
    for rows in groups.values():
        yield from ordered(rows, "torque_min_nm", "torque_max_nm")
        for end in ("torque_min_nm", "torque_max_nm"):
            yield from growing(rows, "size_mm", end)
    for (seat, head, source), rows in groups.items():
        iron = {row["thread"]: row for row in groups.get((seat, "cast iron", source), ())}
        for row in rows if head == "aluminium" else ():
            other = iron.get(row["thread"], row)
            if any(row[end] > other[end] for end in ("torque_min_nm", "torque_max_nm")):
                yield f"{row['thread']} {seat}: more in aluminium than in iron"


def _round(source: str) -> set[float]:
    if source == "spark-plug-chart":
        return {round(lbft * LBFT_NM, 1) for lbft in CHART_LBFT}
    return {round(lbft * LBFT_NM, 1) for lbft in range(1, 60)}


def tapping(tables: Tables) -> Iterator[str]:
    """The least torque stands to the cube of the core as hardened steel does."""
    roots = {row["id"]: row["root_mm"] for row in tables["thread"]}
    rows = [{**row, "core_mm": roots[row["thread"]]} for row in tables.get("tapping_torque", ())]
    for row in rows:
        stress = row["breaking_nm"] * 16000 / (pi * row["core_mm"] ** 3)
        if not CORE_MPA[0] <= stress <= CORE_MPA[1]:
            yield f"{row['thread']}: {row['breaking_nm']} N·m is {stress:.0f} MPa in the core"
    yield from growing(rows, "core_mm", "breaking_nm")
    yield from even(rows, "core_mm", "breaking_nm", 0.14)


def tempers(tables: Tables) -> Iterator[str]:
    """425 °C in ISO 898-1; 800 °F in SAE J429, 650 °F for its boron steels."""
    for row in tables.get("temper", ()):
        grade = str(row["grade"])
        due = 425 if not grade.startswith("SAE") else 343 if grade.endswith(BORON) else 427
        if row["temper_c"] != due:
            yield f"{grade}: tempered at {row['temper_c']}, due {due} °C"
