"""Threads: basic sizes, tap drills, clearance holes."""

from typing import NamedTuple


class Thread(NamedTuple):
    """
    One thread, basic dimensions in mm.

    `pitch_diameter_mm` to `stress_area_mm2` are computed from diameter and pitch when compiling
    (ISO 724, ASME B1.1); `checked` is that of the hand-kept cells (diameter and pitch).
    """

    TABLE = "thread"

    id: str  # M8x1.25, 1/4-20-UNC
    family: str  # M, UN
    series: str  # coarse, fine, UNC, UNF …
    size: str  # M8, 1/4, #10: the key of clearance holes and heads
    nominal_mm: float
    pitch_mm: float
    tpi: float | None
    flank_angle_deg: float  # between the flanks: 60
    pitch_diameter_mm: float  # d2
    minor_mm: float  # D1, internal
    root_mm: float  # d3, external
    stress_area_mm2: float
    source: str
    locator: str
    checked: str


class TapDrill(NamedTuple):
    """Drill for cutting an internal thread."""

    TABLE = "tap_drill"

    thread: str
    drill_mm: float
    drill_name: str | None  # inch drill as the trade names it: #7, 5/16
    source: str
    locator: str
    checked: str


class ClearanceHole(NamedTuple):
    """Clearance holes of a thread size, three fits."""

    TABLE = "clearance_hole"

    size: str
    close_mm: float
    medium_mm: float
    coarse_mm: float
    source: str
    locator: str
    checked: str
