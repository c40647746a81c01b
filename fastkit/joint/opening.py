"""What would open an empty window, each tried by computing the window anew."""

from typing import NamedTuple

from fastkit.joint.window import Joint, arm, clamp_of, window

FINE_WRENCH = 0.01  # an electronic wrench; ISO 6789-1 leaves the class to the maker (practice)
SLICK = (0.08, 0.10, 0.12)  # one lubricant, known: the lower half of VDI 2230-1 class B


class Opening(NamedTuple):
    """A way that opens the window, and its measure where it has one."""

    code: str  # known-lubricant, finer-wrench, longer-engagement, washer, other-drive, less-clamp
    value: float | None


def openings(joint: Joint) -> tuple[Opening, ...]:
    """
    Ways that open an empty window by themselves, the ones that keep the clamp first.

    `longer-engagement` carries the least factor on the engagement [-], `less-clamp` the highest
    clamp that the joint can be relied on for [N]. Empty when the window is open.
    """
    now = window(joint)
    if not now.empty:
        return ()
    clamped = joint._replace(clamp_n=clamp_of(joint))  # the ways must not lower what is asked
    bound = now.limits[0].name
    ways: list[tuple[Opening, Joint]] = [
        (
            Opening("known-lubricant", SLICK[1]),
            clamped._replace(mu_min=SLICK[0], mu_mid=SLICK[1], mu_max=SLICK[2]),
        ),
        (Opening("finer-wrench", FINE_WRENCH), clamped._replace(wrench_error=FINE_WRENCH)),
    ]
    if bound == "thread-strip":
        for factor in (1.25, 1.5, 1.75, 2.0, 2.5):
            ways.append((Opening("longer-engagement", factor), _stretched(clamped, factor)))
    if bound == "bearing-pressure":
        ways.append((Opening("washer", None), clamped._replace(bearing_mpa=None)))
    if bound == "drive":
        ways.append((Opening("other-drive", None), clamped._replace(drive_nmm=None)))
    found: dict[str, Opening] = {}
    for way, other in ways:
        if way.code not in found and not window(other).empty:
            found[way.code] = way
    least_sure = now.torque_max_nmm * (1 - joint.wrench_error) - joint.prevailing_nmm
    if least_sure > 0:
        found["less-clamp"] = Opening("less-clamp", least_sure / arm(joint, joint.mu_max))
    return tuple(found.values())


def _stretched(joint: Joint, factor: float) -> Joint:
    """The joint with *factor* times the engagement; strip load rises with it."""
    return joint._replace(strip_n=(joint.strip_n or 0.0) * factor)
