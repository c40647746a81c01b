"""The data against itself: formulas, neighbours, other publications, planted slips."""

import random
import tomllib
from collections.abc import Callable, Iterator
from functools import cache
from pathlib import Path
from typing import Any

import pytest

from fastkit.compiler.build import gather
from fastkit.compiler.reading import read_folder
from fastkit.compiler.tables import SPECS
from tests.data.defences import (
    DEFENCES,
    Tables,
    complaints,
    held_column,
    row_key,
    second_copies,
)

DATA = Path(__file__).parents[2] / "data"
# Cells that name or derive: what is printed in the row's own publication is the rest.
NAMING = {
    "thread": {"id", "family", "series", "size"},
    "pipe_gauge": {"thread"},
    "thread_limit": {"thread", "tolerance", "side", "dimension"},
    "tap_drill": {"thread", "drill_name"},
    "clearance_hole": {"size"},
    "grade_row": {"grade", "size_range", "size_from_mm", "size_to_mm"},
    "grade_hardness": {"grade", "size_from_mm", "scale"},
    "nut_row": {"grade", "style", "series", "size_range", "size_from_mm", "size_to_mm"},
    "drive": {"id", "system", "size", "external", "symmetry_deg"},
    "head": {"id", "standard", "form", "size"},
}
# What a publication prints in another unit, or as a function of these cells.
SAME = {
    "stress_area_in2": ("nominal_in", "tpi"),
    "nominal_in": ("nominal_mm",),
    "turns_per_inch": ("pitch_mm", "tpi"),
    "core_in": ("core_mm",),
}
NUMBERS = {
    "thread": ("nominal_mm", "nominal_in", "core_mm", "pitch_mm", "tpi"),
    "pipe_gauge": ("gauge_mm", "gauge_in"),
    "thread_limit": ("min_mm", "max_mm"),
    "tap_drill": ("drill_mm",),
    "form_drill": ("drill_mm", "thread_pct"),
    "wire_insert": ("drill_mm",),
    "clearance_hole": ("close_mm", "medium_mm", "coarse_mm"),
    "drive": (
        *("across_flats_mm", "across_flats_min_mm", "across_flats_max_mm", "across_points_mm"),
        *("across_valleys_mm", "wing_mm", "depth_mm"),
    ),
    "drive_torque": ("proof_torque_nm",),
    "key_arm": ("short_arm_mm", "long_arm_mm"),
    "head": ("head_diameter_mm", "head_height_mm", "bearing_diameter_mm", "cone_angle_deg"),
    "grade_row": (
        *("size_from_mm", "size_to_mm", "tensile_min_mpa", "yield_min_mpa", "proof_mpa"),
        "elongation_min_pct",
    ),
    "nut_row": ("size_from_mm", "size_to_mm", "proof_mpa"),
    "grade_hardness": ("low", "high"),
    "friction": ("mu_min", "mu_mid", "mu_max"),
}  # fmt: skip


@cache
def tables() -> Tables:
    """Every row of the data, complete."""
    return gather(DATA)[0]


@cache
def kept() -> dict[str, list[dict[str, Any]]]:
    """The rows as the files hold them, nothing derived."""
    return {table: [row.cells for row in rows] for table, rows in read_folder(DATA, SPECS).items()}


@pytest.mark.parametrize("defence", DEFENCES, ids=lambda defence: defence.__name__)
def test_nothing_to_complain(defence: Callable[[Tables], Iterator[str]]) -> None:
    """Each defence passes on the data as it stands."""
    assert [] == list(defence(tables()))


def test_outside_is_earned() -> None:
    """A row is `outside` exactly when every printed cell of it stands in a second publication."""
    covered: dict[tuple[str, str], set[str]] = {}
    for copy in second_copies():
        covered.setdefault((copy["table"], copy["key"]), set()).add(
            copy["column"] if copy["column"] == "stress_area_in2" else held_column(copy["column"])
        )
    wrong = []
    for table, naming in NAMING.items():
        for row in kept()[table]:
            printed = {
                name
                for name, value in row.items()
                if value is not None and name not in naming | {"source", "locator", "checked"}
            }
            there = covered.get((table, row_key(table, row)), set())
            there |= {cell for column in there for cell in SAME.get(column, ())}
            earned = bool(printed) and printed <= there
            if row["checked"] in ("outside", "copied") and (row["checked"] == "outside") != earned:
                wrong.append((table, row_key(table, row), row["checked"], printed - there))
    assert [] == wrong


