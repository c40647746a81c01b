"""Stretch: elastic compliance of bolt and clamped parts, turning angle, elongation."""

from math import inf, log, pi, radians, tan

from fastkit.mechanics.bounds import positive, within

STEEL_MPA = 205_000.0  # VDI 2230-1: modulus of elasticity of bolt steel


def bolt_compliance(
    d_mm: float,
    root_mm: float,
    shank_mm: float,
    free_thread_mm: float,
    head_share: float = 0.5,
    engaged_share: float = 0.4,
    modulus_mpa: float = STEEL_MPA,
    body_modulus_mpa: float = STEEL_MPA,
) -> float:
    """
    Elastic compliance of a bolt: head, shank, free thread, engaged thread and nut in series.

    delta_S = (0.5 d + l1)/(E A_N) + (l_Gew + 0.5 d)/(E A_d3) + 0.4 d/(E_M A_N); A_N, area of d;
    A_d3, area of the root. Head 0.5 d for a hexagon, 0.4 d for a socket head; the last term 0.4 d
    for a nut, 0.33 d for a tapped body.

    Args:
        d_mm: Nominal diameter d [mm], > 0.
        root_mm: Root diameter d3 [mm], > 0 and below d.
        shank_mm: Length of plain shank in the grip l1 [mm], >= 0.
        free_thread_mm: Length of thread in the grip that is not engaged l_Gew [mm], >= 0.
        head_share: Substitute length of the head over d [-], 0..1.
        engaged_share: Substitute length of nut or tapped body over d [-], 0..1.
        modulus_mpa: Modulus of the bolt E [MPa], > 0.
        body_modulus_mpa: Modulus of nut or tapped body E_M [MPa], > 0.

    Returns:
        Compliance delta_S [mm/N].

    Raises:
        ValueError: When an argument is out of its range.

    References:
        1. VDI 2230-1:2015, clause 5.1.1, eq. (R3/2).

    >>> round(1e6 * bolt_compliance(10.0, 8.16, 20.0, 10.0), 2)
    3.2
    """
    d, d3 = positive(d_mm, "d_mm"), positive(root_mm, "root_mm")
    within(d3, "root_mm", 0.0, d)
    within(shank_mm, "shank_mm", 0.0, inf)
    within(free_thread_mm, "free_thread_mm", 0.0, inf)
    area, root = pi / 4 * d**2, pi / 4 * d3**2
    e = positive(modulus_mpa, "modulus_mpa")
    head = within(head_share, "head_share", 0.0, 1.0) * d
    nut = within(engaged_share, "engaged_share", 0.0, 1.0) * d
    return (
        (head + shank_mm) / (e * area)
        + (free_thread_mm + 0.5 * d) / (e * root)
        + nut / (positive(body_modulus_mpa, "body_modulus_mpa") * area)
    )


def cone_slope(grip_mm: float, d_w_mm: float, outside_mm: float, tapped: bool = False) -> float:
    """
    Slope of the cone over which a clamped part carries the load, tan phi.

    Through bolt: 0.362 + 0.032 ln(beta/2) + 0.153 ln y; tapped: 0.348 + 0.013 ln beta + 0.193 ln y,
    with beta = l_K/d_w and y = D_A/d_w.

    Args:
        grip_mm: Clamped length l_K [mm], > 0.
        d_w_mm: Outside of the bearing face d_w [mm], > 0.
        outside_mm: Outside of the clamped part D_A [mm], at least d_w.
        tapped: True where the bolt is screwed into the body.

    Returns:
        tan phi [-].

    Raises:
        ValueError: When an argument is out of its range.

    References:
        1. VDI 2230-1:2003, eq. (5.1/27) and (5.1/28).

    >>> round(cone_slope(30.0, 15.0, 45.0), 3)
    0.53
    """
    beta = positive(grip_mm, "grip_mm") / positive(d_w_mm, "d_w_mm")
    y = within(outside_mm, "outside_mm", d_w_mm, inf) / d_w_mm
    if tapped:
        return 0.348 + 0.013 * log(beta) + 0.193 * log(y)
    return 0.362 + 0.032 * log(beta / 2) + 0.153 * log(y)


