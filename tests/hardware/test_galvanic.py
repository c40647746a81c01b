"""Pairs of metals against what publications say of them, and against each other."""

import tomllib
from pathlib import Path

import pytest

from fastkit.answers.replace_parts import rows
from fastkit.hardware.galvanic import IN_SEA, verdict
from fastkit.records.galvanic import Metal, Pair
from fastkit.reference import resolve
from fastkit.reference.lookup import many

PUBLISHED = tomllib.loads(
    (Path(__file__).parents[1] / "published" / "galvanic.toml").read_text("utf-8")
)


@pytest.fixture(scope="module")
def facts(store):
    return rows(store, resolve.thread(store, "M6"), ()).facts.galvanics


@pytest.mark.parametrize("pair", PUBLISHED["pair"], ids=lambda p: f"{p['fastener']}+{p['body']}")
def test_the_right_one_corrodes(facts, pair):
    """Which of the two goes, and how fast for their areas, is what publications say."""
    found = verdict(facts, pair["fastener"], pair["body"], 4)

    assert pair["corrodes"] == found.corrodes
    assert found.verdict != "fit"
    if "quick" in pair:
        assert {True: "focused", False: "spread"}[pair["quick"]] == found.as_fitted


@pytest.mark.parametrize("limit", PUBLISHED["limit"], ids=lambda limit: limit["environment"])
def test_limits_are_the_published_ones(facts, limit):
    """A second publication has the same limits."""
    assert limit["limit_v"] == facts.environments[limit["environment"]].limit_v


def test_fit_is_what_the_table_of_pairs_says(facts, store):
    """The pairs that the compiler makes by themselves are fit in the same places."""
    for pair in many(store, Pair):
        for level, column in ((1, pair.controlled), (2, pair.normal), (4, pair.harsh)):
            found = verdict(facts, pair.first, pair.second, level)
            assert ("fit" == column) == ("fit" == found.verdict), (pair.id, level)
            corrodes = {"fastener": pair.first, "body": pair.second, None: None}[found.corrodes]
            assert pair.corrodes == corrodes


def test_both_directions_agree(facts, store):
    """Swap the two and the other one is named; the difference and the verdict's limit stay."""
    names = [metal.id for metal in many(store, Metal)]
    swapped = {"fastener": "body", "body": "fastener", None: None}
    for one in names:
        for other in names:
            here, there = verdict(facts, one, other, 3), verdict(facts, other, one, 3)
            assert here.difference_v == there.difference_v
            assert swapped[here.corrodes] == there.corrodes
            assert here.as_fitted == there.reversed or here.corrodes is None


def test_a_harsher_place_is_never_judged_milder(facts, store):
    """What is fit outdoors is fit inside."""
    names = [metal.id for metal in many(store, Metal)]
    for one in names:
        for other in names:
            fit = [verdict(facts, one, other, level).verdict == "fit" for level in (1, 2, 3, 4)]
            assert fit == sorted(fit, reverse=True)


# The index puts stainless below copper, flowing sea water keeps it passive and above.
PASSIVE = {frozenset(("copper", "stainless")), frozenset(("brass", "stainless"))}


def test_index_and_sea_name_the_same_one(facts):
    """
    Where both series list a pair and lie well apart, they agree on which corrodes.

    0.1 V is within what the series scatter.
    """
    held = {row.metal: row.potential_v for row in facts.sea if row.electrode == "saturated calomel"}
    for one, sea_one in IN_SEA.items():
        for other, sea_other in IN_SEA.items():
            found = verdict(facts, one, other, 3)
            gap = held[sea_one] - held[sea_other]
            apart = abs(gap) > 0.2 and {one, other} not in PASSIVE
            if apart and found.difference_v > 0.1:
                assert (gap < 0) == (found.corrodes == "fastener"), (one, other)


def test_a_metal_in_itself_is_fit(facts):
    """No difference, nothing corrodes."""
    found = verdict(facts, "steel", "steel", 4)

    assert (None, "fit", "none", False) == (
        found.corrodes,
        found.verdict,
        found.as_fitted,
        found.insulate,
    )
