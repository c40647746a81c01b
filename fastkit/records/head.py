"""Heads and nuts by standard and thread size."""

from typing import NamedTuple


class Head(NamedTuple):
    """One head (or nut) of one standard and size."""

    TABLE = "head"

    id: str  # ISO-4762-M6
    standard: str  # ISO 4762
    form: str  # hexagon, socket, flange, countersunk, button, pan, cheese, nut, set-screw
    size: str  # M6
    drive: str | None
    head_diameter_mm: float | None  # outside: across corners for a hexagon
    head_height_mm: float | None
    bearing_diameter_mm: float | None
    cone_angle_deg: float | None  # included angle of a countersunk head
    source: str
    locator: str
    checked: str