def parts_compliance(
    d_w_mm: float,
    d_h_mm: float,
    grip_mm: float,
    modulus_mpa: float,
    outside_mm: float | None = None,
    tapped: bool = False,
) -> float:
    """
    Elastic compliance of clamped parts of one material: deformation cones, sleeve between them.

    Args:
        d_w_mm: Outside of the bearing face d_w [mm], > d_h.
        d_h_mm: Diameter of the hole d_h [mm], > 0.
        grip_mm: Clamped length l_K [mm], > 0.
        modulus_mpa: Modulus of the parts E_P [MPa], > 0.
        outside_mm: Outside of the parts D_A [mm], at least d_w; None: wider than the cones.
        tapped: True where the bolt is screwed into the last part (one cone in place of two).

    Returns:
        Compliance delta_P [mm/N].

    Raises:
        ValueError: When an argument is out of its range.

    References:
        1. VDI 2230-1:2003, clause 5.1.2.1, eq. (5.1/24) and (5.1/25).

    >>> round(1e6 * parts_compliance(15.3, 11.0, 30.0, 205000.0), 2)
    0.62
    """
    positive(d_h_mm, "d_h_mm")
    if not positive(d_w_mm, "d_w_mm") > d_h_mm:
        raise ValueError(f"d_w_mm must be > d_h_mm {d_h_mm:g}, got {d_w_mm!r}")
    length, e = positive(grip_mm, "grip_mm"), positive(modulus_mpa, "modulus_mpa")
    cones = 2.0 if tapped else 1.0  # w
    if outside_mm is None:
        outside = 3 * d_w_mm
        for _ in range(30):  # the part just as wide as its own cone
            outside = d_w_mm + cones * length * cone_slope(length, d_w_mm, outside, tapped)
        slope = cone_slope(length, d_w_mm, outside, tapped)
    else:
        outside = outside_mm
        slope = cone_slope(length, d_w_mm, outside, tapped)
    outside = min(outside, d_w_mm + cones * length * slope)
    in_cone = 2 / (cones * d_h_mm * slope) * _spread(d_w_mm, outside, d_h_mm)
    sleeve = 4 / (outside**2 - d_h_mm**2) * (length - (outside - d_w_mm) / (cones * slope))
    return (in_cone + sleeve) / (e * pi)


def _spread(small_mm: float, large_mm: float, hole_mm: float) -> float:
    return log(
        (small_mm + hole_mm) * (large_mm - hole_mm) / ((small_mm - hole_mm) * (large_mm + hole_mm))
    )


def frustum_stiffness(
    modulus_mpa: float, d_mm: float, small_mm: float, thickness_mm: float, half_deg: float = 30.0
) -> float:
    """
    Stiffness of one conical frustum of a clamped part about a bolt.

    k = pi E d tan a/ln[((2 t tan a + D - d)(D + d))/((2 t tan a + D + d)(D - d))].

    Args:
        modulus_mpa: Modulus E [MPa], > 0.
        d_mm: Bolt (and hole) diameter d [mm], > 0.
        small_mm: Smaller diameter of the frustum D [mm], > d.
        thickness_mm: Thickness t [mm], > 0.
        half_deg: Half angle of the cone a [deg], 20..45.

    Returns:
        Stiffness k [N/mm].

    Raises:
        ValueError: When an argument is out of its range.

    References:
        1. Shigley's Mechanical Engineering Design, 9th ed., eq. (8-19), (8-20).

    >>> round(frustum_stiffness(207000.0, 12.0, 18.0, 26.5) / 1e6, 2)
    4.08
    """
    slope = tan(radians(within(half_deg, "half_deg", 20.0, 45.0)))
    if not positive(small_mm, "small_mm") > positive(d_mm, "d_mm"):
        raise ValueError(f"small_mm must be > d_mm {d_mm:g}, got {small_mm!r}")
    large = small_mm + 2 * positive(thickness_mm, "thickness_mm") * slope
    return pi * positive(modulus_mpa, "modulus_mpa") * d_mm * slope / _spread(small_mm, large, d_mm)


def bar_stiffness(modulus_mpa: float, area_mm2: float, length_mm: float) -> float:
    """
    Stiffness of a bar in tension, k = E A/L.

    Args:
        modulus_mpa: Modulus E [MPa], > 0.
        area_mm2: Area A [mm^2], > 0.
        length_mm: Length L [mm], > 0.

    Returns:
        Stiffness k [N/mm].

    Raises:
        ValueError: When an argument is not positive and finite.

    References:
        1. Shigley's Mechanical Engineering Design, 9th ed., eq. (8-16).

    >>> round(bar_stiffness(207000.0, 84.3, 15.0) / 1e6, 3)
    1.163
    """
    return (
        positive(modulus_mpa, "modulus_mpa")
        * positive(area_mm2, "area_mm2")
        / positive(length_mm, "length_mm")
    )


