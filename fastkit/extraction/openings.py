"""What room, neighbours, rules and tools leave open, whatever the fastener can carry."""

from collections.abc import Iterator, Mapping
from math import inf
from typing import NamedTuple

from fastkit.extraction.chain import drive_state
from fastkit.extraction.facts import Facts
from fastkit.extraction.gates import (
    ISOLATE,
    ON_JACK,
    SERVE,
    UNLOAD,
    held_back,
    possible,
)
from fastkit.extraction.result import Reason, RuledOut
from fastkit.extraction.rooms import Hands, Room, Shop, Standing, Way
from fastkit.extraction.rules import ROOMS_OWN, STATES_OWN, Open, is_tool, method_of, tool_key, view
from fastkit.extraction.situation import TURNING, Situation
from fastkit.extraction.stubs import Stub
from fastkit.records.method import Method

OVERSIZE = "oversize-bit"
DRIVE_GRIPS = ("drive", "bite", "flats")
OVER_ROUND_HEAD = ("gripping-socket", "next-size-socket")  # driven over a tall round head too
LOADED = ("spring", "weight", "pressure")
VENTED = "vented"  # no load any more, but what it held may still burn or poison


class Footing(NamedTuple):
    """What openings depend on: with the same footing they are the same."""

    rules: Mapping[str, tuple[Open, ...]]
    rooms: tuple[Room, ...]
    hands: Hands
    system: str | None
    over_head: tuple[str, ...]
    bites: bool
    stub: Stub