def test_outside_stands_nowhere_else() -> None:
    """No table that has no second publication claims one."""
    claimed = {
        table
        for table, rows in kept().items()
        for row in rows
        if row.get("checked") == "outside" and table not in NAMING
    }
    assert set() == claimed


def test_hand_tight_lengths_are_recomputed() -> None:
    """ASME B1.20.1: L1 = 16 (E1 - E0), E0 = D - (0.05 D + 1.1) P, with the printed E1."""
    threads = {row["id"]: row for row in kept()["thread"]}
    printed = {
        copy["key"]: float(copy["printed"])
        for copy in second_copies()
        if copy["column"] == "pitch_diameter_in"
    }
    rows = [row for row in kept()["pipe_gauge"] if row["checked"] == "formula"]
    assert len(printed) == len(rows) > 10
    for row in rows:
        d, p = threads[row["thread"]]["nominal_in"], 1 / threads[row["thread"]]["tpi"]
        expected = 16 * (printed[row["thread"]] - (d - (0.05 * d + 1.1) * p))
        assert row["gauge_in"] == pytest.approx(expected, abs=0.0002)


def test_formula_is_recomputed() -> None:
    """
    Rows that stand on a formula: corners and bearing of the 21 mm hexagon by ISO 4759-1.

    Smallest flats 21 - 0.33 (h13), corners 1.13 and bearing 0.95 of them; EN 1661 prints the
    same corners for its M14.
    """
    rows = [row for row in kept()["head"] if row["checked"] == "formula"]
    assert rows
    for row in rows:
        assert ("M14", "AF-21mm") == (row["size"], row["drive"])
        assert row["head_diameter_mm"] == pytest.approx(1.13 * 20.67, abs=0.005)
        assert row["bearing_diameter_mm"] == pytest.approx(0.95 * 20.67, abs=0.005)
    twin = next(row for row in kept()["head"] if row["id"] == "ISO-4161-M14")
    assert "AF-21mm" == twin["drive"]


def test_fingerprints() -> None:
    """
    Rows and column sums of the published tables are those of the last deliberate change.

    This finds a change, not an error: whoever means one copies the new line from the message.
    """
    held = {
        table: " ".join(
            [str(len(kept()[table]))]
            + [f"{sum(row[name] or 0 for row in kept()[table]):.6g}" for name in names]
        )
        for table, names in NUMBERS.items()
    }
    printed = tomllib.loads((Path(__file__).parent / "fingerprints.toml").read_text("utf-8"))
    assert printed == held


def test_planted_slips_are_caught() -> None:
    """
    At least 95 of 100 planted slips are complained about: 6 and 10 % off, the wrong unit or power.

    Rows that stand in no second publication are met by formulas, neighbours and shared heads.
    """
    rows = {table: [dict(row) for row in kept_rows] for table, kept_rows in tables().items()}
    cells = [
        (row, column)
        for table, columns in NUMBERS.items()
        for row in rows[table]
        for column in columns
        if row.get(column) and (table != "thread" or (row["tpi"] is None) == (column != "tpi"))
    ]
    chance = random.Random(20)
    planted = chance.sample(cells, 240)
    missed = []
    for row, column in planted:
        right = row[column]
        row[column] = right * chance.choice((1.06, 0.94, 1.1, 0.9, 25.4, 0.1))
        if not caught(rows):
            missed.append((row.get("id"), column, right, row[column]))
        row[column] = right
    assert len(missed) <= 0.05 * len(planted), missed


def caught(rows: Tables) -> bool:
    """Whether anything complains; a value that no row can have is a complaint as well."""
    try:
        return bool(complaints(rows))
    except (KeyError, ValueError, ZeroDivisionError):
        return True
