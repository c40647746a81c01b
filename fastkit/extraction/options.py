"""Which methods can be used at one point of a plan, with which tool, and why the others cannot."""

from typing import Any, NamedTuple

from fastkit.extraction.chain import HELD_PULL, Chains, Link, median, round_head, weakest
from fastkit.extraction.facts import Facts
from fastkit.extraction.gates import CLEAN_RECESS, possible
from fastkit.extraction.openings import (
    OVER_ROUND_HEAD,
    Footing,
    Openings,
    settled,
)
from fastkit.extraction.resistance import Resistance
from fastkit.extraction.result import RuledOut
from fastkit.extraction.rooms import NO_TOOL, Hands, Shop, Way, rooms_of
from fastkit.extraction.situation import HEADLESS, TUBE_NUT, Situation
from fastkit.extraction.stubs import stub_of
from fastkit.extraction.warmth import Warmth
from fastkit.reach.fit import Envelope, Fit
from fastkit.reach.near import NearFit, near_fits
from fastkit.records.method import Method, Variant

BESIDES = (  # what decides which tools can be used or how it sticks, and nothing of what they do
    *("above_mm", "beside_mm", "swing_deg", "side_mm", "pocket_mm", "far_side", "residue"),
    *("support", "load", "power", "lack", "have", "can", "tried", "spoil_min", "stub_mm"),
    "seized_at",  # the resistance is compared by itself
)
BLOWS = ("hand-impact-driver", "power-impact", "chisel-turn")  # nobody holds a blow back


class Candidate(NamedTuple):
    """One method with one tool that can be used now."""

    method: Method
    variant: Variant | None
    fit: Fit
    chain: tuple[Link, ...]  # empty where nothing is turned
    capacity: float  # of the weakest link, N·mm; 0 where nothing is turned
    minutes: float
    conditions: tuple[str, ...]


