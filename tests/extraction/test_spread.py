"""Minutes as a distribution: sums without chance, and the course of a plan."""

import random
from math import sqrt

import pytest
from hypothesis import given
from hypothesis import strategies as st

from fastkit.answers.facts import gather
from fastkit.answers.understand import understand
from fastkit.extraction.solving import solve, useful_first
from fastkit.extraction.spread import (
    course,
    exactly,
    likely,
    mean,
    mixed,
    quantile,
    times,
    together,
)

WORDS = (
    "m8 hexagon rusted, 8 mm beside",
    "m6 snapped flush in aluminium, seized",
    "m5 hex socket stripped, rusted, can't make room",
    "m10 nut rounded, seized",
)


def variance(spread):
    """Second moment about the mean [min^2], of shares half a minute apart."""
    middle = mean(spread)
    return sum(share * (0.5 * i - middle) ** 2 for i, share in enumerate(spread))


def test_two_dice():
    """
    The sum of two fair dice; Grinstead and Snell, Introduction to Probability, section 7.1.

    7 comes with 6/36, 2 and 12 with 1/36 each.
    """
    die = mixed([(1 / 6, exactly(float(face))) for face in range(1, 7)])
    both = together(die, die)

    assert both[2 * 7] == pytest.approx(6 / 36)
    assert both[2 * 2] == pytest.approx(1 / 36)
    assert both[2 * 12] == pytest.approx(1 / 36)
    assert quantile(both, 0.5) == 7.0


SHARES = st.lists(st.floats(0, 1), min_size=1, max_size=40).filter(lambda row: sum(row) > 0.01)


@given(SHARES, SHARES)
def test_sums_are_those_of_every_pair(one, other):
    """The plain double sum, against the product of two whole numbers."""
    one, other = ([share / sum(row) for share in row] for row in (one, other))
    plain = [0.0] * (len(one) + len(other) - 1)
    for i, a in enumerate(one):
        for j, b in enumerate(other):
            plain[i + j] += a * b
    found = together(tuple(one), tuple(other))

    assert found == pytest.approx(plain[: len(found)], abs=1e-10)
    assert sum(plain[len(found) :]) < 1e-9


@given(st.floats(0, 30), st.floats(0, 30), st.floats(0, 60))
def test_triangle_has_its_mean_and_variance(quick, more, most):
    """
    Mean (a + b + c) / 3, variance (a2 + b2 + c2 - ab - ac - bc) / 18 of the triangular form.

    Handbook formulas; half-minute steps add at most a step's own square to the variance.
    """
    low, middle, high = quick, quick + more, quick + more + most
    spread = likely(low, middle, high)
    formula = (low**2 + middle**2 + high**2 - low * middle - low * high - middle * high) / 18

    assert mean(spread) == pytest.approx((low + middle + high) / 3, abs=1e-6)
    assert sum(spread) == pytest.approx(1)
    assert formula - 1e-6 <= variance(spread) <= formula + 0.25


@given(st.integers(1, 40), st.floats(0.5, 5), st.floats(0, 5), st.floats(0, 9))
def test_many_alike_are_their_sum(n, low, more, most):
    """Means and variances of independent times add."""
    one = likely(low, low + more, low + more + most)
    all_ = times(one, n)

    assert mean(all_) == pytest.approx(n * mean(one), rel=1e-6)
    assert variance(all_) == pytest.approx(n * variance(one), rel=1e-4, abs=1e-6)


@pytest.mark.parametrize("words", WORDS)
def test_course_has_the_plans_own_mean(store, words):
    """Minutes at work and minutes of price together are what the policy expects."""
    situation = understand(store, words).situation
    solved = solve(situation, gather(store, situation))
    found = course(solved)
    first = useful_first(solved)

    assert first is not None
    assert mean(found.minutes) + found.price == pytest.approx(first.expected, rel=1e-6)
    assert found.freed == pytest.approx(first.chance, rel=1e-6)


@pytest.mark.parametrize("words", WORDS)
def test_course_against_walks_by_chance(store, words):
    """A twin that walks the policy ten thousand times and keeps each walk's minutes."""
    situation = understand(store, words).situation
    solved = solve(situation, gather(store, situation))
    found = course(solved)
    dice = random.Random(7)
    walks, freed = [], 0
    for _ in range(10_000):
        choice, minutes = useful_first(solved), 0.0
        while choice.move != "stop":
            minutes += choice.minutes
            shares = [branch.share for branch in choice.branches]
            branch = dice.choices(choice.branches, shares)[0]
            if branch.state is None:
                freed += branch.name != "failed"
                break
            choice = solved.policy.best(branch.state)
        walks.append(minutes)
    walks.sort()

    middle = sum(walks) / len(walks)
    error = sqrt(sum((walk - middle) ** 2 for walk in walks)) / len(walks)
    assert mean(found.minutes) == pytest.approx(middle, abs=5 * error + 1e-9)
    assert found.freed == pytest.approx(freed / len(walks), abs=0.025)
    for share in (0.1, 0.5, 0.9):
        at = quantile(found.minutes, share)
        below = sum(walk < at - 0.5 for walk in walks) / len(walks)
        upto = sum(walk <= at + 0.5 for walk in walks) / len(walks)
        assert below - 0.02 <= share <= upto + 0.02
