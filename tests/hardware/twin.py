"""
Strip strength of a thread by summing small patches of the cylinder it shears on.

Shares nothing with the package: limits of size are typed from printed tables, the profile is drawn
as corner points, and whether a patch lies in metal is asked of the drawing.
"""

from math import pi, tau
from typing import NamedTuple

PATCHES = 2000  # along one pitch
STEPS = 24  # round the circumference
CHAMFER_P = 0.8


class Pair(NamedTuple):
    """Least overlap of two engaged threads [mm]."""

    pitch: float
    screw_d: float  # least major diameter outside
    hole_d2: float  # largest pitch diameter inside
    hole_d1: float  # largest minor diameter inside
    screw_d2: float  # least pitch diameter outside


# ISO 965-2, 6g and 6H, as printed
M6 = Pair(1.0, 5.794, 5.500, 5.153, 5.212)
M8 = Pair(1.25, 7.760, 7.348, 6.912, 7.042)
M10 = Pair(1.5, 9.732, 9.206, 8.676, 8.862)
# ASME B1.1, 2A and 2B, as printed [in]
UNC516 = Pair(25.4 / 18, 0.3026 * 25.4, 0.2817 * 25.4, 0.265 * 25.4, 0.2712 * 25.4)
# the hole of a wire insert: tap of d + 1.299 P, pitch diameter d + 0.6495 P with the 6H tolerance
M6_WIRE = M6._replace(screw_d=7.299, hole_d2=6.650 + 0.150)
M8_WIRE = M8._replace(screw_d=9.624, hole_d2=8.812 + 0.160)


def _inside(axial: float, pitch: float, at: float, reference: float, sign: int) -> bool:
    """
    Whether a point of the profile lies in metal: a ridge P/2 wide at *reference* diameter,
    its flanks 30 degrees to the radius, wider (sign 1) or narrower (-1) outwards.
    """
    slope = 0.5773502691896258
    half = pitch / 4 + sign * (at - reference) / 2 * slope
    return abs(axial - pitch / 2) <= half


def area(pair: Pair, length: float, internal: bool) -> float:
    """Metal on the shear cylinder over *length* [mm^2]."""
    at, reference, sign = (
        (pair.screw_d, pair.hole_d2, 1) if internal else (pair.hole_d1, pair.screw_d2, -1)
    )
    patch = pair.pitch / PATCHES
    metal = 0
    for step in range(STEPS):
        start = pair.pitch * step / STEPS
        for number in range(PATCHES):
            axial = (start + (number + 0.5) * patch) % pair.pitch
            metal += _inside(axial, pair.pitch, at, reference, sign)
    share = metal / (STEPS * PATCHES)
    return share * length * at / 2 * tau


def strengths(
    pair: Pair, length: float, hole_mpa: float, screw_mpa: float, body: Pair | None = None
) -> tuple[float, float]:
    """Force that strips the hole's thread and the screw's [N]; *body*: the insert's own hole."""
    carried = length - CHAMFER_P * pair.pitch
    hole = hole_mpa * area(body or pair, carried, internal=True)
    screw = screw_mpa * area(pair, carried, internal=False)
    ratio = min(max(hole / screw, 0.4), 2.2)
    if ratio <= 1:
        c2, c3 = 0.897, 0.728 + ratio * (1.769 + ratio * (-2.896 + ratio * 1.296))
    else:
        c3 = 0.897
        c2 = 5.594 + ratio * (-13.682 + ratio * (14.107 + ratio * (-6.057 + ratio * 0.9353)))
    return c3 * hole, c2 * screw


def tensile(pitch: float, d: float, mpa: float) -> float:
    """Force that breaks the screw [N]: ISO 898-1, As = pi/4 (d - 0.9382 P)^2."""
    return mpa * pi / 4 * (d - 0.9382 * pitch) ** 2
