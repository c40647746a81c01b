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


@pytest.mark.parametrize(
    ("thread", "grade", "said"),
    [
        # supplier chart, then a university's note: seat and metal of the head
        ("plug-M14x1.25", "plug", ("24.4 N·m", "34.3 N·m", "cast iron", "flat seat")),
        ("plug-M14x1.25", "plug", ("9.8 N·m", "19.7 N·m", "aluminium", "conical seat")),
        ("plug-M14x1.25", "plug", ("35.3 N·m", "39.3 N·m")),
        ("plug-M14x1.25", "plug", ("half to three quarters of a turn",)),
        ("plug-M14x1.25", "plug", ("a sixteenth of a turn",)),
        ("plug-M14x1.25", "plug", ("supplier chart", "24.4 N·m")),  # two prints are told apart
        ("plug-M14x1.25", "plug", ("university extension note", "35.3 N·m")),
        ("M6 set screw", "", ("45H", "8.5 N·m")),  # ISO 898-5; the usual class
        ("M8 grub screw", "", ("45H", "20 N·m")),
        ("ST4.8", "screw", ("6.3 N·m",)),  # ISO 2702, torsional strength
        ("3/16in-inverted", "x", ("15 N·m",)),
        ("3/8-24 flare nut", "x", ("3/16in-inverted", "15 N·m")),
        ("M8", "45H", ("20 N·m",)),  # ISO 898-5
        ("M20", "HV", ("450 N·m", "172 kN", "75 %")),  # EN 1090-2, reference torque
        ("M20", "10.9 HV", ("450 N·m",)),
        ("1/4-18-NPT", "x", ("4.1 turns",)),
    ],
)
def test_published_values_stand_where_there_are_any(store, thread, grade, said):
    """As printed, each in one sentence."""
    answer = torque(thread, grade, store=store)

    assert answer.torque_nm is None and answer.reason
    assert any(all(word in line for word in said) for line in answer.published), answer.published
    assert len(answer.sources) >= 2


def test_a_spark_plug_is_told_for_the_head_that_was_named(store):
    """Who says aluminium is not told of cast iron."""
    answer = torque("plug-M14x1.25", "plug", into="aluminium", store=store)

    told = " ".join(answer.published or ())
    assert "29.3 N·m" in told and "34.3 N·m" not in told and "cast iron" not in told
