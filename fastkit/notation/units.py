"""
Quantities as people type them, into the units inside; and both unit systems for people to read.

Inside: mm, N·mm, N, degrees, minutes. The table is closed: a unit that is not in it is refused,
so nothing is ever guessed ("5 Nm" is a torque, whatever a general unit library makes of it).
"""

import re
from math import isfinite

from fastkit.errors import Misuse

INCH_MM = 25.4  # exact, international inch
LBF_N = 4.4482216152605  # exact, international pound times standard gravity
KGF_N = 9.80665  # exact, standard gravity
LBFT_NMM = LBF_N * 12 * INCH_MM
LBIN_NMM = LBF_N * INCH_MM

# Spellings stand without case, blanks and the signs that join units.
LENGTH = {
    **dict.fromkeys(("mm", "millimetre", "millimetres", "millimeter", "millimeters"), 1.0),
    **dict.fromkeys(("cm",), 10.0),
    **dict.fromkeys(("m", "metre", "metres", "meter", "meters"), 1000.0),
    **dict.fromkeys(("in", "inch", "inches", '"', "″", "”", "''"), INCH_MM),
    **dict.fromkeys(("ft", "foot", "feet"), 12 * INCH_MM),
}
TORQUE = {
    **dict.fromkeys(("nm", "newtonmetre", "newtonmetres", "newtonmeters"), 1000.0),
    **dict.fromkeys(("ncm",), 10.0),
    **dict.fromkeys(("nmm",), 1.0),
    **dict.fromkeys(
        (
            "lbft",
            "lbsft",
            "lbfft",
            "ftlb",
            "ftlbs",
            "ftlbf",
            "footpound",
            "footpounds",
            "poundfeet",
        ),
        LBFT_NMM,
    ),
    **dict.fromkeys(
        ("lbin", "lbsin", "lbfin", "inlb", "inlbs", "inlbf", "inchpound", "inchpounds"), LBIN_NMM
    ),
    **dict.fromkeys(("ozin", "ozfin", "inoz", "inozf"), LBIN_NMM / 16),
    **dict.fromkeys(("kgm", "kgfm", "mkg", "mkgf", "kpm", "mkp"), KGF_N * 1000),
    **dict.fromkeys(("kgcm", "kgfcm", "cmkg", "cmkgf", "kpcm"), KGF_N * 10),
}
FORCE = {
    **dict.fromkeys(("n", "newton", "newtons"), 1.0),
    **dict.fromkeys(("kn",), 1000.0),
    **dict.fromkeys(("lbf", "lb", "lbs"), LBF_N),
    **dict.fromkeys(("kip", "kips"), 1000 * LBF_N),
    **dict.fromkeys(("kgf", "kp"), KGF_N),
}
ANGLE = {
    **dict.fromkeys(("deg", "degs", "degree", "degrees", "°", "º"), 1.0),
    **dict.fromkeys(("turn", "turns"), 360.0),
}
TIME = {
    **dict.fromkeys(("min", "mins", "minute", "minutes", "m"), 1.0),
    **dict.fromkeys(("h", "hr", "hrs", "hour", "hours"), 60.0),
    **dict.fromkeys(("s", "sec", "secs", "second", "seconds"), 1 / 60),
    **dict.fromkeys(("d", "day", "days"), 1440.0),
}

QUANTITIES = {"length": LENGTH, "torque": TORQUE, "force": FORCE, "angle": ANGLE}
SHARE = dict.fromkeys(("%", "percent", "pct"), 1.0)

VULGAR = {
    **{"½": "1/2", "⅓": "1/3", "⅔": "2/3", "¼": "1/4", "¾": "3/4", "⅕": "1/5", "⅖": "2/5"},
    **{"⅗": "3/5", "⅘": "4/5", "⅙": "1/6", "⅚": "5/6", "⅛": "1/8", "⅜": "3/8", "⅝": "5/8"},
    **{"⅞": "7/8"},
}
DASHES = str.maketrans({"−": "-", "–": "-", "‐": "-", "‑": "-", "⁄": "/"})
NUMBER = re.compile(
    r"(?P<sign>-?)(?:(?:(?P<whole>\d+)[ -]+)?(?P<over>\d+) ?/ ?(?P<under>\d+)"
    r"|(?P<plain>\d+(?:[.,]\d+)?|\.\d+))(?P<unit>(?![\d.,/]).*)",
    re.ASCII | re.DOTALL,
)
JOINTS = re.compile(r"[\s·⋅•∙*×./\-]+")


