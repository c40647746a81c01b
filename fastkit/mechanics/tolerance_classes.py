"""Limits of size of any tolerance class: ISO 965-1 grade and position, ASME B1.1 classes 1 to 3."""

from math import sqrt

from fastkit.mechanics.bounds import positive, within
from fastkit.mechanics.thread import minor_diameter, pitch_diameter
from fastkit.mechanics.tolerance import (
    INCH,
    External,
    Internal,
    iso_pitch_tolerance,
    preferred,
    unified_pitch_tolerance,
)

# ISO 965-1, clause 13: tolerance of a grade over that of grade 6
PITCH_GRADES = {3: 0.5, 4: 0.63, 5: 0.8, 6: 1.0, 7: 1.25, 8: 1.6, 9: 2.0}
INTERNAL_PITCH_GRADES = {4: 0.85, 5: 1.06, 6: 1.32, 7: 1.7, 8: 2.12}  # over grade 6, external
MAJOR_GRADES = {4: 0.63, 6: 1.0, 8: 1.6}
MINOR_GRADES = {4: 0.63, 5: 0.8, 6: 1.0, 7: 1.25, 8: 1.6}
# ISO 965-1, clause 12: fundamental deviation, um, a + b P
POSITIONS = {"h": (0.0, 0.0), "g": (15.0, 11.0), "f": (30.0, 11.0), "e": (50.0, 11.0)}
# ASME B1.1, section 5: over the pitch diameter tolerance of class 2A
EXTERNAL_CLASSES = {"1A": 1.5, "2A": 1.0, "3A": 0.75}
INTERNAL_CLASSES = {"1B": 1.95, "2B": 1.3, "3B": 0.975}
MAJOR_P = {"1A": 0.090, "2A": 0.060, "3A": 0.060}


def iso_class(text: str, internal: bool) -> tuple[int, int, str]:
    """
    Grades and position of an ISO class: pitch diameter first, as `6g`, `4H`, `5g6g`.

    Args:
        text: The class as written.
        internal: True for a class of internal threads.

    Returns:
        Grade of the pitch diameter, of major or minor diameter [-], and position in small letters.

    Raises:
        ValueError: When there is no such class.

    References:
        1. ISO 965-1:2013, clause 5, designation of tolerance classes.

    >>> iso_class("6g", False), iso_class("5g6g", False), iso_class("4H", True)
    ((6, 6, 'g'), (5, 6, 'g'), (4, 4, 'h'))
    """
    parts = text.strip()
    pairs = [parts[i : i + 2] for i in range(0, len(parts), 2)]
    crests = MINOR_GRADES if internal else MAJOR_GRADES
    pitches = INTERNAL_PITCH_GRADES if internal else PITCH_GRADES
    letters = "GH" if internal else "efgh"
    sound = len(pairs) in {1, 2} and all(
        len(pair) == 2 and pair[0] in "3456789" and pair[1] in letters for pair in pairs
    )
    if sound:
        first, last = int(pairs[0][0]), int(pairs[-1][0])
        if first in pitches and last in crests and pairs[0][1] == pairs[-1][1]:
            return first, last, pairs[0][1].lower()
    raise ValueError(f"class must be such as {'6H' if internal else '6g'}, got {text[:20]!r}")


def iso_external_class(d_mm: float, pitch_mm: float, name: str) -> External:
    """
    Limits of an external metric thread of any class.

    es = -(a + b P) by position, Td2 and Td those of grade 6 times the grade's factor, each rounded
    to R40 (see *fastkit.mechanics.tolerance.iso_external*).

    Args:
        d_mm: Nominal diameter d [mm], 0.99..355.
        pitch_mm: Pitch P [mm], > 0 and well below d.
        name: Class as `6g`, `4h`, `5g6g`.

    Returns:
        Limits of major and pitch diameter [mm].

    Raises:
        ValueError: When an argument is out of its range or there is no such class.

    References:
        1. ISO 965-1:2013, clauses 12 and 13, formulas.

    >>> [round(x, 3) for x in iso_external_class(30.0, 2.0, "4h")]
    [30.0, 29.82, 28.701, 28.595]
    """
    grade, crest, position = iso_class(name, internal=False)
    d2, p = pitch_diameter(d_mm, pitch_mm), pitch_mm
    a, b = POSITIONS[position]
    es = preferred(a + b * p) / 1000 if a else 0.0
    td = preferred(MAJOR_GRADES[crest] * (180 * p ** (2 / 3) - 3.15 / sqrt(p))) / 1000
    td2 = preferred(PITCH_GRADES[grade] * iso_pitch_tolerance(d_mm, p)) / 1000
    return External(d_mm - es, d_mm - es - td, d2 - es, d2 - es - td2)


