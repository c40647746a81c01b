"""
An independent twin of the planner: fasteners drawn one by one, and pulled.

It takes the data (strengths of bonds and links, odds of a way that only judgement gives) and what
the policy would do next, and none of the policy's own shares: severity is continuous, the torque a
fastener needs is summed here, each link is drawn, and what happens first happens.
"""

from math import erf, exp, inf, pi, sqrt
from random import Random
from typing import Any, NamedTuple

from fastkit.extraction.facts import Facts
from fastkit.extraction.policy import Choice, Policy, State
from fastkit.extraction.situation import Situation

MISHAPS = 0.04  # of pulls that could have done it
HARDEST = 0.98  # what is left to draw from where all that the model holds possible has failed
WHERE = (("snapped-proud", 0.45), ("snapped-flush", 0.35), ("snapped-below", 0.2))
DEEPER = {
    "snapped-proud": (("snapped-flush", 0.5), ("snapped-below", 0.5)),
    "snapped-flush": (("snapped-below", 1.0),),
    "snapped-below": (("", 1.0),),  # nothing is left to turn
}
STUBS = ("snapped-proud", "snapped-flush", "snapped-below", "extractor-broken")
TURNS = ("spinning", "nut-spinning")
TORN, SNAP, STOP = 0.4, 0.2, 60.0  # shares of the spoiled part's price; minutes
HASTE = 0.05  # of it: a head taken off before its bond was touched


class Run(NamedTuple):
    """What one fastener took, and whether it came out."""

    minutes: float
    free: bool
    treated: int  # how often its bond was treated on the way


class Bonds:
    """The torque that a fastener needs, from the rows of its seizure; N·mm."""

    def __init__(self, situation: Situation, facts: Facts) -> None:
        self.row = next(row for row in facts.seizures if row.id == situation.seized)
        thread, of = facts.thread, self.row
        d, pitch, d2, d3 = (
            thread.nominal_mm,
            thread.pitch_mm,
            thread.pitch_diameter_mm,
            thread.root_mm,
        )
        head = (facts.head and facts.head.head_diameter_mm) or 1.6 * d
        hole = facts.hole.medium_mm if facts.hole else 1.1 * d
        bearing, length = min(head, 2 * d), situation.engage_mm or d
        # preload at nine tenths of yield and mu 0.12: VDI 2230-1, von Mises
        stressed = (d2 + d3) / 2
        twist = 1.5 * d2 / stressed * (pitch / (pi * d2) + 1.155 * 0.12)
        strength = facts.strength
        limit = strength.yield_min_mpa or 0.6 * strength.tensile_min_mpa
        preload = 0.9 * limit * pi / 4 * stressed**2 / sqrt(1 + 3 * twist**2)
        preload *= of.preload_share * (0.25 if situation.kind == "tube-nut" else 1.0)
        arm = of.mu_thread * d2 / (2 * 0.866) - pitch / (2 * pi) + of.mu_head * (bearing + hole) / 4
        stud = situation.kind == "stud"
        self.friction = 0.0 if stud else max(0.0, preload * arm)
        at = situation.seized_at
        self.flanks = of.tau_thread_mpa * pi * d2**2 * length / 2 if at != "head" else 0.0
        self.flanks += of.tau_shank_mpa * pi * d**2 * 2 * d / 2 if at == "shank" else 0.0
        under = at in ("head", "unknown") and not stud and bearing > hole
        self.head = of.tau_head_mpa * pi * (bearing**3 - hole**3) / 12 if under else 0.0
        self.least = d**3
        drag = facts.prevailing
        self.drag = 1000 * sqrt(drag.first_off_min_nm * drag.first_on_max_nm) if drag else 0.0

    def needs(self, z: float, damage: str, left: float) -> float:
        """Return what a severity needs, with what is left of the bond."""
        bond, friction, least = self.flanks, 0.0, self.least
        if damage not in STUBS:
            bond, friction, least = bond + self.head, self.friction, least + self.drag
        return (
            least + friction * exp(self.row.mu_spread * z) + left * bond * exp(self.row.spread * z)
        )

    def below(self, torque: float, damage: str, left: float) -> float:
        """Return the share of severities that need less."""
        low, high = -6.0, 6.0
        for _ in range(40):
            middle = (low + high) / 2
            low, high = (
                (middle, high) if self.needs(middle, damage, left) < torque else (low, middle)
            )
        return 0.5 + 0.5 * erf(low / sqrt(2))


