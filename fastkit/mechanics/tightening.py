"""Torque and preload: the three-term sum and von Mises utilisation."""

from math import cos, pi, radians, sin, sqrt

from fastkit.mechanics.bounds import positive, within

MU_MAX = 2.0  # above this no published friction value lies; a typing error


def lever_arms(
    pitch_mm: float,
    d2_mm: float,
    d_km_mm: float,
    mu_thread: float,
    mu_head: float,
    flank_half_angle_deg: float = 30.0,
    cone_half_angle_deg: float = 90.0,
) -> tuple[float, float, float]:
    """
    Torque per unit of preload, term by term: helix, thread friction, head friction.

    P/(2 pi), d2 mu_thread/(2 cos alpha), D_km mu_head/(2 sin beta). Symbols: alpha, half the flank
    angle; beta, half the angle of the bearing cone; D_km, mean bearing diameter. The sum drops the
    product of lead angle and friction, under 1 % for fastening threads (lead angle below 5 deg).

    Args:
        pitch_mm: Pitch P [mm], > 0.
        d2_mm: Pitch diameter d2 [mm], > 0.
        d_km_mm: Mean bearing diameter D_km under head or nut [mm], >= 0 (0: none turns there).
        mu_thread: Friction coefficient in the thread [-], 0..2.
        mu_head: Friction coefficient under the head [-], 0..2.
        flank_half_angle_deg: alpha [deg]; 30 for 60-degree threads, 27.5 for Whitworth.
        cone_half_angle_deg: beta [deg]; 90 flat, 45 for a 90-degree countersunk head.

    Returns:
        The three lever arms [mm].

    Raises:
        ValueError: When an argument is not finite or out of the range stated.

    References:
        1. VDI 2230-1:2015, eq. (R13/1); ISO 16047:2005, clause 8.

    >>> [round(x, 3) for x in lever_arms(1.25, 7.188, 10.35, 0.12, 0.12)]
    [0.199, 0.498, 0.621]
    """
    positive(pitch_mm, "pitch_mm")
    positive(d2_mm, "d2_mm")
    within(d_km_mm, "d_km_mm", 0.0, float("inf"))
    within(mu_thread, "mu_thread", 0.0, MU_MAX)
    within(mu_head, "mu_head", 0.0, MU_MAX)
    alpha = radians(within(flank_half_angle_deg, "flank_half_angle_deg", 0.0, 60.0))
    beta = radians(within(cone_half_angle_deg, "cone_half_angle_deg", 10.0, 90.0))
    return (
        pitch_mm / (2 * pi),
        d2_mm * mu_thread / (2 * cos(alpha)),
        d_km_mm * mu_head / (2 * sin(beta)),
    )


def torque(
    preload_n: float,
    pitch_mm: float,
    d2_mm: float,
    d_km_mm: float,
    mu_thread: float,
    mu_head: float,
    flank_half_angle_deg: float = 30.0,
    cone_half_angle_deg: float = 90.0,
) -> float:
    """
    Tightening torque: preload times the sum of the three lever arms (see *lever_arms*).

    M_A = F_M (P/(2 pi) + d2 mu_thread/(2 cos alpha) + D_km mu_head/(2 sin beta)).

    Args:
        preload_n: Assembly preload F_M [N], >= 0.
        pitch_mm: Pitch P [mm], > 0.
        d2_mm: Pitch diameter d2 [mm], > 0.
        d_km_mm: Mean bearing diameter D_km [mm], >= 0.
        mu_thread: Friction coefficient in the thread [-], 0..2.
        mu_head: Friction coefficient under the head [-], 0..2.
        flank_half_angle_deg: alpha [deg].
        cone_half_angle_deg: beta [deg].

    Returns:
        Tightening torque M_A [N·mm].

    Raises:
        ValueError: When an argument is not finite or out of the range stated.

    References:
        1. VDI 2230-1:2015, eq. (R13/1); ISO 16047:2005, clause 8.

    >>> round(torque(18600, 1.25, 7.188, 10.35, 0.12, 0.12))  # M8 class 8.8: 24.6 N·m in Table A1
    24514
    """
    within(preload_n, "preload_n", 0.0, float("inf"))
    return preload_n * sum(
        lever_arms(
            pitch_mm, d2_mm, d_km_mm, mu_thread, mu_head, flank_half_angle_deg, cone_half_angle_deg
        )
    )


def breakaway(
    preload_n: float,
    pitch_mm: float,
    d2_mm: float,
    d_km_mm: float,
    mu_thread: float,
    mu_head: float,
    flank_half_angle_deg: float = 30.0,
    cone_half_angle_deg: float = 90.0,
) -> float:
    """
    Loosening torque: the tightening sum with the sign of the helix term turned.

    Takes the friction of rest, which lies above that of tightening. Below zero the thread is not
    self-locking and turns loose by itself.

    Args:
        preload_n: Preload still there [N], >= 0.
        pitch_mm: Pitch P [mm], > 0.
        d2_mm: Pitch diameter d2 [mm], > 0.
        d_km_mm: Mean bearing diameter D_km [mm], >= 0; 0 once the head is off.
        mu_thread: Friction coefficient of rest in the thread [-], 0..2.
        mu_head: Friction coefficient of rest under the head [-], 0..2.
        flank_half_angle_deg: alpha [deg].
        cone_half_angle_deg: beta [deg].

    Returns:
        Torque that loosens [N·mm].

    Raises:
        ValueError: When an argument is not finite or out of the range stated.

    References:
        1. VDI 2230-1:2015, section 5.4.3 (loosening torque), helix term negative.

    >>> round(breakaway(18600, 1.25, 7.188, 10.35, 0.12, 0.12))
    17113
    """
    within(preload_n, "preload_n", 0.0, float("inf"))
    helix, thread, head = lever_arms(
        pitch_mm, d2_mm, d_km_mm, mu_thread, mu_head, flank_half_angle_deg, cone_half_angle_deg
    )
    return preload_n * (thread + head - helix)


