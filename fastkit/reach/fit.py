"""Does a tool get there and turn: its envelope against the access, axis by axis."""

from typing import NamedTuple

from fastkit.reach.access import Access


class Envelope(NamedTuple):
    """Room that a tool takes; None: no demand on that axis. Axes as in `Access`."""

    above_mm: float
    beside_mm: float
    swing_deg: float
    side_mm: tuple[float, float] | None
    pocket_diameter_mm: float | None


class Margins(NamedTuple):
    """Room left over on each axis; None: no limit was named, or the tool makes no demand."""

    above_mm: float | None
    beside_mm: float | None
    swing_deg: float | None
    side_mm: float | None


class Shortfall(NamedTuple):
    """The axis on which a tool does not fit, and by how much."""

    axis: str  # above, beside, swing, side, pocket; of a broken shank stub, depth
    amount: float
    unit: str  # mm, deg


class Fit(NamedTuple):
    """Margins, and every axis that falls short."""

    margins: Margins
    short: tuple[Shortfall, ...]

    @property
    def tightness(self) -> float:
        """Sum of all shortfalls, mm and degrees alike: orders misses, nothing more."""
        return sum(axis.amount for axis in self.short)


def fit(envelope: Envelope, access: Access) -> Fit:
    """Return the margins of a tool in the room there is, and what it is short of."""
    above = _margin(access.above_mm, envelope.above_mm)
    beside = _margin(access.beside_mm, envelope.beside_mm)
    swing = _margin(access.swing_deg, envelope.swing_deg)
    side = None
    if access.side_mm is not None and envelope.side_mm is not None:
        side = min(have - need for have, need in zip(access.side_mm, envelope.side_mm, strict=True))
    pocket = None
    if access.pocket_mm is not None and envelope.pocket_diameter_mm is not None:
        pocket = access.pocket_mm[0] - envelope.pocket_diameter_mm
    margins = Margins(above, beside, swing, side)
    if (
        (above is None or above >= 0)
        and (beside is None or beside >= 0)
        and (swing is None or swing >= 0)
        and (side is None or side >= 0)
        and (pocket is None or pocket >= 0)
    ):
        return Fit(margins, ())
    axes = (
        ("above", above, "mm"),
        ("beside", beside, "mm"),
        ("swing", swing, "deg"),
        ("side", side, "mm"),
        ("pocket", pocket, "mm"),
    )
    short = tuple(
        Shortfall(axis, -margin, unit)
        for axis, margin, unit in axes
        if margin is not None and margin < 0
    )
    return Fit(margins, short)


def _margin(have: float | None, need: float) -> float | None:
    return None if have is None else have - need