class Twin:
    """Fasteners of one situation, each taken through a policy."""

    def __init__(self, situation: Situation, facts: Facts, policy: Policy, seed: int) -> None:
        self.situation, self.facts, self.policy = situation, facts, policy
        self.bonds, self.random = Bonds(situation, facts), Random(seed)
        self.methods = {row.id: row for row in facts.methods}
        self.count = policy.resistance.count
        self.slices = policy.resistance.slices
        self.worst = self.slices.middles[-1]  # no bond is harder in the model

    def run(self, state: State) -> Run:
        """Draw one fastener and follow the policy to its end."""
        z = self.random.gauss(0, 1)
        while state.bound and 0.5 + 0.5 * erf(z / sqrt(2)) < min(
            self.slices.edges[state.bound], HARDEST
        ):
            z = self.random.gauss(0, 1)  # as hard, at least, as what is known of it
        z = min(z, self.worst)
        minutes = 0.0
        for _ in range(60):
            choice = self.policy.best(state)
            if choice.move == "stop":
                return Run(minutes + self.situation.spoil_min + STOP, False, sum(state.treated))
            minutes += choice.minutes
            pulled = choice.candidate is not None and choice.candidate.chain
            took, after = self._pull(state, choice, z) if pulled else self._other(state, choice)
            minutes += took
            if not isinstance(after, State):
                return Run(minutes, after, sum(state.treated))
            state = after
        raise AssertionError("the policy does not end")

    def _other(self, state: State, choice: Choice) -> tuple[float, Any]:
        """Return what a move that is no pull adds, and where it leads; its odds are the data's."""
        method = self.methods[choice.move]
        if method.kind != "part":
            return 0.0, choice.branches[0].state
        done = self.random.random() < (method.chance or 0.5)
        if done:
            spoils = method.spoils * self.situation.spoil_min
            fast = self.situation.seized != "none" and state.damage not in (*STUBS, *TURNS)
            if method.leads_to and fast and not sum(state.treated):
                spoils += HASTE * self.situation.spoil_min
            if self.situation.insert and method.id == "drill-out-retap":
                spoils = min(spoils, 10.0)
            return spoils, choice.branches[0].state or True
        ends = method.id == "machine-shop"
        price = self.situation.spoil_min + STOP if ends else 0.0
        return price, False if ends else choice.branches[1].state

    def _pull(self, state: State, choice: Choice, z: float) -> tuple[float, Any]:
        """Return the minutes that a pull adds, and whether it is out or where it leads."""
        method, spoil = self.methods[choice.move], self.situation.spoil_min
        assert choice.candidate is not None
        left = self.policy.treatments.factor(state.treated)
        left *= self.policy.attempts.own_effect.get(choice.move, 1.0)
        spoils = 0.0 if state.damage in STUBS else method.spoils * spoil
        chain = choice.candidate.chain
        slips = min((link.capacity for link in chain if link.gives == "nothing"), default=inf)
        drawn = [
            (link.capacity * self.random.lognormvariate(0, link.spread), link.gives)
            for link in chain
            if link.gives != "nothing"
        ]
        holds, gives = min(drawn, default=(inf, ""))
        needs = self.bonds.needs(z, state.damage, left)
        if needs < min(slips, holds):
            if self.random.random() < MISHAPS and state.bound < self.count:
                return spoils, state._replace(bound=state.bound + 1)
            return spoils, True
        torque = min(slips, holds)
        share = self.bonds.below(torque, state.damage, left)
        edges = self.slices.edges
        proved = min(range(len(edges)), key=lambda number: abs(edges[number] - share))
        bound = max(state.bound, proved)
        if slips <= holds:
            return 0.0, state._replace(bound=bound)
        state = state._replace(bound=bound)
        if gives == "thread":
            return spoils + TORN * spoil, True
        if gives == "insert":
            return spoils + 10.0, True
        if gives == "extractor":
            return spoils, state._replace(damage="extractor-broken", lost_extractor=True)
        if gives == "shank":
            places = DEEPER.get(state.damage, WHERE)
            (place,) = self.random.choices(
                [name for name, _ in places], [share for _, share in places]
            )
            after = state._replace(damage=place) if place else self._torn(state)
            return spoils + SNAP * spoil, after
        return self._worn(state, spoils)

    def _torn(self, state: State) -> State:
        """Return the state of what parted again below the face: it is drilled out or handed on."""
        none = (0,) * len(state.treated)
        return state._replace(spoilt=True, treated=none, lost_extractor=False)

    def _worn(self, state: State, spoils: float) -> tuple[float, Any]:
        gone = self.policy.attempts.gone
        return spoils, state._replace(damage="worn" if state.damage == "intact" else gone)
