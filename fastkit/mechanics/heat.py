"""Heat and press fits: expansion, gap, force of a blocked expansion, grip of a press fit."""

from math import inf, log1p, pi

from fastkit.mechanics.bounds import positive, within

POISSON_STEEL = 0.3  # Shigley's Mechanical Engineering Design, 9th ed., Table A-5: 0.292


def expansion(length_mm: float, alpha_per_k: float, rise_k: float) -> float:
    """
    Change of a length or diameter with temperature, alpha L dT; below zero it shrinks.

    Args:
        length_mm: Length or diameter L [mm], > 0.
        alpha_per_k: Coefficient of linear expansion alpha [1/K], >= 0.
        rise_k: Temperature rise dT, below zero when chilled [K], -300..3000.

    Returns:
        Change [mm].

    Raises:
        ValueError: When an argument is out of its range.

    References:
        1. Shigley's Mechanical Engineering Design, 9th ed., eq. (3-58), thermal strain.

    >>> round(expansion(20.0, 11.7e-6, -80.0), 4)  # a steel pin in dry ice
    -0.0187
    """
    return positive(length_mm, "length_mm") * _strain(alpha_per_k, "alpha_per_k", rise_k, "rise_k")


def _strain(alpha_per_k: float, alpha: str, rise_k: float, rise: str) -> float:
    """Thermal strain; the arguments are named as the caller knows them."""
    return within(alpha_per_k, alpha, 0.0, 1.0) * within(rise_k, rise, -300.0, 3000.0)


def rise_for(change_mm: float, length_mm: float, alpha_per_k: float) -> float:
    """
    Temperature rise that gives a change of length, change/(alpha L).

    Args:
        change_mm: Change wanted; below zero: chill [mm].
        length_mm: Length or diameter L [mm], > 0.
        alpha_per_k: Coefficient of linear expansion alpha [1/K], > 0.

    Returns:
        Temperature rise [K].

    Raises:
        ValueError: When an argument is out of its range.

    References:
        1. Shigley's Mechanical Engineering Design, 9th ed., eq. (3-58), turned about.

    >>> round(rise_for(0.01204, 5.0, 6.5e-6), 1)  # inches and degF do as well
    370.5
    """
    change = within(change_mm, "change_mm", -1e6, 1e6)
    return change / (positive(length_mm, "length_mm") * positive(alpha_per_k, "alpha_per_k"))


def gap_change(
    diameter_mm: float,
    alpha_hole_per_k: float,
    rise_hole_k: float,
    alpha_pin_per_k: float,
    rise_pin_k: float,
) -> float:
    """
    Growth of the gap between a hole and what sits in it, each with its own material and heat.

    Args:
        diameter_mm: Diameter of the joint [mm], > 0.
        alpha_hole_per_k: Expansion of the body [1/K], >= 0.
        rise_hole_k: Its temperature rise [K], -300..3000.
        alpha_pin_per_k: Expansion of bolt, pin or stud [1/K], >= 0.
        rise_pin_k: Its temperature rise, below zero when chilled [K], -300..3000.

    Returns:
        Growth of the diametral gap; below zero it grips harder [mm].

    Raises:
        ValueError: When an argument is out of its range.

    References:
        1. Difference of two thermal expansions of one diameter; elementary.

    >>> round(gap_change(10.0, 21.5e-6, 100.0, 11.7e-6, 100.0), 4)  # steel stud, aluminium body
    0.0098
    """
    hole = _strain(alpha_hole_per_k, "alpha_hole_per_k", rise_hole_k, "rise_hole_k")
    pin = _strain(alpha_pin_per_k, "alpha_pin_per_k", rise_pin_k, "rise_pin_k")
    return positive(diameter_mm, "diameter_mm") * (hole - pin)


