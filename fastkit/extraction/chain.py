"""
The chain that carries the torque of one attempt, and which link gives first.

What merely slips or tires (arm, jaw, slot, weld, drill, a drive already gone: `gives` nothing) is
taken at its median:
the same tool slips again at the same torque. What breaks or wears (drive, shank, thread,
extractor) is lognormal about its median; as the torque rises these compete: of the chance that is
lost in a step of torque, each takes its share of the fall in ln S, exact in the limit of small
steps.
"""

from collections.abc import Sequence
from math import erf, inf, log, sqrt
from typing import NamedTuple

from fastkit.extraction.facts import Facts
from fastkit.extraction.resistance import Body
from fastkit.extraction.situation import HEADLESS, Situation
from fastkit.joint.breaking import breaking_torque
from fastkit.joint.remains import (
    extractor_capacity,
    insert_capacity,
    jaw_capacity,
    slot_capacity,
    weld_capacity,
)
from fastkit.mechanics.bond import flank_bond_torque
from fastkit.records.method import Method, Variant
from fastkit.records.seizure import DriveState

USUAL_ACROSS = 1.5  # flats of a hexagon in diameters; one that is smaller holds as its square
LOBES = "external-hexalobular"  # a drive system
HELD_PULL = "held pull"
# sigma of ln; workshop judgement, common practice with no published source
THREAD_SPREAD, SHANK_SPREAD, GRIP_SPREAD = 0.15, 0.08, 0.3
ROOT_TWO = sqrt(2)
LADDER_STEP = log(10) / 20
LEAST = 1e-12  # chance that is none
LADDER_BELOW = log(4)  # below the weakest median the ladder begins


class Link(NamedTuple):
    """One link: what it is, its median capacity [N·mm], sigma of ln, what happens when it gives."""

    part: str
    capacity: float
    spread: float
    gives: str  # nothing, drive, shank, thread, insert, extractor


class Chains:
    """The chains that attempts on one fastener load."""

    def __init__(
        self,
        situation: Situation,
        facts: Facts,
        size: Body,
        same: dict[tuple[Link, ...], tuple[Link, ...]] | None = None,
    ) -> None:
        self.situation, self.facts, self.size = situation, facts, size
        self.bench = facts.bench
        self._holes = {row.purpose: row.drill_mm for row in facts.drills}
        self._bored: dict[float, float] = {}  # what the shank stands, by its bore
        self._same = {} if same is None else same  # one object for chains alike
        self.of_solid = facts.part.shank_share if facts.part else 1.0  # of a hollow one
        self.shank: float = self._stands(0.0)
        material = next(row for row in facts.materials if row.id == situation.into)
        shear = material.shear_strength_mpa or self.bench.get("body_shear")
        self.thread = Link(
            "thread", flank_bond_torque(shear, size.d2, size.engaged), THREAD_SPREAD, "thread"
        )
        if situation.insert:
            hold = insert_capacity(size.d, size.engaged, self.bench)
            self.thread = Link("insert", hold, GRIP_SPREAD, "insert")
        self._known: dict[tuple[object, ...], tuple[Link, ...]] = {}
        self.sound = self._sound()  # what the drive stood when it was new, N·mm
        drive = facts.drive
        self.gain: float = self.bench.get("push_gain", drive.system if drive else "any")
        self.unpushed: float = (1 - self.gain) * self.sound  # where nobody presses on it

    def _sound(self) -> float:
        drive = self.facts.drive
        if drive and drive.external:
            across = (drive.across_flats_mm or inf) / (USUAL_ACROSS * self.size.d)
            solid = self.shank / self.of_solid
            return min(1.0, across**2) * self.bench.get("hexagon_over_shank") * solid
        proofs = [row.proof_torque_nm * 1000 for row in self.facts.drive_torques]
        return max(proofs, default=self.bench.get("drive_over_shank") * self.shank)

    def of(
        self, method: Method, variant: Variant | None, damage: str, held: bool = False
    ) -> tuple[Link, ...]:
        """
        Return the links of an attempt, in the order hand to thread.

        `held` says that the pull is kept below what the shank stands, whatever does not move.
        """
        arm, push = (variant.torque_nm, variant.push) if variant else (None, 0.0)
        key = method.id, arm, push, damage, held
        known = self._known.get(key)
        if known is None:
            known = self._of(method, variant, damage, held)
            known = self._known[key] = self._same.setdefault(known, known)
        return known

    def _of(
        self, method: Method, variant: Variant | None, damage: str, held: bool
    ) -> tuple[Link, ...]:
        chain = []
        if held:
            chain.append(_slips(HELD_PULL, self.bench.get("held_pull") * self.shank))
        if variant and variant.torque_nm is not None:
            chain.append(Link("arm", variant.torque_nm * 1000, 0.0, "nothing"))
        chain.append(self._grip(method, variant, damage))
        chain.append(Link("shank", self._shank(method), SHANK_SPREAD, "shank"))
        chain.append(self.thread)
        return tuple(chain)

    def _shank(self, method: Method) -> float:
        """Return what the shank stands, hollow where the method drills it."""
        bore = 0.0
        if method.grip in ("extractor", "drill"):
            bore = self._hole(method)
        return self._stands(min(bore, self.bench.get("widest_bore") * self.size.d3))

    def _hole(self, method: Method) -> float:
        """Return the hole that a method drills, the largest that leaves its wall, mm."""
        purpose = "left-hand-drill" if method.grip == "drill" else method.id
        return self._holes.get(purpose) or self.bench.get("hole", purpose) * self.size.d3

    def _stands(self, bore: float) -> float:
        stands = self._bored.get(bore)
        if stands is None:
            left = 1 - self.situation.wasted_pct / 100  # polar section of a wasted round
            whole = breaking_torque(self.facts.thread, self.facts.strength, bore)
            stands = self._bored[bore] = whole * left**1.5 * self.of_solid
        return stands

    def _grip(self, method: Method, variant: Variant | None, damage: str) -> Link:
        """Return the link that holds the fastener."""
        size, head, bench = self.size, self.facts.head, self.bench
        across = size.d3 if damage in HEADLESS else size.head
        if method.grip == "flats" and round_head(self.facts):
            return _slips("rim", bench.get("round_head_hold") * 1000 * size.head**2)
        if method.grip in ("drive", "bite", "flats"):
            return self._drive(method, variant, damage)
        if method.grip == "extractor":
            torque = extractor_capacity(self._hole(method), bench)
            return Link("extractor", torque, GRIP_SPREAD, "extractor")
        if method.grip == "slot":
            return _slips("slot", slot_capacity(across, size.d, bench))
        if method.grip == "weld":
            return _slips("weld", weld_capacity(size.d, bench))
        if method.grip == "drill":
            return _slips("drill", bench.get("drill_grab") * self._hole(method) ** 3)
        headless = damage in HEADLESS or self.situation.kind == "stud" or method.grip == "far-side"
        held = size.d if headless else size.head
        torque = jaw_capacity(held, bench) if method.hold is None else method.hold * 1000 * held**2
        if method.grip == "rim" and not headless:
            outer = self.facts.drive is not None and self.facts.drive.external
            usual = "hexagon" if outer else "unknown"
            torque *= bench.get("rim_share", head.form if head else usual)
        return _slips(method.grip or "jaws", torque)

    def _drive(self, method: Method, variant: Variant | None, damage: str) -> Link:
        """Return the drive interface: proof torque x damage x engagement x axial push."""
        drive = self.facts.drive
        state = drive_state(damage, self.facts)
        share = state.share + (1 - state.share) * method.restores
        gain = self.gain
        share *= 1 - gain + gain * (variant.push if variant else 0.0)
        if self.situation.recess == "filled":
            share *= self.bench.get("filled_recess")
        part = "flats" if drive and drive.external else "recess"
        if drive and drive.system == LOBES:
            part = "lobes"
        if damage in ("stripped", "rounded"):  # it slips again as it slipped before
            return _slips(part, share * self.sound)
        return Link(part, share * self.sound, state.spread, "drive")


