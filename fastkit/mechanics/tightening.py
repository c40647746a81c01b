"""Torque and preload: the three-term sum, von Mises utilisation, nut factor, wrench."""

from math import cos, pi, radians, sin, sqrt

from fastkit.mechanics.bounds import positive, within

# ISO 286-1, Table 1: upper end of the size range, IT13, IT14, IT15, IT16 [mm]
IT = (
    (3.0, 0.14, 0.25, 0.40, 0.60),
    (6.0, 0.18, 0.30, 0.48, 0.75),
    (10.0, 0.22, 0.36, 0.58, 0.90),
    (18.0, 0.27, 0.43, 0.70, 1.10),
    (30.0, 0.33, 0.52, 0.84, 1.30),
    (50.0, 0.39, 0.62, 1.00, 1.60),
    (80.0, 0.46, 0.74, 1.20, 1.90),
    (120.0, 0.54, 0.87, 1.40, 2.20),
)
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


def mean_bearing_diameter(d_w_mm: float, d_h_mm: float) -> float:
    """
    Mean diameter of the ring that the head bears on, D_km = (d_w + d_h)/2.

    Args:
        d_w_mm: Outside diameter of the bearing face d_w [mm], > 0.
        d_h_mm: Diameter of the hole d_h [mm], > 0 and below d_w.

    Returns:
        Mean bearing diameter D_km [mm].

    Raises:
        ValueError: When an argument is not positive, or the hole not below the bearing face.

    References:
        1. VDI 2230-1:2015, symbol DKm and Table A1.

    >>> mean_bearing_diameter(11.7, 9.0)
    10.35
    """
    _ring(d_w_mm, d_h_mm)
    return (d_w_mm + d_h_mm) / 2


def _ring(d_w_mm: float, d_h_mm: float) -> None:
    positive(d_w_mm, "d_w_mm")
    positive(d_h_mm, "d_h_mm")
    if not d_h_mm < d_w_mm:
        raise ValueError(f"d_h_mm must be < d_w_mm {d_w_mm:g}, got {d_h_mm!r}")


def bearing_pressure(preload_n: float, d_w_mm: float, d_h_mm: float) -> float:
    """
    Pressure under head, nut or washer, p = F/(pi/4 (d_w^2 - d_h^2)).

    Args:
        preload_n: Force F [N], >= 0.
        d_w_mm: Outside diameter of the bearing face d_w [mm], > 0.
        d_h_mm: Diameter of the hole d_h [mm], > 0 and below d_w.

    Returns:
        Pressure p [MPa].

    Raises:
        ValueError: When an argument is out of its range, or the hole not below the bearing face.

    References:
        1. VDI 2230-1:2015, eq. (R10/1), flat bearing face.

    >>> round(bearing_pressure(18600, 11.7, 9.0))
    424
    """
    within(preload_n, "preload_n", 0.0, float("inf"))
    _ring(d_w_mm, d_h_mm)
    return preload_n / (pi / 4 * (d_w_mm**2 - d_h_mm**2))


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


def wrench_setting(
    torque_nmm: float, wrench_mm: float, adapter_mm: float, angle_deg: float = 0.0
) -> float:
    """
    Scale setting of a torque wrench behind an adapter, T L/(L + A cos theta).

    Symbols: L, middle of the grip to the wrench's own square; A, that square to the fastener;
    theta, angle of the adapter off the handle's line (0 lengthens, 90 leaves, 180 shortens).

    Args:
        torque_nmm: Torque wanted at the fastener T [N·mm], >= 0.
        wrench_mm: Effective length L [mm], > 0.
        adapter_mm: Length of the adapter A [mm], >= 0.
        angle_deg: theta [deg], -180..180.

    Returns:
        Setting of the scale [N·mm].

    Raises:
        ValueError: When an argument is out of its range, or the lever comes out at zero or less.

    References:
        1. US Army TM 9-254, torque wrenches with extensions (cosine of the angle).

    >>> round(wrench_setting(40.0, 12.0, 4.0), 1)
    30.0
    """
    within(torque_nmm, "torque_nmm", 0.0, float("inf"))
    positive(wrench_mm, "wrench_mm")
    within(adapter_mm, "adapter_mm", 0.0, float("inf"))
    theta = radians(within(angle_deg, "angle_deg", -180.0, 180.0))
    lever = wrench_mm + adapter_mm * cos(theta)
    if not lever > 0:
        bound = -wrench_mm / cos(theta)
        raise ValueError(f"adapter_mm must be < {bound:g} at {angle_deg:g} deg, got {adapter_mm!r}")
    return torque_nmm * wrench_mm / lever


def hexagon_bearing_diameter(across_flats_mm: float) -> float:
    """
    Least bearing diameter of a hexagon head or nut, from its across-flats size.

    d_w = s_min - IT16 below 21 mm, 0.95 s_min from there. Product grade A up to 36 mm across flats
    (M24): s_min = s - IT13 up to 30 mm, s - IT14 above; grade B from there: s - IT15 up to 60 mm,
    s - IT16 above.

    Args:
        across_flats_mm: Nominal width across flats s [mm], 3..120.

    Returns:
        Bearing diameter d_w,min [mm].

    Raises:
        ValueError: When *across_flats_mm* is out of range.

    References:
        1. ISO 4759-1:2000, across flats and bearing face of product grades A and B.
        2. ISO 286-1:2010, Table 1, standard tolerance IT13 to IT16.

    >>> round(hexagon_bearing_diameter(13.0), 2), round(hexagon_bearing_diameter(24.0), 2)
    (11.63, 22.49)
    """
    s = within(across_flats_mm, "across_flats_mm", 3.0, 120.0)
    it13, it14, it15, it16 = next(row[1:] for row in IT if s <= row[0])
    tolerance = (it13 if s <= 30 else it14) if s <= 36 else (it15 if s <= 60 else it16)
    s_min = s - tolerance
    return 0.95 * s_min if s >= 21 else s_min - it16
