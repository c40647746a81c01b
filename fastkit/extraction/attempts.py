"""Every turning attempt of a plan, built once, with what it leads to and what that costs."""

from collections.abc import Iterable
from math import inf
from typing import NamedTuple

from fastkit.extraction.acts import Load, Turn
from fastkit.extraction.learned import told, weighed
from fastkit.extraction.options import Candidate, Options
from fastkit.extraction.resistance import Resistance
from fastkit.extraction.rooms import Hold
from fastkit.extraction.situation import HEADLESS, TURNING
from fastkit.records.method import Method
from fastkit.records.own import OwnTries

# Workshop judgement, common practice with no published source.
NEW_INSERT = 10.0  # minutes: the old coil picked out, a new one wound into its thread
TORN_SHARE = 0.4  # of --spoil: the fastener is out, its thread came with it
SNAP_SHARE = 0.2  # of --spoil: what a snapped shank costs beyond the time to get it out
# of --spoil: a stub is left as fast as ever, and blows or heat through its head are past
HASTE_SHARE = 0.05
SPOILT_FROM = 0.1  # of --spoil: a way whose success costs so much leaves nothing to turn in vain
DRILLS_OUT = "drill-out-retap"  # the thread of the hole goes with what is in it
HANDED_ON = "machine-shop"  # what it cannot free, nobody here can: its failure ends the plan
NOTHING: frozenset[str] = frozenset()  # tried in vain
LEAST_CHANCE = 0.02  # a turn less likely than this is not worth its place in the policy
TORN_DEEPER = "torn-deeper"  # parted once more, below the face
# A head or a hard extractor that a turn breaks more than so many times as often as it frees is left
# alone. Up to even odds one pulls; between one and two it is said, and is done where the rest then
# turns by hand; at two to one oil, heat or a drill through the head on purpose is the better bet.
WRUNG = 2.0
SNAPS = {  # where a shank parts, by what stood there before
    "snapped-proud": (("snapped-flush", 0.5), ("snapped-below", 0.5)),
    "snapped-flush": (("snapped-below", 1.0),),
    "snapped-below": ((TORN_DEEPER, 1.0),),  # nothing is left to turn
}
SNAPS_WHOLE = (("snapped-proud", 0.45), ("snapped-flush", 0.35), ("snapped-below", 0.2))
NAMES = {
    "nothing": "nothing",
    "drive": "worse-drive",
    "shank": "snapped",
    "thread": "torn",
    "insert": "insert-out",
    "extractor": "broken-extractor",
}


# an outcome of a turn whatever has been done before: name (free, torn, insert-out, nothing,
# worse-drive, snapped, broken-extractor), share, minutes, damage (None: it is out), bound, an
# extractor snapped
Ending = tuple[str, float, float, str | None, int, bool]


Played = tuple[float, tuple[Ending, ...], tuple[Ending, ...]]
Harms = list[tuple[str, float]]  # what gives and leaves the fastener in, and its share
# a turn in short: what it costs at least, share that slips and the bound then, share that
# miscarries and the bound then, harms
Rated = tuple[float, float, int, float, int, Harms, Candidate, Turn]


class Pull:
    """What one kind of attempt loads, the turns that it makes, and what is left of the bond."""

    def __init__(self, hold: Hold, effect: float, own: OwnTries | None) -> None:
        self.limit, self.links, self.giving = hold
        self.effect, self.own = effect, own
        self.held = self.giving.at(self.limit) if self.limit < inf else (0.0,) * len(self.links)
        self.turns: dict[tuple[bool, float], Turn] = {}


class Play(NamedTuple):
    """An attempt from one bound, its outcomes, and what it costs at least."""

    candidate: Candidate
    base: float  # its minutes and those its outcomes add
    endings: tuple[Ending, ...]
    open_: tuple[Ending, ...]  # those after which the fastener is still in


class Parting(NamedTuple):
    """A way that frees the fastener by parting, or with odds that only judgement gives."""

    chance: float
    spoils: float  # minutes that its success costs besides
    damage: str | None  # what its success leaves; None: the fastener is out
    ends: bool  # its failure ends the plan
    spoilt: bool  # its failure leaves nothing to turn: only ways that take longer
    past: frozenset[str]  # ways not to be tried once it has failed


def wrings(breaks: float, frees: float) -> bool:
    """Say whether shares of breaking and of freeing are those at which nobody turns."""
    return breaks > WRUNG * frees


