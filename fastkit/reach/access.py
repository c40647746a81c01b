"""The room there is around a fastener, and what making room adds to it."""

from typing import NamedTuple


class Access(NamedTuple):
    """
    Free room, measured at the head; None on an axis means free.

    Symbols and units: above [mm] along the axis; beside [mm] outward from the head's edge; swing
    [deg] in the plane of the handle; side (width, depth) [mm] of an opening at head level, (0, 0)
    for none; pocket (diameter, depth) [mm].
    """

    above_mm: float | None = None
    beside_mm: float | None = None
    swing_deg: float | None = None
    side_mm: tuple[float, float] | None = None
    pocket_mm: tuple[float, float] | None = None


class Gain(NamedTuple):
    """What a room-making move adds on each axis; None: that axis becomes free."""

    above_mm: float | None
    beside_mm: float | None
    swing_deg: float | None
    side_mm: float | None


def widened(access: Access, gain: Gain) -> Access:
    """Return the access after a room-making move; a pocket belongs to the part and stays."""

    def more(have: float | None, add: float | None) -> float | None:
        return None if have is None or add is None else have + add

    side = access.side_mm
    if side is not None:
        side = None if gain.side_mm is None else (side[0] + gain.side_mm, side[1] + gain.side_mm)
    return Access(
        more(access.above_mm, gain.above_mm),
        more(access.beside_mm, gain.beside_mm),
        more(access.swing_deg, gain.swing_deg),
        side,
        access.pocket_mm,
    )
