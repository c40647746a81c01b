"""The ring that a head bears on: from head, hole and wrench size records."""

from typing import NamedTuple

from fastkit.mechanics.bearing import hexagon_bearing_diameter, mean_bearing_diameter
from fastkit.records.head import Head

INCH_WASHER_FACE = 0.95  # ASME B18.2.1: washer face, across flats less 10 %, the middle of it
ROUND_HEAD_FACE = 0.95  # practice: edge of a round head broken or drafted, no standard value
HEXAGON_MM = (3.0, 120.0)  # where the ISO rule for hexagons holds


class Seat(NamedTuple):
    """Bearing face of a head on its hole; `rule` says where the diameter comes from."""

    d_w_mm: float
    d_h_mm: float
    cone_half_angle_deg: float  # 90: flat
    rule: str  # printed, iso-rule, inch-rule, round-rule, cone

    @property
    def d_km_mm(self) -> float:
        """Mean bearing diameter [mm]."""
        return mean_bearing_diameter(self.d_w_mm, self.d_h_mm)


def seat(head: Head, hole_mm: float, across_flats_mm: float | None = None) -> Seat | None:
    """
    Bearing face of *head* over a hole.

    Args:
        head: The head.
        hole_mm: Diameter of the hole [mm], > 0.
        across_flats_mm: Width of an outer hexagon [mm]; None: not known, or none.

    Returns:
        The seat; None where nothing is known to compute it from, or the hole swallows the head.
    """
    found = _outside(head, across_flats_mm)
    if found is None or not found[0] > hole_mm:
        return None
    half_cone = 90.0 if head.cone_angle_deg is None else head.cone_angle_deg / 2
    return Seat(found[0], hole_mm, half_cone, found[1])


def _outside(head: Head, across_flats_mm: float | None) -> tuple[float, str] | None:
    if head.bearing_diameter_mm is not None:
        return head.bearing_diameter_mm, "printed"
    if across_flats_mm is not None and head.form in {"hexagon", "nut"}:
        if head.standard.startswith(("ASME", "BS")):
            return INCH_WASHER_FACE * across_flats_mm, "inch-rule"
        low, high = HEXAGON_MM
        if low <= across_flats_mm <= high:
            return hexagon_bearing_diameter(across_flats_mm), "iso-rule"
        return None
    if head.head_diameter_mm is None:
        return None
    if head.cone_angle_deg is not None:
        return head.head_diameter_mm, "cone"
    return ROUND_HEAD_FACE * head.head_diameter_mm, "round-rule"
