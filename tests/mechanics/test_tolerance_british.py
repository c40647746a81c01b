"""Limits of Whitworth and close BA threads against values worked out by hand."""

import pytest

from fastkit.mechanics import thread_forms as forms
from fastkit.mechanics import tolerance_british as british

INCH = 25.4
# BS 84 by its formulas as carried in Machinery's Handbook, 31st ed., worked by hand [in]:
# T = 0.002 D^(1/3) + 0.003 L^(1/2) + 0.005 p^(1/2) with L = D.
BOLTS = (  # D, threads per inch, class, major, effective, minor
    (0.5, 12, "close", (0.49368, 0.50000), (0.44321, 0.44664), (0.38610, 0.39328)),
    (0.5, 12, "medium", (0.49042, 0.49845), (0.43994, 0.44509), (0.38081, 0.39173)),
    (0.5, 12, "free", (0.48784, 0.49845), (0.43736, 0.44509), (0.37823, 0.39173)),
    (0.25, 26, "medium", (0.24318, 0.24888), (0.22051, 0.22425), (0.19196, 0.19962)),
    (0.875, 9, "medium", (0.86528, 0.87500), (0.79747, 0.80385), (0.71966, 0.73271)),
)
NUTS = (  # D, threads per inch, class, effective, minor
    (0.5, 12, "medium", (0.44664, 0.45179), (0.39328, 0.41695)),
    (0.5, 12, "normal", (0.44664, 0.45437), (0.39328, 0.41695)),
    (0.25, 26, "normal", (0.22537, 0.23098), (0.20074, 0.21244)),
    (0.3125, 22, "medium", (0.28339, 0.28749), (0.25429, 0.26838)),
)


@pytest.mark.parametrize(("d", "tpi", "name", "major", "pitch", "minor"), BOLTS)
def test_whitworth_bolts(d, tpi, name, major, pitch, minor):
    limits = british.whitworth_bolt(d * INCH, INCH / tpi, name)
    for expected, held in zip((major, pitch, minor), limits, strict=True):
        assert expected == pytest.approx([x / INCH for x in held], abs=1.1e-5)


@pytest.mark.parametrize(("d", "tpi", "name", "pitch", "minor"), NUTS)
def test_whitworth_nuts(d, tpi, name, pitch, minor):
    limits = british.whitworth_nut(d * INCH, INCH / tpi, name)
    assert limits.major is None
    for expected, held in zip((pitch, minor), limits[1:], strict=True):
        assert expected == pytest.approx([x / INCH for x in held], abs=1.1e-5)


def test_below_a_quarter_inch_the_allowance_is_that_of_a_quarter_inch():
    small = british.whitworth_bolt(0.1875 * INCH, INCH / 24, "free")
    quarter = british.whitworth_bolt(0.25 * INCH, INCH / 20, "free")
    assert small.major is not None
    assert quarter.major is not None
    assert 0.1875 - small.major[1] / INCH == pytest.approx(0.25 - quarter.major[1] / INCH)


def test_a_close_bolt_of_ba_has_no_allowance():
    """BS 93: 0.15 p, 0.08 p + 0.02, 0.16 p + 0.04, close class, numbers 0 to 10."""
    bolt = forms.association_bolt(6.0, 1.0, close=True)
    assert (bolt.major, bolt.pitch, bolt.minor) == (
        pytest.approx((5.85, 6.0)),
        pytest.approx((5.3, 5.4)),
        pytest.approx((4.6, 4.8)),
    )
    with pytest.raises(ValueError, match="close"):
        forms.association_bolt(1.5, 0.31, close=True)


@pytest.mark.parametrize("call", [british.whitworth_bolt, british.whitworth_nut])
def test_another_class_is_refused(call):
    with pytest.raises(ValueError, match="class must be one of"):
        call(12.7, INCH / 12, "6g")
