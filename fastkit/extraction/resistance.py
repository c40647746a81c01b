"""
Required breakaway torque R of a seized fastener, as a function of one latent severity.

Every term of R is taken at the same quantile q of its own lognormal (they rise and fall
together), so R(q) rises with q and a failed attempt is a lower bound on q.
"""

from bisect import bisect_left
from functools import lru_cache
from itertools import pairwise
from math import erf, exp, log, pi, sqrt
from typing import NamedTuple

from fastkit.extraction.facts import Facts
from fastkit.extraction.situation import HEADLESS, TUBE_NUT, Situation
from fastkit.mechanics.bond import bore_bond_torque, flank_bond_torque, head_bond_torque
from fastkit.mechanics.normal import normal_deviate
from fastkit.mechanics.tightening import breakaway, preload_at_utilisation
from fastkit.records.tightening import PrevailingTorque

SLICES = 8  # of severity, each taken at its middle
CROWDING = 2.0  # how much narrower they get towards the hardest; 1: all alike
CLOSE = 1e-9  # of a standard deviation: how closely the severity is found at which R is a torque
DEVIATE_MAX = 4.0
NEWTON = 20  # steps at most; three or four are the rule
TABLE_MU = 0.12  # middle of VDI 2230-1 class B, at which tables print the preload
TABLE_UTILISATION = 0.9
TUBE_NUT_PRELOAD = 0.25  # of a bolt's: a flare is seated, not stretched; practice
YIELD_SHARE = 0.6  # of the tensile strength, where a class prints no yield; practice
BORE_LENGTH_D = 2.0  # bonded shank length in diameters where none is known; common practice


class Terms(NamedTuple):
    """Parts of R at the median severity, N·mm; friction scales with mu, bonds with tau."""

    friction: float
    thread: float
    head: float
    shank: float
    drag: float  # of a nut that grips by itself


class Body(NamedTuple):
    """Sizes that the terms and the links share, mm."""

    d: float
    pitch: float
    d2: float
    d3: float
    head: float
    hole: float
    engaged: float


def body(situation: Situation, facts: Facts) -> Body:
    """Return the sizes of the fastener; a missing head or hole takes the usual proportions."""
    thread = facts.thread
    d = thread.nominal_mm
    head = facts.head.head_diameter_mm if facts.head else None
    hole = facts.hole.medium_mm if facts.hole else None
    return Body(
        d,
        thread.pitch_mm,
        thread.pitch_diameter_mm,
        thread.root_mm,
        head or 1.6 * d,  # between a socket cap (1.5 d) and a hexagon's corners (1.8 d)
        hole or 1.1 * d,
        situation.engage_mm or d,
    )


class Slices(NamedTuple):
    """
    Slices of the severity, 0..1 the share of all that are less severe.

    They get narrower towards the hardest, where what follows an attempt in vain is decided. After
    them stands a severity beyond them all: what is left when everything expected to suffice has
    failed.
    """

    edges: tuple[float, ...]  # lower end of each, and 1
    widths: tuple[float, ...]
    middles: tuple[float, ...]  # standard normal deviates, the one beyond them all the last
    lower: tuple[float, ...]  # standard normal deviates of the lower ends but the first
    hardest: float  # share of the one beyond them all

    def nearest(self, share: float) -> int:
        """Return the slice that begins nearest to a share of the severities."""
        above = bisect_left(self.edges, share)
        if above and share - self.edges[above - 1] < self.edges[above] - share:
            return above - 1
        return above


@lru_cache
def slices(count: int) -> Slices:
    """Return so many slices."""
    edges = [1 - ((count - number) / count) ** CROWDING for number in range(count + 1)]
    widths = [above - below for below, above in pairwise(edges)]
    middles = [below + width / 2 for below, width in zip(edges, widths, strict=False)]
    hardest = 1 - widths[-1] / 4
    return Slices(
        tuple(edges),
        tuple(widths),
        tuple(normal_deviate(share) for share in (*middles, hardest)),
        tuple(normal_deviate(edge) for edge in edges[1:-1]),
        hardest,
    )


