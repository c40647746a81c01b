"""
The policy over states that minimises the expected minutes to a free fastener.

A state is what is known and done: damage, treatments, residue, room, the lower bound on the
severity quantile, and the heaviest other way tried. Nothing ever goes back (a tool that slipped
raises the bound above its own reach), so one memoised pass finds the optimum. A choice whose
minutes already reach the best found is not followed further; that loses nothing. Turns that
another one beats in time, chance and harm alike are left out below the first move.
"""

from collections.abc import Iterator, Sequence
from math import log
from typing import NamedTuple

from fastkit.extraction.acts import Turn, unbeaten
from fastkit.extraction.gates import DRY_OFF
from fastkit.extraction.options import Candidate, Options, is_held
from fastkit.extraction.resistance import HEADLESS, Resistance

# Workshop judgement, common practice with no published source.
TORN_SHARE = 0.4  # of --spoil: the fastener is out, its thread came with it
SNAP_SHARE = 0.15  # of --spoil: what a snapped shank costs beyond the time to get it out
STOP_MINUTES = 60.0  # handing the part on, besides --spoil
HANDED_ON = "machine-shop"  # what it cannot free, nobody here can: its failure ends the plan
MOST_TREATMENTS = 2
LEAST_CHANCE = 0.02  # a turn less likely than this is not worth its place in the policy
SOUND = ("intact", "worn", "spinning", "nut-spinning")
SNAPS = {  # where a shank parts, by what stood there before
    "snapped-proud": (("snapped-flush", 0.5), ("snapped-below", 0.5)),
    "snapped-flush": (("snapped-below", 1.0),),
    "snapped-below": (("snapped-below", 1.0),),
}
SNAPS_WHOLE = (("snapped-proud", 0.45), ("snapped-flush", 0.35), ("snapped-below", 0.2))
NAMES = {
    "nothing": "nothing",
    "drive": "worse-drive",
    "shank": "snapped",
    "thread": "torn",
    "extractor": "broken-extractor",
}


class State(NamedTuple):
    """One point of a plan; `treated` counts each treatment of the policy's own list."""

    damage: str
    treated: tuple[int, ...]
    residue: str
    room: int
    bound: int  # first severity still possible
    parted: float  # minutes of the heaviest other way tried
    lost_extractor: bool  # one has snapped in the hole: no second is risked


class Branch(NamedTuple):
    """One outcome of a move: its share, the minutes it adds, and the state it leads to."""

    name: str  # free, torn, nothing, worse-drive, snapped, broken-extractor, done, failed
    share: float
    minutes: float
    state: State | None  # None: the fastener is out


class Choice(NamedTuple):
    """A move in a state, and what it is worth with the best going on."""

    move: str
    candidate: Candidate | None  # None: a gate, a room-making move, or stopping
    minutes: float  # of this attempt
    expected: float
    chance: float  # that the fastener gets free at all
    branches: tuple[Branch, ...]


class Treatment(NamedTuple):
    """A treatment the policy may use: factor on the bond the first and each further time."""

    method: str
    factor: float
    again: float
    repeats: int


class Move(NamedTuple):
    """A move not yet evaluated."""

    name: str
    candidate: Candidate | None
    minutes: float
    branches: tuple[Branch, ...]