def _number(text: str, expected: str) -> tuple[float, bool, str]:
    """Value, whether it was a fraction, and the spelling of its unit."""
    plain = "".join(f" {VULGAR[c]}" if c in VULGAR else c for c in text.translate(DASHES)).strip()
    found = NUMBER.fullmatch(plain) if len(plain) <= 40 else None
    if found is None:
        raise Misuse(f"cannot read {_quoted(text)}: expected {expected}")
    whole, over, under = found["whole"], found["over"], found["under"]
    if over is None:
        digits = found["plain"]
        if re.fullmatch(r"\d{1,3},\d{3}", digits):  # thousands or decimals? never guessed
            raise Misuse(f"cannot read {_quoted(text)}: expected {expected}")
        value = float(digits.replace(",", "."))
    elif int(under) == 0:
        raise Misuse(f"cannot read {_quoted(text)}: a fraction over zero; expected {expected}")
    else:
        value = (int(whole or 0) * int(under) + int(over)) / int(under)
    return (-value if found["sign"] else value), over is not None, found["unit"]


def _quoted(text: str) -> str:
    return repr(text if len(text) <= 40 else text[:37] + "…")


def _quantity(
    text: str, table: dict[str, float], bare: float, expected: str, signed: bool = False
) -> float:
    value, _, spelt = _number(text, expected)
    unit = JOINTS.sub("", spelt).lower()
    if unit and unit not in table:
        raise Misuse(f"unknown unit {spelt.strip()!r} in {_quoted(text)}: expected {expected}")
    # thirteen digits: 1.5 in is 38.1 mm, not 38.099999999999994
    result = float(f"{value * (table[unit] if unit else bare):.13g}")
    if not isfinite(result) or (result < 0 and not signed):
        raise Misuse(f"{_quoted(text)} is out of range: expected {expected}, not negative")
    return result + 0.0  # nought has no sign


def quantity(text: str) -> str:
    """
    Say what a number with its unit is: length, torque, force or angle; empty for anything else.

    >>> quantity("25 Nm"), quantity("90°"), quantity("12"), quantity("bolt")
    ('torque', 'angle', '', '')
    """
    found = NUMBER.fullmatch(text.translate(DASHES).strip()) if len(text) <= 40 else None
    unit = JOINTS.sub("", found["unit"]).lower() if found else ""
    return next((name for name, table in QUANTITIES.items() if unit in table), "")


def length_mm(text: str) -> float:
    """
    Read a length.

    A bare number is mm; a bare fraction is inches, for nobody writes 7/32 of a millimetre.

    Args:
        text: As typed: `25`, `25mm`, `1in`, `7/32in`, `1-1/4 in`, `1¼"`, `7/32`.

    Returns:
        Length [mm], not negative.

    Raises:
        Misuse: When it is no length; names what was expected.

    >>> length_mm('1 1/4"'), length_mm("25"), length_mm("7/32")
    (31.75, 25.0, 5.55625)
    """
    expected = "a length such as 25, 25mm, 1in or 7/32in"
    bare = INCH_MM if _number(text, expected)[1] else 1.0
    return _quantity(text, LENGTH, bare, expected)


def torque_nmm(text: str) -> float:
    """
    Read a torque; a bare number is N·m.

    Args:
        text: As typed: `12`, `12 N·m`, `12Nm`, `9 lb-ft`, `80 in-lb`, `1.2 kgf·m`.

    Returns:
        Torque [N·mm], not negative.

    Raises:
        Misuse: When it is no torque; names what was expected.

    >>> torque_nmm("5 Nm"), round(torque_nmm("9 lb-ft"))
    (5000.0, 12202)
    """
    return _quantity(text, TORQUE, 1000.0, "a torque such as 12, 12 N·m, 9 lb-ft or 80 in-lb")


