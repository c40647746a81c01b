"""Quantities as people type them: what is read, what is refused, and back again."""

import pytest
from hypothesis import example, given
from hypothesis import strategies as st

from fastkit.errors import Misuse
from fastkit.notation.units import (
    angle_deg,
    figures,
    force_n,
    length_mm,
    minutes,
    percent,
    show_kn,
    show_mm,
    show_nm,
    torque_nmm,
)

LENGTHS = [
    *(("25", 25), ("25mm", 25), (" 25 mm ", 25), ("2.5 cm", 25), ("1in", 25.4), ("1 inch", 25.4)),
    *(("7/32in", 5.55625), ("7/32", 5.55625), ("1-1/4 in", 31.75), ('1 1/4"', 31.75)),
    *(("1¼″", 31.75), ("¼", 6.35), ("1½ in", 38.1), ("1.5 in", 38.1), ("12,5", 12.5), ("0", 0)),
    *((".5in", 12.7), ("1–1/4”", 31.75), ("7⁄32 in", 5.55625), ("1 ft", 304.8)),
]
TORQUES = [
    *(("12", 12_000), ("12 N·m", 12_000), ("12Nm", 12_000), ("5 Nm", 5_000), ("5 N m", 5_000)),
    *(("5 N.m", 5_000), ("5 N-m", 5_000), ("500 Ncm", 5_000), ("500 N·mm", 500)),
    # exact: 1 lbf = 4.4482216152605 N, 1 in = 25.4 mm, 1 kgf = 9.80665 N
    *((f"9 {unit}", 12_202.3615349826) for unit in ("lb-ft", "ft-lb", "lbf·ft", "ft lbs", "lb ft")),
    *((f"80 {unit}", 9_038.78632220934) for unit in ("in-lb", "lb-in", "lbf·in", "in lbs")),
    *(("1 kgf·m", 9_806.65), ("1 kgm", 9_806.65), ("16 ozf·in", 112.984829027617)),
]


@pytest.mark.parametrize(("text", "mm"), LENGTHS)
def test_lengths(text, mm):
    """Both systems, every usual spelling; a bare fraction is inches."""
    assert mm == pytest.approx(length_mm(text), rel=1e-12)


@pytest.mark.parametrize(("text", "nmm"), TORQUES)
def test_torques(text, nmm):
    """A bare number is N·m; metre never becomes milli."""
    assert nmm == pytest.approx(torque_nmm(text), rel=1e-12)


def test_other_quantities():
    """Forces, angles, times."""
    assert 18_000 == force_n("18 kN") == force_n("18000")
    assert 4_448.2216152605 == pytest.approx(force_n("1 kip"))
    assert (90, -30, 60) == (angle_deg("1/4 turn"), angle_deg("−30°"), angle_deg("60"))
    assert (90, 90, 0.5) == (minutes("1.5h"), minutes("90"), minutes("30 s"))
    assert (30, 12.5, 50) == (percent("30"), percent("12,5 %"), percent("50 percent"))


@pytest.mark.parametrize("reader", [length_mm, torque_nmm, force_n, minutes, percent])
@pytest.mark.parametrize(
    "text",
    [
        *("", " ", "x", "nan", "inf", "-5", "1/0", "1e5", "1e400", "5 furlong", "1,250", "1.2.3"),
        *("1/2/3", "5 6", "--5", "5 mm mm", "½½", "9" * 400, "½ ½", "٣", "5\x00", "1 2 3/4"),
    ],
)
def test_nonsense_is_refused(reader, text):
    """One line that says what was expected; nothing is guessed."""
    with pytest.raises(Misuse, match="expected") as refused:
        reader(text)

    assert "\n" not in str(refused.value) and len(str(refused.value)) < 200


@given(st.text(max_size=30))
@example("-0.0")
def test_any_text_is_read_or_refused(text):
    """No text makes another error."""
    for reader in (length_mm, torque_nmm, force_n, angle_deg, minutes, percent):
        try:
            value = reader(text)
        except Misuse:
            continue
        assert value == value and abs(value) < float("inf")
        assert value or not str(value).startswith("-")


@given(st.integers(1, 400), st.integers(1, 63), st.sampled_from([2, 4, 8, 16, 32, 64]))
def test_fractions_round_trip(whole, over, under):
    """1-3/8 written in any of the usual ways is the same length."""
    expected = (whole + over / under) * 25.4

    for text in (
        f"{whole}-{over}/{under}in",
        f'{whole} {over}/{under}"',
        f"{whole} {over}/{under}",
    ):
        assert expected == pytest.approx(length_mm(text), rel=1e-12)


@given(st.floats(1e-3, 1e6))
def test_units_round_trip(value):
    """Written out and read back, in each system, within the printed digits."""
    assert value == pytest.approx(torque_nmm(f"{value:.12f} N·m") / 1000, rel=1e-9)
    newton_metre, _, other = show_nm(value * 1000).partition(" (")
    assert value == pytest.approx(torque_nmm(newton_metre) / 1000, rel=6e-3)
    assert value == pytest.approx(torque_nmm(other.rstrip(")")) / 1000, rel=6e-3)
    assert value == pytest.approx(length_mm(show_mm(value).partition(" (")[0]), rel=6e-3)
    assert value * 1000 == pytest.approx(
        force_n(show_kn(value * 1000).partition(" (")[0]), rel=6e-3
    )


def test_shown_in_both_systems():
    """Digits a scale would show, no trailing zeros, no exponents."""
    assert "8 mm (0.31 in)" == show_mm(8)
    assert "0.5 mm (0.02 in)" == show_mm(0.5)
    assert "0 mm (0 in)" == show_mm(0)
    assert "24 N·m (17.7 lb·ft)" == show_nm(24_000)
    assert "1.2 N·m (10.6 lb·in)" == show_nm(1_200)
    assert "4136 N·m (3051 lb·ft)" == show_nm(4_136_000)
    assert "18.6 kN (4180 lbf)" == show_kn(18_600)
    assert ["1825", "17.8", "0.0123", "-5", "0"] == [
        figures(x) for x in (1824.6, 17.8456, 0.012345, -5, 0)
    ]
