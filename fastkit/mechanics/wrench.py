"""The wrench in the hand: adapter, pull at the handle, multiplier, twist of an extension bar."""

from math import cos, inf, pi, radians

from fastkit.mechanics.bounds import positive, within

STANDARD_GRAVITY = 9.80665  # exact, 3rd CGPM 1901 [m/s^2]
STEEL_SHEAR_MPA = 79_300.0  # Shigley's Mechanical Engineering Design, 9th ed., Table A-5


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


def pull(torque_nmm: float, arm_mm: float) -> float:
    """
    Pull at right angles to a handle, F = T/L.

    Args:
        torque_nmm: Torque T [N·mm], >= 0.
        arm_mm: Fastener to the middle of the hand L [mm], > 0.

    Returns:
        Pull [N].

    Raises:
        ValueError: When an argument is out of its range.

    References:
        1. Lever arm: torque is force times its distance; elementary statics.

    >>> pull(20000.0, 250.0)
    80.0
    """
    return within(torque_nmm, "torque_nmm", 0.0, inf) / positive(arm_mm, "arm_mm")


def weight_of(force_n: float) -> float:
    """
    The mass that weighs as much as a force pulls, m = F/g.

    Args:
        force_n: Force F [N], >= 0.

    Returns:
        Mass [kg].

    Raises:
        ValueError: When *force_n* is out of its range.

    References:
        1. Standard gravity 9.80665 m/s^2, 3rd CGPM 1901.

    >>> round(weight_of(98.0665), 6)
    10.0
    """
    return within(force_n, "force_n", 0.0, inf) / STANDARD_GRAVITY


def multiplier_setting(torque_nmm: float, ratio: float, efficiency: float = 1.0) -> float:
    """
    Torque to put into a multiplier, T/(i eta).

    Args:
        torque_nmm: Torque wanted at the fastener T [N·mm], >= 0.
        ratio: Ratio of the gears i [-], at least 1.
        efficiency: Efficiency eta, by the multiplier's plate [-], above 0, up to 1.

    Returns:
        Setting of the wrench [N·mm].

    Raises:
        ValueError: When an argument is out of its range.

    References:
        1. Gear train: output is input times ratio times efficiency; elementary statics.

    >>> multiplier_setting(1000.0, 5.0, 0.8)
    250.0
    """
    within(torque_nmm, "torque_nmm", 0.0, inf)
    within(ratio, "ratio", 1.0, inf)
    return torque_nmm / (ratio * positive(within(efficiency, "efficiency", 0.0, 1.0), "efficiency"))


def bar_twist(
    torque_nmm: float, length_mm: float, d_mm: float, shear_modulus_mpa: float = STEEL_SHEAR_MPA
) -> float:
    """
    Twist of a round extension bar: it takes nothing off the torque, but winds up.

    theta = T L/(G pi d^4/32).

    Args:
        torque_nmm: Torque T [N·mm], >= 0.
        length_mm: Length L [mm], > 0.
        d_mm: Diameter d [mm], > 0.
        shear_modulus_mpa: Shear modulus G [MPa], > 0.

    Returns:
        Twist [deg].

    Raises:
        ValueError: When an argument is out of its range.

    References:
        1. Strength of Materials, torsion of circular shafts, theta = T L/(G J).

    >>> round(bar_twist(100000.0, 250.0, 12.7), 1)
    7.1
    """
    polar = pi / 32 * positive(d_mm, "d_mm") ** 4
    stiff = positive(shear_modulus_mpa, "shear_modulus_mpa") * polar
    turned = within(torque_nmm, "torque_nmm", 0.0, inf) * positive(length_mm, "length_mm") / stiff
    return 180 / pi * turned
