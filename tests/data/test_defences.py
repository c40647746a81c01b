"""The data against itself: formulas, neighbours, other publications, planted slips."""

import random
import re
import tomllib
from collections.abc import Callable, Iterator
from functools import cache
from pathlib import Path
from typing import Any

import pytest

from fastkit.compiler.build import gather
from fastkit.compiler.reading import read_folder
from fastkit.compiler.tables import SPECS
from tests.data.around_defences import OUTSIDE
from tests.data.defences import DEFENCES, Tables, row_key, second_copies
from tests.data.parsed import WORDS, completed, read
from tests.data.slips import caught, plant
from tests.data.standing import COMPARED, standing

DATA = Path(__file__).parents[2] / "data"
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
    "washer": ("inner_mm", "outer_mm", "thickness_mm"),
    "hardware_dim": ("value_mm", "low_mm", "high_mm"),
    "wrench_opening": ("opening_min_in", "opening_max_in"),
    "length_range": ("shortest_mm", "longest_mm"),
    "recess_dim": ("value_mm", "low_mm", "high_mm"),
    "friction": ("mu_min", "mu_mid", "mu_max"),
}  # fmt: skip


# The least share of slips that must be seen which the defences on a table do see; the whole run
# (tests/bench/mutations.py) sees some per cent more. Material constants follow from no formula.
FLOOR = {
    **{"thread": 0.97, "clearance_hole": 0.97, "head": 0.97, "drive": 0.95, "friction": 0.95},
    **{"tap_drill": 0.93, "drive_torque": 0.93, "key_arm": 0.93, "set_screw_torque": 0.95},
    **{"pipe_gauge": 0.97, "thread_limit": 0.97, "form_drill": 0.97, "wire_insert": 0.93},
    **{"drive_system": 0.95, "washer": 0.8, "grade_row": 0.8},
    **{"length_range": 0.95, "recess_dim": 0.9, "nominal_length": 0.97, "thread_length": 0.95},
    **{"hardware_dim": 0.9, "nut_row": 0.9, "grade_hardness": 0.9, "wrench_opening": 0.9},
}
SLIPS_OF_A_KIND = 7


@cache
def slip_rows() -> Tables:
    """The rows that slips are planted in: those of tables with numbers, and what they lean on."""
    return {table: rows for table, rows in read().items() if table not in WORDS}


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


def test_standing_is_earned() -> None:
    """
    A row is `outside` or `formula` exactly when every printed cell of it is compared.

    Cells are compared with a second publication or with what a formula of a standard gives;
    `formula` is a row that stands on formulas alone.
    """
    kept_rows = kept()
    wrong = [
        (table, key, said, earned)
        for table, key, said, earned in standing(kept_rows, completed(kept_rows))
        if said != earned
    ]
    assert [] == wrong


def test_standing_is_claimed_nowhere_else() -> None:
    """No table whose rows nothing compares claims that something does."""
    claimed = {
        table
        for table, rows in kept().items()
        for row in rows
        if row.get("checked") in ("outside", "formula") and table not in {**COMPARED, **OUTSIDE}
    }
    assert set() == claimed


def test_second_copies_have_another_origin() -> None:
    """No cell is compared with the open library that it was read from."""
    held = {
        (table, row_key(table, row)): f"{row['source']}, {row['locator']}".lower()
        for table in COMPARED
        for row in kept()[table]
    }
    same = []
    for copy in second_copies():
        library = copy["origin"].split(",")[0].lower()
        if library not in ("bosl2", "bolts", "bd-warehouse", "threadlib", "freecad"):
            continue
        for clause in re.split("[,;] ", held.get((copy["table"], copy["key"]), "")):
            # "diameter in bd-warehouse" says nothing of the height
            of = next((word for word in CELLS if clause.startswith(word)), "")
            if library in clause and of in copy["column"]:
                same.append((clause, copy))
    assert [] == same


CELLS = ("diameter", "height", "depth")


def test_hand_tight_lengths_are_recomputed() -> None:
    """ASME B1.20.1: L1 = 16 (E1 - E0), E0 = D - (0.05 D + 1.1) P, with the printed E1."""
    threads = {row["id"]: row for row in kept()["thread"]}
    printed = {
        copy["key"]: float(copy["printed"])
        for copy in second_copies()
        if copy["column"] == "pitch_diameter_in"
    }
    own = [row for row in kept()["pipe_gauge"] if row["thread"].endswith("-NPT")]
    rows = [row for row in own if row["checked"] == "formula"]
    assert len(printed) == len(rows) > 10
    for row in rows:
        d, p = threads[row["thread"]]["nominal_in"], 1 / threads[row["thread"]]["tpi"]
        expected = 16 * (printed[row["thread"]] - (d - (0.05 * d + 1.1) * p))
        assert row["gauge_in"] == pytest.approx(expected, abs=0.0002)


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


@pytest.mark.parametrize("table", sorted(FLOOR))
def test_planted_slips_are_caught(table: str) -> None:
    """
    Of slips that must be seen, the share that each table's defences complain about.

    A sample of what tests/bench/mutations.py plants: wrong digits that move a value by more than
    5 %, values in their neighbour's row, in another column or another unit.
    """
    planted = [
        slip for slip in plant(slip_rows(), table, SLIPS_OF_A_KIND, random.Random(4)) if slip.big
    ]
    missed = [slip for slip in planted if not caught(slip_rows(), slip)]
    assert len(missed) <= (1 - FLOOR[table]) * len(planted), missed
