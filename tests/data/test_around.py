"""Tightening, materials, coatings, compounds, grounds, tube fittings: standing, pairs, slips."""

import csv
import random
from collections import Counter
from functools import cache
from pathlib import Path
from typing import Any

import pytest

from fastkit.compiler.build import gather
from fastkit.compiler.derive_around import complete_around
from fastkit.compiler.reading import Row as FileRow
from fastkit.compiler.reading import read_folder
from fastkit.compiler.tables import SPECS
from fastkit.compiler.tables_around import AROUND
from tests.data.around_defences import (
    AROUND_DEFENCES,
    OUTSIDE,
    Tables,
    copy_key,
    outside_copies,
)
from tests.data.parsed import numbers
from tests.data.parsed import read as parse
from tests.data.slips import Slip, changed, out_of_bounds, plant, with_slip

DATA = Path(__file__).parents[2] / "data"
STANDING = {"source", "locator", "checked"}
OF_A_KIND = 6
ALONE = {  # tables where many values stand in one publication only and follow no rule
    **{"boss": 0.4, "ground_limit": 0.7, "finish_thickness": 0.6, "flammability": 0.6},
    **{"locker_strength": 0.6, "compound_limit": 0.65, "slip_friction": 0.7, "nut_factor": 0.8},
    **{"tightening_method": 0.75, "finish_corrosion": 0.7, "finish_limit": 0.7},
    **{"sea_potential": 0.75, "tube_torque": 0.7, "engagement": 0.8, "reuse_torque": 0.8},
    **{"pressure_limit": 0.75, "expansion": 0.8, "shear_strength": 0.85, "torque_factor": 0.85},
}
FLOOR = {
    spec.record.TABLE: ALONE.get(spec.record.TABLE, 0.9)
    for spec in AROUND
    if spec.record.TABLE in numbers()
    and spec.record.TABLE not in ("drill_share", "spiral_extractor", "tube_caution")
} | {"material": 0.85}


@cache
def tables() -> Tables:
    """Every row of the data, complete."""
    return gather(DATA)[0]


@cache
def kept() -> dict[str, list[dict[str, Any]]]:
    """The rows as the files hold them, nothing derived."""
    return {table: [row.cells for row in rows] for table, rows in read_folder(DATA, SPECS).items()}


@cache
def read() -> Tables:
    """The rows that slips are planted in."""
    return parse()


def test_outside_is_earned() -> None:
    """A row is `outside` exactly when every printed cell of it stands in a second publication."""
    covered: dict[tuple[str, str], set[str]] = {}
    for copy in outside_copies():
        covered.setdefault((copy["table"], copy["key"]), set()).add(copy["column"])
    wrong = []
    for table, naming in OUTSIDE.items():
        for row in kept()[table]:
            printed = {n for n, v in row.items() if v is not None and n not in naming | STANDING}
            earned = printed <= covered.get((table, copy_key(row)), set())
            if row["checked"] in ("outside", "copied") and (row["checked"] == "outside") != earned:
                wrong.append((table, copy_key(row)))
    assert [] == wrong


@pytest.mark.parametrize(
    ("pair", "difference", "corrodes", "harsh", "normal", "controlled"),
    [
        # the rule's own example: gold and silver, 0.15 V, acceptable in the open
        ("gold+silver", 0.15, "silver", "fit", "fit", "fit"),
        ("aluminium+stainless", 0.40, "aluminium", "unfit", "unfit", "fit"),
        ("copper+steel", 0.50, "steel", "unfit", "unfit", "fit"),
        ("magnesium+stainless", 1.25, "magnesium", "unfit", "unfit", "unfit"),
        ("nickel+titanium", 0.0, None, "fit", "fit", "fit"),
    ],
)
def test_pairs(
    pair: str, difference: float, corrodes: str | None, harsh: str, normal: str, controlled: str
) -> None:
    """Verdicts worked by hand from the printed indices and limits 0.15, 0.25, 0.50 V."""
    row = next(row for row in tables()["pair"] if row["id"] == pair)
    assert difference == pytest.approx(row["difference_v"])
    assert corrodes == row["corrodes"]
    assert (harsh, normal, controlled) == tuple(
        row[name] for name in ("harsh", "normal", "controlled")
    )


def test_units_are_made_by_hand_too() -> None:
    """AC 43.13-1B: 10 lb·in is 1.13 N·m; ASTM A153: 305 g/m² is 43 µm; VDI: 23 % is 1.6."""
    used = next(r for r in tables()["reuse_torque"] if r["thread"] == "1/2-20-UNF")
    assert 1.13 == pytest.approx(used["drag_min_nm"], abs=0.001)
    mass = next(r for r in tables()["coating_mass"] if r["mass_g_m2"] == 305.2)
    assert 43 == round(mass["thickness_um"])
    method = next(
        r for r in tables()["tightening_method"]
        if (r["method"], r["source"]) == ("torque-tested", "vdi-2230-1986")
    )  # fmt: skip
    assert 1.6 == pytest.approx(method["scatter_alpha_max"], abs=0.005)


def test_broken_bolts_keep_a_wall() -> None:
    """M8 has a root of 6.466 mm: 0.70 of it is 4.5 mm; extractor 3 (5/32 in, 3.97 mm) fits."""
    held = {r["purpose"]: r for r in tables()["drill_out"] if r["thread"] == "M8x1.25"}
    left, spiral = held["left-hand-drill"], held["spiral-extractor"]
    assert (4.5, 0.98) == (left["drill_mm"], left["wall_mm"])
    assert (3.97, 1.25) == (spiral["drill_mm"], spiral["wall_mm"])
    assert "spiral-3" == spiral["extractor"]


def test_an_alias_leads_to_one_entry() -> None:
    """The same words never mean two things, over both files of aliases."""
    counts: Counter[str] = Counter()
    for name in ("aliases.csv", "aliases_around.csv"):
        with (DATA / name).open(newline="", encoding="utf-8") as file:
            counts.update(row["words"] for row in csv.DictReader(file))
    assert [] == [words for words, count in counts.items() if count > 1]


def test_tubes_carry_their_cautions() -> None:
    """What must stand beside every tube fitting: fluid and heat, the law, the maker."""
    said = " ".join(row["text"] for row in tables()["tube_caution"])
    assert "Never heat" in said and "licensed" in said and "maker" in said
    forms = {row["form"] for row in tables()["tube_mismatch"]}
    assert {row["form"] for row in tables()["tube"]} == forms


@pytest.mark.parametrize("table", sorted(FLOOR))
def test_planted_slips(table: str) -> None:
    """
    Of slips that must be seen, the share that the defences here complain about.

    A sample of what tests/bench/mutations.py plants, by these defences alone.
    """
    planted = [s for s in plant(read(), table, OF_A_KIND, random.Random(4)) if s.big]
    missed = [slip for slip in planted if not caught(table, slip)]
    assert len(missed) <= (1 - FLOOR[table]) * len(planted), missed


def caught(table: str, slip: Slip) -> bool:
    """Whether a bound, the compiler or a defence complains about the slip."""
    wrong = with_slip(read(), slip)
    if any(out_of_bounds(column, row[column.name]) for column, row in changed(wrong, slip)):
        return True
    rows = {table: [FileRow("-", n, dict(cells)) for n, cells in enumerate(wrong[table])]}
    try:
        whole = {**tables(), table: [row.cells for row in rows[table]]}
        return bool(complete_around(rows)) or any(
            True for defence in AROUND_DEFENCES for _ in defence(whole)
        )
    except ValueError:  # a value has no logarithm
        return True
