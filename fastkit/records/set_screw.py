"""Set screws: what their sockets are proved to carry."""

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
