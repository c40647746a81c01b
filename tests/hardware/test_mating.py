"""Threads that start on each other, from their limits of size alone, no notes."""

import csv
from pathlib import Path

import pytest

from fastkit.answers.identify import Shelf, identify_thread
from fastkit.hardware.mating import dangers, mating

ROWS = list(csv.DictReader((Path(__file__).parent / "mix_ups.csv").read_text("utf-8").splitlines()))
# The trade knows these, but their limits of size leave no play at all: they catch by force.
BY_FORCE = {
    *(("M10x1", "3/8-24-UNF"), ("1/4-28-UNF", "1/4-20-UNC")),
    ("1/8-27-NPT", "G1/8"),  # 9.99 mm over the crests of the small end, 9.73 in the hole's roots
}


@pytest.fixture(scope="module")
def shelf(store):
    return Shelf(store)


def named(shelf, name):
    row = next(row for row in shelf.threads if row.id == name)
    wanted = f"thread:{name}"
    near = shelf.near(row.nominal_mm - 0.01, row.nominal_mm + 0.01)
    return next(one for one in near if wanted in (one.id, *one.also))


@pytest.mark.parametrize(
    "pair",
    [row for row in ROWS if (row["turns_in"], row["turns_on"]) not in BY_FORCE],
    ids=lambda row: f"{row['turns_in']} in {row['turns_on']}",
)
def test_known_pairs_follow_from_geometry(shelf, pair):
    """Each pair of the workshop starts by its limits of size, and comes to what is said of it."""
    found = mating(named(shelf, pair["turns_in"]), named(shelf, pair["turns_on"]))

    assert found is not None
    alike = {"jams", "strips"}  # where both threaten, the limits of size decide which is said
    assert pair["kind"] == found[0] or {pair["kind"], found[0]} <= alike


def test_turns_by_hand(shelf):
    """
    M8 in 5/16-18: play between the flanks over the pitches' difference.

    Printed limits: hole's pitch diameter up to 0.2817 in, bolt's from 7.042 mm. Half angle 30
    degrees: (7.155 - 7.042) tan 30 = 0.065 mm; forced another 0.05 of 1.25 mm; pitches 1.4111 and
    1.25 mm: 0.128/0.161 = 0.79 turns.
    """
    kind, turns, overlap = mating(named(shelf, "M8x1.25"), named(shelf, "5/16-18-UNC"))

    assert "jams" == kind
    assert turns == pytest.approx(0.79, abs=0.03)
    assert 0.8 < overlap <= 1.05


def test_overlap_by_hand(shelf):
    """
    3/8-24 in M10x1: how much of the depth still bears.

    Middles of the printed limits: bolt 9.407 mm (0.3642 to 0.3739 in: 9.37 mm), hole 8.917 to
    9.153 mm: 9.035 mm; full depth from there to 10 mm: (9.37 - 9.035)/0.965 = 0.35.
    """
    kind, _, overlap = mating(named(shelf, "3/8-24-UNF"), named(shelf, "M10x1"))

    assert "strips" == kind
    assert overlap == pytest.approx(0.37, abs=0.04)


@pytest.mark.parametrize(
    ("bolt", "hole"),
    [
        ("M6x1", "M8x1.25"),  # falls through
        ("M8x1.25", "M6x1"),  # does not go in
        ("M12x1.75", "M10x1.5"),
        ("1/2-13-UNC", "M10x1.5"),
        ("1/2-20-UNF", "M12x1.75"),  # 12.7 over the crests, the hole's roots at 12
        ("M20x2.5", "3/8-16-UNC"),
    ],
)
def test_what_does_not_start(shelf, bolt, hole):
    assert mating(named(shelf, bolt), named(shelf, hole)) is None


def test_a_thread_is_no_danger_to_itself(shelf):
    one = named(shelf, "M8x1.25")
    others = shelf.near(7.0, 9.5)
    ids = {name for d in dangers(one, others, False, {}) for name in (d.bolt.id, d.hole.id)}
    assert len(ids) > 3
    assert all(d.bolt.id != d.hole.id for d in dangers(one, others, False, {}))


def test_a_note_says_which_way_it_goes(store):
    """A half-inch bolt does not enter an M12 hole; the M12 screw enters the half-inch one."""
    answer = identify_thread(as_named="1/2-13", store=store)
    pairs = [trap.pair for trap in answer.danger]

    assert ("thread:M12x1.75", "thread:1/2-13-UNC") in pairs
    assert ("thread:1/2-13-UNC", "thread:M12x1.75") not in pairs