def force_n(text: str) -> float:
    """
    Read a force; a bare number is N.

    Args:
        text: As typed: `18000`, `18 kN`, `4000 lbf`.

    Returns:
        Force [N], not negative.

    Raises:
        Misuse: When it is no force; names what was expected.

    >>> force_n("18 kN")
    18000.0
    """
    return _quantity(text, FORCE, 1.0, "a force such as 18000, 18 kN or 4000 lbf")


def angle_deg(text: str) -> float:
    """
    Read an angle, which may be negative; a bare number is degrees.

    Args:
        text: As typed: `60`, `60°`, `90 deg`, `1/4 turn`.

    Returns:
        Angle [deg].

    Raises:
        Misuse: When it is no angle; names what was expected.

    >>> angle_deg("1/4 turn"), angle_deg("-30°")
    (90.0, -30.0)
    """
    return _quantity(text, ANGLE, 1.0, "an angle such as 60, 60° or 1/4 turn", signed=True)


def minutes(text: str) -> float:
    """
    Read a span of time; a bare number is minutes.

    Args:
        text: As typed: `90`, `90 min`, `1.5h`, `30 s`.

    Returns:
        Minutes [min], not negative.

    Raises:
        Misuse: When it is no span of time; names what was expected.

    >>> minutes("1.5h")
    90.0
    """
    return _quantity(text, TIME, 1.0, "a time such as 90, 90min or 1.5h")


def percent(text: str) -> float:
    """
    Read a share; a bare number is percent.

    Args:
        text: As typed: `30`, `30%`, `12.5 percent`.

    Returns:
        Share [%], not negative.

    Raises:
        Misuse: When it is no share; names what was expected.

    >>> percent("12.5 %")
    12.5
    """
    return _quantity(text, SHARE, 1.0, "a share in percent such as 30 or 30%")


def figures(value: float, digits: int = 3) -> str:
    """
    Write a number to so many significant digits, without exponent or trailing zeros.

    Args:
        value: Any finite number [-].
        digits: Significant digits; digits before the point are never dropped.

    Returns:
        The number in words a scale would print.

    >>> figures(17.8456), figures(1824.6), figures(0.0), figures(24.0)
    ('17.8', '1825', '0', '24')
    """
    if value == 0:
        return "0"
    before = len(str(int(abs(value)))) if abs(value) >= 1 else 0
    if before == 0:
        shown = f"{value:.{digits}g}"
        text = f"{float(shown):.12f}"
    else:
        text = f"{value:.{max(digits - before, 0)}f}"
    return text.rstrip("0").rstrip(".") if "." in text else text


def show_mm(mm: float) -> str:
    """
    Write a length in both systems.

    Args:
        mm: Length [mm].

    Returns:
        `8 mm (0.31 in)`.

    >>> show_mm(8.0), show_mm(90.0)
    ('8 mm (0.31 in)', '90 mm (3.54 in)')
    """
    inch = mm / INCH_MM
    both = f"{inch:.3f}" if abs(inch) < 0.1 else f"{inch:.2f}"
    return f"{figures(mm)} mm ({both.rstrip('0').rstrip('.') or '0'} in)"


def show_nm(nmm: float) -> str:
    """
    Write a torque in both systems; below 2 N·m the other one is lb·in.

    Args:
        nmm: Torque [N·mm].

    Returns:
        `24 N·m (17.7 lb·ft)`.

    >>> show_nm(24000.0), show_nm(1200.0)
    ('24 N·m (17.7 lb·ft)', '1.2 N·m (10.6 lb·in)')
    """
    other = f"{figures(nmm / LBIN_NMM)} lb·in" if nmm < 2000 else f"{figures(nmm / LBFT_NMM)} lb·ft"
    return f"{figures(nmm / 1000)} N·m ({other})"


def show_kn(newton: float) -> str:
    """
    Write a force in both systems.

    Args:
        newton: Force [N].

    Returns:
        `18.6 kN (4180 lbf)`.

    >>> show_kn(18600.0)
    '18.6 kN (4180 lbf)'
    """
    pounds = newton / LBF_N
    step = 10 if pounds >= 1000 else 1
    return f"{figures(newton / 1000)} kN ({round(pounds / step) * step} lbf)"
