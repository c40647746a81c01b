"""Electrical ground joints: resistance, voltage drop, torque, how to make one."""

from typing import NamedTuple


class GroundLimit(NamedTuple):
    """What a ground or cable joint may have at most."""

    TABLE = "ground_limit"

    joint: str  # aircraft-bond, starter-circuit
    title: str
    part: str
    resistance_max_ohm: float | None
    drop_max_v: float | None
    source: str
    locator: str
    checked: str


class GroundTorque(NamedTuple):
    """Torque of a bolt that carries a ground lug."""

    TABLE = "ground_torque"

    joint: str
    size: str
    torque_min_nm: float
    torque_max_nm: float | None
    source: str
    locator: str
    checked: str


class GroundNote(NamedTuple):
    """A sentence on making a ground joint."""

    TABLE = "ground_note"

    joint: str
    topic: str
    text: str
    source: str
    locator: str
    checked: str
