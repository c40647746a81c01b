"""What one turning attempt may do to a fastener, ready for the policy: shares and outcomes."""

from collections.abc import Sequence
from math import ceil, inf
from typing import NamedTuple

from fastkit.extraction.chain import Giving, Link
from fastkit.extraction.learned import carried, weighed
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
    What one way of turning does at one state of the bond, for every bound on the severity.

    `limit` is the torque at which it slips or tires, `links` are those that break or wear, `needed`
    is R at each slice of severity and at one beyond them all; `reach` the share of all
    severities at which R lies below what arm and grip can give. One's own attempts (`own`) change
    the chance at no bound, and the odds at every bound alike.
    """

    def __init__(
        self,
        links: Sequence[Link],
        limit: float,
        needed: Sequence[float],
        reach: float,
        giving: Giving,
        own: OwnTries | None = None,
    ) -> None:
        self.own = own
        self.count = count = len(needed) - 1
        rows = [giving.at(torque if torque < limit else limit) for torque in needed]
        beyond = 1.0 if needed[-1] < limit else 0.0
        reached = reach * count
        within = [min(1.0, max(0.0, reached - n)) for n in range(count)]
        self.first_slip = max(0, min(count, ceil(reached)))
        # one link at most of each kind stands in a chain
        self._given = list(
            zip([link.gives for link in links], zip(*rows, strict=True), strict=True)
        )
        gave = [sum(row) for row in rows]
        self._outcomes: dict[int, tuple[float, tuple[Outcome, ...]]] = {}
        self._slips = [
            (1 - part) * (1 - whole) for part, whole in zip((*within, beyond), gave, strict=True)
        ]
        # of each bound, severity uniform from it on, the last beyond them all: what gives, slips
        self.harms = _means(gave)
        slips = _means(self._slips)
        self.chances = [
            max(0.0, 1 - harm - slip) for harm, slip in zip(self.harms, slips, strict=True)
        ]
        if own is not None:
            self.chances = [self.outcomes(bound)[0] for bound in range(count + 1)]

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


def _means(values: Sequence[float]) -> list[float]:
    """Return the mean from each place on to the last but one, and the last by itself."""
    means, total = [values[-1]], 0.0
    for number, value in enumerate(reversed(values[:-1]), 1):
        total += value
        means.append(total / number)
    return means[:0:-1] + means[:1]


def slips_at(chain: Sequence[Link]) -> float:
    """Return the torque at which an attempt slips or tires, N·mm; infinite where it never does."""
    return min([link.capacity for link in chain if link.gives == "nothing"], default=inf)


def breaking(chain: Sequence[Link]) -> tuple[Link, ...]:
    """Return the links of an attempt that break or wear; the rest merely slips."""
    return tuple([link for link in chain if link.gives != "nothing"])
