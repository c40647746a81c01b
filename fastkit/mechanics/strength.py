"""What breaks: torsion of a thread, of blades, keys and hollow shanks; strip of a thread."""

from math import pi

from fastkit.mechanics.bounds import positive, within
from fastkit.mechanics.tolerance import iso_external

# ISO 898-7: torsional over tensile strength, by property class
TORSION_RATIO = {"8.8": 0.84, "9.8": 0.815, "10.9": 0.79, "12.9": 0.75}
TAN_30 = 0.57735  # as FED-STD-H28/2B prints it


def breaking_root(d_mm: float, pitch_mm: float) -> float:
    """
    Smallest root diameter that a torsion test may meet, d3,min = d2,min - 0.616 P.

    0.616 P stands for a root radius of 0.125 P; d2,min by class 6g, 6h below M1.6.

    Args:
        d_mm: Nominal diameter d [mm], 0.99..355.
        pitch_mm: Pitch P [mm], > 0 and well below d.

    Returns:
        Root diameter d3,min [mm].

    Raises:
        ValueError: When an argument is out of its range.

    References:
        1. ISO 898-7:1992, clause 5; ISO 965-1:2013.

    >>> round(breaking_root(10.0, 1.5), 3)
    7.938
    """
    return iso_external(d_mm, pitch_mm).d2_min - 0.616 * pitch_mm


def torsional_breaking_torque(
    d_mm: float, pitch_mm: float, tensile_mpa: float, ratio: float = TORSION_RATIO["8.8"]
) -> float:
    """
    Least torque that breaks a bolt or screw in torsion, M_B,min = X Rm pi/16 d3,min^3.

    X, ratio of torsional to tensile strength: 0.84, 0.815, 0.79, 0.75 for classes 8.8, 9.8, 10.9,
    12.9. The standard lists M1 to M10; the formula is used above that too.

    Args:
        d_mm: Nominal diameter d [mm], 0.99..355.
        pitch_mm: Pitch P [mm], > 0 and well below d.
        tensile_mpa: Least tensile strength Rm [MPa], > 0.
        ratio: X [-], above 0, up to 1.

    Returns:
        Least breaking torque M_B,min [N·mm].

    Raises:
        ValueError: When an argument is out of its range.

    References:
        1. ISO 898-7:1992, clause 5 and Table 2.

    >>> round(torsional_breaking_torque(10.0, 1.5, 800.0, 0.84) / 1000)  # Table 2: 66 N·m
    66
    """
    positive(tensile_mpa, "tensile_mpa")
    positive(within(ratio, "ratio", 0.0, 1.0), "ratio")
    return ratio * tensile_mpa * pi / 16 * breaking_root(d_mm, pitch_mm) ** 3


def round_bar_torque(d_mm: float, tau_mpa: float) -> float:
    """
    Torque at which the skin of a round bar reaches a shear stress, T = tau pi/16 d^3.

    Args:
        d_mm: Diameter d [mm], > 0.
        tau_mpa: Shear stress tau [MPa], > 0.

    Returns:
        Torque T [N·mm].

    Raises:
        ValueError: When an argument is not positive and finite.

    References:
        1. Strength of Materials, torsion of circular shafts, tau = 16 T/(pi d^3).

    >>> round(round_bar_torque(10.0, 400.0))
    78540
    """
    return positive(tau_mpa, "tau_mpa") * pi / 16 * positive(d_mm, "d_mm") ** 3


def hollow_shaft_torque(outer_mm: float, inner_mm: float, tau_mpa: float) -> float:
    """
    Torque at which the skin of a hollow shank reaches a shear stress, tau pi/16 (D^4 - d^4)/D.

    Args:
        outer_mm: Outside diameter D [mm], > 0.
        inner_mm: Diameter of the bore d [mm], >= 0 and below D.
        tau_mpa: Shear stress tau [MPa], > 0.

    Returns:
        Torque T [N·mm].

    Raises:
        ValueError: When an argument is out of its range, or the bore not below the outside.

    References:
        1. Strength of Materials, torsion of hollow shafts.

    >>> round(hollow_shaft_torque(40.0, 30.0, 50.0) / 1000)
    430
    """
    positive(outer_mm, "outer_mm")
    within(inner_mm, "inner_mm", 0.0, float("inf"))
    if not inner_mm < outer_mm:
        raise ValueError(f"inner_mm must be < outer_mm {outer_mm:g}, got {inner_mm!r}")
    return round_bar_torque(outer_mm, tau_mpa) * (1 - (inner_mm / outer_mm) ** 4)