def blocked_force(
    length_mm: float,
    alpha_per_k: float,
    rise_k: float,
    gap_mm: float,
    modulus_mpa: float,
    area_mm2: float,
) -> float:
    """
    Force of a bar whose expansion is blocked after a gap, E A (alpha L dT - gap)/L.

    Args:
        length_mm: Length L [mm], > 0.
        alpha_per_k: Coefficient of linear expansion alpha [1/K], >= 0.
        rise_k: Temperature rise [K], -300..3000.
        gap_mm: Free way before it is blocked [mm], >= 0.
        modulus_mpa: Modulus E [MPa], > 0.
        area_mm2: Area A [mm^2], > 0.

    Returns:
        Force; 0 while the gap is not used up [N].

    Raises:
        ValueError: When an argument is out of its range.

    References:
        1. Shigley's Mechanical Engineering Design, 9th ed., section 3-17, thermal stress.

    >>> round(blocked_force(200.0, 10.8e-6, 225.0, 0.15, 207000.0, 300.0))
    104328
    """
    blocked = expansion(length_mm, alpha_per_k, rise_k) - within(gap_mm, "gap_mm", 0.0, inf)
    stiff = positive(modulus_mpa, "modulus_mpa") * positive(area_mm2, "area_mm2") / length_mm
    return max(blocked, 0.0) * stiff


def preload_by_heat(
    grip_mm: float,
    alpha_parts_per_k: float,
    rise_parts_k: float,
    alpha_bolt_per_k: float,
    rise_bolt_k: float,
    compliance_mm_n: float,
) -> float:
    """
    Change of a bolt's preload when parts and bolt warm differently.

    l_K (alpha_P dT_P - alpha_S dT_S)/(delta_S + delta_P), moduli taken as at room temperature.

    Args:
        grip_mm: Clamped length l_K [mm], > 0.
        alpha_parts_per_k: Expansion of the clamped parts [1/K], >= 0.
        rise_parts_k: Their temperature rise [K], -300..3000.
        alpha_bolt_per_k: Expansion of the bolt [1/K], >= 0.
        rise_bolt_k: Its temperature rise [K], -300..3000.
        compliance_mm_n: Compliance of bolt and parts together [mm/N], > 0.

    Returns:
        Change of the preload; below zero the joint slackens [N].

    Raises:
        ValueError: When an argument is out of its range.

    References:
        1. VDI 2230-1:2015, clause 5.4.2.3, thermal additional force, simplified form.

    >>> round(preload_by_heat(30.0, 21.5e-6, 100.0, 11.7e-6, 100.0, 4e-6))
    7350
    """
    parts = _strain(alpha_parts_per_k, "alpha_parts_per_k", rise_parts_k, "rise_parts_k")
    bolt = _strain(alpha_bolt_per_k, "alpha_bolt_per_k", rise_bolt_k, "rise_bolt_k")
    freed = positive(grip_mm, "grip_mm") * (parts - bolt)
    return freed / positive(compliance_mm_n, "compliance_mm_n")


def press_compliance(
    joint_mm: float,
    bore_mm: float,
    outside_mm: float,
    inner_modulus_mpa: float,
    outer_modulus_mpa: float,
    inner_poisson: float = POISSON_STEEL,
    outer_poisson: float = POISSON_STEEL,
) -> float:
    """
    Diametral interference that a press fit takes per unit of pressure (Lame).

    d ((D^2+d^2)/(D^2-d^2) + nu_o)/E_o + d ((d^2+b^2)/(d^2-b^2) - nu_i)/E_i.

    Args:
        joint_mm: Diameter of the joint d [mm], > 0.
        bore_mm: Bore of the inner part b [mm], >= 0 and below d.
        outside_mm: Outside of the outer part D [mm], > d.
        inner_modulus_mpa: Modulus of the inner part E_i [MPa], > 0.
        outer_modulus_mpa: Modulus of the outer part E_o [MPa], > 0.
        inner_poisson: Poisson's ratio of the inner part nu_i [-], 0..0.5.
        outer_poisson: Poisson's ratio of the outer part nu_o [-], 0..0.5.

    Returns:
        Interference over pressure [mm/MPa].

    Raises:
        ValueError: When an argument is out of its range.

    References:
        1. Shigley's Mechanical Engineering Design, 9th ed., eq. (3-56).

    >>> round(30 * press_compliance(250.0, 200.0, 300.0, 2e5, 2e5) / 2, 3)  # radial
    0.189
    """
    d = positive(joint_mm, "joint_mm")
    if not positive(outside_mm, "outside_mm") > d:
        raise ValueError(f"outside_mm must be > joint_mm {d:g}, got {outside_mm!r}")
    b = within(bore_mm, "bore_mm", 0.0, inf)
    if not b < d:
        raise ValueError(f"bore_mm must be < joint_mm {d:g}, got {bore_mm!r}")
    outer = (outside_mm**2 + d**2) / (outside_mm**2 - d**2)
    inner = (d**2 + b**2) / (d**2 - b**2)
    nu_o = within(outer_poisson, "outer_poisson", 0.0, 0.5)
    nu_i = within(inner_poisson, "inner_poisson", 0.0, 0.5)
    return d * (
        (outer + nu_o) / positive(outer_modulus_mpa, "outer_modulus_mpa")
        + (inner - nu_i) / positive(inner_modulus_mpa, "inner_modulus_mpa")
    )


