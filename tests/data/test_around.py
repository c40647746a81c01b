"""Tightening, materials, coatings, compounds, grounds, tube fittings: standing, pairs, slips."""

import csv
import random
from collections import Counter
from collections.abc import Iterator
from functools import cache
from pathlib import Path
from typing import Any

import pytest

from fastkit.compiler.build import gather
from fastkit.compiler.reading import read_folder
from fastkit.compiler.spec import file_columns
from fastkit.compiler.tables import SPECS
from fastkit.compiler.tables_around import AROUND
from tests.data.around_defences import (
    AROUND_DEFENCES,
    OUTSIDE,
    Tables,
    copy_key,
    outside_copies,
)

DATA = Path(__file__).parents[2] / "data"
STANDING = {"source", "locator", "checked"}
SHARE = {  # of planted slips that something complains about, by table; what is left stands alone
    **{"slip_friction": 0.4, "nut_factor": 0.6, "tightening_method": 0.7, "prevailing_torque": 0.8},
    **{"finish_corrosion": 0.6, "finish_limit": 0.5, "finish_thickness": 0.2, "coating_mass": 0.3},
    **{"flammability": 0.2, "compound_limit": 0.15, "locker_strength": 0.4, "boss": 0.4},
    **{"sea_potential": 0.3, "expansion": 0.6, "shear_strength": 0.8, "engagement": 0.4},
    **{"shear_ratio": 0.2, "tube_form": 0.0, "tube_torque": 0.4, "structural_torque": 0.6},
    **{"measured_friction": 0.8, "elasticity": 0.8, "pressure_limit": 0.85},
}


@cache
def tables() -> Tables:
    """Every row of the data, complete."""
    return gather(DATA)[0]


@cache
def kept() -> dict[str, list[dict[str, Any]]]:
    """The rows as the files hold them, nothing derived."""
    return {table: [row.cells for row in rows] for table, rows in read_folder(DATA, SPECS).items()}


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
    """M8 has a root of 6.466 mm: 0.70 of it is 4.5 mm, and extractor 3 (5/32 in) goes in."""
    row = next(
        r for r in tables()["drill_out"]
        if (r["thread"], r["purpose"]) == ("M8x1.25", "spiral-extractor")
    )  # fmt: skip
    assert (4.5, "spiral-3") == (row["drill_mm"], row["extractor"])
    assert 0.98 == pytest.approx((6.466 - 4.5) / 2, abs=0.005) == row["wall_mm"]


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


def numbers() -> Iterator[tuple[str, tuple[str, ...]]]:
    """Tables around the fastener with the numeric columns that are printed."""
    for spec in AROUND:
        named = tuple(
            column.name for column in file_columns(spec)
            if column.type is float and not column.name.endswith("_inlb")
        )  # fmt: skip
        if named:
            yield spec.record.TABLE, named


@pytest.mark.parametrize(("table", "columns"), list(numbers()), ids=lambda value: str(value)[:24])
def test_planted_slips(table: str, columns: tuple[str, ...]) -> None:
    """Slips of 6 to 10 %, of a power of ten or of a unit are complained about, judgement apart."""
    rows = {name: [dict(row) for row in each] for name, each in tables().items()}
    cells = [
        (row, column)
        for row in rows[table]
        for column in columns
        if row[column] and row["checked"] != "judgement"
    ]
    chance = random.Random(7)
    planted = chance.sample(cells, min(40, len(cells)))
    missed = []
    for row, column in planted:
        right = row[column]
        row[column] = right * chance.choice((1.07, 0.93, 1.1, 0.9, 25.4, 0.1))
        if not caught(rows):
            missed.append((column, right, row[column]))
        row[column] = right
    share = 1 - len(missed) / len(planted) if planted else 1.0
    assert share >= SHARE.get(table, 0.9), (share, missed)


def caught(rows: Tables) -> bool:
    """Whether anything complains; a value that no row can have is a complaint as well."""
    try:
        return any(True for defence in AROUND_DEFENCES for _ in defence(rows))
    except (KeyError, ValueError, ZeroDivisionError, StopIteration, IndexError):
        return True
