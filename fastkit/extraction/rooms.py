"""What fits in a room, present or made: tools against access, methods against neighbours."""

from collections.abc import Mapping
from typing import NamedTuple

from fastkit.extraction.acts import breaking, slips_at
from fastkit.extraction.chain import LOBES, Giving, Link
from fastkit.extraction.facts import Facts
from fastkit.extraction.gates import standing
from fastkit.extraction.result import Reason, RuledOut
from fastkit.extraction.rules import Bar, Neighbourhood, Open, Vetoes, barred_rooms
from fastkit.extraction.situation import Near, Situation
from fastkit.extraction.stubs import SIDES, Stub, StubGrips
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
LOWERED = "drop-assembly"
CLEARED, MOVED = "clear-beside", "make-room"
NO_TOOL = Fit(fit(Envelope(0, 0, 0, None, None), Access()).margins, ())


class Room(NamedTuple):
    """The access after one room-making move (or none), and how far off the neighbours then are."""

    move: str | None
    minutes: float
    access: Access
    near: tuple[Near, ...]
    support: str
    before: tuple[Near, ...]  # as they stood, where the room may have been made by moving another


class Way(NamedTuple):
    """A method that is open, and the tools that fit; none where it needs none."""

    method: Method
    tools: tuple[tuple[Variant, Fit], ...] | None
    conditions: tuple[str, ...]
    asked: Mapping[str, tuple[str, ...]]  # the conditions with one tool, by its id


# a method in a damage state and with a residue: the rules on it that hold, but for what they ask
# of the room, and what makes it useless
Standing = tuple[Method, tuple[Open, ...], str | None]
Standings = dict[tuple[str, str], list[Standing]]  # by damage and residue


class Hold(NamedTuple):
    """Where an attempt slips or tires, N·mm, and the links that it breaks or wears."""

    limit: float
    links: tuple[Link, ...]
    giving: Giving


class Hands(NamedTuple):
    """What there is to work with, and what decides how a tool sits on the fastener."""

    power: str | None
    lack: tuple[str, ...]
    outer: bool
    system: str | None  # of its drive, where that is known
    head: float | None  # only where a pocket is measured against it
    symmetry: float

    def serves(self, variant: Variant) -> bool:
        """Say whether a tool is one for this kind of drive."""
        return {
            None: True,
            "recess": not self.outer,
            "flats": self.outer,
            "hexagon": self.outer and self.system in (None, "hexagon"),
            "lobes": self.system == LOBES,
            "captive": True,  # told from a fitting by the kind, for which the rows were fetched
            "fitting": True,
            "struck": True,  # as of those that a blow spares
        }[variant.fits]


