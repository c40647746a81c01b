"""Hardware beside bolts and nuts: rings, studs, points of set screws, rivet nuts, wheel seats."""

from typing import NamedTuple


class Hardware(NamedTuple):
    """One piece of hardware."""

    TABLE = "hardware"

    id: str  # DIN-471-20, rivet-nut-M6, wheel-cone-60
    family: str  # retaining ring, shaft; stud; rivet nut …
    title: str
    thread: str | None  # size of the thread, M6
    source: str
    locator: str
    checked: str


class HardwareDim(NamedTuple):
    """One dimension of a piece of hardware: a value, or limits."""

    TABLE = "hardware_dim"

    hardware: str
    dimension: str  # groove_diameter, thickness, hole, grip …
    value_mm: float | None
    low_mm: float | None
    high_mm: float | None
    source: str
    locator: str
    checked: str