def iso_internal_class(d_mm: float, pitch_mm: float, name: str) -> Internal:
    """
    Limits of an internal metric thread of any class.

    Args:
        d_mm: Nominal diameter D [mm], 0.99..355.
        pitch_mm: Pitch P [mm], > 0 and well below D.
        name: Class as `6H`, `7H`, `5G`.

    Returns:
        Limits of minor and pitch diameter [mm].

    Raises:
        ValueError: When an argument is out of its range or there is no such class.

    References:
        1. ISO 965-1:2013, clauses 12 and 13, formulas.

    >>> [round(x, 3) for x in iso_internal_class(30.0, 3.5, "7H")]
    [26.211, 26.921, 27.727, 28.082]
    """
    grade, crest, position = iso_class(name, internal=True)
    d1, d2, p = minor_diameter(d_mm, pitch_mm), pitch_diameter(d_mm, pitch_mm), pitch_mm
    a, b = POSITIONS[position]
    ei = preferred(a + b * p) / 1000 if a else 0.0
    base = 433 * p - 190 * p**1.22 if p < 1 else 230 * p**0.7
    td1 = preferred(MINOR_GRADES[crest] * base) / 1000
    td2 = preferred(INTERNAL_PITCH_GRADES[grade] * iso_pitch_tolerance(d_mm, p)) / 1000
    return Internal(d1 + ei, d1 + ei + td1, d2 + ei, d2 + ei + td2)


def unified_external_class(
    d_mm: float, pitch_mm: float, name: str, engaged_pitches: float | None = None
) -> External:
    """
    Limits of an external Unified thread of class 1A, 2A or 3A.

    Td2 is 1.5, 1 and 0.75 times that of 2A; Td 0.090 P^(2/3) for 1A, 0.060 P^(2/3) for the others;
    the allowance of 1A and 2A is 0.3 Td2 of 2A rounded to 0.0001 in, 3A has none.

    Args:
        d_mm: Nominal diameter D [mm], > 0.
        pitch_mm: Pitch P [mm], > 0 and well below D.
        name: 1A, 2A or 3A.
        engaged_pitches: Length of engagement LE in pitches [-]; None: one diameter.

    Returns:
        Limits of major and pitch diameter [mm].

    Raises:
        ValueError: When an argument is out of its range or there is no such class.

    References:
        1. ASME B1.1-2003, section 5, formulas for allowance and tolerances.

    >>> [round(x / 25.4, 4) for x in unified_external_class(63.5, 25.4 / 4, "1A")][:2]
    [2.4969, 2.4612]
    """
    if name not in EXTERNAL_CLASSES:
        raise ValueError(f"class must be one of {', '.join(EXTERNAL_CLASSES)}, got {name[:20]!r}")
    d, p = positive(d_mm, "d_mm") / INCH, positive(pitch_mm, "pitch_mm") / INCH
    td2 = unified_pitch_tolerance(d, p, engaged_pitches)
    es = 0.0 if name == "3A" else round(0.3 * td2, 4)
    d2 = pitch_diameter(d_mm, pitch_mm) / INCH
    td = MAJOR_P[name] * p ** (2 / 3)
    wide = EXTERNAL_CLASSES[name] * td2
    return External(*(INCH * x for x in (d - es, d - es - td, d2 - es, d2 - es - wide)))


def unified_internal_class(
    d_mm: float, pitch_mm: float, name: str, engaged_pitches: float | None = None
) -> Internal:
    """
    Limits of an internal Unified thread of class 1B, 2B or 3B.

    TD2 is 1.95, 1.3 and 0.975 times that of 2A. TD1 of 1B and 2B as in
    *fastkit.mechanics.tolerance.unified_internal*; of 3B 0.05 P^(2/3) + 0.03 P/D - 0.002, at least
    0.23 P - 1.5 P^2 from 13 threads per inch up and 0.12 P below, at most 0.394 P [in].

    Args:
        d_mm: Nominal diameter D [mm], > 0.
        pitch_mm: Pitch P [mm], up to 6.35 and well below D.
        name: 1B, 2B or 3B.
        engaged_pitches: Length of engagement LE in pitches [-]; None: one diameter.

    Returns:
        Limits of minor and pitch diameter [mm].

    Raises:
        ValueError: When an argument is out of its range or there is no such class.

    References:
        1. ASME B1.1-2003, section 5, formulas for tolerances.

    >>> [round(x / 25.4, 4) for x in unified_internal_class(12.7, 25.4 / 13, "3B")][:2]
    [0.4167, 0.4284]
    """
    if name not in INTERNAL_CLASSES:
        raise ValueError(f"class must be one of {', '.join(INTERNAL_CLASSES)}, got {name[:20]!r}")
    d, p = positive(d_mm, "d_mm") / INCH, within(pitch_mm, "pitch_mm", 0.0, 6.35) / INCH
    d1, d2 = minor_diameter(d_mm, pitch_mm), pitch_diameter(d_mm, pitch_mm)
    td1 = 0.05 * p ** (2 / 3) + 0.03 * p / d - 0.002
    if name == "3B":
        td1 = min(max(td1, 0.23 * p - 1.5 * p**2 if p <= 1 / 13 + 1e-9 else 0.12 * p), 0.394 * p)
    elif d < 0.25:
        td1 = min(0.394 * p, max(td1, 0.25 * p - 0.4 * p**2))
    else:
        td1 = 0.25 * p - 0.4 * p**2
    wide = INTERNAL_CLASSES[name] * unified_pitch_tolerance(d, p, engaged_pitches)
    return Internal(d1, d1 + td1 * INCH, d2, d2 + wide * INCH)
