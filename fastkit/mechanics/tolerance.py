"""Limits of size of the usual tolerance classes: ISO 965-1 6g/6H and ASME B1.1 2A/2B."""

from math import sqrt
from typing import NamedTuple

from fastkit.mechanics.bounds import positive, within
from fastkit.mechanics.thread import minor_diameter, pitch_diameter

INCH = 25.4
R40 = (
    *(1.0, 1.06, 1.12, 1.18, 1.25, 1.32, 1.4, 1.5, 1.6, 1.7, 1.8, 1.9, 2.0, 2.12, 2.24, 2.36, 2.5),
    *(2.65, 2.8, 3.0, 3.15, 3.35, 3.55, 3.75, 4.0, 4.25, 4.5, 4.75, 5.0, 5.3, 5.6, 6.0, 6.3, 6.7),
    *(7.1, 7.5, 8.0, 8.5, 9.0, 9.5, 10.0),
)  # ISO 3, series R40
# ISO 965-1: the steps of nominal diameter over which one pitch diameter tolerance holds [mm]
D_STEPS = (0.99, 1.4, 2.8, 5.6, 11.2, 22.4, 45.0, 90.0, 180.0, 355.0)


class External(NamedTuple):
    """Limits of an external thread [mm]: major d, pitch d2."""

    d_max: float
    d_min: float
    d2_max: float
    d2_min: float


class Internal(NamedTuple):
    """Limits of an internal thread [mm]: minor D1, pitch D2."""

    d1_min: float
    d1_max: float
    d2_min: float
    d2_max: float


def preferred(um: float) -> float:
    """
    Nearest preferred number of series R40.

    Args:
        um: A computed tolerance or deviation [um], > 0.

    Returns:
        The preferred number [um], whole as the standard prints it.

    Raises:
        ValueError: When *um* is not positive and finite.

    References:
        1. ISO 3:1973, series R40; ISO 965-1:2013, clause 12, rounding.

    >>> preferred(104.3), preferred(37.0)
    (106.0, 38.0)
    """
    decade = 1.0
    while positive(um, "um") / decade >= 10:
        decade *= 10
    return float(round(min(R40, key=lambda step: abs(step - um / decade)) * decade))


def _mean_diameter(d_mm: float) -> float:
    within(d_mm, "d_mm", D_STEPS[0], D_STEPS[-1])
    high = next(step for step in D_STEPS[1:] if d_mm <= step)
    return sqrt(high * D_STEPS[D_STEPS.index(high) - 1])


def iso_pitch_tolerance(d_mm: float, pitch_mm: float) -> float:
    """
    Pitch diameter tolerance of grade 6, external, before rounding: 90 P^0.4 d^0.1.

    Args:
        d_mm: Nominal diameter d [mm], 0.99..355; its step's geometric mean is taken.
        pitch_mm: Pitch P [mm], > 0.

    Returns:
        Tolerance Td2 [um].

    Raises:
        ValueError: When an argument is out of its range.

    References:
        1. ISO 965-1:2013, clause 13.

    >>> round(iso_pitch_tolerance(16.0, 2.0))
    157
    """
    return float(90 * positive(pitch_mm, "pitch_mm") ** 0.4 * _mean_diameter(d_mm) ** 0.1)


def iso_external(d_mm: float, pitch_mm: float) -> External:
    """
    Limits of the external class 6g, as ISO 965-1 computes them; 6h below M1.6.

    es = -(15 + 11 P), Td = 180 P^(2/3) - 3.15/sqrt(P), Td2 = 90 P^0.4 d^0.1 [um], each rounded to
    R40; d there is the geometric mean of the diameter step. The standard's own tables step once
    more at a few sizes (up to 5 um).

    Args:
        d_mm: Nominal diameter d [mm], 0.99..355.
        pitch_mm: Pitch P [mm], > 0 and well below d.

    Returns:
        Limits of major and pitch diameter [mm].

    Raises:
        ValueError: When an argument is out of its range.

    References:
        1. ISO 965-1:2013, clauses 12 and 13, formulas.

    >>> [round(x, 3) for x in iso_external(16.0, 2.0)]
    [15.962, 15.682, 14.663, 14.503]
    """
    d2, p = pitch_diameter(d_mm, pitch_mm), pitch_mm
    es = 0.0 if d_mm < 1.6 else preferred(15 + 11 * p) / 1000
    td = preferred(180 * p ** (2 / 3) - 3.15 / sqrt(p)) / 1000
    td2 = preferred(iso_pitch_tolerance(d_mm, p)) / 1000
    return External(d_mm - es, d_mm - es - td, d2 - es, d2 - es - td2)


