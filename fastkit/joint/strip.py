"""Strip of both threads of an engaged pair, by tolerance class and both materials' strengths."""

from typing import NamedTuple

from fastkit.mechanics.bounds import positive
from fastkit.mechanics.strength import external_shear_area, internal_shear_area
from fastkit.mechanics.strip import (
    RUN_OUT_P,
    SHEAR_RATIO,
    bending_factors,
    carrying_length,
    engagement_of_equal_strength,
)
from fastkit.mechanics.tolerance import (
    iso_external,
    iso_internal,
    unified_external,
    unified_internal,
)
from fastkit.records.grade import GradeRow
from fastkit.records.thread import Thread

SIXTY = ("M", "UN")  # families whose tolerance formulas are known here
# Classes that VDI 2230-1 does not list: the lowest of those it does, which errs to the low side.
OTHER_RATIO = min(SHEAR_RATIO.values())


class Overlap(NamedTuple):
    """Limits of size that leave the least overlap [mm]."""

    d_min: float  # major diameter of the external thread
    d2_min: float  # its pitch diameter
    d1_max: float  # minor diameter of the internal thread
    d2_internal_max: float  # its pitch diameter


class Areas(NamedTuple):
    """Engagement that carries [mm] and the areas in which the two threads strip [mm^2]."""

    length_mm: float
    internal_mm2: float
    external_mm2: float


class Strip(NamedTuple):
    """Forces at which the threads strip [N], bending factors taken in; Rs, nut over bolt."""

    internal_n: float
    external_n: float
    ratio: float


def overlap(thread: Thread) -> Overlap | None:
    """Least overlap of classes 6g/6H, 2A/2B; None for families without tolerances here."""
    d, p = thread.nominal_mm, thread.pitch_mm
    if thread.family not in SIXTY:
        return None
    if thread.family == "UN":
        outside, inside = unified_external(d, p), unified_internal(d, p)
    else:
        outside, inside = iso_external(d, p), iso_internal(d, p)
    return Overlap(outside.d_min, outside.d2_min, inside.d1_max, inside.d2_max)


def shear_areas(thread: Thread, engage_mm: float) -> Areas | None:
    """
    Areas in which the threads strip at the least overlap, run-out taken off.

    Raises:
        ValueError: When the engagement is no longer than the run-out.
    """
    ends = overlap(thread)
    if ends is None:
        return None
    p = thread.pitch_mm
    length = carrying_length(engage_mm, p)
    return Areas(
        length,
        internal_shear_area(length, p, ends.d_min, ends.d2_internal_max),
        external_shear_area(length, p, ends.d1_max, ends.d2_min),
    )


def equal_engagement(thread: Thread, tensile_mpa: float, body_shear_mpa: float) -> float | None:
    """
    Engagement at which the internal thread holds what the shank does, run-out included [mm].

    Args:
        thread: The thread.
        tensile_mpa: Tensile strength of the bolt [MPa], > 0.
        body_shear_mpa: Shear strength of the body [MPa], > 0.

    Returns:
        The length; None where the family's tolerances are not known.

    Raises:
        ValueError: When an argument is out of its range.
    """
    run_out = RUN_OUT_P * thread.pitch_mm
    areas = shear_areas(thread, run_out + 1.0)
    if areas is None:
        return None
    ratio = positive(tensile_mpa, "tensile_mpa") / positive(body_shear_mpa, "body_shear_mpa")
    area = areas.internal_mm2 / areas.length_mm
    return engagement_of_equal_strength(thread.stress_area_mm2, area, ratio) + run_out


def bolt_shear(strength: GradeRow) -> float:
    """Shear strength of a bolt's thread [MPa]: VDI 2230-1's share of its tensile strength."""
    return SHEAR_RATIO.get(strength.grade, OTHER_RATIO) * strength.tensile_min_mpa


def strip_loads(
    thread: Thread, bolt_shear_mpa: float, body_shear_mpa: float, engage_mm: float
) -> Strip | None:
    """
    Force at which each of the two threads strips, in a body too thick to widen.

    Args:
        thread: The thread.
        bolt_shear_mpa: Shear strength of the external thread [MPa], > 0.
        body_shear_mpa: Shear strength of the internal thread [MPa], > 0.
        engage_mm: Length of engagement [mm], above 0.8 P.

    Returns:
        The forces; None where the family's tolerances are not known.

    Raises:
        ValueError: When an argument is out of its range.
    """
    areas = shear_areas(thread, engage_mm)
    if areas is None:
        return None
    inside = positive(body_shear_mpa, "body_shear_mpa") * areas.internal_mm2
    outside = positive(bolt_shear_mpa, "bolt_shear_mpa") * areas.external_mm2
    c2, c3 = bending_factors(inside / outside)
    return Strip(c3 * inside, c2 * outside, inside / outside)