def in_series(first: float, *others: float) -> float:
    """
    Stiffness of springs one behind the other, 1/k = sum 1/k_i.

    Args:
        first: Stiffness of one [N/mm], > 0.
        others: Stiffness of the others, any number [N/mm], > 0.

    Returns:
        Stiffness k [N/mm].

    Raises:
        ValueError: When an argument is not positive and finite.

    References:
        1. Shigley's Mechanical Engineering Design, 9th ed., eq. (8-18).

    >>> in_series(2.0, 2.0)
    1.0
    """
    return 1 / sum(1 / positive(k, "first") for k in (first, *others))


def load_share(bolt_n_mm: float, parts_n_mm: float) -> float:
    """
    Share of an outer load that the bolt takes on, C = k_b/(k_b + k_m).

    Args:
        bolt_n_mm: Stiffness of the bolt k_b [N/mm], > 0.
        parts_n_mm: Stiffness of the clamped parts k_m [N/mm], > 0.

    Returns:
        Share C [-].

    Raises:
        ValueError: When an argument is not positive and finite.

    References:
        1. Shigley's Mechanical Engineering Design, 9th ed., eq. (8-24).

    >>> round(load_share(6.5, 13.8), 3)
    0.32
    """
    return positive(bolt_n_mm, "bolt_n_mm") / (bolt_n_mm + positive(parts_n_mm, "parts_n_mm"))


def elongation(preload_n: float, compliance_mm_n: float) -> float:
    """
    Stretch of a bolt under preload, f = F delta.

    Args:
        preload_n: Preload F [N], >= 0.
        compliance_mm_n: Compliance of the bolt delta_S [mm/N], > 0.

    Returns:
        Elongation f [mm].

    Raises:
        ValueError: When an argument is out of its range.

    References:
        1. VDI 2230-1:2015, clause 5.1.1, f = delta F.

    >>> round(elongation(30000.0, 3.27e-6), 3)
    0.098
    """
    return within(preload_n, "preload_n", 0.0, inf) * positive(compliance_mm_n, "compliance_mm_n")


def turning_angle(preload_n: float, pitch_mm: float, compliance_mm_n: float) -> float:
    """
    Angle from snug that builds up a preload, 360 F (delta_S + delta_P)/P.

    Elastic; contact faces that still settle take more.

    Args:
        preload_n: Preload gained F [N], >= 0.
        pitch_mm: Pitch P [mm], > 0.
        compliance_mm_n: Compliance of bolt and parts together [mm/N], > 0.

    Returns:
        Angle [deg].

    Raises:
        ValueError: When an argument is out of its range.

    References:
        1. VDI 2230-1:2015, clause 5.4.3, angle-controlled tightening.

    >>> round(turning_angle(30000.0, 1.5, 4.0e-6), 1)
    28.8
    """
    return 360 * elongation(preload_n, compliance_mm_n) / positive(pitch_mm, "pitch_mm")


def preload_by_angle(angle_deg: float, pitch_mm: float, compliance_mm_n: float) -> float:
    """
    Preload that an angle from snug builds up: *turning_angle* turned about.

    Args:
        angle_deg: Angle [deg], >= 0.
        pitch_mm: Pitch P [mm], > 0.
        compliance_mm_n: Compliance of bolt and parts together [mm/N], > 0.

    Returns:
        Preload gained [N].

    Raises:
        ValueError: When an argument is out of its range.

    References:
        1. VDI 2230-1:2015, clause 5.4.3, angle-controlled tightening.

    >>> round(preload_by_angle(28.8, 1.5, 4.0e-6))
    30000
    """
    way = within(angle_deg, "angle_deg", 0.0, inf) / 360 * positive(pitch_mm, "pitch_mm")
    return way / positive(compliance_mm_n, "compliance_mm_n")


def turn_of_nut(grip_over_d: float) -> float:
    """
    Turn from snug that structural bolts get, both faces square to the axis.

    A third of a turn up to 4 d of bolt length, half from there to 8 d, two thirds to 12 d.

    Args:
        grip_over_d: Length of the bolt over its diameter [-], above 0, up to 12.

    Returns:
        Angle [deg].

    Raises:
        ValueError: When *grip_over_d* is out of its range.

    References:
        1. RCSC Specification for Structural Joints Using High-Strength Bolts, Table 8.2.

    >>> [turn_of_nut(x) for x in (4.0, 6.0, 12.0)]
    [120.0, 180.0, 240.0]
    """
    positive(within(grip_over_d, "grip_over_d", 0.0, 12.0), "grip_over_d")
    return 120.0 if grip_over_d <= 4 else 180.0 if grip_over_d <= 8 else 240.0
