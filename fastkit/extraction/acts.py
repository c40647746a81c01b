"""What one turning attempt may do to a fastener, ready for the policy: shares and outcomes."""

from bisect import bisect_left, bisect_right
from collections.abc import Sequence
from math import inf
from operator import mul

from fastkit.extraction.chain import Giving, Link
from fastkit.extraction.learned import carried, weighed
from fastkit.extraction.resistance import Slices
from fastkit.records.own import OwnTries

MISCARRIES = 0.04  # of attempts that could do it, for reasons no link knows; practice
LEAST_SHARE = 1e-4  # an outcome rarer than this is left out, its share given to success
FEW = 0.04  # outcomes alike but for the bound are gathered to this share, at their mean bound

# one way an attempt fails: what gives, the first severity still possible after it, share
Outcome = tuple[str, int, float]
# slips and the bound then, miscarries and the bound then, what gives and its share
Short = tuple[float, int, float, int, tuple[tuple[str, float], ...]]


class Load:
    """What the links of a chain do at R of each severity, whatever tool slips before it."""

    def __init__(self, links: Sequence[Link], needed: Sequence[float], giving: Giving) -> None:
        rows = [giving.at(torque) for torque in needed]
        self.needed = needed
        self.gives = [link.gives for link in links]  # one link at most of each kind
        self.given = list(zip(*rows, strict=True))  # a row a link
        self.gave = [sum(row) for row in rows]


class Turn:
    """
    What one way of turning does at one state of the bond, for every bound on the severity.

    `limit` is the torque at which it slips or tires, `load` what the links do at each slice of
    severity and at one beyond them all, `held` what they do at the limit; `reach` the share of all
    severities at which R lies below what arm and grip can give. One's own attempts (`own`) change
    the chance at no bound, and the odds at every bound alike.
    """

    def __init__(
        self,
        limit: float,
        load: Load,
        held: Sequence[float],
        slices: Slices,
        reach: float,
        own: OwnTries | None = None,
    ) -> None:
        self.own, self.load, self.slices = own, load, slices
        self.count = count = len(load.needed) - 1
        edges, widths = slices.edges, slices.widths
        below = bisect_left(load.needed, limit)
        over = count + 1 - below
        self._given = [
            (gives, [*row[:below], *[most] * over])
            for gives, row, most in zip(load.gives, load.given, held, strict=True)
        ]
        gave = [*load.gave[:below], *[sum(held)] * over]
        self.first_slip = slices.nearest(reach) or int(reach > 0)
        within = min(count, bisect_right(edges, reach) - 1)
        slips = [0.0] * within + [1 - share for share in gave[within:]]
        if within < count:
            slips[within] *= (edges[within + 1] - reach) / widths[within]
        if over == 0:
            slips[count] = 0.0
        # of each bound, severity uniform from it on, the last beyond them all: what gives, slips
        self._slip_means, self.chances = slips[:], [0.0] * (count + 1)
        self.chances[count] = max(0.0, 1 - gave[count] - slips[count])
        harmed = slipped = 0.0
        for bound in range(count - 1, -1, -1):
            harmed += widths[bound] * gave[bound]
            slipped += widths[bound] * slips[bound]
            left = 1 - edges[bound]
            if bound < self.first_slip:
                self._slip_means[bound] = slipped / left
                self.chances[bound] = max(0.0, 1 - (harmed + slipped) / left)
            else:  # it slips again where it slipped
                self._slip_means[bound] = 1 - harmed / left
        self._outcomes: dict[int, tuple[float, tuple[Outcome, ...]]] = {}
        self._shorts: list[Short | None] = [None] * (count + 1)
        if own is not None:
            self.chances = [self.outcomes(bound)[0] for bound in range(count + 1)]

    def outcomes(self, bound: int) -> tuple[float, tuple[Outcome, ...]]:
        """Return the chance of success and every failure, severity uniform from `bound` on."""
        if bound not in self._outcomes:
            self._outcomes[bound] = self._learned(*self._from(bound))
        return self._outcomes[bound]

    def short(self, bound: int) -> Short:
        """
        Return the outcomes from a bound without telling how bad a harm is, each share at the least.

        What is too rare to be an outcome is a success here; that costs no more than any.
        """
        found = self._shorts[bound]
        if found is None:
            found = self._short_own(bound) if self.own is not None else self._short(bound)
            self._shorts[bound] = found
        return found

    def _short(self, bound: int) -> Short:
        count, (edges, widths, *_) = self.count, self.slices
        again = self.chances[bound] * MISCARRIES if bound < count else 0.0
        harms = []
        for gives, given in self._given:
            share = given[count]
            if bound < count:
                met = sum(map(mul, given[bound:count], widths[bound:]))
                share = met / (1 - edges[bound])
            if share > LEAST_SHARE:
                harms.append((gives, share - LEAST_SHARE))
        slips = max(0.0, self._slip_means[bound] - LEAST_SHARE)
        then = max(bound, self.first_slip)
        return slips, then, again, min(bound + 1, count), tuple(harms)

    def _short_own(self, bound: int) -> Short:
        failures = self.outcomes(bound)[1]
        shares: dict[str, float] = {}
        for gives, _, share in failures:
            shares[gives] = shares.get(gives, 0.0) + share
        then = max(bound, self.first_slip)
        slips = sum([row[2] for row in failures if row[:2] == ("nothing", then)])
        again = shares.pop("nothing", 0.0) - slips
        return slips, then, again, min(bound + 1, self.count), tuple(shares.items())

    def _from(self, bound: int) -> tuple[float, tuple[Outcome, ...]]:
        count, edges = self.count, self.slices.edges
        stop = max(count, bound + 1)
        last = stop - 1
        # the share of what is possible that is as hard as each slice, at the least
        left = [(1 - edge) / (1 - edges[bound]) for edge in edges[bound:count]] or [1.0]
        failures: list[Outcome] = []
        for gives, given in self._given:
            if given[last] <= LEAST_SHARE:
                continue
            before = gathered = moment = 0.0
            for severity, harder in zip(range(bound, stop), left, strict=True):
                share = (given[severity] - before) * harder
                before = given[severity]
                gathered += share
                moment += share * severity
                if gathered > FEW or (severity == last and gathered > LEAST_SHARE):
                    failures.append((gives, round(moment / gathered), gathered))
                    gathered = moment = 0.0
        slipped = self._slip_means[bound]
        if slipped > LEAST_SHARE:
            failures.append(("nothing", max(bound, self.first_slip), slipped))
        able = max(0.0, 1.0 - sum([share for _, _, share in failures]))
        if able * MISCARRIES > LEAST_SHARE and bound < count:
            failures.append(("nothing", bound + 1, able * MISCARRIES))
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
        return learned, tuple([(gives, then, share * scale) for gives, then, share in failures])


def slips_at(chain: Sequence[Link]) -> float:
    """Return the torque at which an attempt slips or tires, N·mm; infinite where it never does."""
    return min([link.capacity for link in chain if link.gives == "nothing"], default=inf)


def breaking(chain: Sequence[Link]) -> tuple[Link, ...]:
    """Return the links of an attempt that break or wear; the rest merely slips."""
    return tuple([link for link in chain if link.gives != "nothing"])
