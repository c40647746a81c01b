"""The tightening order: every fastener once, far apart, balanced, and as published."""

from itertools import pairwise
from math import cos, dist, pi, sin

import pytest
from hypothesis import given
from hypothesis import strategies as st

from fastkit.joint.order import (
    bound,
    circle,
    cross,
    grid,
    imbalance,
    loosening,
    once_round,
    order,
    rings,
)

SIZES = range(2, 61)
# A gasket maker's guide to bolting flanges: 12 o'clock, 6, then 3 and 9, then the pair closest to
# 1:30 and 7:30; a workshop guide to wheel bolts: 1, 3, 5, 2, 4; another: straight across, then
# diagonal, straight across, diagonal, straight across. 16, 20, 24: legacy cross pattern of ASME
# PCC-1, as far as a public flange-bolting figure shows it.
PUBLISHED = {
    4: (1, 3, 2, 4),
    5: (1, 3, 5, 2, 4),
    6: (1, 4, 2, 5, 3, 6),
    8: (1, 5, 3, 7, 2, 6, 4, 8),
    16: (1, 9, 5, 13, 3, 11, 7, 15, 2, 10, 6, 14, 4, 12, 8, 16),
    20: (1, 11, 6, 16, 3, 13, 8, 18, 5, 15, 10, 20, 2, 12, 7, 17, 4, 14, 9, 19),
    24: (
        *(1, 13, 7, 19, 4, 16, 10, 22, 2, 14, 8, 20),
        *(5, 17, 11, 23, 3, 15, 9, 21, 6, 18, 12, 24),
    ),
}


@pytest.mark.parametrize("n", PUBLISHED)
def test_published_sequences(n):
    """What guides print for four, five, six, eight and more."""
    assert PUBLISHED[n] == cross(n) == order(circle(n)).sequence


@pytest.mark.parametrize("n", SIZES)
def test_each_once_balanced_and_apart(n):
    """
    The bound from geometry: one radius where opposite pairs follow each other, 1/cos(pi/2n) for
    a star, whose partial sums are sin(k a/2)/sin(a/2) with a = pi - pi/n.
    """
    sequence = cross(n)
    apart = [min((a - b) % n, (b - a) % n) for a, b in pairwise(sequence)]

    assert list(range(1, n + 1)) == sorted(sequence)
    assert imbalance(circle(n), sequence) <= bound(n) + 1e-9
    assert bound(n) == (1.0 if n % 2 == 0 else pytest.approx(1 / cos(pi / (2 * n))))
    assert n < 5 or min(apart) >= 2
    if n % 2 == 0 and n >= 10:  # the axis of each next pair lies off that of the one before
        axes = [(number - 1) % (n // 2) for number in sequence[::2]]
        assert min(min((a - b) % (n // 2), (b - a) % (n // 2)) for a, b in pairwise(axes)) >= 2
    assert order(circle(n)).sequence == sequence
    assert sequence == tuple(reversed(loosening(sequence)))


@pytest.mark.parametrize("n", SIZES)
def test_going_round_is_worse(n):
    """The reason for the cross: neighbour by neighbour the load leaves the centre further."""
    assert n < 6 or imbalance(circle(n), range(1, n + 1)) > bound(n) + 0.5


@given(st.integers(1, 12), st.integers(1, 6), st.booleans())
def test_grids_go_outward_and_stay_balanced(columns, rows, edge):
    """Nearest to the middle first; symmetric, so never further off than one fastener's place."""
    points = grid(columns, rows, edge)
    found = order(points)
    centre = ((columns - 1) / 2, -(rows - 1) / 2)
    far = [dist(points[i - 1], centre) for i in found.sequence]
    radius = max(far)

    assert sorted(found.sequence) == list(range(1, len(points) + 1))
    assert found.imbalance <= 1 + 1e-9
    if found.layout.pattern == "centre-outward":
        assert all(a <= b + 0.02 * radius + 1e-9 for a, b in pairwise(far))


@given(st.lists(st.tuples(st.integers(-50, 50), st.integers(-50, 50)), min_size=1, unique=True))
def test_any_points(points):
    """Each once wherever they sit; turned and shifted, the pattern is the same."""
    found = order([(float(x), float(y)) for x, y in points])

    assert sorted(found.sequence) == list(range(1, len(points) + 1))
    assert sorted(once_round(found)) == sorted(found.sequence)
    assert found.layout.pattern in {"cross", "star", "ring-by-ring", "centre-outward"}


@given(st.floats(0, 6.28), st.floats(-100, 100), st.floats(0.1, 100))
def test_a_measured_circle_is_one(turn, shift, size):
    """Turned, shifted and scaled it is still the published cross."""
    points = [
        (
            shift + size * (x * cos(turn) - y * sin(turn)),
            shift + size * (x * sin(turn) + y * cos(turn)),
        )
        for x, y in circle(8)
    ]

    assert PUBLISHED[8] == order(points).sequence


def test_patterns():
    """Rings from the inside, a line from the middle, five by two from its middle pair."""
    two = order(rings([4, 8]))

    assert "ring-by-ring" == two.layout.pattern
    assert (1, 3, 2, 4) == two.sequence[:4]
    assert tuple(4 + i for i in PUBLISHED[8]) == two.sequence[4:]
    assert (4, 3, 5, 2, 6, 1, 7) == order(grid(7, 1)).sequence
    assert {3, 8} == set(order(grid(5, 2)).sequence[:2])
    assert {1, 5, 6, 10} == set(order(grid(5, 2)).sequence[-4:])
    assert (1,) == order([(3.0, 4.0)]).sequence == cross(1)


@pytest.mark.parametrize(
    ("points", "said"),
    [([], "points must be"), ([(0.0, 0.0), (1.0, 1.0), (0.0, 0.0)], "got 1 and 3 in one place")],
)
def test_refused(points, said):
    """None, and two in one place."""
    with pytest.raises(ValueError, match=said):
        order(points)
    with pytest.raises(ValueError, match="n must be"):
        cross(0)