def press_pressure(interference_mm: float, compliance_mm_mpa: float) -> float:
    """
    Pressure in a press fit, interference over compliance; none once heat has opened it.

    Args:
        interference_mm: Diametral interference left; below zero a gap [mm].
        compliance_mm_mpa: Of *press_compliance* [mm/MPa], > 0.

    Returns:
        Pressure [MPa].

    Raises:
        ValueError: When an argument is out of its range.

    References:
        1. Shigley's Mechanical Engineering Design, 9th ed., eq. (3-56), turned about.

    >>> press_pressure(0.1, 0.002), press_pressure(-0.1, 0.002)
    (50.0, 0.0)
    """
    left = within(interference_mm, "interference_mm", -1e3, 1e3)
    return max(left, 0.0) / positive(compliance_mm_mpa, "compliance_mm_mpa")


def press_grip(pressure_mpa: float, joint_mm: float, length_mm: float, mu: float) -> float:
    """
    Torque that a press fit holds, pi/2 p mu d^2 L; its axial force is twice that over d.

    Args:
        pressure_mpa: Pressure p [MPa], >= 0.
        joint_mm: Diameter of the joint d [mm], > 0.
        length_mm: Length L [mm], > 0.
        mu: Friction coefficient [-], 0..2.

    Returns:
        Torque [N·mm].

    Raises:
        ValueError: When an argument is out of its range.

    References:
        1. Shigley's Mechanical Engineering Design, 9th ed., section 7-8, interference fits.

    >>> round(press_grip(50.0, 20.0, 30.0, 0.15))
    141372
    """
    p = within(pressure_mpa, "pressure_mpa", 0.0, inf)
    d, length = positive(joint_mm, "joint_mm"), positive(length_mm, "length_mm")
    return pi / 2 * p * within(mu, "mu", 0.0, 2.0) * d**2 * length


def spreading_conductance(disc_mm: float, conductivity_w_mk: float) -> float:
    """
    Heat that a disc on a thick body sends into it per kelvin, G = 2 D k.

    Args:
        disc_mm: Diameter of the disc D [mm], > 0.
        conductivity_w_mk: Thermal conductivity of the body k [W/m/K], > 0.

    Returns:
        Conductance [W/K].

    Raises:
        ValueError: When an argument is not positive and finite.

    References:
        1. Fundamentals of Heat and Mass Transfer, 7th ed., Table 4.1, case 10: S = 2 D.

    >>> spreading_conductance(10.0, 50.0)
    1.0
    """
    return (
        2 * positive(disc_mm, "disc_mm") / 1000 * positive(conductivity_w_mk, "conductivity_w_mk")
    )


def lumped_time(rise_k: float, power_w: float, loss_w_k: float, capacity_j_k: float) -> float:
    """
    Time in which so much power warms a lump that loses heat, t = -C/G ln(1 - G dT/P).

    Args:
        rise_k: Temperature rise dT [K], 0..3000 and below P/G.
        power_w: Power that goes in P [W], > 0.
        loss_w_k: Heat lost per kelvin G [W/K], > 0.
        capacity_j_k: Heat capacity of the lump C [J/K], > 0.

    Returns:
        Time [s].

    Raises:
        ValueError: When an argument is out of its range, or the rise is never reached.

    References:
        1. Fundamentals of Heat and Mass Transfer, 7th ed., section 5.3, lumped capacitance.

    >>> round(lumped_time(230.0, 500.0, 0.5, 4.5), 2)
    2.35
    """
    share = positive(loss_w_k, "loss_w_k") / positive(power_w, "power_w")
    share *= within(rise_k, "rise_k", 0.0, 3e3)
    if share >= 1:
        raise ValueError(f"rise_k must be < {power_w / loss_w_k:g}, got {rise_k!r}")
    return -positive(capacity_j_k, "capacity_j_k") / loss_w_k * log1p(-share)
