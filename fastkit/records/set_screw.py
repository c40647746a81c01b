"""Screws that do not clamp: set screws by their socket, tapping screws, spark plugs."""

from typing import NamedTuple


class SetScrewTorque(NamedTuple):
    """Proof torque of a set screw with hexagon socket."""

    TABLE = "set_screw_torque"

    size: str  # M8: of the thread
    grade: str  # 45H
    proof_torque_nm: float
    source: str
    locator: str
    checked: str


class TappingTorque(NamedTuple):
    """Torque at which a tapping screw twists off at the earliest."""

    TABLE = "tapping_torque"

    thread: str  # ST4.8
    breaking_nm: float
    source: str
    locator: str
    checked: str


class PlugTorque(NamedTuple):
    """Torque of a spark plug as one publication gives it."""

    TABLE = "plug_torque"

    thread: str  # plug-M14x1.25
    seat: str  # flat, conical
    head: str  # metal of the cylinder head
    torque_min_nm: float
    torque_max_nm: float
    source: str
    locator: str
    checked: str


class PlugTurn(NamedTuple):
    """Turn of a spark plug after finger tight."""

    TABLE = "plug_turn"

    seat: str
    turn: str
    note: str
    source: str
    locator: str
    checked: str
