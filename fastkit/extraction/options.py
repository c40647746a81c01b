"""Which methods can be used at one point of a plan, with which tool, and why the others cannot."""

from typing import NamedTuple

from fastkit.extraction.chain import (
    HELD_PULL,
    Chains,
    Link,
    drive_state,
    median,
    round_head,
    weakest,
)
from fastkit.extraction.facts import Facts
from fastkit.extraction.resistance import Resistance
from fastkit.extraction.result import Reason, RuledOut
from fastkit.extraction.rules import Bar, Neighbourhood, Vetoes, view
from fastkit.extraction.situation import Near, Situation
from fastkit.reach.access import Access, Gain, widened
from fastkit.reach.fit import Envelope, Fit, fit
from fastkit.reach.near import near_fits
from fastkit.records.method import Method, Variant

POWERS = {
    "none": (),
    "electric": ("electric",),
    "air": ("electric", "air"),
    None: ("electric", "air"),
}
SHORT_CODES = {
    "above": "too_short_above",
    "beside": "too_narrow_beside",
    "swing": "swing_too_small",
    "side": "side_too_small",
    "pocket": "pocket_too_narrow",
}
BLOWS = ("hand-impact-driver", "power-impact", "chisel-turn")  # nobody holds a blow back
OVERSIZE = "oversize-bit"
DRIVE_GRIPS = ("drive", "bite", "flats")
OVER_ROUND_HEAD = ("gripping-socket", "next-size-socket")  # driven over a tall round head too
NO_TOOL = Fit(fit(Envelope(0, 0, 0, None, None), Access()).margins, ())


class Candidate(NamedTuple):
    """One method with one tool that can be used now."""

    method: Method
    variant: Variant | None
    fit: Fit
    chain: tuple[Link, ...]  # empty where nothing is turned
    capacity: float  # of the weakest link, N·mm; 0 where nothing is turned
    minutes: float
    conditions: tuple[str, ...]


class Room(NamedTuple):
    """The access after one room-making move (or none), and how far off the neighbours then are."""

    move: str | None
    minutes: float
    access: Access
    near: tuple[Near, ...]
    support: str


