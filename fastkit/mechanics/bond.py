"""Torque needed to shear a bond (rust, corrosion, threadlocker) by where it sits."""

from math import inf, pi

from fastkit.mechanics.bounds import positive, within


def flank_bond_torque(tau_mpa: float, d2_mm: float, length_mm: float) -> float:
    """
    Torque that shears a bond spread over the engaged flanks, taken as a cylinder on d2.

    T = tau * pi * d2^2 * L / 2

    Args:
        tau_mpa: Shear stress of the bond tau [MPa], >= 0.
        d2_mm: Pitch diameter d2 [mm], > 0.
        length_mm: Engaged length L [mm], > 0.

    Returns:
        Torque [N*mm].

    Raises:
        ValueError: When an argument is out of its bound or not finite.

    References:
        [1] Shear stress on the wall of a cylinder times its radius; elementary statics.

    >>> round(flank_bond_torque(10.0, 7.188, 8.0))
    6493
    """
    within(tau_mpa, "tau_mpa", 0.0, inf)
    positive(d2_mm, "d2_mm")
    positive(length_mm, "length_mm")
    return tau_mpa * pi * d2_mm**2 * length_mm / 2


def head_bond_torque(tau_mpa: float, outer_mm: float, hole_mm: float) -> float:
    """
    Torque that shears a bond spread evenly over the ring under a head.

    T = tau * pi * (D^3 - dh^3) / 12

    Args:
        tau_mpa: Shear stress of the bond tau [MPa], >= 0.
        outer_mm: Outside diameter of the bearing ring D [mm], > hole_mm.
        hole_mm: Hole diameter dh [mm], > 0.

    Returns:
        Torque [N*mm].

    Raises:
        ValueError: When an argument is out of its bound or not finite.

    References:
        [1] Integral of tau * r over the ring; elementary statics.

    >>> round(head_bond_torque(10.0, 13.0, 9.0))
    3843
    """
    within(tau_mpa, "tau_mpa", 0.0, inf)
    positive(hole_mm, "hole_mm")
    positive(outer_mm, "outer_mm")
    if outer_mm <= hole_mm:
        raise ValueError(f"outer_mm must be > hole_mm = {hole_mm!r}, got {outer_mm!r}")
    return tau_mpa * pi * (outer_mm**3 - hole_mm**3) / 12


def bore_bond_torque(tau_mpa: float, d_mm: float, length_mm: float) -> float:
    """
    Torque that shears a bond between a plain shank and its bore.

    T = tau * pi * d^2 * Ls / 2

    Args:
        tau_mpa: Shear stress of the bond tau [MPa], >= 0.
        d_mm: Shank diameter d [mm], > 0.
        length_mm: Bonded length Ls [mm], > 0.

    Returns:
        Torque [N*mm].

    Raises:
        ValueError: When an argument is out of its bound or not finite.

    References:
        [1] Shear stress on the wall of a cylinder times its radius; elementary statics.

    >>> round(bore_bond_torque(5.0, 12.0, 40.0))
    45239
    """
    within(tau_mpa, "tau_mpa", 0.0, inf)
    positive(d_mm, "d_mm")
    positive(length_mm, "length_mm")
    return tau_mpa * pi * d_mm**2 * length_mm / 2
