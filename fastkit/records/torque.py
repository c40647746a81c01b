"""Torque ranges, materialised when compiling."""

from typing import NamedTuple


class TorqueRow(NamedTuple):
    """Torque range of a thread and grade at one friction condition, with its inputs."""

    TABLE = "torque"

    thread: str
    grade: str
    friction: str
    mu_min: float
    mu_mid: float
    mu_max: float
    utilisation_pct: float
    bearing_diameter_mm: float
    hole_mm: float
    wrench_error_pct: float
    torque_min_nm: float | None
    torque_nm: float
    torque_max_nm: float
    preload_n: float
