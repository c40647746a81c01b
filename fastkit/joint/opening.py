"""What would open an empty window, each tried by computing the window anew."""

from collections.abc import Iterable
from typing import NamedTuple

from fastkit.joint.window import Joint, arm, clamp_of, frictions, window
from fastkit.records.grade import GradeRow

FINE_WRENCH = 0.01  # an electronic wrench; ISO 6789-1 leaves the class to the maker (practice)
SLICK = (0.08, 0.10, 0.12)  # one lubricant, known: the lower half of VDI 2230-1 class B
# A wire insert's thread in the body is larger by two thread heights of 5/8 H: it strips on a
# cylinder of d + 1.0825 P (basic profile, ISO 68-1).
INSERT_P = 1.0825


class Opening(NamedTuple):
    """A way that opens the window, and its measure where it has one."""

    # known-lubricant, finer-wrench, longer-engagement, insert, higher-class, stronger-nut, washer,
    # other-drive, less-clamp
    code: str
    value: float | None
    name: str | None = None  # of the class that would do


def openings(joint: Joint, stronger: Iterable[GradeRow] = ()) -> tuple[Opening, ...]:
    """
    Ways that open an empty window by themselves, the ones that keep the clamp first.

    Args:
        joint: The joint.
        stronger: Other classes at the thread's size; the weakest of them that does is named.

    Returns:
        The ways: `longer-engagement` carries the least factor on the engagement [-], `insert` its
        factor on the strip load [-], `less-clamp` the highest clamp that the joint can be relied on
        for [N]. Empty when the window is open.
    """
    now = window(joint)
    if not now.empty:
        return ()
    clamped = joint._replace(clamp_n=clamp_of(joint))  # the ways must not lower what is asked
    found: dict[str, Opening] = {}
    for way, other in (*_general(clamped), *_of_bound(clamped, now.limits[0].name, stronger)):
        if way.code not in found and not window(other).empty:
            found[way.code] = way
    least_sure = now.torque_max_nmm * (1 - joint.wrench_error) - joint.prevailing_nmm
    if least_sure > 0:
        found["less-clamp"] = Opening("less-clamp", least_sure / arm(joint, *frictions(joint)[2]))
    return tuple(found.values())


def _general(joint: Joint) -> list[tuple[Opening, Joint]]:
    """What narrows the scatter, whatever the limit is."""
    slick = joint._replace(mu_min=SLICK[0], mu_mid=SLICK[1], mu_max=SLICK[2], mu_head=None)
    return [
        (Opening("known-lubricant", SLICK[1]), slick),
        (Opening("finer-wrench", FINE_WRENCH), joint._replace(wrench_error=FINE_WRENCH)),
    ]


def _of_bound(
    joint: Joint, bound: str, stronger: Iterable[GradeRow]
) -> list[tuple[Opening, Joint]]:
    """What lifts the limit that governs."""
    if bound in {"thread-strip", "bolt-thread-strip"}:
        factors = (1.25, 1.5, 1.75, 2.0, 2.5)
        ways = [(Opening("longer-engagement", f), stretched(joint, f)) for f in factors]
        if bound == "thread-strip":
            insert = 1 + INSERT_P * joint.thread.pitch_mm / joint.thread.nominal_mm
            wider = joint._replace(strip_n=(joint.strip_n or 0.0) * insert)
            ways.append((Opening("insert", insert), wider))
        return ways
    if bound == "nut-proof":
        return [(Opening("stronger-nut", None), joint._replace(nut_proof_n=None))]
    if bound == "bearing-pressure":
        return [(Opening("washer", None), joint._replace(bearing_mpa=None))]
    if bound == "drive":
        return [(Opening("other-drive", None), joint._replace(drive_nmm=None))]
    rows = sorted(stronger, key=lambda row: row.yield_min_mpa or 0.0)
    return [
        (Opening("higher-class", row.yield_min_mpa, row.grade), of_class(joint, row))
        for row in rows
        if row.yield_min_mpa is not None and row.yield_min_mpa > joint.yield_mpa
    ]


def of_class(joint: Joint, row: GradeRow) -> Joint:
    """The joint with a bolt of another class, its nut matching."""
    factor = row.tensile_min_mpa / joint.tensile_mpa
    return joint._replace(
        yield_mpa=row.yield_min_mpa or joint.yield_mpa,
        tensile_mpa=row.tensile_min_mpa,
        bolt_strip_n=None if joint.bolt_strip_n is None else joint.bolt_strip_n * factor,
        nut_proof_n=None,
    )


def stretched(joint: Joint, factor: float) -> Joint:
    """The joint with *factor* times the engagement; strip loads rise at least with it."""
    inside, outside = joint.strip_n, joint.bolt_strip_n
    return joint._replace(
        strip_n=None if inside is None else inside * factor,
        bolt_strip_n=None if outside is None else outside * factor,
    )
