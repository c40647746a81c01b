"""Outlines against published radii and independently computed geometry."""

import re
from math import cos, hypot, pi, radians, tan

import pytest

from fastkit.deck import profiles

BOSL2_RADII = [  # size, A, B (ISO 10664 Table 1), tip and valley radius as BOSL2 carries them
    ("T6", 1.75, 1.27, 0.132, 0.383),
    ("T20", 3.95, 2.85, 0.305, 0.859),
    ("T25", 4.50, 3.25, 0.375, 0.920),
    ("T30", 5.60, 4.05, 0.451, 1.194),
    ("T40", 6.75, 4.85, 0.546, 1.428),
    ("T60", 13.45, 9.60, 1.067, 2.883),
]


def arcs(path):
    """Start point and arcs (radius, end point) of a path of arcs."""
    numbers = r"(-?[\d.]+) (-?[\d.]+)"
    start = tuple(map(float, re.match("M" + numbers, path).groups()))
    found = re.findall(r"A(-?[\d.]+) [\d.]+ 0 0 ([01]) " + numbers, path)
    return start, [(float(r), sweep, (float(x), float(y))) for r, sweep, x, y in found]


@pytest.mark.parametrize(("size", "a", "b", "tip", "valley"), BOSL2_RADII)
def test_valley_radius_is_the_published_one(size, a, b, tip, valley):
    """Tangency of the arcs gives the valley radius that an open library lists, within 0.1 mm."""
    assert valley == pytest.approx(profiles.valley_radius(a, b, tip), abs=0.1)


@pytest.mark.parametrize(("size", "a", "b", "tip", "valley"), BOSL2_RADII)
def test_hexalobular_touches_a_and_b(size, a, b, tip, valley):
    """Sampled along its arcs, the outline reaches A/2 and B/2 and never leaves the ring between."""
    point, pieces = arcs(profiles.hexalobular(a, b, (0, 0)))
    radii = []
    for r, sweep, end in pieces:
        mx, my = (point[0] + end[0]) / 2, (point[1] + end[1]) / 2
        half = hypot(end[0] - point[0], end[1] - point[1]) / 2
        rise = (r * r - half * half) ** 0.5
        ux, uy = -(end[1] - point[1]) / (2 * half), (end[0] - point[0]) / (2 * half)
        way = 1 if sweep == "1" else -1
        cx, cy = mx + ux * rise * way, my + uy * rise * way
        middle = hypot(mx - cx, my - cy)
        radii.append(hypot(cx + (mx - cx) * r / middle, cy + (my - cy) * r / middle))
        radii.append(hypot(*end))
        point = end
    assert 12 == len(pieces)
    assert a / 2 == pytest.approx(max(radii), abs=0.002)
    assert b / 2 == pytest.approx(min(radii), abs=0.002)


def test_regular_is_across_flats():
    """The nearest points of a 13 mm hexagon's sides lie 6.5 mm from its middle."""
    points = [
        tuple(map(float, p.split())) for p in profiles.regular(6, 13, (0, 0)).strip("MZ").split("L")
    ]
    middles = [
        hypot((x + u) / 2, (y + v) / 2)
        for (x, y), (u, v) in zip(points, points[1:] + points[:1], strict=True)
    ]

    assert [6.5] * 6 == pytest.approx(middles, abs=1e-3)


@pytest.mark.parametrize("pitch", [0.5, 1.25, 2.5, 25.4 / 13])
def test_comb_repeats_each_pitch_at_sixty_degrees(pitch):
    """Teeth repeat by P; flanks stand at 60 degrees; depth is 5/8 of H = 0.5413 P (ISO 68-1)."""
    points = [
        tuple(map(float, p.split()))
        for p in profiles.comb(pitch, 20, (0, 10), 1).strip("MZ").split("L")
    ]
    crests = sorted({x for x, y in points if y == min(p[1] for p in points)})
    root, crest = 9.0, min(p[1] for p in points)

    assert pitch == pytest.approx(crests[2] - crests[0], abs=1e-3)
    assert 0.5413 * pitch == pytest.approx(root - crest, abs=1e-3)
    flank = (pitch * 5 / 8) / 2
    assert tan(radians(30)) == pytest.approx(flank / (root - crest), abs=1e-3)


def test_cross_and_blade_have_their_boxes():
    """The outline's box is the span of the wings, or width by thickness."""
    for path, box in (
        (profiles.cross(4.4, 1.47, (0, 0)), (4.4, 4.4)),
        (profiles.rectangle(6.5, 1.2, (0, 0)), (6.5, 1.2)),
    ):
        points = [tuple(map(float, p.split())) for p in path.strip("MZ").split("L")]
        for axis in (0, 1):
            values = [p[axis] for p in points]
            assert box[axis] == pytest.approx(max(values) - min(values), abs=1e-3)


def test_softened_stays_inside_the_sound_hexagon():
    """Wear takes away, so no point lies farther out than the sound corner."""
    corner = 13 / 2 / cos(pi / 6)
    numbers = [float(n) for n in re.findall(r"-?[\d.]+", profiles.softened(6, 13, (0, 0), 0.4))]
    ends = [hypot(x, y) for x, y in zip(numbers[::2], numbers[1::2], strict=True)]

    assert max(ends) <= corner + 1e-3
    assert min(ends) >= 13 / 2 - 1e-3
