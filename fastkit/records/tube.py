"""Tube fittings with a flare: what belongs together, and what never does."""

from typing import NamedTuple


class Tube(NamedTuple):
    """One tube nut: tube, thread, flare."""

    TABLE = "tube"

    id: str  # 3/16in-inverted, 4.75mm-iso
    title: str
    form: str  # inverted, iso, jis, flare-45, flare-37
    tube_mm: float  # outer diameter
    thread: str  # 3/8-24, M10x1
    thread_mm: float  # outer diameter
    pitch_mm: float
    source: str
    locator: str
    checked: str


class TubeNutHex(NamedTuple):
    """Hexagon of a tube nut; there may be several in the trade."""

    TABLE = "tube_nut_hex"

    tube: str
    hexagon: str  # 3/8in, 11mm
    across_flats_mm: float
    source: str
    locator: str
    checked: str


class TubeTorque(NamedTuple):
    """Torque of a tube nut as one publication gives it."""

    TABLE = "tube_torque"

    tube: str
    torque_min_nm: float
    torque_max_nm: float
    note: str | None
    source: str
    locator: str
    checked: str


class TubeForm(NamedTuple):
    """A form of flare."""

    TABLE = "tube_form"

    id: str
    title: str
    flare_deg: float | None  # angle of the flare to the tube's axis
    seat_deg: float | None
    shape: str
    source: str
    locator: str
    checked: str


class TubeMismatch(NamedTuple):
    """Two things that look alike and never mate."""

    TABLE = "tube_mismatch"

    form: str
    never: str  # the other form or thread
    because: str
    source: str
    locator: str
    checked: str


class TubeCaution(NamedTuple):
    """A caution that stands with every tube fitting."""

    TABLE = "tube_caution"

    n: int
    text: str
    source: str
    locator: str
    checked: str
