"""Room, neighbours and damage truly decide: one changed thing changes the plan, for a reason."""

import pytest

from fastkit.answers.extract import extract

WORDS = "6 mm hex socket {damage}, M8 into cast iron, 90 mm above, {beside} mm beside{hose}, rusted"
HOSE = ", rubber hose 20 mm off"


def answer(store, damage="rounded out", beside=8, hose=HOSE):
    """The plan at the bench pump, one thing changed."""
    return extract(WORDS.format(damage=damage, beside=beside, hose=hose), store=store)


@pytest.fixture(scope="module")
def given(store):
    """The plan as the situation stands."""
    return answer(store)


def offered(found):
    """Methods in their order."""
    return [step.method for step in found.plan]


def reasons(found):
    """Why each method is out, by its code."""
    return {out.method: out.reason.code for out in found.ruled_out}


def test_forty_millimetres_beside_let_jaws_and_disc_in(store, given):
    """What lacked room beside the head is among the first three once there is room."""
    wide = answer(store, beside=40)
    let_in = set(offered(wide)) - set(offered(given))

    assert {"clamp-wrench", "cut-slot-disc"} <= let_in
    assert "too_narrow_beside" == reasons(given)["clamp-wrench"]
    assert let_in & set(offered(wide)[:3])
    assert wide.expected_minutes < given.expected_minutes


def test_without_the_hose_the_flame_comes_in(store, given):
    """A flame 20 mm from rubber is out for that reason, and in without it."""
    alone = answer(store, hose="")

    assert "neighbour" == reasons(given)["flame-heat"]
    assert "flame-heat" in offered(alone)
    assert offered(alone) != offered(given)


def test_a_worn_recess_is_turned_before_it_is_ruined(store, given):
    """Worn is worth more than gone: the right bit first, and less time in all."""
    worn = answer(store, damage="worn")

    assert offered(worn)[0] != offered(given)[0]
    assert worn.expected_minutes < given.expected_minutes