class Options:
    """Everything that can be done, and what cannot, at each point of a plan."""

    def __init__(self, situation: Situation, facts: Facts, resistance: Resistance) -> None:
        self.situation, self.facts = situation, facts
        self.size = resistance.body
        self.chains = Chains(situation, facts, self.size)
        self.neighbourhood = Neighbourhood(facts)
        self.system = facts.drive.system if facts.drive else None
        self.vetoes = Vetoes(facts.vetoes, view(situation, self.size.d, self.system))
        self.outer = _is_outer(situation, facts)
        other = "recess" if self.outer else "flats"
        self.variants: dict[str, list[Variant]] = {}
        for variant in facts.variants:
            if variant.fits != other:
                self.variants.setdefault(variant.method, []).append(variant)
        self.over_head = OVER_ROUND_HEAD if round_head(facts) else ()
        self.near = near_fits(facts.drive, facts.drives) if facts.drive else ()
        self.rooms = self._rooms()
        self._besides: dict[tuple[str, int], tuple[Bar | None, tuple[str, ...]]] = {}
        self._fits: dict[tuple[str, str, int], Fit] = {}
        self._found: dict[tuple[str, str, int], tuple[tuple[Candidate, ...], tuple[RuledOut, ...]]]
        self._found = {}

    def _rooms(self) -> tuple[Room, ...]:
        """Return the present room, then each room-making move that the user can make."""
        situation = self.situation
        access = Access(
            situation.above_mm,
            situation.beside_mm,
            situation.swing_deg,
            situation.side_mm if situation.pocket_mm is None or situation.side_mm else (0.0, 0.0),
            situation.pocket_mm,
        )
        rooms = [Room(None, 0.0, access, situation.near, situation.support)]
        can = None if situation.can is None else dict(situation.can)
        minutes = {row.id: row.minutes for row in self.facts.methods}
        for gain in self.facts.room_gains:
            if can is not None and gain.method not in can:
                continue
            own = can.get(gain.method) if can else None
            gained = Gain(gain.above_mm, gain.beside_mm, gain.swing_deg, gain.side_mm)
            rooms.append(
                Room(
                    gain.method,
                    minutes[gain.method] if own is None else own,
                    widened(access, gained),
                    self.neighbourhood.moved(situation.near, gain.distance_mm),
                    "bench" if gain.method == "bench" else situation.support,
                )
            )
        return tuple(rooms)

    def at(
        self, damage: str, residue: str, room: int
    ) -> tuple[tuple[Candidate, ...], tuple[RuledOut, ...]]:
        """Return what can be done in a damage state, with a residue, in one room; and what not."""
        key = damage, residue, room
        if key not in self._found:
            self._found[key] = self._look(damage, residue, room)
        return self._found[key]

    def worthwhile_rooms(self) -> tuple[int, ...]:
        """Return the rooms that open something which no cheaper one opens, cheapest first."""
        kept: list[int] = []
        open_ = self._opened(0)
        for number in sorted(range(1, len(self.rooms)), key=lambda n: self.rooms[n].minutes):
            now = self._opened(number)
            if not now <= open_:
                kept.append(number)
                open_ |= now
        return tuple(kept)

    def _opened(self, number: int) -> set[tuple[str, str]]:
        """Return what a room's access, neighbours and support leave open."""
        room = self.rooms[number]
        opened = {("support", room.support)} if self.situation.support == "jack" else set()
        for variant in self.facts.variants:
            bar, _ = self._beside(variant.method, number)
            if bar is None and not self._fit(variant, number).short:
                opened.add((variant.method, variant.id))
        return opened

    def _beside(self, method: str, number: int) -> tuple[Bar | None, tuple[str, ...]]:
        key = method, number
        if key not in self._besides:
            self._besides[key] = self.neighbourhood.check(method, self.rooms[number].near)
        return self._besides[key]

    def _fit(self, variant: Variant, number: int) -> Fit:
        key = variant.method, variant.id, number
        if key not in self._fits:
            self._fits[key] = fit(self.envelope(variant), self.rooms[number].access)
        return self._fits[key]

    def _look(
        self, damage: str, residue: str, number: int
    ) -> tuple[tuple[Candidate, ...], tuple[RuledOut, ...]]:
        room = self.rooms[number]
        seen = view(
            self.situation,
            self.size.d,
            self.system,
            damage=damage,
            residue=residue,
            support=room.support,
            load="none" if self.situation.load in ("spring", "weight", "pressure") else "unknown",
            recess="clean",
        )
        seen["near"] = frozenset(item.thing for item in room.near)
        found: list[Candidate] = []
        out: list[RuledOut] = []
        for method in self.facts.methods:
            if method.kind in ("gate", "room"):
                continue
            refusal = self._refusal(method, damage, seen)
            if refusal is not None:
                out.append(refusal)
                continue
            bar, conditions = self._beside(method.id, number)
            if bar is not None:
                out.append(RuledOut(method.id, bar.because, None, bar.opens_it))
                continue
            fitting, refused = self._tools(method, damage, number, conditions)
            found.extend(fitting)
            if refused is not None:
                out.append(refused)
        return tuple(found), tuple(out)

    def _refusal(self, method: Method, damage: str, seen: dict[str, object]) -> RuledOut | None:
        bar = self.vetoes.check(method.id, seen)
        if bar is not None:
            return RuledOut(method.id, bar.because, None, bar.opens_it)
        detail = None
        spins = damage in ("spinning", "nut-spinning")
        if method.kind == "turn" and spins and method.grip != "far-side":
            detail = "it turns already: torque alone frees nothing"
        elif method.grip in DRIVE_GRIPS and drive_state(damage, self.facts).share == 0:
            detail = "there is no drive left to turn it by"
        elif method.grip == "bite" and self.outer:
            detail = "there is no recess to turn it by"
        elif method.grip == "flats" and not self.outer and method.id not in self.over_head:
            detail = "there are no flats on the outside"
        elif method.id == OVERSIZE and self.facts.drive and not self.near:
            detail = "no bit of another size or system bites in it"
        if detail is None:
            return None
        return RuledOut(method.id, Reason("cannot_free", (detail,)), None, None)

    def _tools(
        self, method: Method, damage: str, number: int, conditions: tuple[str, ...]
    ) -> tuple[list[Candidate], RuledOut | None]:
        """Return the tools of a method that fit and are at hand, none beaten by another."""
        variants = self.variants.get(method.id)
        if variants is None:
            return self._candidates(method, None, NO_TOOL, damage, conditions), None
        found: list[Candidate] = []
        missing: Reason | None = None
        misses: list[tuple[Fit, Variant]] = []
        for variant in variants:
            if variant.tool in self.situation.lack:
                missing = missing or Reason("no_tool", (variant.tool,))
            elif variant.power and variant.power not in POWERS[self.situation.power]:
                missing = missing or Reason("no_power", (variant.power,))
            else:
                got = self._fit(variant, number)
                if got.short:
                    misses.append((got, variant))
                else:
                    found += self._candidates(method, variant, got, damage, conditions)
        if found:
            return _unbeaten(found), None
        if not misses:
            assert missing is not None
            opens = Reason("tool", missing.values)
            return [], RuledOut(method.id, missing, None, opens)
        got, variant = min(misses, key=lambda miss: miss[0].tightness)
        return [], _short(method, got, self.envelope(variant), self.rooms[number].access)

    def envelope(self, variant: Variant) -> Envelope:
        """Return the room a tool takes on this fastener."""
        swing = variant.swing_deg
        if swing is None:
            swing = self.facts.drive.symmetry_deg if self.facts.drive else 60.0
        side = None
        if variant.side_width_mm is not None and variant.side_depth_mm is not None:
            side = (variant.side_width_mm, variant.side_depth_mm)
        pocket = variant.pocket_diameter_mm
        return Envelope(
            variant.above_mm,
            variant.beside_mm,
            swing,
            side,
            None if pocket is None else self.size.head + pocket,
        )

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
        if method.kind != "turn":
            return [Candidate(method, variant, got, (), 0.0, minutes, conditions)]
        chain = self.chains.of(method, variant, damage)
        full = Candidate(method, variant, got, chain, median(chain), minutes, conditions)
        struck = method.id in BLOWS or (variant is not None and variant.power is not None)
        if struck or weakest(chain).part != "shank":
            return [full]
        held = self.chains.of(method, variant, damage, held=True)
        return [full, full._replace(chain=held, capacity=median(held))]


