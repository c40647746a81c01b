"""Does a new head fit where the old one was, and can a tool turn it there again?"""

from collections.abc import Iterable
from typing import NamedTuple

from fastkit.reach.access import Access
from fastkit.reach.fit import Envelope, Margins, Shortfall, fit
from fastkit.records.drive import Drive
from fastkit.records.head import Head
from fastkit.records.method import Variant

OUTER, INNER = "six-point-socket", "better-bit"  # methods that turn a sound drive
KEYED = frozenset(("hex-socket", "hexalobular", "square"))  # drives that L-shaped keys are made for
TOUCH = 1e-6


class Turn(NamedTuple):
    """A tool that gets there, and the room left round it."""

    variant: Variant
    margins: Margins


class Room(NamedTuple):
    """Tools that fit a head in its place, the handiest first; else what the nearest is short of."""

    turns: tuple[Turn, ...]
    short: tuple[Shortfall, ...]
    nearest: Variant | None


def height_of(head: Head | None) -> float:
    """What a head stands over its seat [mm]; a countersunk one nothing."""
    if head is None or head.form == "countersunk":
        return 0.0
    return head.head_height_mm or 0.0


def seen_from(head: Head, old: Head, washer_mm: float, access: Access) -> Access:
    """The access over and beside a new head, from that measured at the old one's."""
    wide, old_wide = (one.head_diameter_mm or 0.0 for one in (head, old))
    above, beside = access.above_mm, access.beside_mm
    return access._replace(
        above_mm=None
        if above is None
        else above + height_of(old) - height_of(head) - washer_mm + TOUCH,
        beside_mm=None if beside is None else beside + (old_wide - wide) / 2 + TOUCH,
    )


def room(
    head: Head,
    drive: Drive,
    old: Head,
    washer_mm: float,
    access: Access,
    variants: Iterable[Variant],
) -> Room:
    """
    Find the tools that turn a head in its place.

    Args:
        head: The new head.
        drive: Its drive.
        old: The old one, at which *access* was measured.
        washer_mm: Washer under the new head [mm].
        access: Room there is.
        variants: Tools at hand with the room they take.
    """
    there = seen_from(head, old, washer_mm, access)
    if any(v is not None and v < 0 for v in (there.above_mm, there.beside_mm)):
        axis, missing = (
            ("above", there.above_mm) if (there.above_mm or 0) < 0 else ("beside", there.beside_mm)
        )
        return Room((), (Shortfall(axis, -(missing or 0.0), "mm"),), None)
    found, missed = [], []
    for variant in variants:
        if variant.method != (OUTER if drive.external else INNER):
            continue
        if variant.tool == "key" and drive.system not in KEYED:
            continue
        arc = drive.symmetry_deg if variant.swing_deg is None else variant.swing_deg
        envelope = Envelope(variant.above_mm, variant.beside_mm, arc, None, None)
        result = fit(envelope, there)
        if result.short:
            missed.append((result.tightness, variant.id, variant, result.short))
        else:
            found.append(Turn(variant, result.margins))
    found.sort(key=lambda turn: turn.variant.minutes)
    if found or not missed:
        return Room(tuple(found), (), None)
    _, _, nearest, short = min(missed, key=lambda miss: miss[:2])
    return Room((), short, nearest)


def longest_that_goes_in(head: Head, old: Head, access: Access) -> float | None:
    """Length of screw that can be brought over its hole [mm]; None: no limit was measured."""
    if access.above_mm is None:
        return None
    return access.above_mm + height_of(old) - height_of(head) + TOUCH