class Shop:
    """The tables of methods and rules, read once for every plan that asks them."""

    def __init__(self, facts: Facts) -> None:
        self.vetoes = Vetoes(facts)
        self.neighbourhood = Neighbourhood(facts)
        self.methods = [row for row in facts.methods if row.kind not in ("gate", "room")]
        parts = [row for row in facts.methods if row.kind == "part"]
        self.no_slower = {  # of each way that turns nothing: it, and those as quick
            row.id: frozenset([other.id for other in parts if other.minutes <= row.minutes])
            for row in parts
        }
        self.variants: dict[str, list[Variant]] = {}
        for variant in facts.variants:
            self.variants.setdefault(variant.method, []).append(variant)
        self.chains: dict[tuple[Link, ...], tuple[Link, ...]] = {}  # one object for chains alike
        self.stub_grips = StubGrips(facts.stub_grips)
        self._held: dict[tuple[int, str, Stub], tuple[Way | None, RuledOut | None]] = {}
        self._ways: dict[tuple[int, tuple[str, ...]], Way] = {}  # one object for tools alike
        self._giving: dict[tuple[Link, ...], Giving] = {}
        self._holds: dict[int, Hold] = {}
        self._inside: dict[tuple[Access, tuple[Near, ...], tuple[Near, ...], Hands], Inside] = {}
        self._envelopes: dict[Hands, dict[tuple[str, str], Envelope]] = {}
        self.worthwhile: dict[tuple[tuple[Room, ...], Hands], tuple[int, ...]] = {}
        self._standings: dict[object, tuple[object, Standings]] = {}  # the rules keep their id

    def hold(self, chain: tuple[Link, ...]) -> Hold:
        """Return what an attempt loads; of `chains`, one object for all that break alike."""
        found = self._holds.get(id(chain))
        if found is None:
            links = breaking(chain)
            if links not in self._giving:
                self._giving[links] = Giving(links)
            found = self._holds[id(chain)] = Hold(slips_at(chain), links, self._giving[links])
        return found

    def held(self, way: Way, damage: str, stub: Stub) -> tuple[Way | None, RuledOut | None]:
        """Return a way with the tools that get a hold of what is left, or why none does."""
        if way.tools is None or damage not in SIDES:
            return way, None
        key = id(way), damage, stub
        if key not in self._held:
            self._held[key] = self._holds_stub(way, damage, stub)
        return self._held[key]

    def _holds_stub(self, way: Way, damage: str, stub: Stub) -> tuple[Way | None, RuledOut | None]:
        assert way.tools is not None
        kept, misses = [], []
        for variant, _ in way.tools:
            out = self.stub_grips.short(way.method.id, variant.id, damage, stub)
            if out is None:
                kept.append(variant.id)
            else:
                misses.append(out)
        if not kept:
            return None, min(misses, key=lambda out: out.short_by.amount if out.short_by else 0.0)
        return self.only(way, tuple(kept)), None

    def only(self, way: Way, kept: tuple[str, ...]) -> Way:
        """Return a way with these tools alone, by their ids; one object for all that ask it."""
        if way.tools is None or len(kept) == len(way.tools):
            return way
        tools = tuple([tool for tool in way.tools if tool[0].id in kept])
        return self._ways.setdefault((id(way), kept), way._replace(tools=tools))

    def standing(self, rules: Mapping[str, tuple[Open, ...]], *besides: object) -> Standings:
        """Return what is known of how methods stand under these rules, to be added to."""
        return self._standings.setdefault((id(rules), besides), (rules, {}))[1]

    def inside(self, room: Room, hands: Hands) -> "Inside":
        """Return what fits in a room; one for all plans that ask for the same."""
        key = room.access, room.near, room.before, hands
        if key not in self._inside:
            envelopes = self._envelopes.setdefault(hands, {})
            self._inside[key] = Inside(self, room, hands, envelopes)
        return self._inside[key]


