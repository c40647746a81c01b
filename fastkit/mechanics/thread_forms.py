"""Basic dimensions of the threads that are not of the ISO profile: Whitworth, BA, pipe, sheet."""

from math import pi
from typing import NamedTuple

from fastkit.mechanics.bounds import positive

WHITWORTH_DEPTH = 0.640327  # BS 84: depth over pitch, 55 degrees
ASSOCIATION_DEPTH = 0.6  # BS 93: depth over pitch, 47.5 degrees
PIPE_DEPTH = 0.8  # ASME B1.20.1: depth over pitch, 60 degrees, truncated
TAPER = 1 / 16  # on the diameter; ISO 7-1 and ASME B1.20.1
INCH = 25.4


class Basic(NamedTuple):
    """Pitch diameter d2, minor diameter D1, root d3 [mm] and area of a solid screw [mm^2]."""

    pitch_diameter_mm: float
    minor_mm: float
    root_mm: float
    area_mm2: float


def _between(pitch_diameter: float, root: float) -> Basic:
    """The area is that of the mean of pitch and root diameter, as ISO 898-1 takes it."""
    area = pi / 4 * ((pitch_diameter + root) / 2) ** 2
    return Basic(pitch_diameter, root, root, area)


def _of_depth(d_mm: float, pitch_mm: float, depth: float) -> Basic:
    positive(d_mm, "d_mm")
    positive(pitch_mm, "pitch_mm")
    if not 2 * depth * pitch_mm < d_mm:
        most = d_mm / (2 * depth)
        raise ValueError(f"pitch_mm must be < {most:g} for d_mm {d_mm:g}, got {pitch_mm!r}")
    return _between(d_mm - depth * pitch_mm, d_mm - 2 * depth * pitch_mm)


def whitworth(d_mm: float, pitch_mm: float) -> Basic:
    """
    Basic dimensions of a thread of Whitworth form, depth 0.640327 P; BSW, BSF, G, R and Rp.

    A taper thread has them in its gauge plane.

    Args:
        d_mm: Major diameter d [mm], > 0.
        pitch_mm: Pitch P [mm], > 0 and well below d.

    Returns:
        d2 = d - h, D1 = d3 = d - 2 h [mm]; area of a solid screw [mm^2].

    Raises:
        ValueError: When an argument is not positive and finite, or the pitch too coarse.

    References:
        1. BS 84:1956; ISO 228-1:2000, clause 3; ISO 7-1:1994, clause 5.

    >>> [round(x, 3) for x in whitworth(13.157, 25.4 / 19)[:2]]
    [12.301, 11.445]
    """
    return _of_depth(d_mm, pitch_mm, WHITWORTH_DEPTH)


def association(d_mm: float, pitch_mm: float) -> Basic:
    """
    Basic dimensions of a British Association thread, depth 0.6 P, 47.5 degrees.

    Args:
        d_mm: Major diameter d [mm], > 0.
        pitch_mm: Pitch P [mm], > 0 and well below d.

    Returns:
        d2 = d - 0.6 P, D1 = d3 = d - 1.2 P [mm]; area of a solid screw [mm^2].

    Raises:
        ValueError: When an argument is not positive and finite, or the pitch too coarse.

    References:
        1. BS 93:1951.

    >>> [round(x, 3) for x in association(4.7, 0.81)[:2]]
    [4.214, 3.728]
    """
    return _of_depth(d_mm, pitch_mm, ASSOCIATION_DEPTH)


def taper_pipe(d_mm: float, pitch_mm: float, gauge_mm: float) -> Basic:
    """
    Basic dimensions of an American taper pipe thread in its hand-tight plane.

    E0 = D - (0.05 D + 1.1) P [in], E1 = E0 + L1/16, depth 0.8 P.

    Args:
        d_mm: Outside diameter of the pipe D [mm], > 0.
        pitch_mm: Pitch P [mm], > 0 and well below D.
        gauge_mm: Length of hand-tight engagement L1 [mm], > 0.

    Returns:
        Pitch diameter E1 and minor diameter there [mm]; area of a solid plug there [mm^2].

    Raises:
        ValueError: When an argument is not positive and finite, or the pitch too coarse.

    References:
        1. ASME B1.20.1, basic dimensions, formulas; ASME B1.20.3 has the same pitch diameters.

    >>> round(taper_pipe(0.54 * 25.4, 25.4 / 18, 0.2278 * 25.4).pitch_diameter_mm / 25.4, 5)
    0.49163
    """
    positive(d_mm, "d_mm")
    positive(pitch_mm, "pitch_mm")
    e0 = d_mm - (0.05 * d_mm / INCH + 1.1) * pitch_mm
    e1 = e0 + TAPER * positive(gauge_mm, "gauge_mm")
    if not e1 > PIPE_DEPTH * pitch_mm:
        raise ValueError(f"pitch_mm must be well below d_mm {d_mm:g}, got {pitch_mm!r}")
    return _between(e1, e1 - PIPE_DEPTH * pitch_mm)


