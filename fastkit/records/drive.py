"""Drives: geometry, keys and bits, what they are proved to carry."""

from typing import NamedTuple


class DriveSystem(NamedTuple):
    """A family of drives that one form of tool turns."""

    TABLE = "drive_system"

    id: str  # hexalobular, external-hexalobular, hex-socket, hexagon, cross-h …
    title: str
    external: int  # 1: driven from outside
    symmetry_deg: float  # angle after which the tool fits again
    source: str
    locator: str
    checked: str


class Drive(NamedTuple):
    """One drive size; a dimension that the form does not have is None."""

    TABLE = "drive"

    id: str  # T20, E8, PH2, PZ2, SQ2, hex-5mm, hex-7/32in, AF-13mm, slot-6.5x1.2
    # hexalobular, external-hexalobular, hex-socket, hexagon, cross-h, cross-z, square, slot …
    system: str
    size: str
    external: int  # 1: driven from outside
    symmetry_deg: float  # angle after which the tool fits again: 60, 90, 180
    across_flats_mm: float | None  # nominal: hex, square
    across_flats_min_mm: float | None
    across_flats_max_mm: float | None
    across_points_mm: float | None  # A of a hexalobular; corners of a hexagon or square
    across_valleys_mm: float | None  # B of a hexalobular
    wing_mm: float | None  # wing width of a cross recess (b)
    depth_mm: float | None  # reference depth of the recess
    source: str
    locator: str
    checked: str


class DriveTorque(NamedTuple):
    """Proof or test torque of a tool that turns the drive."""

    TABLE = "drive_torque"

    drive: str
    tool: str  # key, bit, blade, open wrench, ring wrench, socket
    proof_torque_nm: float
    source: str
    locator: str
    checked: str


class KeyArm(NamedTuple):
    """Arms of an L-shaped key."""

    TABLE = "key_arm"

    drive: str
    short_arm_mm: float
    long_arm_mm: float
    source: str
    locator: str
    checked: str


class DrivePin(NamedTuple):
    """Hole that a tool needs for the pin in a tamper-resistant recess."""

    TABLE = "drive_pin"

    drive: str
    hole_mm: float
    source: str
    locator: str
    checked: str


class WrenchOpening(NamedTuple):
    """Limits of the opening of a wrench for an inch hexagon."""

    TABLE = "wrench_opening"

    drive: str
    opening_min_in: float
    opening_max_in: float
    source: str
    locator: str
    checked: str


class CrossTip(NamedTuple):
    """How thick the tip of a cross bit is."""

    TABLE = "cross_tip"

    drive: str  # PH2
    tip_mm: float  # g
    source: str
    locator: str
    checked: str
