"""What a repaired thread holds: strip of the body, of the screw's thread, the screw itself."""

from fastkit.hardware.repair_case import Facts, Strength
from fastkit.joint.strip import bolt_shear, overlap
from fastkit.mechanics.strength import external_shear_area, internal_shear_area
from fastkit.mechanics.strip import bending_factors, carrying_length
from fastkit.mechanics.tolerance import iso_pitch_tolerance
from fastkit.records.grade import GradeRow
from fastkit.records.thread import Thread

INTERNAL_PITCH = 1.32  # ISO 965-1: tolerance of an internal pitch diameter over an external one
STI = 1.29904  # ASME B18.29.1: outer thread of a wire insert over the thread, in pitches


def outer_thread(outer_mm: float, pitch_mm: float) -> tuple[float, float, float]:
    """
    Pitch, least major and largest pitch diameter of an insert's outer thread in its hole [mm].

    The insert is pressed or wound into its thread, so that its crests stand at full size; the
    hole's pitch diameter has the tolerance of class 6H.
    """
    d2 = outer_mm - STI / 2 * pitch_mm
    tolerance = INTERNAL_PITCH * iso_pitch_tolerance(outer_mm, pitch_mm) / 1000
    return pitch_mm, outer_mm, d2 + tolerance


def strength(
    facts: Facts,
    thread: Thread,
    screw: GradeRow,
    length_mm: float,
    outer: tuple[float, float, float] | None = None,
) -> Strength:
    """
    Strength of a screw in a body over a length of thread.

    Args:
        facts: Rows; the body's shear strength is taken from them.
        thread: The screw's thread.
        screw: The screw's strength.
        length_mm: Length of engagement, run-out included [mm].
        outer: Pitch, major and pitch diameter of an insert's outer thread, in place of the
            thread's own in the body.
    """
    screw_n = thread.stress_area_mm2 * screw.tensile_min_mpa
    metric = thread.family == "plug" and not thread.tpi
    ends = overlap(thread._replace(family="M") if metric else thread)
    if ends is None or facts.shear_mpa is None:
        return Strength(None, None, screw_n, None, "not computed")
    p = thread.pitch_mm
    if not length_mm > carrying_from(p):
        return Strength(0.0, 0.0, screw_n, 0.0, "body thread")
    length = carrying_length(length_mm, p)
    pitch, major, inside = outer or (p, ends.d_min, ends.d2_internal_max)
    body = facts.shear_mpa * internal_shear_area(length, pitch, major, inside)
    screw_thread = bolt_shear(screw) * external_shear_area(length, p, ends.d1_max, ends.d2_min)
    c2, c3 = bending_factors(body / screw_thread)
    return weakest(c3 * body, c2 * screw_thread, screw_n)


def weakest(body_n: float, screw_thread_n: float | None, screw_n: float) -> Strength:
    """The strengths with the least of them and its name."""
    named = [(body_n, "body thread"), (screw_n, "screw")]
    if screw_thread_n is not None:
        named.append((screw_thread_n, "screw thread"))
    least, name = min(named)
    return Strength(body_n, screw_thread_n, screw_n, least, name)


def scaled(held: Strength, share: float) -> Strength:
    """The same joint with the body's thread worth a share of what it computes to."""
    if held.thread_n is None:
        return held
    return weakest(share * held.thread_n, held.screw_thread_n, held.screw_n)


def carrying_from(pitch_mm: float) -> float:
    """Engagement that only makes up for the chamfered turns [mm]; VDI 2230-1, 0.8 P."""
    return 0.8 * pitch_mm
