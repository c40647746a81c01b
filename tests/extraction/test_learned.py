"""One's own attempts: a beta prior updated, shown, and never stronger than a fact."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from fastkit.extraction.learned import PRIOR_ATTEMPTS, carried, told, weighed
from fastkit.extraction.plan import plan
from fastkit.extraction.situation import Situation
from fastkit.records.own import OwnTries

WORN = Situation(
    thread="M8x1.25", grade="8.8", drive="hex-6mm", damage="worn", seized="threadlocked-high"
)
CHANCE = st.floats(0.001, 0.999)


def tries(method, ok, of, damage="worn", seizure="threadlocked"):
    return OwnTries(method, damage, seizure, ok, of)


def chances(facts, *own):
    found = plan(WORN, facts(WORN)._replace(own=own), ())
    return {move.method: move for move in found.moves}


@given(CHANCE, st.integers(0, 50), st.integers(0, 50))
def test_the_mean_of_a_beta_posterior(chance, ok, failed):
    """Beta(n p, n (1 - p)) with k successes and m failures has this mean."""
    alpha, beta = PRIOR_ATTEMPTS * chance + ok, PRIOR_ATTEMPTS * (1 - chance) + failed
    found = weighed(chance, tries("x", ok, ok + failed))

    assert alpha / (alpha + beta) == pytest.approx(found)
    assert 0 < found < 1


@given(CHANCE, CHANCE)
def test_carried_to_itself_is_the_update(before, after):
    assert after == pytest.approx(carried(before, before, after))
    assert before == pytest.approx(carried(before, after, after))
    assert (0.0, 1.0) == (carried(0.0, before, after), carried(1.0, before, after))


def test_counted_by_method_damage_and_class():
    rows = (tries("a", 1, 2), tries("a", 3, 4, "stripped"), tries("a", 5, 6, seizure="rusted"))

    assert rows[0] == told(rows, "a", "worn", "threadlocked-low")
    assert rows[1] == told(rows, "a", "stripped", "threadlocked-high")
    assert rows[2] == told(rows, "a", "worn", "rusted")
    assert None is told(rows, "b", "worn", "rusted")


@pytest.mark.parametrize("method", ["better-bit", "drill-head-off"])
def test_a_plan_learns_and_says_so(facts, method):
    """Successes raise a method's chance, failures lower it, by the weights stated."""
    plain = chances(facts)
    good, bad = chances(facts, tries(method, 9, 9)), chances(facts, tries(method, 0, 9))
    before = plain[method].chance

    assert weighed(before, tries(method, 9, 9)) == pytest.approx(good[method].chance)
    assert weighed(before, tries(method, 0, 9)) == pytest.approx(bad[method].chance)
    assert ("9", "9") in [row.values for row in good[method].why if row.code == "own_tries"]
    assert [] == [row for move in plain.values() for row in move.why if row.code == "own_tries"]
    if method == "better-bit":  # the other way only leads on to a shank that stays in
        assert good[method].expected_minutes < plain[method].expected_minutes
    for found in (good, bad):
        for move in found.values():
            assert 1 == pytest.approx(sum(share for _, share in move.outcomes))


def test_other_damage_or_seizure_teaches_nothing(facts):
    plain = chances(facts)
    other = chances(
        facts, tries("better-bit", 0, 9, "rounded"), tries("grit-paste", 0, 9, "worn", "galled")
    )

    assert plain == other
