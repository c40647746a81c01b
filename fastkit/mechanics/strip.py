"""Stripping of an engaged pair of threads: what bending and dilation take off the shear areas."""

from fastkit.mechanics.bounds import positive, within

# VDI 2230-1, clause 5.5.5: shear over tensile strength of bolts, by class; from memory
SHEAR_RATIO = {"4.6": 0.70, "5.6": 0.70, "8.8": 0.65, "10.9": 0.62, "12.9": 0.60}
RUN_OUT_P = 0.8  # VDI 2230-1, clause 5.5.5: part of the engagement that does not carry, in pitches


def dilation_factor(across_flats_mm: float, d_mm: float) -> float:
    """
    What is left of a thread's strip strength in a nut that widens, C1.

    C1 = -(s/d)^2 + 3.8 s/d - 2.61 from s/d = 1.4 to 1.9, 1 above: a thick body does not widen.
    ISO/TR 16224 has 2.6 in place of 2.61 as an open program carries it, and 1 from 1.8.

    Args:
        across_flats_mm: Width across flats s of the nut, or its outside [mm], at least 1.4 d.
        d_mm: Nominal diameter d [mm], > 0.

    Returns:
        C1 [-].

    Raises:
        ValueError: When an argument is out of its range.

    References:
        1. VDI 2230-1:2003, clause 5.5.5 (after Alexander, SAE 770420, 1977).

    >>> round(dilation_factor(13.0, 8.0), 3)
    0.924
    """
    share = positive(across_flats_mm, "across_flats_mm") / positive(d_mm, "d_mm")
    if share < 1.4:
        raise ValueError(f"across_flats_mm must be >= {1.4 * d_mm:g}, got {across_flats_mm!r}")
    return 1.0 if share >= 1.9 else -(share**2) + 3.8 * share - 2.61


def bending_factors(strength_ratio: float) -> tuple[float, float]:
    """
    What mutual bending of the threads leaves of their strip strengths, C2 (bolt) and C3 (nut).

    Rs, strip strength of the nut's thread over that of the bolt's (shear strength times area).
    C2 = 0.897 up to Rs = 1, from there 5.594 - 13.682 Rs + 14.107 Rs^2 - 6.057 Rs^3 + 0.9353 Rs^4;
    C3 = 0.728 + 1.769 Rs - 2.896 Rs^2 + 1.296 Rs^3 up to 1, from there 0.897. Fitted from 0.4 to
    2.2; outside, the factor of the nearer end is taken.

    Args:
        strength_ratio: Rs [-], > 0.

    Returns:
        C2 and C3 [-].

    Raises:
        ValueError: When *strength_ratio* is not positive and finite.

    References:
        1. ISO/TR 16224:2012, 4.2.3.1, modification factors (after Alexander, SAE 770420, 1977),
           as an open program carries it; VDI 2230-1:2003, clause 5.5.5, has the same.

    >>> [round(c, 3) for c in bending_factors(1.0)], round(bending_factors(0.5)[1], 3)
    ([0.897, 0.897], 1.05)
    """
    rs = min(max(positive(strength_ratio, "strength_ratio"), 0.4), 2.2)
    if rs > 1:
        return 5.594 - 13.682 * rs + 14.107 * rs**2 - 6.057 * rs**3 + 0.9353 * rs**4, 0.897
    return 0.897, 0.728 + 1.769 * rs - 2.896 * rs**2 + 1.296 * rs**3


def carrying_length(engage_mm: float, pitch_mm: float) -> float:
    """
    Part of the engagement that carries: the first and last turns are chamfered, m - 0.8 P.

    Args:
        engage_mm: Length of engagement m [mm], above 0.8 P.
        pitch_mm: Pitch P [mm], > 0.

    Returns:
        Carrying length [mm].

    Raises:
        ValueError: When an argument is not positive, or nothing is left.

    References:
        1. VDI 2230-1:2003, clause 5.5.5, effective length of engagement.

    >>> carrying_length(8.0, 1.25)
    7.0
    """
    out = RUN_OUT_P * positive(pitch_mm, "pitch_mm")
    if not positive(engage_mm, "engage_mm") > out:
        raise ValueError(f"engage_mm must be > {out:g}, got {engage_mm!r}")
    return engage_mm - out


def engagement_of_equal_strength(
    stress_area_mm2: float, area_per_mm: float, strength_over_shear: float
) -> float:
    """
    Engagement at which thread and shank fail together, Le = As (Rm/tau)/(area a mm).

    Args:
        stress_area_mm2: Stress area As [mm^2], > 0.
        area_per_mm: Shear area of the weaker thread per mm of engagement [mm], > 0.
        strength_over_shear: Tensile strength of the bolt over shear strength of that thread [-].

    Returns:
        Length of engagement Le [mm], run-out not added.

    Raises:
        ValueError: When an argument is not positive and finite.

    References:
        1. FED-STD-H28/2B, appendix B: with shear strength half the tensile, Le = 2 At/(area a mm).

    >>> round(engagement_of_equal_strength(36.6, 15.0, 2.0), 2)
    4.88
    """
    positive(stress_area_mm2, "stress_area_mm2")
    positive(strength_over_shear, "strength_over_shear")
    within(area_per_mm, "area_per_mm", 0.0, float("inf"))
    return stress_area_mm2 * strength_over_shear / positive(area_per_mm, "area_per_mm")