class Policy:
    """Best choices from every state reachable from one situation."""

    def __init__(
        self,
        options: Options,
        resistance: Resistance,
        spoil: float,
        most_treatments: int = MOST_TREATMENTS,
    ) -> None:
        self.options, self.resistance, self.spoil = options, resistance, spoil
        self.most_treatments = most_treatments
        self.stop_minutes = spoil + STOP_MINUTES
        self.gone = "rounded" if options.outer else "stripped"
        self.rooms = options.worthwhile_rooms()
        self.treatments = self._treatments()
        self.index = {row.method: n for n, row in enumerate(self.treatments)}
        turns = {row.id for row in options.facts.methods if row.kind == "turn"}
        self.own_effect = {  # blows and heat of an attempt help it while it lasts
            row.method: row.factor
            for row in options.facts.bond_effects
            if row.method in turns and row.seizure == options.situation.seized
        }
        self._dry = next(row.minutes for row in options.facts.methods if row.id == DRY_OFF)
        self._quickest = min(
            row.minutes for row in options.facts.methods if row.kind in ("turn", "treat", "part")
        )
        self._values: dict[State, float] = {}
        self._picked: dict[State, int | None] = {}  # None: stop
        self._chosen: dict[State, Choice] = {}
        self._needed: dict[tuple[bool, float], tuple[float, ...]] = {}
        self._ready: dict[tuple[str, str | None, str, float, bool], Turn] = {}
        self._turns: dict[tuple[str, str, int, float], list[Turn]] = {}
        self._useful: dict[tuple[str, str, int, float, int], list[Turn]] = {}

    def _treatments(self) -> tuple[Treatment, ...]:
        """Return every treatment that weakens this bond; mark those worth following in the tree."""
        facts, options = self.options.facts, self.options
        seizure = options.situation.seized
        effects = {row.method: row for row in facts.bond_effects if row.seizure == seizure}
        usable: dict[str, float] = {}
        for room in (0, *self.rooms):
            for item in options.at(options.situation.damage, "none", room)[0]:
                if item.method.kind == "treat":
                    least = usable.get(item.method.id, item.minutes)
                    usable[item.method.id] = min(least, item.minutes)
        repeats = {row.id: max(1, row.repeats) for row in facts.methods}
        rows = sorted(
            (effects[name].factor, minutes, name)
            for name, minutes in usable.items()
            if name in effects and effects[name].factor < 1
        )
        self.worthwhile = _worthwhile(rows)
        return tuple(
            Treatment(name, factor, effects[name].again, repeats[name]) for factor, _, name in rows
        )

    def factor(self, treated: tuple[int, ...]) -> float:
        """Return what the treatments done have left of the bond."""
        left = 1.0
        for row, times in zip(self.treatments, treated, strict=True):
            if times:
                left *= row.factor * row.again ** (times - 1)
        return left

    def needed(self, damage: str, factor: float) -> tuple[float, ...]:
        """Return R at each severity, N·mm, with what is left of the bond."""
        key = damage in HEADLESS, factor
        if key not in self._needed:
            self._needed[key] = self.resistance.at(damage, factor)
        return self._needed[key]

    def turns(self, state: State) -> list[Turn]:
        """Return every turn possible in the room and with the bond of a state."""
        factor = self.factor(state.treated)
        key = state.damage, state.residue, state.room, factor
        if key not in self._turns:
            found, _ = self.options.at(state.damage, state.residue, state.room)
            self._turns[key] = [
                self._turning(item, state.damage, factor)
                for item in found
                if item.method.kind == "turn"
            ]
        return self._turns[key]

    def _turning(self, candidate: Candidate, damage: str, factor: float) -> Turn:
        factor *= self.own_effect.get(candidate.method.id, 1.0)
        variant = candidate.variant.id if candidate.variant else None
        key = candidate.method.id, variant, damage, factor, is_held(candidate)
        if key not in self._ready:
            slips = [link.capacity for link in candidate.chain if link.gives == "nothing"]
            reach = self.resistance.quantile(damage, factor, min(slips)) if slips else 1.0
            self._ready[key] = Turn(candidate, self.needed(damage, factor), reach)
        return self._ready[key]

    def _useful_turns(self, state: State) -> list[Turn]:
        """Return the turns worth following below the first move, the likeliest bargain first."""
        key = (state.damage, state.residue, state.room, self.factor(state.treated), state.bound)
        if key not in self._useful:
            turns = [
                turn
                for turn in self.turns(state)
                if (turn.first_slip > state.bound or state.bound == turn.count)
                and turn.outcomes(state.bound)[0] >= LEAST_CHANCE
            ]
            kept = unbeaten(turns, state.bound)
            kept.sort(key=lambda turn: turn.minutes / turn.outcomes(state.bound)[0])
            self._useful[key] = kept
        return self._useful[key]

    def _least(self, state: State) -> float:
        """Return what a state's value cannot be below: itself once known, or the quickest move."""
        known = self._values.get(state)
        if known is not None:
            return known
        if self.rooms and state.room != self.rooms[-1]:  # the widest room is never worse
            known = self._values.get(state._replace(room=self.rooms[-1]))
        return self._quickest if known is None else known

    def value(self, state: State) -> float:
        """Return the expected minutes from a state on, going on optimally."""
        known = self._values.get(state)
        if known is not None:
            return known
        best, picked = self.stop_minutes, None
        for number, move in enumerate(self._moves(state, self._useful_turns(state))):
            floor, open_ = move.minutes, []
            for branch in move.branches:
                floor += branch.share * branch.minutes
                if branch.state is not None:
                    least = self._least(branch.state)
                    floor += branch.share * least
                    open_.append((-branch.share, least, branch.state))
            open_.sort()
            for share, least, after in open_:
                if floor >= best:
                    break
                floor -= share * (self.value(after) - least)
            if floor < best:
                best, picked = floor, number
        self._values[state] = best
        self._picked[state] = picked
        return best

    def best(self, state: State) -> Choice:
        """Return the best choice of a state; stopping is always one."""
        if state not in self._chosen:
            self.value(state)
            number = self._picked[state]
            if number is None:
                self._chosen[state] = Choice("stop", None, 0.0, self.stop_minutes, 0.0, ())
            else:
                moves = list(self._moves(state, self._useful_turns(state)))
                self._chosen[state] = self._choice(moves[number])
        return self._chosen[state]

    def choices(self, state: State) -> list[Choice]:
        """Return every choice of a state, the weak ones too; stopping left out."""
        return [self._choice(move) for move in self._moves(state, self.turns(state), every=True)]

    def _expected(self, move: Move) -> float:
        return move.minutes + sum(
            branch.share * (branch.minutes + (self.value(branch.state) if branch.state else 0.0))
            for branch in move.branches
        )

    def _choice(self, move: Move) -> Choice:
        chance = sum(
            branch.share * (self.best(branch.state).chance if branch.state else 1.0)
            for branch in move.branches
            if branch.state or branch.name != "failed"
        )
        expected = self._expected(move)
        chance = min(1.0, chance)  # shares sum to one but for rounding
        return Choice(move.name, move.candidate, move.minutes, expected, chance, move.branches)

    def _moves(self, state: State, turns: Sequence[Turn], every: bool = False) -> Iterator[Move]:
        for turn in turns:
            candidate = turn.candidate
            if state.lost_extractor and candidate.method.grip == "extractor":
                continue
            yield Move(candidate.method.id, candidate, turn.minutes, tuple(self._turn(state, turn)))
        found, _ = self.options.at(state.damage, state.residue, state.room)
        for candidate in found:
            kind = candidate.method.kind
            if kind == "part" and candidate.minutes > state.parted:
                branches = self._part(state, candidate)
            elif kind == "treat":
                branches = self._treat(state, candidate, every)
            else:
                continue
            if branches:
                yield Move(candidate.method.id, candidate, candidate.minutes, branches)
        if state.residue == "flammable":
            done = Branch("done", 1.0, 0.0, state._replace(residue="none"))
            yield Move(DRY_OFF, None, self._dry, (done,))
        for number in self.rooms:
            if number <= state.room:
                continue
            room = self.options.rooms[number]
            done = Branch("done", 1.0, 0.0, state._replace(room=number))
            yield Move(room.move or "", None, room.minutes, (done,))

    def _treat(self, state: State, candidate: Candidate, every: bool) -> tuple[Branch, ...]:
        number = self.index.get(candidate.method.id)
        if number is None or sum(state.treated) >= self.most_treatments:
            return ()
        if not every and candidate.method.id not in self.worthwhile:
            return ()
        if state.treated[number] >= self.treatments[number].repeats:
            return ()
        treated = (
            *state.treated[:number],
            state.treated[number] + 1,
            *state.treated[number + 1 :],
        )
        residue = candidate.method.residue or state.residue
        return (Branch("done", 1.0, 0.0, state._replace(treated=treated, residue=residue)),)

    def _turn(self, state: State, turn: Turn) -> Iterator[Branch]:
        """Yield the outcomes of an attempt, success first."""
        success, failures = turn.outcomes(state.bound)
        sound = state.damage in SOUND  # a head is ruined once
        spoils = turn.candidate.method.spoils * self.spoil if sound else 0.0
        yield Branch("free", success, spoils, None)
        for gives, bound, share in failures:
            name = NAMES[gives]
            if gives == "thread":
                yield Branch(name, share, spoils + TORN_SHARE * self.spoil, None)
                continue
            for damage, part in self._becomes(state.damage, gives):
                lost = state.lost_extractor or gives == "extractor"
                after = State(
                    damage, state.treated, state.residue, state.room, bound, state.parted, lost
                )
                price = spoils + (SNAP_SHARE * self.spoil if gives == "shank" else 0.0)
                yield Branch(name, share * part, price, after)

    def _becomes(self, damage: str, gives: str) -> tuple[tuple[str, float], ...]:
        """Return the damage states that follow when a link gives, and their shares."""
        if gives == "nothing":
            return ((damage, 1.0),)
        if gives == "extractor":
            return (("extractor-broken", 1.0),)
        if gives == "shank":
            return SNAPS.get(damage, SNAPS_WHOLE)
        return (("worn" if damage == "intact" else self.gone, 1.0),)

    def _part(self, state: State, candidate: Candidate) -> tuple[Branch, ...]:
        """Return the outcomes of a way whose odds only judgement gives."""
        method = candidate.method
        chance = method.chance if method.chance is not None else 0.5
        # heavier ways only from here on, so that no chain of them comes back to where it began
        failed = state._replace(parted=candidate.minutes)
        after = None
        if method.leads_to:
            if method.leads_to == state.damage:
                return ()
            # what is left once a broken extractor is out has a hole and no drive
            hole = state.damage == "extractor-broken"
            after = failed._replace(damage="snapped-flush" if hole else method.leads_to)
        done = Branch("done" if after else "free", chance, method.spoils * self.spoil, after)
        if method.id == HANDED_ON:
            return done, Branch("failed", 1 - chance, self.stop_minutes, None)
        return done, Branch("failed", 1 - chance, 0.0, failed)


def _worthwhile(rows: Sequence[tuple[float, float, str]]) -> frozenset[str]:
    """
    Return the strongest treatment and the best bargain among (factor, minutes, name).

    More than two in the tree multiply its states and change its value by little.
    """
    if not rows:
        return frozenset()
    strongest = min(rows)
    bargain = max(rows, key=lambda row: (-log(row[0]) / row[1], row[2]))
    return frozenset((strongest[2], bargain[2]))
