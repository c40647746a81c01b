"""Limits of size of Whitworth threads, BSW and BSF: the classes of BS 84."""

from math import sqrt

from fastkit.mechanics.thread_forms import INCH, Limits, whitworth

BOLT_CLASSES = {"close": (2 / 3, 0.013), "medium": (1.0, 0.020), "free": (1.5, 0.020)}
NUT_CLASSES = {"medium": 1.0, "normal": 1.5}
ALLOWED_IN = 0.75  # medium and free bolts have an allowance up to this size
LEAST_ALLOWANCE = (0.25, 0.05)  # diameter and pitch [in] whose allowance smaller sizes take


def _unit(d_in: float, pitch_in: float) -> float:
    """T = 0.002 D^(1/3) + 0.003 L^(1/2) + 0.005 p^(1/2) [in], engaged over one diameter."""
    return float(0.002 * d_in ** (1 / 3) + 0.003 * sqrt(d_in) + 0.005 * sqrt(pitch_in))


def _named(name: str, classes: tuple[str, ...]) -> str:
    if name not in classes:
        raise ValueError(f"class must be one of {', '.join(classes)}, got {name[:20]!r}")
    return name


def whitworth_bolt(d_mm: float, pitch_mm: float, name: str) -> Limits:
    """
    Limits of a Whitworth bolt: effective T times 2/3, 1, 3/2 for close, medium, free.

    T = 0.002 D^(1/3) + 0.003 L^(1/2) + 0.005 p^(1/2) [in], length of engagement L = D. Major:
    effective + 0.01 p^(1/2); minor: effective + 0.013 p^(1/2) close, + 0.02 p^(1/2) else. Medium
    and free bolts up to 3/4 in stand 0.3 T below basic, under 1/4 in as much as 1/4-20 does.

    Args:
        d_mm: Major diameter D [mm], > 0.
        pitch_mm: Pitch p [mm], > 0 and well below D.
        name: close, medium or free.

    Returns:
        Limits [mm].

    Raises:
        ValueError: When an argument is out of its range or there is no such class.

    References:
        1. BS 84:1956, as carried in Machinery's Handbook, 31st ed., tolerance formulas.

    >>> [round(x / 25.4, 4) for x in whitworth_bolt(12.7, 25.4 / 12, "medium").pitch]
    [0.4399, 0.4451]
    """
    share, root = BOLT_CLASSES[_named(name, tuple(BOLT_CLASSES))]
    basic = whitworth(d_mm, pitch_mm)
    d, p = d_mm / INCH, pitch_mm / INCH
    top = 0.0
    if name != "close" and d <= ALLOWED_IN + 1e-9:
        top = 0.3 * _unit(*(LEAST_ALLOWANCE if d < LEAST_ALLOWANCE[0] - 1e-9 else (d, p))) * INCH
    wide = share * _unit(d, p) * INCH
    crest, trough = 0.01 * sqrt(p) * INCH, root * sqrt(p) * INCH
    major, pitch, minor = d_mm - top, basic.pitch_diameter_mm - top, basic.minor_mm - top
    return Limits(
        (major - wide - crest, major), (pitch - wide, pitch), (minor - wide - trough, minor)
    )


def whitworth_nut(d_mm: float, pitch_mm: float, name: str) -> Limits:
    """
    Limits of a Whitworth nut: effective T medium, 3/2 T normal; minor 0.2 p + 0.004 to 0.007 [in].

    The minor diameter's constant is 0.004 in from 26 threads per inch up, 0.005 in at 24 and 22,
    0.007 in from 20 down.

    Args:
        d_mm: Major diameter D [mm], > 0.
        pitch_mm: Pitch p [mm], > 0 and well below D.
        name: medium or normal.

    Returns:
        Limits [mm]; none of the major diameter.

    Raises:
        ValueError: When an argument is out of its range or there is no such class.

    References:
        1. BS 84:1956, as carried in Machinery's Handbook, 31st ed., tolerance formulas.

    >>> [round(x / 25.4, 4) for x in whitworth_nut(12.7, 25.4 / 12, "normal").minor]
    [0.3933, 0.4169]
    """
    share = NUT_CLASSES[_named(name, tuple(NUT_CLASSES))]
    basic = whitworth(d_mm, pitch_mm)
    p = pitch_mm / INCH
    more = 0.004 if p < 1 / 25 else 0.005 if p < 1 / 21 else 0.007
    d2, d1 = basic.pitch_diameter_mm, basic.minor_mm
    wide = share * _unit(d_mm / INCH, p) * INCH
    return Limits(None, (d2, d2 + wide), (d1, d1 + (0.2 * p + more) * INCH))
