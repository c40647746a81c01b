"""What room, neighbours, rules and tools leave open, whatever the fastener can carry."""

from collections.abc import Iterator, Mapping
from math import inf
from typing import NamedTuple

from fastkit.extraction.chain import Giving, Link, drive_state
from fastkit.extraction.facts import Facts
from fastkit.extraction.result import Reason, RuledOut
from fastkit.extraction.rules import Bar, Neighbourhood, Open, Rule, Vetoes, holds, view
from fastkit.extraction.situation import Near, Situation
from fastkit.reach.access import Access, Gain, widened
from fastkit.reach.fit import Envelope, Fit, fit
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
OVERSIZE = "oversize-bit"
DRIVE_GRIPS = ("drive", "bite", "flats")
OVER_ROUND_HEAD = ("gripping-socket", "next-size-socket")  # driven over a tall round head too
NO_TOOL = Fit(fit(Envelope(0, 0, 0, None, None), Access()).margins, ())
LOADED = ("spring", "weight", "pressure")


class Room(NamedTuple):
    """The access after one room-making move (or none), and how far off the neighbours then are."""

    move: str | None
    minutes: float
    access: Access
    near: tuple[Near, ...]
    support: str


class Way(NamedTuple):
    """A method that is open, and the tools that fit; none where it needs none."""

    method: Method
    tools: tuple[tuple[Variant, Fit], ...] | None
    conditions: tuple[str, ...]


class Shop:
    """The tables of methods and rules, read once for every plan that asks them."""

    def __init__(self, facts: Facts) -> None:
        self.vetoes = Vetoes(facts.vetoes)
        self.neighbourhood = Neighbourhood(facts)
        self.methods = [row for row in facts.methods if row.kind not in ("gate", "room")]
        self.variants: dict[str, list[Variant]] = {}
        for variant in facts.variants:
            self.variants.setdefault(variant.method, []).append(variant)
        self.chains: dict[tuple[Link, ...], tuple[Link, ...]] = {}  # one object for chains alike
        self.giving: dict[tuple[Link, ...], Giving] = {}


class Footing(NamedTuple):
    """What openings depend on: with the same footing they are the same."""

    rules: Mapping[str, tuple[Open, ...]]
    rooms: tuple[Room, ...]
    power: str | None
    lack: tuple[str, ...]
    outer: bool
    system: str | None
    head: float | None  # only where a pocket is measured against it
    symmetry: float
    over_head: tuple[str, ...]
    bites: bool


