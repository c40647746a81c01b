"""The normal deviate against printed values and against another reckoning of it."""

from statistics import NormalDist

import pytest
from hypothesis import given
from hypothesis import strategies as st

from fastkit.mechanics.normal import normal_deviate

# Applied Statistics 37 (1988), algorithm AS 241: the check values of PPND16, as printed
PRINTED = [
    ("0.25", "-0.6744897501960817"),
    ("0.001", "-3.090232306167814"),
    ("1e-20", "-9.262340089798408"),
]


@pytest.mark.parametrize(("share", "deviate"), PRINTED)
def test_printed_values(share, deviate):
    assert float(deviate) == pytest.approx(normal_deviate(float(share)), rel=1e-14)


@given(st.floats(1e-12, 1 - 1e-12))
def test_another_reckoning_gives_the_same(share):
    assert NormalDist().inv_cdf(share) == pytest.approx(normal_deviate(share), rel=1e-9, abs=1e-12)


@pytest.mark.parametrize("share", [0.0, 1.0, -0.1, 1.1, float("nan")])
def test_a_share_that_is_none(share):
    with pytest.raises(ValueError, match="share"):
        normal_deviate(share)
