"""What is asked in one place of what stands beside it, of what holds it and of what it holds."""

import pytest

from fastkit.answers.extract import extract
from fastkit.answers.facts import gather
from fastkit.answers.understand import understand
from fastkit.extraction.gates import AT_IT, at_hand, is_unstruck, touching
from fastkit.extraction.situation import Near, Situation

SAFE = "treat", "room", "gate"  # kinds of moves that undo no union
DAMAGES = "intact worn rounded spinning snapped-proud snapped-flush extractor-broken".split()


@pytest.mark.parametrize("damage", DAMAGES)
@pytest.mark.parametrize("near", ["brake-fluid:0", "fuel:0", "pressurised:0"])
def test_whatever_undoes_a_union_says_what_runs_out(damage, near):
    """Eyes, face and fluid, by every move that turns or parts a tube nut."""
    answer = extract(kind="tube-nut", thread="M10x1", damage=damage, near=[near], seized="rusted")
    undo = [s for s in answer.plan if s.kind not in SAFE and s.method != "machine-shop"]

    assert undo
    for step in undo:
        told = " ".join((*step.steps, *step.cautions)).lower()
        assert "eyes covered, face out from under it" in told, step.method
        assert "fluid caught, both ends plugged at once" in told, step.method


@pytest.mark.parametrize(
    ("mm", "loose", "rigid", "met"),
    [
        (AT_IT, ("wiring",), (), {"wiring"}),
        (AT_IT + 0.1, ("wiring",), (), set()),
        (0.0, (), ("wiring",), {"wiring"}),
        (0.0, (), (), set()),  # its own, or nothing that comes away
    ],
)
def test_a_tool_that_slips_meets_what_touches_and_is_not_its_own(mm, loose, rigid, met):
    beside = Situation(near=(Near("wiring", mm),), loose=loose, rigid=rigid)

    assert met == touching(beside)


@pytest.mark.parametrize(
    ("coating", "seized", "told"),
    [
        ("stainless", "seized", {"galls"}),
        ("plain", "galled", {"galls"}),
        ("stainless", "threadlocked-low", {"galls-locked"}),
        ("plain", "threadlocked-high", set()),
        ("stainless", "none", {"galls"}),
    ],
)
def test_oil_comes_first_but_where_locker_fills_the_thread(coating, seized, told):
    hand = at_hand(Situation(coating=coating, seized=seized), True, False, 8.0)

    assert told == hand & {"galls", "galls-locked"}


@pytest.mark.parametrize(
    ("fields", "spared"),
    [
        ({"damage": "tool-stuck"}, True),
        ({"damage": "rounded"}, False),
        ({"damage": "rounded", "part": "spark-plug"}, True),
        ({"damage": "rounded", "part": "drain-plug"}, False),
    ],
)
def test_no_tool_is_hammered_on_what_splinters(store, fields, spared):
    """Neither told so nor among its tools."""
    situation = understand(store, "", {"kind": "bolt", "thread": "M10", **fields}).situation
    tools = {row.fits for row in gather(store, situation).variants}

    assert spared == is_unstruck(situation)
    assert spared == ("struck" not in tools)
