"""What one turning attempt may do to a fastener, ready for the policy: shares and outcomes."""

from collections.abc import Sequence
from math import ceil
from typing import NamedTuple

from fastkit.extraction.chain import Giving, Link
from fastkit.extraction.learned import carried, weighed
from fastkit.extraction.options import Candidate
from fastkit.records.own import OwnTries

MISCARRIES = 0.04  # of attempts that could do it, for reasons no link knows; practice
LEAST_SHARE = 1e-4  # an outcome rarer than this is left out, its share given to success
FEW = 0.04  # outcomes alike but for the bound are gathered to this share, at their mean bound


class Outcome(NamedTuple):
    """One way an attempt fails: what gives, and the first severity still possible after it."""

    gives: str
    bound: int
    share: float


class Turn:
    """
    One turning attempt at one state of the bond, for every bound on the severity.

    `needed` is R at each slice of severity and at one beyond them all; `reach` the share of all
    severities at which R lies below what arm and grip can give. One's own attempts (`own`) change
    the chance at no bound, and the odds at every bound alike.
    """

    def __init__(
        self,
        candidate: Candidate,
        needed: Sequence[float],
        reach: float,
        giving: Giving,
        own: OwnTries | None = None,
    ) -> None:
        self.candidate, self.own = candidate, own
        self.minutes = candidate.minutes
        self.count = len(needed) - 1
        slips = [link.capacity for link in candidate.chain if link.gives == "nothing"]
        limit = min(slips, default=float("inf"))
        rows = [giving.at(min(torque, limit)) for torque in needed]
        # one link at most of each kind stands in a chain
        self._given = [
            (link.gives, [row[n] for row in rows]) for n, link in enumerate(breaking(candidate))
        ]
        beyond = 1.0 if needed[-1] < limit else 0.0
        within = [min(1.0, max(0.0, reach * self.count - n)) for n in range(self.count)]
        self._slips = [
            (1 - part) * (1 - sum(row)) for part, row in zip((*within, beyond), rows, strict=True)
        ]
        self.first_slip = max(0, min(self.count, ceil(reach * self.count)))
        self._outcomes: dict[int, tuple[float, tuple[Outcome, ...]]] = {}

    def outcomes(self, bound: int) -> tuple[float, tuple[Outcome, ...]]:
        """Return the chance of success and every failure, severity uniform from `bound` on."""
        if bound not in self._outcomes:
            self._outcomes[bound] = self._learned(*self._from(bound))
        return self._outcomes[bound]

    def _from(self, bound: int) -> tuple[float, tuple[Outcome, ...]]:
        count = self.count
        slices = range(bound, count) if bound < count else range(count, count + 1)
        failures = []
        for gives, given in self._given:
            if given[slices.stop - 1] <= LEAST_SHARE:
                continue
            before = gathered = moment = 0.0
            for severity in slices:
                share = (given[severity] - before) * (slices.stop - severity) / len(slices)
                before = given[severity]
                gathered += share
                moment += share * severity
                if gathered > FEW or (severity == slices.stop - 1 and gathered > LEAST_SHARE):
                    failures.append(Outcome(gives, round(moment / gathered), gathered))
                    gathered = moment = 0.0
        slipped = sum(self._slips[slices.start : slices.stop]) / len(slices)
        if slipped > LEAST_SHARE:
            failures.append(Outcome("nothing", max(bound, self.first_slip), slipped))
        able = max(0.0, 1.0 - sum(failure.share for failure in failures))
        if able * MISCARRIES > LEAST_SHARE and bound < count:
            failures.append(Outcome("nothing", bound + 1, able * MISCARRIES))
            able *= 1 - MISCARRIES
        return able, tuple(failures)

    def _learned(
        self, able: float, failures: tuple[Outcome, ...]
    ) -> tuple[float, tuple[Outcome, ...]]:
        """Return chance and failures after one's own attempts."""
        if self.own is None or not 0 < able < 1:
            return able, failures
        before = self._from(0)[0]
        learned = carried(able, before, weighed(before, self.own))
        scale = (1 - learned) / (1 - able)
        return learned, tuple(row._replace(share=row.share * scale) for row in failures)

    def harm(self, bound: int) -> float:
        """Return the chance that the attempt leaves anything worse than it was."""
        return sum(item.share for item in self.outcomes(bound)[1] if item.gives != "nothing")


def breaking(candidate: Candidate) -> tuple[Link, ...]:
    """Return the links of an attempt that break or wear; the rest merely slips."""
    return tuple([link for link in candidate.chain if link.gives != "nothing"])


def unbeaten(turns: Sequence[Turn], bound: int) -> list[Turn]:
    """Keep each turn that no other beats in time, chance and harm together; cheapest first."""
    rated = sorted(
        (turn.minutes, -turn.outcomes(bound)[0], turn.harm(bound), number)
        for number, turn in enumerate(turns)
    )
    kept: list[tuple[float, float, float, int]] = []
    for row in rated:
        if not any(other[1] <= row[1] and other[2] <= row[2] for other in kept):
            kept.append(row)
    kept.sort(key=lambda row: row[0] / max(-row[1], 1e-9))
    return [turns[row[3]] for row in kept]
