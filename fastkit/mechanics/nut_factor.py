"""The nut factor: torque as a share of preload times diameter, and preload as a share of proof."""

from fastkit.mechanics.bounds import positive, within
from fastkit.mechanics.tightening import lever_arms


def nut_factor(
    d_mm: float,
    pitch_mm: float,
    d2_mm: float,
    d_km_mm: float,
    mu_thread: float,
    mu_head: float,
    flank_half_angle_deg: float = 30.0,
    cone_half_angle_deg: float = 90.0,
) -> float:
    """
    Nut factor that the three-term sum implies, K = M_A/(F_M d).

    Args:
        d_mm: Nominal diameter d [mm], > 0.
        pitch_mm: Pitch P [mm], > 0.
        d2_mm: Pitch diameter d2 [mm], > 0.
        d_km_mm: Mean bearing diameter D_km [mm], >= 0.
        mu_thread: Friction coefficient in the thread [-], 0..2.
        mu_head: Friction coefficient under the head [-], 0..2.
        flank_half_angle_deg: alpha [deg].
        cone_half_angle_deg: beta [deg].

    Returns:
        Nut factor K [-].

    Raises:
        ValueError: When an argument is not finite or out of the range stated.

    References:
        1. Shigley's Mechanical Engineering Design, 9th ed., eq. (8-26).

    >>> round(nut_factor(8.0, 1.25, 7.188, 10.35, 0.15, 0.15), 2)
    0.2
    """
    arms = lever_arms(
        pitch_mm, d2_mm, d_km_mm, mu_thread, mu_head, flank_half_angle_deg, cone_half_angle_deg
    )
    return sum(arms) / positive(d_mm, "d_mm")


def torque_by_nut_factor(k: float, d_mm: float, preload_n: float) -> float:
    """
    Tightening torque by the nut factor, T = K d F.

    Args:
        k: Nut factor K [-], > 0.
        d_mm: Nominal diameter d [mm], > 0.
        preload_n: Preload F [N], >= 0.

    Returns:
        Tightening torque T [N·mm].

    Raises:
        ValueError: When an argument is not finite or out of the range stated.

    References:
        1. Shigley's Mechanical Engineering Design, 9th ed., eq. (8-27).

    >>> torque_by_nut_factor(0.2, 10.0, 20000.0)
    40000.0
    """
    within(preload_n, "preload_n", 0.0, float("inf"))
    return positive(k, "k") * positive(d_mm, "d_mm") * preload_n


def proof_preload(proof_mpa: float, area_mm2: float, share: float = 0.75) -> float:
    """
    Preload as a share of the proof load, F_i = share As Sp.

    Args:
        proof_mpa: Proof stress Sp [MPa], > 0.
        area_mm2: Stress area As [mm^2], > 0.
        share: Share of the proof load [-]; 0.75 where the joint comes apart again, 0.9 where not.

    Returns:
        Preload F_i [N].

    Raises:
        ValueError: When an argument is not finite or out of the range stated.

    References:
        1. Shigley's Mechanical Engineering Design, 9th ed., eq. (8-31).

    >>> round(proof_preload(600.0, 561.0))
    252450
    """
    positive(within(share, "share", 0.0, 1.0), "share")
    return positive(proof_mpa, "proof_mpa") * positive(area_mm2, "area_mm2") * share
