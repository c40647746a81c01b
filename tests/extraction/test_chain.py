"""Which link gives first: against sampling that shares nothing with the code."""

from itertools import pairwise
from random import Random

import pytest

from fastkit.extraction.chain import Giving, Link

CHAIN = (
    Link("extractor", 40_000.0, 0.2, "extractor"),
    Link("recess", 18_000.0, 0.3, "drive"),
    Link("shank", 33_000.0, 0.08, "shank"),
    Link("thread", 90_000.0, 0.15, "thread"),
)
TORQUES = (6_000.0, 12_000.0, 17_000.0, 21_000.0, 30_000.0, 60_000.0)


def sampled(chain, torque, draws=40_000):
    """Share of draws in which each link is the first to give at or below a torque."""
    random, first = Random(7), [0] * len(chain)
    for _ in range(draws):
        held = [link.capacity * random.lognormvariate(0, link.spread) for link in chain]
        least = min(held)
        if least <= torque:
            first[held.index(least)] += 1
    return [count / draws for count in first]


@pytest.mark.parametrize("number", range(len(TORQUES)))
def test_agrees_with_sampling(number):
    """Each link's share lies within four standard errors of 40,000 draws, and the step error."""
    got = Giving(CHAIN).at(TORQUES[number])

    assert sampled(CHAIN, TORQUES[number]) == pytest.approx(got, abs=0.012)


def test_shares_only_rise():
    """What has given stays given as the torque rises, and no more than all can give."""
    giving = Giving(CHAIN)
    rows = [giving.at(torque) for torque in TORQUES]

    for before, after in pairwise(rows):
        assert all(b <= a + 1e-12 for b, a in zip(before, after, strict=True))
    assert sum(rows[-1]) <= 1 + 1e-9


def test_a_lone_link_is_its_own_distribution():
    """At its median a single link has given in half of all cases."""
    assert Giving(CHAIN[1:2]).at(18_000.0)[0] == pytest.approx(0.5, abs=1e-9)