def iso_internal(d_mm: float, pitch_mm: float) -> Internal:
    """
    Limits of the internal class 6H, as ISO 965-1 computes them.

    TD1 = 433 P - 190 P^1.22 up to P = 0.8 and 230 P^0.7 from 1, TD2 = 1.32 Td2 [um], each rounded
    to R40. The standard's own tables step once more at a few sizes (up to 10 um).

    Args:
        d_mm: Nominal diameter d [mm], 0.99..355.
        pitch_mm: Pitch P [mm], > 0 and well below d.

    Returns:
        Limits of minor and pitch diameter [mm].

    Raises:
        ValueError: When an argument is out of its range.

    References:
        1. ISO 965-1:2013, clauses 12 and 13, formulas.

    >>> [round(x, 3) for x in iso_internal(12.0, 1.75)]
    [10.106, 10.441, 10.863, 11.063]
    """
    d1, d2, p = minor_diameter(d_mm, pitch_mm), pitch_diameter(d_mm, pitch_mm), pitch_mm
    td1 = preferred(433 * p - 190 * p**1.22 if p < 1 else 230 * p**0.7) / 1000
    return Internal(d1, d1 + td1, d2, d2 + preferred(1.32 * iso_pitch_tolerance(d_mm, p)) / 1000)


def unified_pitch_tolerance(
    d_in: float, pitch_in: float, engaged_pitches: float | None = None
) -> float:
    """
    Pitch diameter tolerance of class 2A: 0.0015 D^(1/3) + 0.0015 LE^(1/2) + 0.015 P^(2/3).

    Args:
        d_in: Nominal diameter D [in], > 0.
        pitch_in: Pitch P [in], > 0.
        engaged_pitches: Length of engagement LE in pitches [-]; None: one diameter.

    Returns:
        Tolerance Td2 [in].

    Raises:
        ValueError: When an argument is not positive and finite.

    References:
        1. ASME B1.1-2003, section 5, formulas for tolerances.

    >>> round(unified_pitch_tolerance(0.5, 1 / 28, 9.0), 6)
    0.003668
    """
    d, p = positive(d_in, "d_in"), positive(pitch_in, "pitch_in")
    engaged = d if engaged_pitches is None else positive(engaged_pitches, "engaged_pitches") * p
    return float(0.0015 * d ** (1 / 3) + 0.0015 * sqrt(engaged) + 0.015 * p ** (2 / 3))


def unified_external(
    d_mm: float, pitch_mm: float, engaged_pitches: float | None = None
) -> External:
    """
    Limits of the external class 2A of a Unified thread.

    Td2 = 0.0015 D^(1/3) + 0.0015 LE^(1/2) + 0.015 P^(2/3), Td = 0.060 P^(2/3), allowance 0.3 Td2
    rounded to 0.0001 [in].

    Args:
        d_mm: Nominal diameter D [mm], > 0.
        pitch_mm: Pitch P [mm], > 0 and well below D.
        engaged_pitches: Length of engagement LE in pitches [-]; None: one diameter (coarse, fine
            and 8-thread series; 9 for the constant-pitch series and extra fine).

    Returns:
        Limits of major and pitch diameter [mm].

    Raises:
        ValueError: When an argument is out of its range.

    References:
        1. ASME B1.1-2003, section 5, formulas for allowance and tolerances.

    >>> [round(x / 25.4, 4) for x in unified_external(7.9375, 25.4 / 18)]
    [0.3113, 0.3026, 0.2752, 0.2712]
    """
    d2 = pitch_diameter(d_mm, pitch_mm)
    d, p = d_mm / INCH, pitch_mm / INCH
    td2 = unified_pitch_tolerance(d, p, engaged_pitches)
    es = round(0.3 * td2, 4) * INCH
    td = 0.060 * p ** (2 / 3) * INCH
    return External(d_mm - es, d_mm - es - td, d2 - es, d2 - es - td2 * INCH)


def unified_internal(
    d_mm: float, pitch_mm: float, engaged_pitches: float | None = None
) -> Internal:
    """
    Limits of the internal class 2B of a Unified thread.

    TD2 = 1.3 Td2 of class 2A; TD1 = 0.25 P - 0.4 P^2 from 1/4 in up (at least four threads per
    inch), below it 0.05 P^(2/3) + 0.03 P/D - 0.002, kept between 0.25 P - 0.4 P^2 and 0.394 P [in].

    Args:
        d_mm: Nominal diameter D [mm], > 0.
        pitch_mm: Pitch P [mm], up to 6.35 and well below D.
        engaged_pitches: Length of engagement LE in pitches [-]; None: one diameter.

    Returns:
        Limits of minor and pitch diameter [mm].

    Raises:
        ValueError: When an argument is out of its range.

    References:
        1. ASME B1.1-2003, section 5, formulas for tolerances.

    >>> [round(x / 25.4, 4) for x in unified_internal(7.9375, 25.4 / 18)]
    [0.2524, 0.265, 0.2764, 0.2817]
    """
    d1, d2 = minor_diameter(d_mm, pitch_mm), pitch_diameter(d_mm, pitch_mm)
    d, p = d_mm / INCH, within(pitch_mm, "pitch_mm", 0.0, 6.35) / INCH
    td1 = 0.25 * p - 0.4 * p**2
    if d < 0.25:  # the standard's own bounds on its formula for small sizes
        td1 = min(0.394 * p, max(td1, 0.05 * p ** (2 / 3) + 0.03 * p / d - 0.002))
    td2 = 1.3 * unified_pitch_tolerance(d, p, engaged_pitches)
    return Internal(d1, d1 + td1 * INCH, d2, d2 + td2 * INCH)
