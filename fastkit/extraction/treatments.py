"""What weakens a bond, and by how much."""

from collections.abc import Iterable, Mapping
from typing import NamedTuple

from fastkit.extraction.facts import Facts
from fastkit.extraction.options import Candidate
from fastkit.records.method import BondEffect

WEAKEST = 0.85  # of the bond: a treatment that leaves more of it is not followed; practice
HEAT = "heat"  # hazard by which one way of heating is known for another


class Treatment(NamedTuple):
    """A treatment that weakens this bond: factor the first and each further time."""

    method: str
    factor: float
    again: float
    repeats: int
    kind: str  # treatments of one kind repeat each other: heat is heat


class Treatments:
    """
    The treatments that weaken this bond, strongest first, and what they leave of it.

    Which have been done is told by how often each. `oil` says that a thread turned dry galls:
    then a treatment that leaves it wet opens what a dry one does not.
    """

    def __init__(self, effects: Mapping[str, BondEffect], facts: Facts, oil: bool = False) -> None:
        self.oil = oil
        hot = {row.method for row in facts.method_hazards if row.hazard == HEAT}
        rows = [
            Treatment(
                row.id,
                effects[row.id].factor,
                effects[row.id].again,
                max(1, row.repeats),
                HEAT if row.id in hot else row.id,
            )
            for row in facts.methods
            if row.kind == "treat" and row.id in effects and effects[row.id].factor < 1
        ]
        self.rows = tuple(sorted(rows, key=lambda row: (row.factor, row.method)))
        self.index = {row.method: n for n, row in enumerate(self.rows)}
        self.none = (0,) * len(self.rows)
        self._factors: dict[tuple[int, ...], float] = {}
        self._alike: dict[tuple[object, ...], tuple[int, ...]] = {}

    def factor(self, treated: tuple[int, ...]) -> float:
        """Return what the treatments done have left of the bond."""
        left = self._factors.get(treated)
        if left is None:
            left = self._factors[treated] = self._factor(treated)
        return left

    def _factor(self, treated: tuple[int, ...]) -> float:
        left, kinds = 1.0, set()
        for row, times in zip(self.rows, treated, strict=True):
            if times and row.kind not in kinds:  # the strongest of its kind
                kinds.add(row.kind)
                left *= row.factor * row.again ** (times - 1)
            else:
                left *= row.again**times
        return left

    def standing_for(self, treated: tuple[int, ...], left: int) -> tuple[int, ...]:
        """
        Return what stands for all treatments done that leave as much of the bond and to be done.

        `left` is how many more are looked at: where none is, what is left of the bond is all.
        """
        key: tuple[object, ...] = (self.factor(treated),)
        if left > 0:
            used = frozenset(
                row.kind for row, times in zip(self.rows, treated, strict=True) if times
            )
            then = [
                self.standing_for(once_more(treated, number), left - 1)
                if treated[number] < row.repeats
                else None
                for number, row in enumerate(self.rows)
            ]
            key = *key, used, *then
        return self._alike.setdefault(key, treated)

    def followed(self, found: Iterable[Candidate], treated: tuple[int, ...]) -> frozenset[str]:
        """Return the strong ones that no other beats in strength, time and dryness from here."""
        used = {row.kind for row, times in zip(self.rows, treated, strict=True) if times}
        rows = []
        for item in found:
            number = self.index.get(item.method.id)
            if number is not None:
                row = self.rows[number]
                factor = row.again if row.kind in used else row.factor
                rows.append((factor, item.minutes, item.method.id, item.method.residue))
        return frozenset(
            row[2]
            for row in rows
            if row[0] <= WEAKEST and not any(_beats(other, row, self.oil) for other in rows)
        )


def once_more(treated: tuple[int, ...], number: int) -> tuple[int, ...]:
    """Return what has been done after one more treatment, by its place among them."""
    return (*treated[:number], treated[number] + 1, *treated[number + 1 :])


def _beats(
    other: tuple[float, float, str, str | None],
    row: tuple[float, float, str, str | None],
    oil: bool,
) -> bool:
    """Say whether a treatment is as strong, as quick and as dry as another, or alike and before."""
    return (
        other[:3] < row[:3]
        and other[0] <= row[0]
        and other[1] <= row[1]
        and (other[3] == row[3] or (other[3] is None and not oil))
    )
