"""No torque window where the thread is none of a bolt's, however it is written."""

import pytest

from fastkit.answers import refused
from fastkit.answers.torque import torque


@pytest.mark.parametrize(
    ("thread", "why"),
    [
        ("1/4 bsp", refused.TAPER),
        ("half inch npt", refused.TAPER),
        ("G1/4", refused.TAPER),
        ("Rp1/2", refused.TAPER),
        ("bspt 3/8", refused.TAPER),
        ("1/8-27-NPTF", refused.TAPER),
        ("no 8 self tapper", refused.SELF_TAPPING),
        ("#8-18-AB", refused.SELF_TAPPING),
        ("ST4.2", refused.SELF_TAPPING),
        ("14mm plug", refused.PLUG),
        ("plug-M14x1.25", refused.PLUG),
        ("pg16", refused.CONDUIT),
    ],
)
def test_threads_that_get_no_window(store, thread, why):
    answer = torque(thread, "A2-70", store=store)

    assert answer.torque_nm is None
    assert answer.reason == f"no window: {why.reason}"
    assert why.way in (answer.published or ())


@pytest.mark.parametrize(("thread", "half_angle"), [("3/8-16-BSW", 27.5), ("BA-2", 23.75)])
def test_british_threads_have_their_own_flanks(store, thread, half_angle):
    from fastkit.records.thread import Thread
    from fastkit.reference.lookup import get

    assert half_angle == get(store, Thread, thread).flank_angle_deg / 2
    assert torque(thread, "A2-70", store=store).breaking_torque_nm
