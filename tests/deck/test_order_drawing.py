"""The order's drawing: its size on paper, each turn once, circles that never touch."""

import re
from itertools import combinations
from math import dist
from xml.etree import ElementTree

import pytest

from fastkit.answers.order import tightening_order
from fastkit.deck.order_drawing import order_svg

SVG = "{http://www.w3.org/2000/svg}"


@pytest.mark.parametrize(
    ("n", "shape", "size"),
    [(1, "line", None), (5, "circle", None), (24, "circle", None), (10, "rectangle", "5x2")],
)
def test_each_fastener_shows_its_turn(n, shape, size):
    """Within the side asked for; every turn is in the circle of its fastener."""
    answer = tightening_order(n, shape, size=size)
    drawn = ElementTree.fromstring(order_svg(answer.points, answer.sequence, 40.0))
    circles = drawn.findall(f"{SVG}circle")
    centres = [(float(c.get("cx")), float(c.get("cy"))) for c in circles]
    radius = float(circles[0].get("r"))
    sides = [float(re.sub("mm$", "", drawn.get(side))) for side in ("width", "height")]

    assert [str(i + 1) for i in range(n)] == [t.text for t in drawn.iter(f"{SVG}text")]
    assert max(sides) <= 40.0 + 1e-6
    assert all(dist(a, b) > 2 * radius for a, b in combinations(centres, 2))
    assert all(radius <= x <= sides[0] - radius for x, _ in centres)
    assert all(radius <= y <= sides[1] - radius for _, y in centres)


def test_the_first_stands_where_it_is():
    """On a circle at the top, in the middle of the width, filled."""
    answer = tightening_order(8, "circle")
    drawn = ElementTree.fromstring(order_svg(answer.points, answer.sequence))
    first = drawn.find(f"{SVG}circle")

    assert "#000" == first.get("fill")
    assert float(first.get("cx")) == pytest.approx(25.0, abs=0.1)
    assert float(first.get("cy")) < 6


def test_an_order_that_is_none_is_refused():
    """Each point once."""
    with pytest.raises(ValueError, match="each of 2 points"):
        order_svg(((0.0, 0.0), (1.0, 0.0)), (1, 1))
