"""Basic dimensions of 60-degree threads, metric (ISO 68-1, ISO 724) and Unified (ASME B1.1)."""

from math import pi, sqrt

from fastkit.mechanics.bounds import positive

H_PER_P = sqrt(3) / 2  # ISO 68-1: height of the fundamental triangle over the pitch


def _lessened(d_mm: float, pitch_mm: float, share: float) -> float:
    """Diameter less *share* pitches; a pitch too coarse for the diameter is refused."""
    positive(d_mm, "d_mm")
    positive(pitch_mm, "pitch_mm")
    if not share * pitch_mm < d_mm:
        raise ValueError(f"pitch_mm must be < {d_mm / share:g} for d_mm {d_mm:g}, got {pitch_mm!r}")
    return d_mm - share * pitch_mm


def pitch_diameter(d_mm: float, pitch_mm: float) -> float:
    """
    Basic pitch diameter, d2 = d - 3/4 H.

    Symbols: d, nominal diameter; P, pitch; H = sqrt(3)/2 P. Holds for ISO metric and Unified.

    Args:
        d_mm: Nominal (major) diameter d [mm], > 0.
        pitch_mm: Pitch P [mm], > 0 and well below d.

    Returns:
        Pitch diameter d2 [mm].

    Raises:
        ValueError: When an argument is not positive and finite, or the pitch too coarse.

    References:
        1. ISO 724:1993, clause 3; ASME B1.1-2003, basic profile.

    >>> round(pitch_diameter(8.0, 1.25), 3)
    7.188
    """
    return _lessened(d_mm, pitch_mm, 0.75 * H_PER_P)


def minor_diameter(d_mm: float, pitch_mm: float) -> float:
    """
    Basic minor diameter of the internal thread, D1 = d - 5/4 H.

    Symbols: d, nominal diameter; P, pitch; H = sqrt(3)/2 P. Holds for ISO metric and Unified.

    Args:
        d_mm: Nominal (major) diameter d [mm], > 0.
        pitch_mm: Pitch P [mm], > 0 and well below d.

    Returns:
        Minor diameter D1 [mm].

    Raises:
        ValueError: When an argument is not positive and finite, or the pitch too coarse.

    References:
        1. ISO 724:1993, clause 3; ASME B1.1-2003, basic profile.

    >>> round(minor_diameter(8.0, 1.25), 3)
    6.647
    """
    return _lessened(d_mm, pitch_mm, 1.25 * H_PER_P)


def root_diameter(d_mm: float, pitch_mm: float) -> float:
    """
    Minor diameter of the external metric thread, d3 = d - 17/12 H (root rounded with H/6).

    Symbols: d, nominal diameter; P, pitch; H = sqrt(3)/2 P.

    Args:
        d_mm: Nominal (major) diameter d [mm], > 0.
        pitch_mm: Pitch P [mm], > 0 and well below d.

    Returns:
        Root diameter d3 [mm].

    Raises:
        ValueError: When an argument is not positive and finite, or the pitch too coarse.

    References:
        1. ISO 898-1:2013, clause 9.1.6.1: d3 = d1 - H/6.

    >>> round(root_diameter(8.0, 1.25), 3)
    6.466
    """
    return _lessened(d_mm, pitch_mm, 17 / 12 * H_PER_P)


def unified_root_diameter(d_mm: float, pitch_mm: float) -> float:
    """
    Minor diameter of the external Unified thread with rounded root, d3 = d - 11/8 H.

    Symbols: d, nominal diameter; P, pitch; H = sqrt(3)/2 P.

    Args:
        d_mm: Nominal (major) diameter d [mm], > 0.
        pitch_mm: Pitch P [mm], > 0 and well below d.

    Returns:
        Root diameter d3 [mm].

    Raises:
        ValueError: When an argument is not positive and finite, or the pitch too coarse.

    References:
        1. ASME B1.1-2003, UNR minor diameter (reference): d - 1.19078 P.

    >>> round(unified_root_diameter(6.35, 1.27), 3)  # 1/4-20: 0.1905 in
    4.838
    """
    return _lessened(d_mm, pitch_mm, 11 / 8 * H_PER_P)


def stress_area(d_mm: float, pitch_mm: float) -> float:
    """
    Nominal stress area of a metric thread, As = pi/4 ((d2 + d3)/2)^2.

    Symbols: d2, pitch diameter; d3, root diameter.

    Args:
        d_mm: Nominal (major) diameter d [mm], > 0.
        pitch_mm: Pitch P [mm], > 0 and well below d.

    Returns:
        Stress area As [mm^2].

    Raises:
        ValueError: When an argument is not positive and finite, or the pitch too coarse.

    References:
        1. ISO 898-1:2013, clause 9.1.6.1.

    >>> round(stress_area(8.0, 1.25), 1)
    36.6
    """
    d2, d3 = pitch_diameter(d_mm, pitch_mm), root_diameter(d_mm, pitch_mm)
    return pi / 4 * ((d2 + d3) / 2) ** 2


def unified_stress_area(d_mm: float, pitch_mm: float) -> float:
    """
    Tensile stress area of a Unified thread, As = pi/4 (d - 0.9743/n)^2.

    Symbols: d, nominal diameter; n, threads per unit of length, 1/P. Stated for steel below
    690 MPa tensile strength and taken by SAE J429 for all its grades.

    Args:
        d_mm: Nominal (major) diameter d [mm], > 0.
        pitch_mm: Pitch P [mm], > 0 and well below d.

    Returns:
        Stress area As [mm^2].

    Raises:
        ValueError: When an argument is not positive and finite, or the pitch too coarse.

    References:
        1. ASME B1.1-2003, appendix B, tensile stress area, eq. (1).

    >>> round(unified_stress_area(6.35, 1.27) / 25.4**2, 4)  # 1/4-20 [in^2]
    0.0318
    """
    return pi / 4 * _lessened(d_mm, pitch_mm, 0.9743) ** 2


def stress_diameter(area_mm2: float) -> float:
    """
    Diameter of the round bar that has a given stress area, ds = sqrt(4 As/pi).

    Args:
        area_mm2: Stress area As [mm^2], > 0.

    Returns:
        Diameter ds [mm]; (d2 + d3)/2 for a metric thread.

    Raises:
        ValueError: When *area_mm2* is not positive and finite.

    References:
        1. VDI 2230-1:2015, symbol dS.

    >>> round(stress_diameter(58.0), 2)
    8.59
    """
    return sqrt(4 * positive(area_mm2, "area_mm2") / pi)
