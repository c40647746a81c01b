"""What there is of a snapped shank to grip, or how deep it sits, against what tools take of it."""

from collections.abc import Iterable, Mapping
from typing import NamedTuple

from fastkit.extraction.result import Reason, RuledOut
from fastkit.extraction.situation import Situation
from fastkit.reach.fit import Shortfall
from fastkit.records.method import StubGrip

PROUD, FLUSH, BELOW = "snapped-proud", "snapped-flush", "snapped-below"
SIDES = {PROUD: "proud", BELOW: "below"}
USUAL_D = {PROUD: 2.0, BELOW: 0.5}  # diameters, where nobody has measured; common practice
ANY = "any"


class Stub(NamedTuple):
    """How far it stands proud, and how deep it sits, whichever comes to be [mm]."""

    d: float
    proud: float
    below: float


def stub_of(situation: Situation, d: float) -> Stub:
    """Return what was measured, else the usual lengths in a thread of a diameter [mm]."""
    lengths = {damage: usual * d for damage, usual in USUAL_D.items()}
    if situation.stub_mm is not None and situation.damage in lengths:
        lengths[situation.damage] = situation.stub_mm
    return Stub(d, lengths[PROUD], lengths[BELOW])


class StubGrips:
    """What each tool takes of a snapped shank."""

    def __init__(self, rows: Iterable[StubGrip]) -> None:
        self._rows: Mapping[tuple[str, str, str], StubGrip] = {
            (row.method, row.tool, row.side): row for row in rows
        }

    def reach(self, method: str, tool: str, damage: str, d: float) -> float | None:
        """Return the least that must stand proud, or the deepest that is reached, mm."""
        side = SIDES.get(damage, "")
        row = self._rows.get((method, tool, side)) or self._rows.get((method, ANY, side))
        if row is None:
            return None
        if damage == PROUD:
            return max(row.length_d * d, row.length_mm)
        return max(0.0, row.length_mm - row.length_d * d)

    def short(self, method: str, tool: str, damage: str, stub: Stub) -> RuledOut | None:
        """Return why a tool cannot be used on the stub; None where it can."""
        reach = self.reach(method, tool, damage, stub.d)
        if reach is None:
            return None
        if damage == PROUD and stub.proud < reach:
            lacks = Shortfall("stub", reach - stub.proud, "mm")
            because = Reason("stub_too_short", (reach, stub.proud))
            return RuledOut(
                method, because, lacks, Reason("more_room", ("stub", lacks.amount, "mm"))
            )
        if damage == BELOW and stub.below > reach:
            lacks = Shortfall("depth", stub.below - reach, "mm")
            because = Reason("stub_too_deep", (reach, stub.below))
            return RuledOut(method, because, lacks, Reason("longer_tool", (lacks.amount,)))
        return None
