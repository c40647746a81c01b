"""Forms of tube flares, cut through their middle, enlarged."""

from math import cos, radians, sin

from fastkit.deck import profiles
from fastkit.deck.drawings import label, line, outlined, svg

NAMES = {"inverted": "inverted", "iso": "bubble", "jis": "37° double", "flare-37": "37° single"}
"""What a form of the data is called on cards."""

WALL_MM, HALF_MM, LONG_MM = 0.9, 2.4, 7.0
SCALE = 1.6


def flares() -> str:
    """Four tube ends, two a row; one half is drawn and mirrored."""
    halves = {
        "inverted": _double(45),
        "iso": _bubble(),
        "jis": _double(37),
        "flare-37": _single(37),
    }
    body = ""
    for k, (form, half) in enumerate(halves.items()):
        x, y = 3.0 + k % 2 * 28.0, 8.0 + k // 2 * 20.0
        for side in (1, -1):
            points = [(x + SCALE * px, y + SCALE * side * py) for px, py in half]
            body += outlined(profiles.polygon(points), 0.3, "#bbb")
        body += line([(x - 1.5, y), (x + 20.0, y)], 0.15, "1.6 0.6 0.3 0.6")
        body += label(x + 8, y + 11.0, NAMES[form], 3.0, bold=True)
    title = "Tube ends: inverted double flare, bubble, 37 degrees double and single"
    return svg(54.8, 40, title, body)


def _tube() -> list[profiles.Point]:
    """The outer edge of the straight tube, as far as its end."""
    return [(0.0, HALF_MM), (LONG_MM, HALF_MM)]


def _single(angle: float) -> list[profiles.Point]:
    """A funnel: the wall turned outwards by an angle to the axis."""
    dx, dy = 3.2 * cos(radians(angle)), 3.2 * sin(radians(angle))
    nx, ny = WALL_MM * sin(radians(angle)), -WALL_MM * cos(radians(angle))
    inner = HALF_MM - WALL_MM
    return [
        *_tube(),
        (LONG_MM + dx, HALF_MM + dy),
        (LONG_MM + dx + nx, HALF_MM + dy + ny),
        (LONG_MM, inner),
        (0.0, inner),
    ]


def _double(angle: float) -> list[profiles.Point]:
    """A funnel whose wall is folded back into itself."""
    dx, dy = 2.8 * cos(radians(angle)), 2.8 * sin(radians(angle))
    nx, ny = 2 * WALL_MM * sin(radians(angle)), -2 * WALL_MM * cos(radians(angle))
    inner = HALF_MM - WALL_MM
    return [
        *_tube(),
        (LONG_MM + dx, HALF_MM + dy),
        (LONG_MM + dx + nx, HALF_MM + dy + ny),
        (LONG_MM + nx + 0.2, HALF_MM + ny),
        (LONG_MM, inner),
        (0.0, inner),
    ]


def _bubble() -> list[profiles.Point]:
    """A rim bulged outwards with a flat back."""
    inner = HALF_MM - WALL_MM
    return [
        *_tube(),
        (LONG_MM, HALF_MM + 1.7),
        (LONG_MM + 0.9, HALF_MM + 1.8),
        (LONG_MM + 2.2, HALF_MM + 0.9),
        (LONG_MM + 3.0, HALF_MM - 0.6),
        (LONG_MM + 2.6, inner - 0.3),
        (LONG_MM, inner),
        (0.0, inner),
    ]
