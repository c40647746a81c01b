"""The policy over states that minimises the expected minutes to a free fastener."""

from collections.abc import Iterator
from math import log
from typing import NamedTuple

from fastkit.extraction.acts import Turn
from fastkit.extraction.attempts import TORN_DEEPER, Attempts, Play
from fastkit.extraction.options import Candidate, Options
from fastkit.extraction.resistance import Resistance
from fastkit.extraction.search import STOP, Cell, Place, Search, Way, wetted
from fastkit.extraction.treatments import WEAKEST, Treatments, once_more

STOP_MINUTES = 60.0  # handing the part on, besides --spoil; workshop judgement
MOST_TREATMENTS = 2


class State(NamedTuple):
    """One point of a plan: a place, and the first severity still possible."""

    damage: str
    treated: tuple[int, ...]
    residue: str
    room: int
    bound: int
    parted: frozenset[str]
    lost_extractor: bool
    spoilt: bool = False

    def once_treated(self, number: int, residue: str | None) -> "State":
        """Return the state after one more treatment, by its place among the treatments."""
        treated = once_more(self.treated, number)
        return self._replace(treated=treated, residue=wetted(self.residue, residue))


class Branch(NamedTuple):
    """One outcome of a move: its share, the minutes it adds, and the state it leads to."""

    name: str  # free, torn, nothing, worse-drive, snapped, broken-extractor, done, failed
    share: float
    minutes: float
    state: State | None  # None: the fastener is out, or handed on


class Choice(NamedTuple):
    """A move in a state, and what it is worth with the best going on."""

    move: str
    candidate: Candidate | None  # None: a gate, a room-making move, or stopping
    minutes: float  # of this attempt
    expected: float
    chance: float  # that the fastener gets free at all
    branches: tuple[Branch, ...]