class Options:
    """
    Everything that can be done, and what cannot, at each point of a plan.

    `like` is what was found for a situation that differs little: what does not depend on the
    difference is taken from it.
    """

    def __init__(
        self,
        situation: Situation,
        facts: Facts,
        resistance: Resistance,
        like: "Options | None" = None,
    ) -> None:
        self.situation, self.facts = situation, facts
        self.size = resistance.body
        self.shop: Shop = like.shop if like else Shop(facts)
        self.warmth = Warmth(situation, facts, self.size)
        picked = possible(CLEAN_RECESS, situation.lack, self.shop.variants)
        recess = "clean" if picked else situation.recess  # what fills it comes out first
        self.chains = Chains(situation._replace(recess=recess), facts, self.size, self.shop.chains)
        drive = facts.drive
        self.system = drive.system if drive else None
        self.outer = is_outer(situation, facts)
        self.near: tuple[NearFit, ...] = ()
        if like and like.facts.drive is drive:
            self.near = like.near
        elif drive:
            self.near = near_fits(drive, facts.drives)
        footing = Footing(
            settled(situation, self.size.d, self.system, self.shop),
            rooms_of(situation, facts, self.shop),
            Hands(
                situation.power,
                situation.lack,
                self.outer,
                self.system,
                self.size.head if situation.pocket_mm else None,
                drive.symmetry_deg if drive else 60.0,
            ),
            self.system,
            OVER_ROUND_HEAD if round_head(facts) else (),
            bool(self.near) or drive is None,
            stub_of(situation, self.size.d),
        )
        same = like is not None and like.openings.footing == footing
        self.openings: Openings = (
            like.openings if like and same else Openings(footing, facts, self.shop)
        )
        self.rooms = self.openings.rooms
        # where this is the same, so is what attempts with a tool do and take
        besides: dict[str, Any] = dict.fromkeys(BESIDES)
        alike = situation._replace(**besides)
        same_fastener = facts.thread, facts.strength, drive, facts.head, facts.own, self.size
        self.bears = alike, recess, *same_fastener
        self._found: dict[tuple[str, str, int], tuple[Candidate, ...]] = {}
        self._ways: dict[tuple[int, str], list[Candidate]] = {}
        self._alike: dict[tuple[str, tuple[int, ...]], tuple[Candidate, ...]] = {}
        if like and like.bears == self.bears:
            self._ways, self._alike = like._ways, like._alike

    def variants(self, method: str) -> list[Variant]:
        """Return the tools of a method that serve this kind of drive."""
        hands = self.openings.footing.hands
        return [row for row in self.shop.variants.get(method, ()) if hands.serves(row)]

    def open(self, damage: str, residue: str, room: int) -> tuple[Candidate, ...]:
        """
        Return what can be done in a damage state, with a residue, in one room.

        One object for one damage wherever the same is open.
        """
        key = damage, residue, room
        found = self._found.get(key)
        if found is None:
            ways = self.openings.open(*key)
            alike = damage, tuple([id(way) for way in ways])  # the shop keeps one for a room
            if alike not in self._alike:
                rows = [item for way in ways for item in self._of_way(way, damage)]
                self._alike[alike] = tuple(rows)
            found = self._found[key] = self._alike[alike]
        return found

    def _of_way(self, way: Way, damage: str) -> list[Candidate]:
        turns = way.method.kind == "turn"  # by the drive, where there is one
        key = id(way), damage if turns and damage not in HEADLESS else ""
        found = self._ways.get(key)
        if found is None:
            found = self._ways[key] = self._with_tools(way, damage)
        return found

    def shut(self, damage: str, residue: str, room: int) -> tuple[RuledOut, ...]:
        """Return what cannot be done there, why, and what would bring it back."""
        return self.openings.shut(damage, residue, room)

    def _with_tools(self, way: Way, damage: str) -> list[Candidate]:
        """Return a method with each tool that fits, none beaten by another."""
        if way.tools is None:
            return self._candidates(way.method, None, NO_TOOL, damage, way.conditions)
        found: list[Candidate] = []
        for variant, got in way.tools:
            asked = way.asked[variant.id]
            found += self._candidates(way.method, variant, got, damage, asked)
        if way.method.kind != "turn":
            return [min(found, key=lambda item: item.minutes)]
        if any(row.method == way.method.id for row in self.facts.own):
            return _strongest(found)
        return self._unbeaten(found)

    def _unbeaten(self, found: list[Candidate]) -> list[Candidate]:
        """Drop each tool that slips and breaks just as a quicker one of the same method does."""
        kept: dict[tuple[float, int], Candidate] = {}
        for item in sorted(found, key=lambda item: item.minutes):
            hold = self.shop.hold(item.chain)
            kept.setdefault((hold.limit, id(hold.giving)), item)
        return list(kept.values())

    def worthwhile_rooms(self) -> tuple[int, ...]:
        """Return the rooms that open something which no cheaper one opens, cheapest first."""
        return self.openings.worthwhile_rooms()

    def envelope(self, variant: Variant) -> Envelope:
        """Return the room a tool takes on this fastener."""
        return self.openings.inside[0].envelope(variant)

    def longer(self, method: Method) -> float:
        """Return the minutes more that a drill wider than usual takes: as its diameter grows."""
        if "drill" not in self.shop.neighbourhood.hazards.get(method.id, ()):
            return 0.0
        return method.minutes * max(0.0, self.size.d / self.facts.bench.get("drill_time") - 1)

    def _candidates(
        self,
        method: Method,
        variant: Variant | None,
        got: Fit,
        damage: str,
        conditions: tuple[str, ...],
    ) -> list[Candidate]:
        """Return the attempt in full, and held below what the shank stands where a hand can."""
        minutes = method.minutes + (variant.minutes if variant else 0.0)
        minutes += self.warmth.minutes(method.id) + self.longer(method)
        if method.kind != "turn":
            return [Candidate(method, variant, got, (), 0.0, minutes, conditions)]
        chain = self.chains.of(method, variant, damage)
        full = Candidate(method, variant, got, chain, median(chain), minutes, conditions)
        struck = method.id in BLOWS or (variant is not None and variant.power is not None)
        if struck or weakest(chain).part != "shank":
            return [full]
        held = self.chains.of(method, variant, damage, held=True)
        return [full, full._replace(chain=held, capacity=median(held))]


def is_outer(situation: Situation, facts: Facts) -> bool:
    """Say whether the fastener is driven from outside."""
    if facts.drive is not None:
        return bool(facts.drive.external)
    return situation.kind in ("nut", TUBE_NUT, "bolt", "stud")


def _strongest(found: list[Candidate]) -> list[Candidate]:
    """
    Drop each tool that another of the same method beats in both strength and time.

    One's own attempts are counted by the method: they say nothing for its weaker tools.
    """
    kept: list[Candidate] = []
    for held in (False, True):
        strongest = 0.0
        same = [item for item in found if _held(item) == held]
        for item in sorted(same, key=lambda item: (item.minutes, -item.capacity)):
            if not strongest or item.capacity > strongest * 1.001:
                kept.append(item)
                strongest = max(item.capacity, 1e-9)
    return kept


def _held(candidate: Candidate) -> bool:
    return candidate.chain[0].part == HELD_PULL