def of_core(d_mm: float, core_mm: float) -> Basic:
    """
    Dimensions of a thread of which outside and core are printed: tapping screw, steel conduit.

    The pitch diameter is the mean of both: exact for the symmetric conduit thread; for a tapping
    screw, whose standard gives none, the middle of its flank.

    Args:
        d_mm: Outside diameter [mm], > 0.
        core_mm: Core diameter [mm], > 0 and below *d_mm*.

    Returns:
        Pitch, minor and root diameter [mm]; area of the core [mm^2].

    Raises:
        ValueError: When an argument is not positive and finite, or the core not the smaller.

    References:
        1. ISO 1478:1999, table 1 (d1, d2); DIN 40430:1971.

    >>> of_core(4.22, 3.1).pitch_diameter_mm
    3.66
    """
    if not positive(core_mm, "core_mm") < positive(d_mm, "d_mm"):
        raise ValueError(f"core_mm must be < {d_mm:g}, got {core_mm!r}")
    return Basic((d_mm + core_mm) / 2, core_mm, core_mm, pi / 4 * core_mm**2)


class Limits(NamedTuple):
    """Least and largest of each diameter [mm]; None where the standard sets no limit."""

    major: tuple[float, float] | None
    pitch: tuple[float, float]
    minor: tuple[float, float]


SMALL_BA_P = 0.33  # BS 93: numbers 11 to 16 have finer pitches than this, and no allowance


def association_bolt(d_mm: float, pitch_mm: float, *, close: bool = False) -> Limits:
    """
    Limits of a British Association bolt, of the normal class or the close one.

    Tolerances: major 0.2 p (0.25 p from no. 11), effective 0.1 p + 0.025, minor 0.2 p + 0.05;
    allowance 0.025 up to no. 10 [mm]. Close, numbers 0 to 10: 0.15 p, 0.08 p + 0.02,
    0.16 p + 0.04, and no allowance.

    Args:
        d_mm: Major diameter d [mm], > 0.
        pitch_mm: Pitch p [mm], > 0 and well below d.
        close: The close class; there is none from no. 11.

    Returns:
        Limits [mm].

    Raises:
        ValueError: When an argument is not positive and finite, or the pitch too coarse or, for
            the close class, below 0.33.

    References:
        1. BS 93:1951, bolts.

    >>> [round(x, 3) for x in association_bolt(3.6, 0.66).pitch]
    [3.088, 3.179]
    """
    basic, p = association(d_mm, pitch_mm), pitch_mm
    small = p < SMALL_BA_P
    if close and small:
        raise ValueError(f"pitch_mm must be >= {SMALL_BA_P:g} for a close bolt, got {pitch_mm!r}")
    top = 0.0 if small or close else 0.025
    share = 0.8 if close else 1.0
    wide = 0.15 * p if close else 0.25 * p if small else 0.2 * p
    d, d2, d1 = d_mm - top, basic.pitch_diameter_mm - top, basic.minor_mm - top
    return Limits(
        (d - wide, d),
        (d2 - share * (0.1 * p + 0.025), d2),
        (d1 - share * (0.2 * p + 0.05), d1),
    )


def association_nut(d_mm: float, pitch_mm: float) -> Limits:
    """
    Limits of a British Association nut, effective + 0.12 p + 0.03 and minor + 0.375 p [mm].

    Args:
        d_mm: Major diameter d [mm], > 0.
        pitch_mm: Pitch p [mm], > 0 and well below d.

    Returns:
        Limits [mm].

    Raises:
        ValueError: When an argument is not positive and finite, or the pitch too coarse.

    References:
        1. BS 93:1951, nuts, all classes.

    >>> [round(x, 3) for x in association_nut(3.6, 0.66).minor]
    [2.808, 3.055]
    """
    basic, p = association(d_mm, pitch_mm), pitch_mm
    d2, d1 = basic.pitch_diameter_mm, basic.minor_mm
    return Limits(None, (d2, d2 + 0.12 * p + 0.03), (d1, d1 + 0.375 * p))