def preload(
    torque_nmm: float,
    pitch_mm: float,
    d2_mm: float,
    d_km_mm: float,
    mu_thread: float,
    mu_head: float,
    flank_half_angle_deg: float = 30.0,
    cone_half_angle_deg: float = 90.0,
) -> float:
    """
    Preload that a torque gives: the tightening sum turned about.

    Args:
        torque_nmm: Tightening torque M_A, prevailing torque taken off [N·mm], >= 0.
        pitch_mm: Pitch P [mm], > 0.
        d2_mm: Pitch diameter d2 [mm], > 0.
        d_km_mm: Mean bearing diameter D_km [mm], >= 0.
        mu_thread: Friction coefficient in the thread [-], 0..2.
        mu_head: Friction coefficient under the head [-], 0..2.
        flank_half_angle_deg: alpha [deg].
        cone_half_angle_deg: beta [deg].

    Returns:
        Preload F_M [N].

    Raises:
        ValueError: When an argument is not finite or out of the range stated.

    References:
        1. VDI 2230-1:2015, eq. (R13/1); ISO 16047:2005, clause 8.

    >>> round(preload(24514, 1.25, 7.188, 10.35, 0.12, 0.12), -2)
    18600.0
    """
    within(torque_nmm, "torque_nmm", 0.0, float("inf"))
    return torque_nmm / sum(
        lever_arms(
            pitch_mm, d2_mm, d_km_mm, mu_thread, mu_head, flank_half_angle_deg, cone_half_angle_deg
        )
    )


def _torsion_over_tension(
    d_s_mm: float, pitch_mm: float, d2_mm: float, mu_thread: float, flank_half_angle_deg: float
) -> float:
    """Shear stress of the thread torque over tensile stress, plastic section pi d_s^3/12."""
    positive(d_s_mm, "d_s_mm")
    helix, thread, _ = lever_arms(pitch_mm, d2_mm, 0.0, mu_thread, 0.0, flank_half_angle_deg)
    return 3 * (helix + thread) / d_s_mm  # (M_G/(pi d_s^3/12)) / (F/(pi d_s^2/4)), eq. (R8/3)


def preload_at_utilisation(
    yield_mpa: float,
    utilisation: float,
    d_s_mm: float,
    pitch_mm: float,
    d2_mm: float,
    mu_thread: float,
    flank_half_angle_deg: float = 30.0,
) -> float:
    """
    Preload at which tension and tightening torsion together reach a share of yield (von Mises).

    F_M = As nu Rp / sqrt(1 + 3 (3/2 d2/d_s (P/(pi d2) + mu_thread/cos alpha))^2).

    Args:
        yield_mpa: Yield strength Rp0.2 or ReL [MPa], > 0.
        utilisation: Share nu of yield [-], above 0, up to 2 (0.9 in the tables).
        d_s_mm: Diameter of the stress area d_s [mm], > 0.
        pitch_mm: Pitch P [mm], > 0.
        d2_mm: Pitch diameter d2 [mm], > 0.
        mu_thread: Friction coefficient in the thread [-], 0..2.
        flank_half_angle_deg: alpha [deg].

    Returns:
        Preload F_M [N].

    Raises:
        ValueError: When an argument is not finite or out of the range stated.

    References:
        1. VDI 2230-1:2015, eq. (R8/4) and Table A1.

    >>> round(preload_at_utilisation(640, 0.9, 6.827, 1.25, 7.188, 0.12), -2)
    18600.0
    """
    positive(yield_mpa, "yield_mpa")
    positive(within(utilisation, "utilisation", 0.0, 2.0), "utilisation")
    k = _torsion_over_tension(d_s_mm, pitch_mm, d2_mm, mu_thread, flank_half_angle_deg)
    return pi / 4 * d_s_mm**2 * utilisation * yield_mpa / sqrt(1 + 3 * k**2)


def equivalent_stress(
    preload_n: float,
    d_s_mm: float,
    pitch_mm: float,
    d2_mm: float,
    mu_thread: float,
    flank_half_angle_deg: float = 30.0,
) -> float:
    """
    Von Mises stress in the thread while it is tightened: *preload_at_utilisation* turned about.

    Args:
        preload_n: Preload F_M [N], >= 0.
        d_s_mm: Diameter of the stress area d_s [mm], > 0.
        pitch_mm: Pitch P [mm], > 0.
        d2_mm: Pitch diameter d2 [mm], > 0.
        mu_thread: Friction coefficient in the thread [-], 0..2.
        flank_half_angle_deg: alpha [deg].

    Returns:
        Equivalent stress sigma_red,M [MPa].

    Raises:
        ValueError: When an argument is not finite or out of the range stated.

    References:
        1. VDI 2230-1:2015, eq. (R8/1) to (R8/3).

    >>> round(equivalent_stress(18600, 6.827, 1.25, 7.188, 0.12) / 640, 2)
    0.9
    """
    within(preload_n, "preload_n", 0.0, float("inf"))
    k = _torsion_over_tension(d_s_mm, pitch_mm, d2_mm, mu_thread, flank_half_angle_deg)
    return preload_n / (pi / 4 * d_s_mm**2) * sqrt(1 + 3 * k**2)