class Openings:
    """What can be tried, and what cannot, at each point of a plan; strength left aside."""

    def __init__(self, footing: Footing, facts: Facts, shop: Shop) -> None:
        self.footing, self.facts, self.shop = footing, facts, shop
        self.rooms = footing.rooms
        self._inside: dict[int, dict[str, tuple[Way | None, RuledOut | None]]] = {}
        self._rules: dict[int, dict[str, list[tuple[Bar, tuple[Rule, ...]]]]] = {}
        self._besides: dict[tuple[str, int], tuple[Bar | None, tuple[str, ...]]] = {}
        self._fits: list[dict[Envelope, Fit]] = [{} for _ in footing.rooms]
        self._worthwhile: tuple[int, ...] | None = None
        self._envelopes: dict[tuple[str, str], Envelope] = {}
        self._soonest: dict[tuple[str, int], tuple[float, dict[Method, float]]] = {}
        self._found: dict[tuple[str, str, int], tuple[tuple[Way, ...], tuple[RuledOut, ...]]] = {}

    def at(
        self, damage: str, residue: str, room: int
    ) -> tuple[tuple[Way, ...], tuple[RuledOut, ...]]:
        """Return what is open in a damage state, with a residue, in one room; and what not."""
        key = damage, residue, room
        if key not in self._found:
            self._found[key] = self._look(damage, residue, room)
        return self._found[key]

    def soonest(self, damage: str, room: int) -> tuple[float, dict[Method, float]]:
        """Return the minutes of the quickest turn in a dry room, and of every other way."""
        key = damage, room
        found = self._soonest.get(key)
        if found is None:
            turn, parts = inf, {}
            for method, tools, _ in self.at(damage, "none", room)[0]:
                least = method.minutes + min([row.minutes for row, _ in tools or ()], default=0.0)
                if method.kind == "turn":
                    turn = min(turn, least)
                elif method.kind == "part":
                    parts[method] = least
            found = self._soonest[key] = turn, parts
        return found

    def _look(
        self, damage: str, residue: str, number: int
    ) -> tuple[tuple[Way, ...], tuple[RuledOut, ...]]:
        seen = {"damage": damage, "residue": residue}
        rules = self._in_room(number)
        inside = self._inside.setdefault(number, {})
        gone = drive_state(damage, self.facts).share == 0
        spins = damage in ("spinning", "nut-spinning")
        found: list[Way] = []
        out: list[RuledOut] = []
        for method in self.shop.methods:
            refusal = None
            for bar, conditions in rules.get(method.id, ()):
                if all(holds(rule, seen) for rule in conditions):
                    refusal = RuledOut(method.id, bar.because, None, bar.opens_it)
                    break
            if refusal is None:
                refusal = self._refusal(method, gone, spins)
            if refusal is not None:
                out.append(refusal)
                continue
            if method.id not in inside:
                inside[method.id] = self._tools(method, number)
            way, refused = inside[method.id]
            if way is not None:
                found.append(way)
            elif refused is not None:
                out.append(refused)
        return tuple(found), tuple(out)

    def _in_room(self, number: int) -> dict[str, list[tuple[Bar, tuple[Rule, ...]]]]:
        """Return the rules whose conditions on the room hold, with those on the state."""
        if number not in self._rules:
            room = self.rooms[number]
            seen = {
                "support": room.support,
                "near": frozenset(item.thing for item in room.near),
            }
            self._rules[number] = {
                method: [
                    (rule.bar, rule.state)
                    for rule in rules
                    if all(holds(row, seen) for row in rule.room)
                ]
                for method, rules in self.footing.rules.items()
            }
        return self._rules[number]

    def _refusal(self, method: Method, gone: bool, spins: bool) -> RuledOut | None:
        footing, detail = self.footing, None
        if method.kind == "turn" and spins and method.grip != "far-side":
            detail = "it turns already: torque alone frees nothing"
        elif method.grip in DRIVE_GRIPS and gone:
            detail = "there is no drive left to turn it by"
        elif method.grip == "bite" and footing.outer:
            detail = "there is no recess to turn it by"
        elif method.grip == "flats" and not footing.outer and method.id not in footing.over_head:
            detail = "there are no flats on the outside"
        elif method.id == OVERSIZE and not footing.bites:
            detail = "no bit of another size or system bites in it"
        if detail is None:
            return None
        return RuledOut(method.id, Reason("cannot_free", (detail,)), None, None)

    def beside(self, method: str, number: int) -> tuple[Bar | None, tuple[str, ...]]:
        """Return what a neighbour forbids of a method in a room, or what it asks for."""
        key = method, number
        if key not in self._besides:
            self._besides[key] = self.shop.neighbourhood.check(method, self.rooms[number].near)
        return self._besides[key]

    def fit(self, variant: Variant, number: int) -> Fit:
        """Return how a tool fits in a room."""
        envelope = self.envelope(variant)
        known = self._fits[number].get(envelope)
        if known is None:
            known = self._fits[number][envelope] = fit(envelope, self.rooms[number].access)
        return known

    def _tools(self, method: Method, number: int) -> tuple[Way | None, RuledOut | None]:
        """Return the tools of a method that fit and are at hand."""
        bar, conditions = self.beside(method.id, number)
        if bar is not None:
            return None, RuledOut(method.id, bar.because, None, bar.opens_it)
        footing = self.footing
        other = "recess" if footing.outer else "flats"
        variants = [row for row in self.shop.variants.get(method.id, ()) if row.fits != other]
        if not variants:
            return Way(method, None, conditions), None
        found: list[tuple[Variant, Fit]] = []
        missing: Reason | None = None
        misses: list[tuple[Fit, Variant]] = []
        for variant in variants:
            if variant.tool in footing.lack:
                missing = missing or Reason("no_tool", (variant.tool,))
            elif variant.power and variant.power not in POWERS[footing.power]:
                missing = missing or Reason("no_power", (variant.power,))
            else:
                got = self.fit(variant, number)
                if got.short:
                    misses.append((got, variant))
                else:
                    found.append((variant, got))
        if found:
            return Way(method, tuple(found), conditions), None
        if not misses:
            assert missing is not None
            return None, RuledOut(method.id, missing, None, Reason("tool", missing.values))
        got, variant = min(misses, key=lambda miss: miss[0].tightness)
        return None, _short(method, got, self.envelope(variant), self.rooms[number].access)

    def envelope(self, variant: Variant) -> Envelope:
        """Return the room a tool takes on this fastener."""
        key = variant.method, variant.id
        if key not in self._envelopes:
            swing = variant.swing_deg
            side = None
            if variant.side_width_mm is not None and variant.side_depth_mm is not None:
                side = (variant.side_width_mm, variant.side_depth_mm)
            pocket, head = variant.pocket_diameter_mm, self.footing.head
            self._envelopes[key] = Envelope(
                variant.above_mm,
                variant.beside_mm,
                self.footing.symmetry if swing is None else swing,
                side,
                None if pocket is None or head is None else head + pocket,
            )
        return self._envelopes[key]

    def worthwhile_rooms(self) -> tuple[int, ...]:
        """Return the rooms that open something which no cheaper one opens, cheapest first."""
        if self._worthwhile is None:
            self._worthwhile = tuple(self._rooms_that_open())
        return self._worthwhile

    def _rooms_that_open(self) -> Iterator[int]:
        shut = [
            (method, variant)
            for method, variants in self.shop.variants.items()
            for variant in variants
            if self._shuts(method, variant, 0)
        ]
        jack = self.rooms[0].support == "jack"
        for number in sorted(range(1, len(self.rooms)), key=lambda n: self.rooms[n].minutes):
            stands = jack and self.rooms[number].support != "jack"
            still = [(method, row) for method, row in shut if self._shuts(method, row, number)]
            if stands or len(still) < len(shut):
                yield number
                shut, jack = still, jack and not stands

    def _shuts(self, method: str, variant: Variant, number: int) -> bool:
        """Say whether a room's access or neighbours shut a tool out; a wider one shuts no more."""
        return self.beside(method, number)[0] is not None or bool(self.fit(variant, number).short)


