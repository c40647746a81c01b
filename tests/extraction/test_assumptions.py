"""What is said to change the first move, against whole plans of the same alternatives."""

from random import Random

from fastkit.extraction.otherwise import OTHERWISE, otherwise
from fastkit.extraction.resistance import SLICES
from fastkit.extraction.solving import begin, coarse_plan, solve, still_first
from tests.bench.plan import situation

SITUATIONS = 10
AGREE = 0.9  # of the alternatives; what is compared in the plan has fewer treatments and rooms
ASKED = (*OTHERWISE, "thread", "grade", "engage_mm", "spoil_min")


def first(case, rows):
    """The first move of a whole plan, a gate that is due before any other."""
    policy, state, gates = begin(case, rows, SLICES, 2)
    policy.start(state)
    return gates[0][0] if gates else policy.first(state)[0]


def test_what_is_said_to_change_the_first_move_does(facts):
    """Of all alternatives to what may be assumed, nine in ten are told right, either way."""
    random, right = Random(20), []
    for _ in range(SITUATIONS):
        case = situation(random)
        rows = facts(case)
        base, coarse = first(case, rows), coarse_plan(case, rows, solve(case, rows).policy)
        for what in ASKED:
            for other, its in otherwise(what, case, rows):
                stays = still_first(other, its, coarse)
                assert stays == (coarse_plan(other, its, coarse.policy).first == coarse.first)
                right.append(stays == (first(other, its) == base))

    assert len(right) > 60
    assert sum(right) >= AGREE * len(right)