class Openings:
    """What can be tried, and what cannot, at each point of a plan; strength left aside."""

    def __init__(self, footing: Footing, facts: Facts, shop: Shop) -> None:
        self.footing, self.facts, self.shop = footing, facts, shop
        self.rooms = footing.rooms
        self.inside = [shop.inside(room, footing.hands) for room in footing.rooms]
        self._true = [shop.vetoes.true(_seen(room), ROOMS_OWN) for room in footing.rooms]
        # a rule forbids to turn it dry: such a thread galls
        dry = shop.vetoes.true({"residue": "none"}, ("residue",))
        self.wants_oil: bool = any(
            rule.state & dry for rules in footing.rules.values() for rule in rules
        )
        self._soonest: dict[tuple[str, int], tuple[float, dict[Method, float]]] = {}
        # how methods stand hangs on no room: one for all that have this in common
        self._standing = shop.standing(
            footing.rules, footing.hands.outer, footing.over_head, footing.bites, facts.drive
        )
        self._open: dict[tuple[str, str, int], tuple[Way, ...]] = {}
        self._of_tools = {key: method_of(key) for key in footing.rules if is_tool(key)}
        self._ruled_apart = frozenset(self._of_tools.values())  # some tools have rules of their own

    def open(self, damage: str, residue: str, room: int) -> tuple[Way, ...]:
        """Return what is open in a damage state, with a residue, in one room."""
        key = damage, residue, room
        found = self._open.get(key)
        if found is None:
            ways = [
                self._tools(method, damage, residue, room)[0]
                for method, rules, useless in self._stand(damage, residue)
                if useless is None and not (rules and self._bars(rules, room))
            ]
            found = self._open[key] = tuple([way for way in ways if way is not None])
        return found

    def dried(self, damage: str) -> bool:
        """Say whether drying off what burns opens anything, room and tools left aside."""
        dry, wet = (self._whatever_room(damage, residue) for residue in ("none", "flammable"))
        return bool(dry - wet)

    def _whatever_room(self, damage: str, residue: str) -> set[str]:
        """Return the methods that some room leaves open, and their tools that rules speak of."""
        found = {
            method.id
            for method, rules, useless in self._stand(damage, residue)
            if useless is None and all(rule.room for rule in rules)
        }
        return found.union(
            key
            for key, method in self._of_tools.items()
            if method in found and all(rule.room for rule in self._ruled(key, damage, residue))
        )

    def tools(self, method: Method, damage: str, residue: str, room: int) -> Way | None:
        """Return what is open of one method alone, which is of use there."""
        rules = self._ruled(method.id, damage, residue)
        if rules and self._bars(rules, room):
            return None
        return self._tools(method, damage, residue, room)[0]

    def shut(self, damage: str, residue: str, room: int) -> tuple[RuledOut, ...]:
        """Return what is not open there, why, and what would bring it back."""
        out: list[RuledOut] = []
        for method, rules, useless in self._stand(damage, residue):
            bars = self._bars(rules, room)
            if bars:
                bar = bars[0].bar
                out.append(RuledOut(method.id, bar.because, None, bar.opens_it))
            elif useless is not None:
                out.append(RuledOut(method.id, Reason("cannot_free", (useless,)), None, None))
            else:
                refused = self._tools(method, damage, residue, room)[1]
                if refused is not None:
                    out.append(refused)
        return tuple(out)

    def _tools(
        self, method: Method, damage: str, residue: str, room: int
    ) -> tuple[Way | None, RuledOut | None]:
        """Return the tools that fit in a room and on what is left, or why there is none."""
        way, refused = self.inside[room].tools(method)
        if way and method.id in self._ruled_apart:
            way, refused = self._allowed(way, damage, residue, room)
        return self.shop.held(way, damage, self.footing.stub) if way else (way, refused)

    def _allowed(
        self, way: Way, damage: str, residue: str, room: int
    ) -> tuple[Way | None, RuledOut | None]:
        """Return a way with the tools that no rule of their own forbids there, or why none."""
        bars: dict[str, list[Open]] = {}
        for variant, _ in way.tools or ():
            rules = self._ruled(tool_key(way.method.id, variant.id), damage, residue)
            bars[variant.id] = self._bars(rules, room)
        kept = tuple([name for name, them in bars.items() if not them])
        if kept or not bars:
            return self.shop.only(way, kept), None
        bar = next(iter(bars.values()))[0].bar
        return None, RuledOut(way.method.id, bar.because, None, bar.opens_it)

    def soonest(self, damage: str, room: int) -> tuple[float, dict[Method, float]]:
        """Return the minutes of the quickest turn in a dry room, and of every other way."""
        key = damage, room
        found = self._soonest.get(key)
        if found is None:
            turn, parts = inf, {}
            for method, tools, *_ in self.open(damage, "none", room):
                least = method.minutes + min([row.minutes for row, _ in tools or ()], default=0.0)
                if method.kind == "turn":
                    turn = min(turn, least)
                elif method.kind == "part":
                    parts[method] = least
            found = self._soonest[key] = turn, parts
        return found

    def _stand(self, damage: str, residue: str) -> list[Standing]:
        """Return how every method stands there, whatever the room."""
        key = damage, residue
        found = self._standing.get(key)
        if found is None:
            gone = drive_state(damage, self.facts).share == 0
            spins = damage in TURNING
            found = self._standing[key] = []
            for method in self.shop.methods:
                rules = self._ruled(method.id, damage, residue)
                found.append((method, rules, self._useless(method, gone, spins)))
        return found

    def _ruled(self, method: str, damage: str, residue: str) -> tuple[Open, ...]:
        """Return the rules on a method that hold there, but for what they ask of the room."""
        rules = self.footing.rules.get(method, ())
        if not rules:
            return ()
        true = self.shop.vetoes.true({"damage": damage, "residue": residue}, STATES_OWN)
        return tuple([rule for rule in rules if not rule.state & ~true])

    def _bars(self, rules: tuple[Open, ...], number: int) -> list[Open]:
        """Return the rules that hold in a room."""
        true = self._true[number]
        return [rule for rule in rules if not rule.room & ~true]

    def _useless(self, method: Method, gone: bool, spins: bool) -> str | None:
        outer = self.footing.hands.outer
        if method.kind == "turn" and spins and method.grip != "far-side":
            return "it turns already: torque alone frees nothing"
        if method.grip in DRIVE_GRIPS and gone:
            return "there is no drive left to turn it by"
        if method.grip == "bite" and outer:
            return "there is no recess to turn it by"
        if method.grip == "flats" and not outer and method.id not in self.footing.over_head:
            return "there are no flats on the outside"
        if method.id == OVERSIZE and not self.footing.bites:
            return "no bit of another size or system bites in it"
        return None

    def worthwhile_rooms(self) -> tuple[int, ...]:
        """Return the rooms that open something which no cheaper one opens, cheapest first."""
        key, known = (self.rooms, self.footing.hands), self.shop.worthwhile
        if key not in known:
            known[key] = tuple(self._rooms_that_open())
        return known[key]

    def _rooms_that_open(self) -> Iterator[int]:
        variants = [row for rows in self.shop.variants.values() for row in rows]
        shut = [row for row in variants if self.inside[0].shuts(row)]
        jack = self.rooms[0].support in ON_JACK
        for number in sorted(range(1, len(self.rooms)), key=lambda n: self.rooms[n].minutes):
            stands = jack and self.rooms[number].support not in ON_JACK
            still = [row for row in shut if self.inside[number].shuts(row)]
            if stands or len(still) < len(shut):
                yield number
                shut, jack = still, jack and not stands


def _seen(room: Room) -> dict[str, object]:
    """Return a room as the rules on it read it."""
    return {"support": room.support, "near": frozenset([item.thing for item in room.near])}


def settled(
    situation: Situation, size_mm: float, system: str | None, shop: Shop
) -> dict[str, tuple[Open, ...]]:
    """Return the rules that may hold in a situation once the gates that are due are done."""
    seen = view(
        situation,
        size_mm,
        system,
        load=_load_left(situation, shop),
        recess="clean",
    )
    return shop.vetoes.settle(seen)


def _load_left(situation: Situation, shop: Shop) -> str:
    """Return the load that is left once what can be taken off it is."""
    if situation.load not in LOADED:
        return "unknown"
    gate = ISOLATE if situation.load == "pressure" else UNLOAD
    serve = SERVE.get(held_back(situation), ())
    done = gate in situation.tried or possible(gate, situation.lack, shop.variants, serve)
    if done:
        return VENTED if situation.load == "pressure" else "none"
    return situation.load
