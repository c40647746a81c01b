"""The tightening order drawn for a card: each fastener where it sits, with its turn in it."""

from collections.abc import Sequence
from math import dist

from fastkit.deck.drawings import label, svg

RADIUS_SHARE = 0.42  # of the distance to the nearest neighbour, so that circles never touch
LARGEST = 0.09  # of the drawing's longer side
LETTERS = 1.1  # height of the figures over the circle's radius


def order_svg(
    points: Sequence[tuple[float, float]],
    order: Sequence[int],
    side_mm: float = 50.0,
    largest: float = LARGEST,
) -> str:
    """
    Draw a tightening order in black and white.

    The way from one fastener to the next is a thin line, the first one a filled circle.

    Args:
        points: Coordinates, y upward, in any one unit.
        order: Numbers from 1 of the fasteners, in order of tightening.
        side_mm: Longer side of the drawing [mm], > 0.
        largest: Radius of a circle at most, as a share of that side [-].

    Returns:
        One SVG element with its size in mm.

    Raises:
        ValueError: When *order* does not name each point once.
    """
    if sorted(order) != list(range(1, len(points) + 1)):
        raise ValueError(f"order must name each of {len(points)} points once")
    xs, ys = [x for x, _ in points], [y for _, y in points]
    span = max(max(xs) - min(xs), max(ys) - min(ys)) or 1.0
    nearest = min((dist(a, b) for i, a in enumerate(points) for b in points[:i]), default=span)
    apart = RADIUS_SHARE * nearest * (side_mm - 1) / (span + 2 * RADIUS_SHARE * nearest)
    radius = min(apart, largest * side_mm)
    scale = (side_mm - 2 * radius - 1) / span
    places = [
        ((x - min(xs)) * scale + radius + 0.5, (max(ys) - y) * scale + radius + 0.5)
        for x, y in points
    ]
    width = (max(xs) - min(xs)) * scale + 2 * radius + 1
    height = (max(ys) - min(ys)) * scale + 2 * radius + 1
    way = " ".join(f"{places[i - 1][0]:.2f},{places[i - 1][1]:.2f}" for i in order)
    parts = [f'<polyline points="{way}" fill="none" stroke="#999" stroke-width="0.25"/>']
    for turn, number in enumerate(order, 1):
        x, y = places[number - 1]
        fill, ink = ("#000", "#fff") if turn == 1 else ("#fff", "#000")
        size = LETTERS * radius / (1 if turn < 10 else 1.2)
        parts.append(
            f'<circle cx="{x:.2f}" cy="{y:.2f}" r="{radius:.2f}" fill="{fill}" stroke="#000" '
            f'stroke-width="0.3"/><g fill="{ink}">'
            f"{label(x, y + 0.36 * size, str(turn), size)}</g>"
        )
    return svg(width, height, f"Order of tightening of {len(points)} fasteners", "".join(parts))