def _is_outer(situation: Situation, facts: Facts) -> bool:
    """Say whether the fastener is driven from outside."""
    if facts.drive is not None:
        return bool(facts.drive.external)
    return situation.kind in ("nut", "tube-nut", "bolt", "stud")


def _unbeaten(found: list[Candidate]) -> list[Candidate]:
    """Drop each tool that another of the same method beats in both strength and time."""
    kept: list[Candidate] = []
    for held in (False, True):
        strongest = 0.0
        same = [item for item in found if is_held(item) == held]
        for item in sorted(same, key=lambda item: (item.minutes, -item.capacity)):
            if not strongest or item.capacity > strongest * 1.001:
                kept.append(item)
                strongest = max(item.capacity, 1e-9)
    return kept


def is_held(candidate: Candidate) -> bool:
    """Say whether an attempt is kept below what the shank stands."""
    return bool(candidate.chain) and candidate.chain[0].part == HELD_PULL


def _short(method: Method, got: Fit, envelope: Envelope, access: Access) -> RuledOut:
    """Say on which axis the tool that comes nearest to fitting falls shortest, need and have."""
    worst = max(got.short, key=lambda axis: axis.amount)
    have: dict[str, float | None] = {
        "above": access.above_mm,
        "beside": access.beside_mm,
        "swing": access.swing_deg,
        "side": None,  # an opening is width by depth: its need says it all
        "pocket": access.pocket_mm[0] if access.pocket_mm else None,
    }
    code = SHORT_CODES[worst.axis]
    if worst.axis == "side" and envelope.side_mm is not None:
        because = Reason(code, envelope.side_mm)
    else:
        free = have[worst.axis] or 0.0
        because = Reason(code, (free + worst.amount, free))
    opens = Reason("more_room", (worst.axis, worst.amount, worst.unit))
    return RuledOut(method.id, because, worst, opens)