def breaks(harms: Iterable[tuple[str, float]], damage: str) -> float:
    """Return the share of a turn that breaks an extractor, or the shank under its head."""
    bad = ("extractor",) if damage in HEADLESS else ("extractor", "shank")
    return sum([share for gives, share in harms if gives in bad])


class Attempts:
    """
    The turns that options leave open, by what they depend on and no more.

    What attempts do is one where limit, links and bond are alike, whatever the damage or the room.
    What was built for another plan (`like`) is taken from it where the resistance is the same.
    """

    def __init__(
        self,
        options: Options,
        resistance: Resistance,
        spoil: float,
        rooms: tuple[int, ...],
        longest: float,
        like: "Attempts | None" = None,
    ) -> None:
        self.options, self.resistance, self.spoil, self.rooms = options, resistance, spoil, rooms
        self.longest = longest  # minutes that no way on need exceed: stopping
        self.gone = "rounded" if options.outer else "stripped"
        self.order = {"snapped-proud": "snapped-flush", "snapped-flush": "snapped-below"}
        if options.situation.kind != "stud":  # which has no drive to be worn
            self.order |= {"intact": "worn", "worn": self.gone}
        # it is out, and what came with it costs so many minutes
        self.comes_along = {"thread": TORN_SHARE * spoil, "insert": NEW_INSERT}
        turns = {row.id for row in options.facts.methods if row.kind == "turn"}
        self.own_effect = {  # blows and heat of an attempt help it while it lasts
            name: row.factor for name, row in options.warmth.effects.items() if name in turns
        }
        self._quickest: dict[tuple[str, frozenset[str], bool], float] = {}
        self._needed: dict[tuple[bool, float], tuple[float, ...]] = {}
        self._loads: dict[tuple[int, bool, float], Load] = {}
        self._pulls: dict[tuple[float, int, float, OwnTries | None], Pull] = {}
        self._edges: dict[tuple[bool, float], list[float]] = {}
        self._parts: dict[tuple[str, str], Parting] = {}
        self._played: dict[tuple[int, str, int, float], Played] = {}
        self._pulling: dict[tuple[int, str], list[tuple[Candidate, Pull, float]]] = {}
        self._able: dict[tuple[int, str, float, int], list[Rated]] = {}
        facts = options.facts
        self.hurries = (  # what the least minutes depend on besides
            *(spoil, rooms, options.size.d, options.situation.insert, facts.own),
            options.situation.seized,
        )
        if like and like.options.openings is options.openings and like.hurries == self.hurries:
            self._quickest, self._parts = like._quickest, like._parts
        if like and like.resistance.key == resistance.key:
            self._needed, self._loads, self._pulls = like._needed, like._loads, like._pulls
            self._edges = like._edges
            if (like.spoil, like.options.bears) == (spoil, options.bears):
                self._played, self._pulling, self._able = like._played, like._pulling, like._able

    def own(self, method: str, damage: str) -> OwnTries | None:
        """Return what the user noted of a method at this damage and this kind of seizure."""
        tries = self.options.facts.own
        return told(tries, method, damage, self.options.situation.seized) if tries else None

    def needed(self, damage: str, factor: float) -> tuple[float, ...]:
        """Return R at each severity, N·mm, with what is left of the bond."""
        key = damage in HEADLESS, factor
        if key not in self._needed:
            self._needed[key] = self.resistance.at(damage, factor)
        return self._needed[key]

    def turns(
        self, damage: str, residue: str, room: int, factor: float
    ) -> list[tuple[Candidate, Turn]]:
        """Return every turn possible with a damage, a residue, a room and what the bond is."""
        return [
            (item, self.turning(item, damage, factor))
            for item in self.options.open(damage, residue, room)
            if item.method.kind == "turn"
        ]

    def turning(self, candidate: Candidate, damage: str, factor: float) -> Turn:
        """Return what an attempt does with what the bond is."""
        return self._turn(self._pull(candidate, damage), damage, factor)

    def _pull(self, candidate: Candidate, damage: str) -> Pull:
        method = candidate.method.id
        effect, own = self.own_effect.get(method, 1.0), self.own(method, damage)
        hold = self.options.shop.hold(candidate.chain)
        key = hold.limit, id(hold.giving), effect, own
        found = self._pulls.get(key)
        if found is None:
            found = self._pulls[key] = Pull(hold, effect, own)
        return found

    def _turn(self, pull: Pull, damage: str, factor: float) -> Turn:
        headless = damage in HEADLESS
        turn = pull.turns.get((headless, factor))
        if turn is None:
            left = factor * pull.effect
            key = id(pull.giving), headless, left
            load = self._loads.get(key)
            if load is None:
                load = Load(pull.links, self.needed(damage, left), pull.giving)
                self._loads[key] = load
            reach = 1.0
            if pull.limit < inf:
                reach = self.resistance.quantile(damage, left, pull.limit)
            turn = Turn(pull.limit, load, pull.held, self.resistance.slices, reach, pull.own)
            pull.turns[headless, factor] = turn
        return turn

    def left(self, method: str, factor: float) -> float:
        """Return what is left of the bond while a method works at it."""
        return factor * self.own_effect.get(method, 1.0)

    def able(
        self, found: tuple[Candidate, ...], damage: str, factor: float, bound: int
    ) -> list[Rated]:
        """Return the turns among those that are open that may do it, in short."""
        key = id(found), damage, factor, bound
        rated = self._able.get(key)
        if rated is None:
            rated = self._able[key] = self._rated(found, damage, factor, bound)
        return rated

    def _rated(
        self, found: tuple[Candidate, ...], damage: str, factor: float, bound: int
    ) -> list[Rated]:
        rated: list[Rated] = []
        edges: dict[float, float] = {}
        for item, pull, spoils in self._pulls_of(found, damage):
            edge = edges.get(pull.effect)
            if edge is None:
                edge = edges[pull.effect] = self._least(damage, factor * pull.effect)[bound]
            if pull.limit <= edge:
                continue  # it slips where it slipped before: nothing to build
            turn = self._turn(pull, damage, factor)
            if turn.chances[bound] < LEAST_CHANCE or (turn.first_slip <= bound < turn.count):
                continue
            slips, then, again, once, harms = turn.short(bound)
            if harms and wrings(breaks(harms, damage), turn.chances[bound]):
                continue
            fixed, stays = item.minutes + spoils, []
            for row in harms:
                if row[0] in self.comes_along:
                    fixed += row[1] * self.comes_along[row[0]]
                else:
                    stays.append(row)
            rated.append((fixed, slips, then, again, once, stays, item, turn))
        return rated

    def harm(self, damage: str, gives: str) -> tuple[float, tuple[tuple[str, float], ...]]:
        """Return what it costs besides when a link gives, and what damage that leaves; shares."""
        price = SNAP_SHARE * self.spoil if gives == "shank" else 0.0
        return price, self._becomes(damage, gives)

    def _pulls_of(
        self, found: tuple[Candidate, ...], damage: str
    ) -> list[tuple[Candidate, Pull, float]]:
        """Return the turns that are open, quickest first; of those alike the cheap ones."""
        key = id(found), damage
        pulling = self._pulling.get(key)
        if pulling is None:
            pulling = self._pulling[key] = []
            best: dict[int, float] = {}  # of each pull: the least that success costs besides
            turns = [item for item in found if item.method.kind == "turn"]
            for item in sorted(turns, key=lambda item: item.minutes):
                pull, spoils = self._pull(item, damage), self._spoils(item, damage)
                if spoils < best.get(id(pull), inf):
                    best[id(pull)] = spoils
                    pulling.append((item, pull, spoils))
        return pulling

    def _spoils(self, candidate: Candidate, damage: str) -> float:
        """Return the minutes that a success costs besides: what snapped is spoilt already."""
        return 0.0 if damage in HEADLESS else candidate.method.spoils * self.spoil

    def _least(self, damage: str, factor: float) -> list[float]:
        """Return of each bound what a tool must give, at the least, to be of any use."""
        key = damage in HEADLESS, factor
        found = self._edges.get(key)
        if found is None:
            last = self.needed(damage, factor)[-1]
            # a hair lower, as both are sums of floats
            edges = [0.999 * edge for edge in (*self.resistance.edges(damage, factor), last)]
            found = self._edges[key] = [0.0, *edges]
        return found

    def play(self, damage: str, bound: int, candidate: Candidate, turn: Turn) -> Play:
        """Return an attempt at a damage and a bound with its outcomes."""
        price, endings, open_ = self.played(damage, bound, candidate, turn)
        return Play(candidate, candidate.minutes + price, endings, open_)

    def played(self, damage: str, bound: int, candidate: Candidate, turn: Turn) -> Played:
        """Return the same in short: the price of the outcomes, all, and those that leave it in."""
        spoils = self._spoils(candidate, damage)
        key = id(turn), damage, bound, spoils
        found = self._played.get(key)
        if found is None:
            found = self._played[key] = self._play(damage, bound, turn, spoils)
        return found

    def _play(self, damage: str, bound: int, turn: Turn, spoils: float) -> Played:
        success, failures = turn.outcomes(bound)
        endings: list[Ending] = [("free", success, spoils, None, bound, False)]
        open_: list[Ending] = []
        cost = success * spoils
        for gives, then, share in failures:
            name = NAMES[gives]
            if gives in self.comes_along:
                torn = spoils + self.comes_along[gives]
                endings.append((name, share, torn, None, then, False))
                cost += share * torn
                continue
            price = spoils + (SNAP_SHARE * self.spoil if gives == "shank" else 0.0)
            cost += share * price
            for after, part in self._becomes(damage, gives):
                open_.append((name, share * part, price, after, then, gives == "extractor"))
        return cost, (*endings, *open_), tuple(open_)

    def quickest(
        self, damage: str, parted: frozenset[str] = NOTHING, spoilt: bool = False
    ) -> float:
        """
        Return the least minutes that could free it in whichever room opens most.

        Every turn taken as sure; of the other ways those that are not among `parted`.
        """
        key = damage, parted, spoilt
        known = self._quickest.get(key)
        if known is None:
            known = self._quickest[key] = self._soonest(damage, parted, spoilt)
        return known

    def _soonest(self, damage: str, parted: frozenset[str], spoilt: bool) -> float:
        least = self.longest
        for room in (0, *self.rooms):
            turn, parts = self.options.openings.soonest(damage, room)
            if not spoilt:
                least = min(least, turn)
            for method, minutes in parts.items():
                minutes += self.options.longer(method)
                if minutes < least and method.id not in parted:
                    least = min(least, self._least_part(damage, method, minutes, parted))
        return least

    def _least_part(
        self, damage: str, method: Method, minutes: float, parted: frozenset[str]
    ) -> float:
        way = self.part(method, damage)
        floor = minutes + way.chance * way.spoils
        if way.damage:
            floor += way.chance * self.quickest(way.damage)
        past = parted | way.past
        after = self.longest if way.ends else self.quickest(damage, past, way.spoilt)
        return floor + (1 - way.chance) * after

    def haste(self, damage: str) -> float:
        """Return the minutes that it costs to take off a head under which nothing was loosened."""
        bonded = self.resistance.seizure.id != "none" and damage not in (*HEADLESS, *TURNING)
        return HASTE_SHARE * self.spoil if bonded else 0.0

    def part(self, method: Method, damage: str) -> Parting:
        """Return the odds of a way that only judgement gives, and what it leaves."""
        found = self._parts.get((method.id, damage))
        if found is None:
            found = self._parts[method.id, damage] = self._part(method, damage)
        return found

    def _part(self, method: Method, damage: str) -> Parting:
        chance = method.chance if method.chance is not None else 0.5
        # what is left once a broken extractor is out has a hole and no drive
        hole = damage == "extractor-broken" and method.leads_to
        spoilt = method.spoils >= SPOILT_FROM
        return Parting(
            weighed(chance, self.own(method.id, damage)),
            self._lost(method),
            "snapped-flush" if hole else method.leads_to,
            method.id == HANDED_ON,
            spoilt,
            self.options.shop.no_slower[method.id] if spoilt else frozenset((method.id,)),
        )

    def _lost(self, method: Method) -> float:
        """Return the minutes that parting costs: of a thread with an insert, that alone."""
        lost = method.spoils * self.spoil
        insert = self.options.situation.insert and method.id == DRILLS_OUT
        return min(lost, NEW_INSERT) if insert else lost

    def _becomes(self, damage: str, gives: str) -> tuple[tuple[str, float], ...]:
        """Return the damage states that follow when a link gives, and their shares."""
        if gives == "nothing":
            return ((damage, 1.0),)
        if gives == "extractor":
            return (("extractor-broken", 1.0),)
        if gives == "shank":
            return SNAPS.get(damage, SNAPS_WHOLE)
        return (("worn" if damage == "intact" else self.gone, 1.0),)
