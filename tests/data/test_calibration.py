"""
Do the bonds' strengths say what a bench knows? Plain arithmetic, apart from the planner.

What is expected is workshop experience in round figures; the sizes are those of an M8 8.8 screw,
8 mm in steel: d2 7.188, P 1.25, head 13 on a 9 mm hole (ISO 724, ISO 4762, ISO 273), table
preload 18.1 kN (VDI 2230-1 Table A1, mu 0.12), breaking torque 33 N·m (ISO 898-7 for M8, 8.8).
"""

import csv
from math import exp, pi
from pathlib import Path
from statistics import NormalDist

import pytest

DATA = Path(__file__).parents[2] / "data"
D2, PITCH, HEAD, HOLE, ENGAGED = 7.188, 1.25, 13.0, 9.0, 8.0
PRELOAD_N, BREAKS_NM = 18_100.0, 33.0
D2_M10, NUT_M10, DEEP_M10 = 9.026, 8.0, 10.0  # M10: ISO 724; nut of 8 mm; one diameter deep


def rows(name: str) -> list[dict[str, str]]:
    """Return the rows of a data file."""
    with (DATA / name).open(encoding="utf-8", newline="") as file:
        return list(csv.DictReader(file))


def seizure(name: str) -> dict[str, float]:
    """Return the figures of one seizure."""
    row = next(row for row in rows("seizures.csv") if row["id"] == name)
    words = ("id", "title", "source", "locator", "checked")
    return {key: float(value) for key, value in row.items() if key not in words}


def left(method: str, kind: str) -> float:
    """Return what a treatment leaves of a bond, 1 where the data say nothing."""
    for row in rows("bond_effects.csv"):
        if (row["method"], row["seizure"]) == (method, kind):
            return float(row["factor"])
    return 1.0


def friction_nm(kind: str) -> float:
    """Return the loosening torque of the preload that is left."""
    of = seizure(kind)
    arm = (
        -PITCH / (2 * pi) + of["mu_thread"] * D2 / (2 * 0.8660) + of["mu_head"] * (HEAD + HOLE) / 4
    )
    return PRELOAD_N * of["preload_share"] * arm / 1000


def bond_nm(kind: str) -> float:
    """Return the torque of the bonds on the flanks and under the head."""
    of = seizure(kind)
    flanks = of["tau_thread_mpa"] * pi * D2**2 * ENGAGED / 2
    under_head = of["tau_head_mpa"] * pi * (HEAD**3 - HOLE**3) / 12
    return (flanks + under_head) / 1000


def needed_nm(kind: str, z: float, factor: float = 1.0) -> float:
    """Return the torque needed at a standard normal deviate of severity."""
    of = seizure(kind)
    return friction_nm(kind) * exp(of["mu_spread"] * z) + factor * bond_nm(kind) * exp(
        of["spread"] * z
    )


def share_above(kind: str, torque_nm: float, factor: float = 1.0) -> float:
    """Return the share of such fasteners that need more than a torque."""
    low, high = -6.0, 6.0
    for _ in range(60):
        middle = (low + high) / 2
        low, high = (middle, high) if needed_nm(kind, middle, factor) < torque_nm else (low, middle)
    return 1 - NormalDist().cdf(low)


def test_a_sound_screw_loosens_below_its_tightening_torque() -> None:
    """About seven tenths to eight tenths of 25 N·m."""
    assert 0.65 * 25 <= needed_nm("none", 0) <= 0.85 * 25


def test_rusted_takes_about_as_much_as_it_was_tightened_with() -> None:
    """Median near 22 N·m."""
    assert needed_nm("rusted", 0) == pytest.approx(22, rel=0.1)


def test_one_rusted_screw_in_four_breaks_untreated() -> None:
    """More than its breaking torque is asked of about a quarter."""
    assert share_above("rusted", BREAKS_NM) == pytest.approx(0.25, abs=0.05)


def test_one_rusted_screw_in_ten_breaks_after_soak_and_shock() -> None:
    """The usual patience pays."""
    factor = left("soak-penetrant", "rusted") * left("shock-tap", "rusted")
    assert share_above("rusted", BREAKS_NM, factor) == pytest.approx(0.10, abs=0.04)


def test_half_of_the_seized_screws_break_untreated() -> None:
    """That is what people mean by seized."""
    assert share_above("seized", BREAKS_NM) == pytest.approx(0.5, abs=0.07)


def test_heat_helps_a_seized_screw_more_than_soak_and_shock() -> None:
    """The order of the bench: heat, then oil and blows, then nothing."""
    cold = left("soak-penetrant", "seized") * left("shock-tap", "seized")
    hot = left("flame-heat", "seized")
    shares = [share_above("seized", BREAKS_NM, factor) for factor in (hot, cold, 1.0)]
    assert shares == sorted(shares)
    assert shares[0] < 0.25


@pytest.mark.parametrize(
    ("kind", "least", "most"),
    [
        ("threadlocked-low", 3, 10),
        ("threadlocked-medium", 10, 26),
        ("threadlocked-high", 25, 45),
    ],
)
def test_threadlocker_on_a_test_nut(kind: str, least: float, most: float) -> None:
    """Breakaway on an M10 nut as suppliers print it, tested to ISO 10964."""
    torque = seizure(kind)["tau_thread_mpa"] * pi * D2_M10**2 * NUT_M10 / 2 / 1000
    assert least <= torque <= most


def test_medium_threadlocker_adds_about_twenty_newton_metres_to_an_m10_screw() -> None:
    """One diameter deep."""
    torque = seizure("threadlocked-medium")["tau_thread_mpa"] * pi * D2_M10**2 * DEEP_M10 / 2 / 1000
    assert torque == pytest.approx(20, rel=0.1)


@pytest.mark.parametrize("kind", ["threadlocked-medium", "threadlocked-high"])
def test_heat_is_what_opens_threadlocker(kind: str) -> None:
    """250 °C leaves about a fifth; a soak leaves everything."""
    assert left("flame-heat", kind) == pytest.approx(0.2, abs=0.05)
    assert left("soak-penetrant", kind) == 1.0


def test_high_strength_threadlocker_breaks_an_m8_cold_and_not_hot() -> None:
    """The reason why it is turned hot."""
    assert share_above("threadlocked-high", BREAKS_NM) > 0.5
    factor = left("flame-heat", "threadlocked-high")
    assert share_above("threadlocked-high", BREAKS_NM, factor) < 0.05


@pytest.mark.parametrize("kind", ["rusted", "seized"])
def test_without_its_head_a_stub_turns_more_easily(kind: str) -> None:
    """Preload and the head's friction are gone: well under two thirds is left."""
    flanks = seizure(kind)["tau_thread_mpa"] * pi * D2**2 * ENGAGED / 2 / 1000
    assert flanks < 0.65 * needed_nm(kind, 0)
