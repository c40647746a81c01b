"""Envelopes against access, axis by axis, both sides of each limit."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from fastkit.reach.access import Access, Gain, widened
from fastkit.reach.fit import Envelope, fit

SAW = Envelope(20.0, 150.0, 0.0, (30.0, 4.0), None)
KEY = Envelope(30.0, 5.0, 60.0, None, 12.0)


def test_everything_free_fits():
    """No limit named: nothing falls short and no margin is claimed."""
    assert () == fit(SAW, Access()).short
    assert (None, None, None, None) == fit(SAW, Access()).margins


@pytest.mark.parametrize(
    ("access", "axis", "amount"),
    [
        (Access(above_mm=29.0), "above", 1.0),
        (Access(beside_mm=4.5), "beside", 0.5),
        (Access(swing_deg=45.0), "swing", 15.0),
        (Access(pocket_mm=(11.0, 40.0)), "pocket", 1.0),
    ],
)
def test_one_axis_short(access, axis, amount):
    """The axis and the amount that are missing are named."""
    (short,) = fit(KEY, access).short

    assert (axis, pytest.approx(amount)) == (short.axis, short.amount)


def test_exactly_enough_fits():
    """A margin of zero is still a fit."""
    got = fit(KEY, Access(30.0, 5.0, 60.0, None, (12.0, 40.0)))

    assert () == got.short
    assert 0.0 == got.margins.above_mm


def test_no_opening_from_the_side():
    """A saw needs an opening; none at all is short by its own thickness or width."""
    (short,) = fit(SAW, Access(side_mm=(0.0, 0.0))).short

    assert ("side", 30.0) == (short.axis, short.amount)


ROOM = st.one_of(st.none(), st.floats(0, 500))


@given(ROOM, ROOM, ROOM, st.floats(0, 200))
def test_more_room_never_rules_out(above, beside, swing, more):
    """Whatever fits still fits after a room-making move."""
    access = Access(above, beside, swing, (40.0, 10.0), None)
    wider = widened(access, Gain(more, more, more, more))

    assert len(fit(KEY, wider).short) <= len(fit(KEY, access).short)


def test_a_free_axis_stays_free_and_a_gain_of_none_frees_it():
    """None means free on both sides."""
    wider = widened(Access(None, 8.0, 30.0, (0.0, 0.0)), Gain(10.0, None, 15.0, None))

    assert Access(None, None, 45.0, None, None) == wider
