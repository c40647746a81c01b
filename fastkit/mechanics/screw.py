"""Screws by the exact wedge, for any lead: power screws, jacks, clamps."""

from math import cos, pi, radians

from fastkit.mechanics.bounds import positive, within
from fastkit.mechanics.tightening import MU_MAX


def screw_torque(
    load_n: float,
    lead_mm: float,
    d2_mm: float,
    mu_thread: float,
    flank_half_angle_deg: float = 30.0,
    lowering: bool = False,
) -> float:
    """
    Torque in the thread alone by the exact wedge, for any lead: F d2/2 tan(phi' ± rho').

    tan rho' = mu/cos alpha, tan phi = lead/(pi d2); + raises the load, - lowers it. The sum of
    *lever_arms* is its first order; here the product of lead angle and friction is kept.

    Args:
        load_n: Axial load F [N], >= 0.
        lead_mm: Lead: pitch times number of starts [mm], > 0.
        d2_mm: Mean (pitch) diameter d2 [mm], > 0.
        mu_thread: Friction coefficient in the thread [-], 0..2.
        flank_half_angle_deg: alpha [deg]; 0 for a square thread.
        lowering: True for the torque that lowers the load; below zero it overhauls.

    Returns:
        Thread torque [N·mm].

    Raises:
        ValueError: When an argument is out of its range, or the thread locks (no finite torque).

    References:
        1. Shigley's Mechanical Engineering Design, 9th ed., eq. (8-1), (8-2), (8-5).

    >>> round(screw_torque(6000.0, 5.0, 22.5, 0.08, 0.0, lowering=True))
    622
    """
    within(load_n, "load_n", 0.0, float("inf"))
    positive(lead_mm, "lead_mm")
    positive(d2_mm, "d2_mm")
    alpha = radians(within(flank_half_angle_deg, "flank_half_angle_deg", 0.0, 60.0))
    rho = within(mu_thread, "mu_thread", 0.0, MU_MAX) / cos(alpha)
    phi = lead_mm / (pi * d2_mm)
    if lowering:
        return load_n * d2_mm / 2 * (rho - phi) / (1 + rho * phi)
    if not rho * phi < 1:
        raise ValueError(
            f"mu_thread must be < {cos(alpha) / phi:g} at this lead, got {mu_thread!r}"
        )
    return load_n * d2_mm / 2 * (rho + phi) / (1 - rho * phi)


def collar_torque(load_n: float, d_km_mm: float, mu_head: float) -> float:
    """
    Torque of the friction under a collar or head, F D_km mu/2.

    Args:
        load_n: Axial load F [N], >= 0.
        d_km_mm: Mean diameter of the collar D_km [mm], >= 0.
        mu_head: Friction coefficient [-], 0..2.

    Returns:
        Collar torque [N·mm].

    Raises:
        ValueError: When an argument is not finite or out of the range stated.

    References:
        1. Shigley's Mechanical Engineering Design, 9th ed., eq. (8-6).

    >>> collar_torque(6000.0, 40.0, 0.05)
    6000.0
    """
    within(load_n, "load_n", 0.0, float("inf"))
    within(d_km_mm, "d_km_mm", 0.0, float("inf"))
    return load_n * d_km_mm * within(mu_head, "mu_head", 0.0, MU_MAX) / 2