def _slips(part: str, torque: float) -> Link:
    return Link(part, torque, 0.0, "nothing")


def drive_state(damage: str, facts: Facts) -> DriveState:
    """Return what a damage state leaves of the fastener's drive."""
    system = facts.drive.system if facts.drive else "any"
    rows = {row.system: row for row in facts.drive_states if row.damage == damage}
    return rows.get(system) or rows["any"]


def round_head(facts: Facts) -> bool:
    """Say whether the head is round outside and tall enough for a socket to be driven over it."""
    return facts.head is not None and facts.head.form in ("socket", "cheese")


def median(chain: Sequence[Link]) -> float:
    """Return the capacity of the weakest link, N·mm."""
    return min(link.capacity for link in chain)


def weakest(chain: Sequence[Link]) -> Link:
    """Return the link with the lowest median capacity."""
    return min(chain, key=lambda link: link.capacity)


class Giving:
    """
    The chance of each link to have given first, by torque.

    The sum over the links is the chance that the chain has given at all. The torque rises on a
    ladder whose rungs are a twentieth of a decade apart, and by one last step from the rung below.
    """

    def __init__(self, chain: Sequence[Link]) -> None:
        self._logs = [(log(link.capacity), 1 / (link.spread * ROOT_TWO)) for link in chain]
        self._start = min(middle for middle, _ in self._logs) - LADDER_BELOW
        still = [1.0] * len(chain), 1.0, [0.0] * len(chain)
        self._rungs: list[Rung] = [still, self._step(still, self._start)]
        self._known: dict[float, list[float]] = {}

    def at(self, torque: float) -> list[float]:
        """Return each link's share at a torque [N·mm]."""
        known = self._known.get(torque)
        if known is None:
            known = self._known[torque] = self._at(torque)
        return known

    def _at(self, torque: float) -> list[float]:
        if torque <= 0:
            return self._rungs[0][2]
        to = log(torque)
        number = max(0, int((to - self._start) / LADDER_STEP) + 1) if to >= self._start else 0
        while len(self._rungs) <= number:
            rung = self._start + (len(self._rungs) - 1) * LADDER_STEP
            self._rungs.append(self._step(self._rungs[-1], rung))
        return self._step(self._rungs[number], to)[2]

    def _step(self, below: "Rung", to: float) -> "Rung":
        now, whole = [], 1.0
        for middle, scale in self._logs:
            survival = 0.5 - 0.5 * erf((to - middle) * scale)
            if survival < LEAST:
                survival = LEAST
            now.append(survival)
            whole *= survival
        survivals, before, given = below
        lost = before - whole
        if lost <= LEAST:
            return now, whole, given
        drops = [log(b / n) for b, n in zip(survivals, now, strict=True)]
        part = lost / sum(drops)
        return now, whole, [g + part * drop for g, drop in zip(given, drops, strict=True)]


# one torque of the ladder: what each link survives, what the whole chain, and what has given
Rung = tuple[list[float], float, list[float]]