def blade_torque(width_mm: float, thickness_mm: float, stress_mpa: float = 1000.0) -> float:
    """
    Test torque of a flat blade, M = b a^2 with 1 N·m per mm^3.

    Args:
        width_mm: Width of the blade b [mm], > 0.
        thickness_mm: Thickness of the tip a [mm], > 0.
        stress_mpa: Factor on b a^2 [MPa]; 1000 gives the standard's test torques.

    Returns:
        Torque M [N·mm].

    Raises:
        ValueError: When an argument is not positive and finite.

    References:
        1. ISO 2380-1, table of blade dimensions and test torques, which follow b a^2.

    >>> round(blade_torque(10.0, 1.6) / 1000, 1)
    25.6
    """
    b, a = positive(width_mm, "width_mm"), positive(thickness_mm, "thickness_mm")
    return positive(stress_mpa, "stress_mpa") * b * a**2


def hex_key_torque(across_flats_mm: float, tensile_mpa: float) -> float:
    """
    Torque that a hexagon bar carries, T = 0.2 Rm s^3.

    Args:
        across_flats_mm: Width across flats s [mm], > 0.
        tensile_mpa: Tensile strength Rm [MPa], > 0.

    Returns:
        Torque T [N·mm].

    Raises:
        ValueError: When an argument is not positive and finite.

    References:
        1. Hexagon key strength table, tool data sheet, T = 0.2 Rm AF^3.

    >>> round(hex_key_torque(6.0, 1600.0) / 1000)
    69
    """
    return (
        0.2
        * positive(tensile_mpa, "tensile_mpa")
        * positive(across_flats_mm, "across_flats_mm") ** 3
    )


def internal_shear_area(
    engage_mm: float, pitch_mm: float, d_min_mm: float, d2_internal_max_mm: float
) -> float:
    """
    Area in which an internal thread strips, by the limits of size of both threads.

    ASn = pi n Le d_min (1/(2n) + 0.57735 (d_min - D2_max)), n = 1/P. Sharp start and run-out are
    not taken off; a chamfered first thread carries nothing.

    Args:
        engage_mm: Length of engagement Le [mm], > 0.
        pitch_mm: Pitch P [mm], > 0.
        d_min_mm: Least major diameter of the external thread [mm], > 0.
        d2_internal_max_mm: Largest pitch diameter of the internal thread [mm], > 0.

    Returns:
        Shear area ASn [mm^2].

    Raises:
        ValueError: When an argument is not positive, or the threads no longer overlap.

    References:
        1. FED-STD-H28/2B, appendix B; ASME B1.1-2003, appendix B.

    >>> round(internal_shear_area(1.0, 1 / 18, 0.3026, 0.2817), 3)  # 5/16-18 UNC 2A/2B [in^2]
    0.682
    """
    n = 1 / positive(pitch_mm, "pitch_mm")
    d, d2 = positive(d_min_mm, "d_min_mm"), positive(d2_internal_max_mm, "d2_internal_max_mm")
    tooth = 1 / (2 * n) + TAN_30 * (d - d2)
    if not tooth > 0:
        raise ValueError(f"d_min_mm must be > {d2 - 1 / (2 * n * TAN_30):g}, got {d_min_mm!r}")
    return pi * n * positive(engage_mm, "engage_mm") * d * tooth


def external_shear_area(
    engage_mm: float, pitch_mm: float, d1_internal_max_mm: float, d2_external_min_mm: float
) -> float:
    """
    Area in which an external thread strips, by the limits of size of both threads.

    ASs = pi n Le D1_max (1/(2n) + 0.57735 (d2_min - D1_max)), n = 1/P. Sharp start and run-out
    are not taken off.

    Args:
        engage_mm: Length of engagement Le [mm], > 0.
        pitch_mm: Pitch P [mm], > 0.
        d1_internal_max_mm: Largest minor diameter of the internal thread [mm], > 0.
        d2_external_min_mm: Least pitch diameter of the external thread [mm], > 0.

    Returns:
        Shear area ASs [mm^2].

    Raises:
        ValueError: When an argument is not positive, or the threads no longer overlap.

    References:
        1. FED-STD-H28/2B, appendix B; ASME B1.1-2003, appendix B.

    >>> round(external_shear_area(1.0, 1 / 18, 0.265, 0.2712), 3)  # 5/16-18 UNC 2A/2B [in^2]
    0.47
    """
    n = 1 / positive(pitch_mm, "pitch_mm")
    d1 = positive(d1_internal_max_mm, "d1_internal_max_mm")
    d2 = positive(d2_external_min_mm, "d2_external_min_mm")
    tooth = 1 / (2 * n) + TAN_30 * (d2 - d1)
    if not tooth > 0:
        bound = d2 + 1 / (2 * n * TAN_30)
        raise ValueError(f"d1_internal_max_mm must be < {bound:g}, got {d1!r}")
    return pi * n * positive(engage_mm, "engage_mm") * d1 * tooth
