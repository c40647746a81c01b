"""Parts of getting a broken fastener out: largest drill, extractor, weld, jaws."""

from math import inf, pi, sqrt

from fastkit.mechanics.bounds import positive, within
from fastkit.mechanics.strength import round_bar_torque

THROAT = sqrt(0.5)  # throat of an equal-leg fillet weld over its leg


def largest_bore(outer_mm: float, tau_mpa: float, torque_nmm: float) -> float:
    """
    Largest hole along the axis that leaves a shank the torque it must still carry.

    d = D (1 - 16 T/(pi tau D^3))^(1/4): the hollow shank of *hollow_shaft_torque* turned about.

    Args:
        outer_mm: Root diameter of the shank D [mm], > 0.
        tau_mpa: Shear strength of the shank [MPa], > 0.
        torque_nmm: Torque that it must carry T [N·mm], >= 0.

    Returns:
        Diameter of the hole; 0 where even the whole shank does not carry it [mm].

    Raises:
        ValueError: When an argument is out of its range.

    References:
        1. Strength of Materials, torsion of hollow shafts.

    >>> round(largest_bore(8.0, 500.0, 25000.0), 2)
    6.74
    """
    whole = round_bar_torque(positive(outer_mm, "outer_mm"), tau_mpa)
    share = within(torque_nmm, "torque_nmm", 0.0, inf) / whole
    return outer_mm * (1 - share) ** 0.25 if share < 1 else 0.0


def bore_within_wall(outer_mm: float, wall_mm: float, off_centre_mm: float = 0.0) -> float:
    """
    Largest hole that leaves a wall all round, drilled off centre by so much: D - 2 (w + e).

    Args:
        outer_mm: Root diameter of the shank D [mm], > 0.
        wall_mm: Wall that the extractor must be left w [mm], >= 0.
        off_centre_mm: How far the hole may be off the axis e [mm], >= 0.

    Returns:
        Diameter of the hole; 0 where there is no room for one [mm].

    Raises:
        ValueError: When an argument is out of its range.

    References:
        1. Geometry of two circles; elementary.

    >>> bore_within_wall(8.0, 1.5, 0.25)
    4.5
    """
    wall = within(wall_mm, "wall_mm", 0.0, inf) + within(off_centre_mm, "off_centre_mm", 0.0, inf)
    return max(positive(outer_mm, "outer_mm") - 2 * wall, 0.0)


def drill_at_most(bore_mm: float, drills_mm: tuple[float, ...]) -> float | None:
    """
    The largest drill of a set that makes no larger a hole.

    Args:
        bore_mm: Largest hole allowed [mm], >= 0.
        drills_mm: The drills of the set [mm].

    Returns:
        The drill [mm]; None where the set has none so small.

    Raises:
        ValueError: When *bore_mm* is out of its range.

    References:
        1. A choice; no published formula.

    >>> drill_at_most(4.5, (3.0, 4.0, 5.0))
    4.0
    """
    limit = within(bore_mm, "bore_mm", 0.0, inf)
    return max((drill for drill in drills_mm if 0 < drill <= limit + 1e-9), default=None)


def extractor_torque(end_mm: float, tau_mpa: float, flute_share: float = 0.8) -> float:
    """
    Torque at which a hard extractor breaks at its small end.

    Flutes or spirals cut the round section down; what is left is taken as a round core.

    Args:
        end_mm: Outside diameter where it starts to bite [mm], > 0.
        tau_mpa: Shear strength of its steel [MPa], > 0.
        flute_share: Core over outside diameter [-], above 0, up to 1; 0.8 by practice.

    Returns:
        Torque [N·mm].

    Raises:
        ValueError: When an argument is out of its range.

    References:
        1. Strength of Materials, torsion of circular shafts; the core's share is practice.

    >>> round(extractor_torque(5.0, 900.0) / 1000, 1)
    11.3
    """
    share = positive(within(flute_share, "flute_share", 0.0, 1.0), "flute_share")
    return round_bar_torque(share * positive(end_mm, "end_mm"), tau_mpa)


def throat_torque(d_mm: float, throat_mm: float, tau_mpa: float) -> float:
    """
    Torque that a ring of weld carries in shear through its throat, T = tau a 2 pi r^2.

    Args:
        d_mm: Diameter of the ring [mm], > 0.
        throat_mm: Throat a [mm], > 0; of a hole filled with weld, what has melted along the wall.
        tau_mpa: Shear strength of the weld [MPa], > 0.

    Returns:
        Torque [N·mm].

    Raises:
        ValueError: When an argument is not positive and finite.

    References:
        1. Shigley's Mechanical Engineering Design, 9th ed., Table 9-1, circle: Ju = 2 pi r^3.

    >>> round(throat_torque(10.0, 2.0, 180.0) / 1000, 1)
    56.5
    """
    throat = positive(throat_mm, "throat_mm")
    return positive(tau_mpa, "tau_mpa") * throat * 2 * pi * (positive(d_mm, "d_mm") / 2) ** 2


def weld_torque(d_mm: float, leg_mm: float, tau_mpa: float) -> float:
    """
    Torque that a fillet weld round a stub carries, T = tau 0.707 h 2 pi r^2.

    Args:
        d_mm: Diameter of the weld's circle [mm], > 0.
        leg_mm: Leg of the fillet h [mm], > 0.
        tau_mpa: Shear strength of the weld [MPa], > 0.

    Returns:
        Torque [N·mm].

    Raises:
        ValueError: When an argument is not positive and finite.

    References:
        1. Shigley's Mechanical Engineering Design, 9th ed., Table 9-1, circle: Ju = 2 pi r^3.

    >>> round(weld_torque(8.0, 2.0, 300.0) / 1000, 1)
    42.7
    """
    return throat_torque(d_mm, THROAT * positive(leg_mm, "leg_mm"), tau_mpa)


def jaw_torque(force_n: float, d_mm: float, mu: float, jaws: int = 2) -> float:
    """
    Torque that jaws hold by friction on a round, jaws F mu d/2; teeth that bite hold more.

    Args:
        force_n: Force of each jaw F [N], >= 0.
        d_mm: Diameter gripped d [mm], > 0.
        mu: Friction coefficient [-], 0..2.
        jaws: Number of jaws, at least 1.

    Returns:
        Torque [N·mm].

    Raises:
        ValueError: When an argument is out of its range.

    References:
        1. Friction force times its arm; elementary statics.

    >>> jaw_torque(2000.0, 8.0, 0.2)
    3200.0
    """
    within(float(jaws), "jaws", 1.0, 100.0)
    grip = within(force_n, "force_n", 0.0, inf) * within(mu, "mu", 0.0, 2.0)
    return jaws * grip * positive(d_mm, "d_mm") / 2