class Inside:
    """What fits in one room."""

    def __init__(
        self, shop: Shop, room: Room, hands: Hands, envelopes: dict[tuple[str, str], Envelope]
    ) -> None:
        self.shop, self.room, self.hands = shop, room, hands
        self._tools: dict[str, tuple[Way | None, RuledOut | None]] = {}
        self._besides: dict[str, tuple[Bar | None, tuple[str, ...]]] = {}
        self._fits: dict[Envelope, Fit] = {}
        self._envelopes = envelopes

    def beside(self, method: str) -> tuple[Bar | None, tuple[str, ...]]:
        """Return what a neighbour forbids of a method, or what it asks for."""
        if method not in self._besides:
            self._besides[method] = self.shop.neighbourhood.check(
                method, self.room.near, self.room.before
            )
        return self._besides[method]

    def shuts(self, variant: Variant) -> bool:
        """Say whether access or neighbours shut a tool out; a wider room shuts no more."""
        if self.beside(variant.method)[0] is not None or self.fit(variant).short:
            return True
        beside = self.shop.neighbourhood
        near = self.room.near
        return beside.check_tool(variant.method, variant.id, near, near)[0] is not None

    def fit(self, variant: Variant) -> Fit:
        """Return how a tool fits."""
        envelope = self.envelope(variant)
        known = self._fits.get(envelope)
        if known is None:
            known = self._fits[envelope] = fit(envelope, self.room.access)
        return known

    def envelope(self, variant: Variant) -> Envelope:
        """Return the room a tool takes on this fastener."""
        key = variant.method, variant.id
        known = self._envelopes.get(key)
        if known is None:
            known = self._envelopes[key] = _envelope(variant, self.hands)
        return known

    def tools(self, method: Method) -> tuple[Way | None, RuledOut | None]:
        """Return the tools of a method that fit and are at hand, or why there is none."""
        found = self._tools.get(method.id)
        if found is None:
            found = self._tools[method.id] = self._look(method)
        return found

    def _look(self, method: Method) -> tuple[Way | None, RuledOut | None]:
        bar, conditions = self.beside(method.id)
        if bar is not None:
            return None, RuledOut(method.id, bar.because, None, bar.opens_it)
        hands = self.hands
        variants = [row for row in self.shop.variants.get(method.id, ()) if hands.serves(row)]
        if not variants:
            return Way(method, None, conditions, {}), None
        found: list[tuple[Variant, Fit]] = []
        by_tool: dict[str, tuple[str, ...]] = {}
        missing: Reason | None = None
        misses: list[tuple[Fit, Variant]] = []
        for variant in variants:
            own_bar, asked = self.shop.neighbourhood.check_tool(
                method.id, variant.id, self.room.near, self.room.before
            )
            if own_bar is not None:
                bar = own_bar
            elif variant.tool in hands.lack:
                missing = missing or Reason("no_tool", (variant.tool,))
            elif variant.power and variant.power not in POWERS[hands.power]:
                missing = missing or Reason("no_power", (variant.power,))
            else:
                got = self.fit(variant)
                if got.short:
                    misses.append((got, variant))
                else:
                    found.append((variant, got))
                    every = dict.fromkeys((*conditions, *asked))
                    if variant.power is None:  # a hand has no brushes
                        motors = self.shop.neighbourhood.of_motors
                        every = {text: None for text in every if text not in motors}
                    by_tool[variant.id] = tuple(every)
        if found:
            return Way(method, tuple(found), conditions, by_tool), None
        if bar is not None:
            return None, RuledOut(method.id, bar.because, None, bar.opens_it)
        if not misses:
            assert missing is not None
            return None, RuledOut(method.id, missing, None, Reason("tool", missing.values))
        got, variant = min(misses, key=lambda miss: miss[0].tightness)
        return None, _short(method, got, self.envelope(variant), self.room.access)


def rooms_of(situation: Situation, facts: Facts, shop: Shop) -> tuple[Room, ...]:
    """Return the present room, then each room-making move that the user can make."""
    access = Access(
        situation.above_mm,
        situation.beside_mm,
        situation.swing_deg,
        situation.side_mm if situation.pocket_mm is None or situation.side_mm else (0.0, 0.0),
        situation.pocket_mm,
    )
    support = standing(situation, shop.variants)
    rooms = [Room(None, 0.0, access, situation.near, support, situation.near)]
    can = None if situation.can is None else dict(situation.can)
    minutes = {row.id: row.minutes for row in facts.methods}
    barred = barred_rooms(situation._replace(support=support), facts, shop.vetoes)
    own = (facts.part.near or "").split() if facts.part else []
    for gain in facts.room_gains:
        asked = MOVED if gain.method == CLEARED else gain.method
        if gain.method in barred or (can is not None and asked not in can):
            continue
        if gain.method == CLEARED:
            near, takes = shop.neighbourhood.cleared(situation)
            if takes:
                rooms.append(Room(CLEARED, takes, access, near, support, near))
            continue
        named = can.get(gain.method) if can else None
        gained = Gain(gain.above_mm, gain.beside_mm, gain.swing_deg, gain.side_mm)
        near = shop.neighbourhood.moved(
            situation.near,
            gain.distance_mm,
            situation.rigid,
            own if gain.method == LOWERED else None,
        )
        rooms.append(
            Room(
                gain.method,
                minutes[gain.method] if named is None else named,
                widened(access, gained),
                near,
                "bench" if gain.method == "bench" else support,
                situation.near if gain.method == MOVED else near,
            )
        )
    return tuple(rooms)


def _envelope(variant: Variant, hands: Hands) -> Envelope:
    swing = variant.swing_deg
    side = None
    if variant.side_width_mm is not None and variant.side_depth_mm is not None:
        side = (variant.side_width_mm, variant.side_depth_mm)
    pocket, head = variant.pocket_diameter_mm, hands.head
    return Envelope(
        variant.above_mm,
        variant.beside_mm,
        hands.symmetry if swing is None else swing,
        side,
        None if pocket is None or head is None else head + pocket,
    )


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