class Policy:
    """
    Best choices from every state reachable from one situation.

    `rooms` is how many room-making moves to look at, the cheapest first; all where left out. `like`
    is the policy of a situation that differs little, `narrower` that it differs only in having more
    room.
    """

    def __init__(
        self,
        options: Options,
        resistance: Resistance,
        spoil: float,
        most_treatments: int = MOST_TREATMENTS,
        rooms: int | None = None,
        like: "Policy | None" = None,
        narrower: bool = False,
    ) -> None:
        self.options, self.resistance, self.spoil = options, resistance, spoil
        self.stop_minutes = spoil + STOP_MINUTES
        self.rooms = options.worthwhile_rooms()[:rooms]
        self.treatments = Treatments(
            options.warmth.effects, options.facts, options.openings.wants_oil
        )
        known = like.attempts if like else None
        self.attempts: Attempts = Attempts(
            options, resistance, spoil, self.rooms, self.stop_minutes, known
        )
        self.search: Search = Search(
            options,
            self.attempts,
            self.treatments,
            self.rooms,
            most_treatments,
            self.stop_minutes,
            like.search if like and narrower else None,
        )
        self._chosen: dict[State, Choice] = {}

    def value(self, state: State) -> float:
        """Return the expected minutes from a state on, going on optimally."""
        return self.search.value(self._cell(state), state.bound)

    def start(self, state: State) -> None:
        """Value the state that a plan begins with, before any choice of it is asked."""
        self.search.start(self._cell(state), state.bound)

    def first(self, state: State) -> tuple[str, float]:
        """Return the name of the best move, stop among them, and its expected minutes."""
        cell = self._cell(state)
        minutes, picked = self.search.value(cell, state.bound), cell.picked[state.bound]
        if isinstance(picked, Play):
            return picked.candidate.method.id, minutes
        return picked.name if picked else STOP, minutes

    def holds(self, state: State, move: str) -> bool:
        """Say whether a move, or to stop, is the best of a state."""
        return self.search.holds(self._cell(state), state.bound, move)

    def best(self, state: State) -> Choice:
        """Return the best choice of a state; stopping is always one."""
        choice = self._chosen.get(state)
        if choice is None:
            self.value(state)
            cell = self._cell(state)
            picked = cell.picked[state.bound]
            if picked is None:
                choice = Choice(STOP, None, 0.0, self.stop_minutes, 0.0, ())
            elif isinstance(picked, Play):
                choice = self._turned(state, picked)
            else:
                choice = self._moved(state, picked)
            self._chosen[state] = choice
        return choice

    def choices(self, state: State, only: str | None = None) -> list[Choice]:
        """Return every choice of a state or of one move, the weak ones too; stopping left out."""
        found = []
        for candidate, turn in () if state.spoilt else self.turns(state):
            if only not in (None, candidate.method.id):
                continue
            if not (state.lost_extractor and candidate.method.grip == "extractor"):
                play = self.attempts.play(state.damage, state.bound, candidate, turn)
                found.append(self._turned(state, play))
        best = self.best(state)  # which may be to handle it as what is more damaged
        if best.move != STOP and only in (None, best.move):
            found.insert(0, best)
        ways = list(self.search.ways(self._cell(state), every=True))
        left = {  # of the bond, by what each treatment leaves
            way.name: self.treatments.factor(after.treated) / self.treatments.factor(state.treated)
            for way in ways
            for *_, after in way.branches
            if after and after.treated != state.treated
        }
        strong = min(left, key=lambda name: left[name], default=None)
        weak_asked = only is None or left.get(only, 0.0) > WEAKEST
        moves = {
            way.name: self._moved(state, way)
            for way in ways
            if (left.get(way.name, 0.0) <= WEAKEST and only in (None, way.name))
            or (way.name == strong and weak_asked)
        }
        least = best.expected  # where nothing is strong, the weak are not followed either
        for name, move in moves.items():
            if only not in (None, name):
                continue
            weak = left.get(name, 0.0) > WEAKEST
            found.append(move._replace(expected=max(least, move.expected)) if weak else move)
        for way in ways:
            if strong and way.name not in moves and only in (None, way.name):
                gain = log(left[way.name]) / log(left[strong]) if left[strong] < 1 else 0.0
                found.append(self._weak(way, state, best, moves[strong], gain))
        return found

    def _weak(self, way: Way, state: State, best: Choice, strong: Choice, gain: float) -> Choice:
        """
        Return a treatment that does too little to be followed.

        What it leaves to do is read between nothing done and the strongest treatment, by the
        logarithm of the bond that is left; what is done then is what would be done without it.
        """
        without, after = self.value(state), strong.expected - strong.minutes
        left = without - max(0.0, without - after) * gain
        done = Branch("done", 1.0, 0.0, state)
        expected = max(best.expected, way.base + left)  # a shade better at best: ranked behind
        return Choice(way.name, way.candidate, way.base, expected, best.chance, (done,))

    def turns(self, state: State) -> list[tuple[Candidate, Turn]]:
        """Return every turn possible in the room and with the bond of a state."""
        factor = self.treatments.factor(state.treated)
        return self.attempts.turns(state.damage, state.residue, state.room, factor)

    def states(self) -> Iterator[State]:
        """Yield every state that the search has looked at."""
        for cell in self.search.cells.values():
            for bound, value in enumerate(cell.values):
                if value is not None or cell.above[bound] > cell.quickest:
                    yield _state(cell.place, bound)

    def _cell(self, state: State) -> Cell:
        return self.search.cell(self._place(state))

    @staticmethod
    def _place(state: State) -> Place:
        damage, treated, residue, room, _, parted, lost, spoilt = state
        return Place(damage, treated, residue, room, parted, lost, spoilt)

    def _turned(self, state: State, play: Play) -> Choice:
        """Return a turn as a choice."""
        item = play.candidate
        return self._choice(item.method.id, item, item.minutes, self._turned_branches(state, play))

    def _turned_branches(self, state: State, play: Play) -> tuple[Branch, ...]:
        _, treated, residue, room, _, parted, lost, _ = state
        branches = []
        for name, share, minutes, damage, bound, extractor in play.endings:
            after = None
            if damage == TORN_DEEPER:
                after = _state(self.search.spoilt(self._place(state)), bound)
            elif damage is not None:
                after = State(damage, treated, residue, room, bound, parted, lost or extractor)
            branches.append(Branch(name, share, minutes, after))
        return tuple(branches)

    def _moved(self, state: State, way: Way) -> Choice:
        """Return a move that is no turn as a choice."""
        added = sum(share * minutes for _, share, minutes, _ in way.branches)
        branches = self._way_branches(state, way)
        return self._choice(way.name, way.candidate, way.base - added, branches)

    def _way_branches(self, state: State, way: Way) -> tuple[Branch, ...]:
        return tuple(
            Branch(name, share, minutes, _state(after.place, state.bound) if after else None)
            for name, share, minutes, after in way.branches
        )

    def _choice(
        self, move: str, candidate: Candidate | None, minutes: float, branches: tuple[Branch, ...]
    ) -> Choice:
        chance, expected = 0.0, minutes
        for branch in branches:
            expected += branch.share * branch.minutes
            if branch.state is not None:
                expected += branch.share * self.value(branch.state)
                chance += branch.share * self.best(branch.state).chance
            elif branch.name != "failed":
                chance += branch.share
        chance = min(1.0, chance)  # shares sum to one but for rounding
        return Choice(move, candidate, minutes, expected, chance, branches)


def _state(place: Place, bound: int) -> State:
    damage, treated, residue, room, parted, lost, spoilt = place
    return State(damage, treated, residue, room, bound, parted, lost, spoilt)