class Resistance:
    """R(q) of one fastener for every mix of treatments, with and without its head."""

    def __init__(self, situation: Situation, facts: Facts, count: int = SLICES) -> None:
        self.body = body(situation, facts)
        self.seizure = next(row for row in facts.seizures if row.id == situation.seized)
        self.slices: Slices = slices(count)
        self.count = count
        self._quantiles: dict[tuple[bool, float, float], float] = {}
        where = situation.seized_at
        size, seizure = self.body, self.seizure
        bearing = min(size.head, 2.0 * size.d)
        strength = facts.strength
        share = TUBE_NUT_PRELOAD if situation.kind == TUBE_NUT else 1.0
        share *= facts.part.preload_share if facts.part else 1.0
        preload = (
            share
            * seizure.preload_share
            * preload_at_utilisation(
                strength.yield_min_mpa or YIELD_SHARE * strength.tensile_min_mpa,
                TABLE_UTILISATION,
                (size.d2 + size.d3) / 2,
                size.pitch,
                size.d2,
                TABLE_MU,
            )
        )
        if situation.kind not in ("nut", TUBE_NUT):  # whose threads are their own
            flanks = pi * size.d2 * size.engaged / 2
            preload = min(preload, share * facts.bench.get("thread_pull", situation.into) * flanks)
        friction = breakaway(
            preload,
            size.pitch,
            size.d2,
            (bearing + size.hole) / 2,
            seizure.mu_thread,
            seizure.mu_head,
        )
        stud = situation.kind == "stud"  # nothing clamps under a head that it does not have
        faceless = stud or situation.kind == TUBE_NUT  # a tube nut bears on the tube's flare
        self.terms = Terms(
            0.0 if stud else max(friction, 0.0),
            flank_bond_torque(seizure.tau_thread_mpa, size.d2, size.engaged)
            if where in ("thread", "unknown", "shank")
            else 0.0,
            head_bond_torque(seizure.tau_head_mpa, bearing, size.hole)
            if where in ("head", "unknown") and not faceless and bearing > size.hole
            else 0.0,
            bore_bond_torque(seizure.tau_shank_mpa, size.d, BORE_LENGTH_D * size.d)
            if where == "shank"
            else 0.0,
            _drag(facts.prevailing),
        )

        # what R depends on: with the same key it is the same
        self.key = seizure.id, self.terms, size.d, seizure.mu_spread, seizure.spread, count

    def at(self, damage: str, factor: float) -> tuple[float, ...]:
        """
        Return R at each severity, N·mm.

        `damage` drops preload and head terms once the head is gone; `factor` is what the
        treatments have left of the bonds.
        """
        return tuple(self._required(damage, factor, z) for z in self.slices.middles)

    def required(self, damage: str, factor: float, share: float) -> float:
        """Return R at one share of the severities, 0 < share < 1, N·mm."""
        return self._required(damage, factor, normal_deviate(share))

    def quantile(self, damage: str, factor: float, torque: float) -> float:
        """Return the share of severities at which R lies below a torque, 0..1."""
        key = damage in HEADLESS, factor, torque
        if key not in self._quantiles:
            self._quantiles[key] = self._quantile(damage, factor, torque)
        return self._quantiles[key]

    def _quantile(self, damage: str, factor: float, torque: float) -> float:
        friction, bond, floor = self._parts(damage, factor)
        if torque <= floor:
            return 0.0
        if friction + bond == 0:
            return 1.0
        wanted, deviate = log(torque - floor), 0.0
        for _ in range(NEWTON):  # of a convex function: it always closes in
            slow = friction * exp(self.seizure.mu_spread * deviate)
            fast = bond * exp(self.seizure.spread * deviate)
            slope = (self.seizure.mu_spread * slow + self.seizure.spread * fast) / (slow + fast)
            step = (log(slow + fast) - wanted) / slope
            deviate -= step
            if abs(step) < CLOSE:
                break
        if abs(deviate) > DEVIATE_MAX:
            return 1.0 if deviate > 0 else 0.0
        return 0.5 + 0.5 * erf(deviate / sqrt(2))

    def edges(self, damage: str, factor: float) -> list[float]:
        """Return R at the lower end of each slice but the first, N·mm."""
        return [self._required(damage, factor, z) for z in self.slices.lower]

    def _required(self, damage: str, factor: float, deviate: float) -> float:
        friction, bond, floor = self._parts(damage, factor)
        spread, mu_spread = self.seizure.spread, self.seizure.mu_spread
        return floor + friction * exp(mu_spread * deviate) + bond * exp(spread * deviate)

    def _parts(self, damage: str, factor: float) -> tuple[float, float, float]:
        """Return friction and bond at the median severity, and the torque that any takes."""
        terms = self.terms
        bond = factor * (terms.thread + terms.shank)
        friction = 0.0
        floor = self.body.d**3  # a loose rusty thread: finger torque, 0.5 N·m at M8; practice
        if damage not in HEADLESS:
            bond += factor * terms.head
            friction = terms.friction
            floor += terms.drag
        return friction, bond, floor


def _drag(row: PrevailingTorque | None) -> float:
    """Return the middle of what a self-locking nut drags as it comes off for the first time."""
    return 1000 * sqrt(row.first_off_min_nm * row.first_on_max_nm) if row else 0.0
