"""The drawn policy agrees with the plan, and is whole."""

import pytest

from fastkit.extraction.plan import plan
from fastkit.extraction.sensitivity import steady
from fastkit.extraction.situation import Near, Situation
from fastkit.extraction.tree import DEPTH, tree

CASES = [
    Situation(thread="M8x1.25", grade="8.8", drive="hex-6mm", damage="stripped", seized="seized"),
    Situation(
        kind="bolt",
        thread="M8x1.25",
        grade="8.8",
        drive="AF-13mm",
        damage="intact",
        seized="rusted",
        load="spring",
        residue="flammable",
    ),
    Situation(
        thread="M6x1",
        grade="8.8",
        drive="T30",
        damage="snapped-flush",
        seized="rusted",
        near=(Near("fuel", 20.0),),
    ),
    Situation(  # its head is likelier to be wrung off than to stay where it is
        thread="M6x1",
        grade="8.8",
        drive="hex-5mm",
        damage="stripped",
        seized="rusted",
        into="aluminium",
        above_mm=20.0,
        beside_mm=15.0,
        support="bench",
        near=(Near("wiring", 10.0),),
    ),
    Situation(  # out by its other end: nobody cleans the recess for that
        thread="M8x1.25",
        grade="8.8",
        drive="hex-6mm",
        damage="worn",
        seized="rusted",
        load="spring",
        recess="filled",
        far_side="reachable",
    ),
    Situation(  # nothing gets in there: the load is taken off, and then it is handed on
        thread="M6x1",
        grade="A2-70",
        drive="T30",
        damage="snapped-flush",
        seized="painted",
        load="spring",
        into="wood",
        above_mm=15.0,
        pocket_mm=(16.0, 20.0),
        power="none",
        lack=("punch",),
        can=(("make-room", None),),
    ),
]
NAMED = ["stripped", "gates", "flush", "wrung", "filled", "gates-alone"]


def nodes(node, depth=0):
    """Every node below one, with the number of moves above it that may fail."""
    yield depth, node
    for outcome in node.outcomes:
        if outcome.then is not None:
            yield from nodes(outcome.then, depth + (outcome.name != "done"))


@pytest.mark.parametrize("situation", CASES, ids=NAMED)
def test_agrees_with_the_plan(situation, facts):
    """The gates in order, then the plan's first method at its expected minutes."""
    rows = facts(situation)
    made, node = plan(situation, rows, ()), tree(situation, rows)

    assert made.expected_minutes == pytest.approx(node.expected_minutes)
    for move in made.moves:
        assert node.move == move.method
        if move.why[0].code != "due_first":
            break
        node = node.outcomes[0].then
    else:
        assert node.move == "stop"
    assert made.chance == pytest.approx(node.chance)
    followers = {item.then.move for item in node.outcomes if item.then}
    assert not followers or move.if_it_fails in followers


@pytest.mark.parametrize("situation", CASES, ids=NAMED)
def test_shares_sum_to_one_and_it_ends(situation, facts):
    """Each drawn move's outcomes are all of them; nothing is drawn below the depth."""
    for depth, node in nodes(tree(situation, facts(situation))):
        assert depth <= DEPTH
        assert not node.outcomes or sum(item.share for item in node.outcomes) == pytest.approx(1)
        assert all(item.then for item in node.outcomes if item.name in ("nothing", "snapped"))


def test_a_bond_far_enough_off_changes_the_first_move(facts):
    """A stripped socket: with a far stronger bond another move comes first, or none does."""
    off = steady(CASES[0], facts(CASES[0]))

    assert all(factor is None or factor > 1 for factor in off)