def settled(
    situation: Situation, size_mm: float, system: str | None, shop: Shop
) -> dict[str, tuple[Open, ...]]:
    """Return the rules that may hold in a situation once the gates that are due are done."""
    seen = view(
        situation,
        size_mm,
        system,
        load="none" if situation.load in LOADED else "unknown",
        recess="clean",
    )
    return shop.vetoes.settle(seen)


def rooms_of(situation: Situation, facts: Facts, shop: Shop) -> tuple[Room, ...]:
    """Return the present room, then each room-making move that the user can make."""
    access = Access(
        situation.above_mm,
        situation.beside_mm,
        situation.swing_deg,
        situation.side_mm if situation.pocket_mm is None or situation.side_mm else (0.0, 0.0),
        situation.pocket_mm,
    )
    rooms = [Room(None, 0.0, access, situation.near, situation.support)]
    can = None if situation.can is None else dict(situation.can)
    minutes = {row.id: row.minutes for row in facts.methods}
    for gain in facts.room_gains:
        if can is not None and gain.method not in can:
            continue
        own = can.get(gain.method) if can else None
        gained = Gain(gain.above_mm, gain.beside_mm, gain.swing_deg, gain.side_mm)
        rooms.append(
            Room(
                gain.method,
                minutes[gain.method] if own is None else own,
                widened(access, gained),
                shop.neighbourhood.moved(situation.near, gain.distance_mm),
                "bench" if gain.method == "bench" else situation.support,
            )
        )
    return tuple(rooms)


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
