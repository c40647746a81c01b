"""
The policy over states that minimises the expected minutes to a free fastener.

A state is what is known and done: damage, treatments, residue, room, the lower bound on the
severity quantile, and the heaviest other way tried. Nothing ever goes back (a tool that slipped
raises the bound above its own reach), so one memoised pass finds the optimum. A choice whose
minutes already reach the best found is not followed further; that loses nothing. Turns that
another one beats in time, chance and harm alike are left out below the first move.
"""

from collections.abc import Iterator, Sequence
from math import inf, log
from typing import NamedTuple

from fastkit.extraction.acts import Turn, breaking, unbeaten
from fastkit.extraction.chain import Giving, Link
from fastkit.extraction.gates import DRY_OFF
from fastkit.extraction.learned import told, weighed
from fastkit.extraction.options import Candidate, Options, is_held
from fastkit.extraction.resistance import HEADLESS, Resistance
from fastkit.records.own import OwnTries

# Workshop judgement, common practice with no published source.
TORN_SHARE = 0.4  # of --spoil: the fastener is out, its thread came with it
SNAP_SHARE = 0.15  # of --spoil: what a snapped shank costs beyond the time to get it out
STOP_MINUTES = 60.0  # handing the part on, besides --spoil
HANDED_ON = "machine-shop"  # what it cannot free, nobody here can: its failure ends the plan
MOST_TREATMENTS = 2
LEAST_CHANCE = 0.02  # a turn less likely than this is not worth its place in the policy
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

    def once_treated(self, number: int, residue: str | None) -> "State":
        """
        Return the state after one more treatment, by its number in the policy's list.

        What it leaves wets a clean part; a residue that is there already stays as it was, so that
        nothing laid over a chlorinated one ever lets heat near it.
        """
        before, times, later = (
            self.treated[:number],
            self.treated[number],
            self.treated[number + 1 :],
        )
        wet = residue if residue and self.residue == "none" else self.residue
        return self._replace(treated=(*before, times + 1, *later), residue=wet)


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


class Ending(NamedTuple):
    """One outcome of a turn whatever has been done before: as a branch, its state not yet made."""

    name: str
    share: float
    minutes: float
    damage: str | None  # None: the fastener is out
    bound: int
    extractor: bool  # an extractor has snapped


class Play(NamedTuple):
    """A turn from one bound, its outcomes, and what it costs at least."""

    turn: Turn
    base: float  # its minutes and those its outcomes add
    floor: float  # base, and the quickest way on from each outcome
    endings: tuple[Ending, ...]
    open_: tuple[Ending, ...]  # those after which the fastener is still in


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
        self._quickest: dict[str, float] = {}
        self._played: dict[tuple[str, str, int, float, int], list[Play]] = {}
        self._values: dict[State, float] = {}
        self._picked: dict[State, Play | Move | None] = {}  # None: stop
        self._chosen: dict[State, Choice] = {}
        self._needed: dict[tuple[bool, float], tuple[float, ...]] = {}
        self._ready: dict[tuple[str, str | None, str, float, bool], Turn] = {}
        self._giving: dict[tuple[Link, ...], Giving] = {}
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

    def own(self, method: str, damage: str) -> OwnTries | None:
        """Return what the user noted of a method at this damage and this kind of seizure."""
        tries = self.options.facts.own
        return told(tries, method, damage, self.options.situation.seized) if tries else None

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
            links = breaking(candidate)
            if links not in self._giving:
                self._giving[links] = Giving(links)
            needed = self.needed(damage, factor)
            own = self.own(candidate.method.id, damage)
            self._ready[key] = Turn(candidate, needed, reach, self._giving[links], own)
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
            self._useful[key] = unbeaten(turns, state.bound)
        return self._useful[key]

    def _plays(self, state: State) -> list[Play]:
        """Return the turns worth following with their outcomes, the likeliest bargain first."""
        key = (state.damage, state.residue, state.room, self.factor(state.treated), state.bound)
        if key not in self._played:
            turns = self._useful_turns(state)
            self._played[key] = [self._play(state.damage, state.bound, turn) for turn in turns]
        return self._played[key]

    def _play(self, damage: str, bound: int, turn: Turn) -> Play:
        endings = tuple(self._endings(damage, bound, turn))
        base = turn.minutes
        for ending in endings:
            base += ending.share * ending.minutes
        floor, open_ = base, []
        for ending in endings:
            if ending.damage is not None:
                floor += ending.share * self._quickest_way(ending.damage)
                open_.append(ending)
        return Play(turn, base, floor, endings, tuple(open_))

    def _quickest_way(self, damage: str) -> float:
        """Return the minutes of the quickest move that could free it in the widest room."""
        if damage not in self._quickest:
            widest = self.rooms[-1] if self.rooms else 0
            times = [
                item.minutes
                for room in {0, widest}
                for item in self.options.at(damage, "none", room)[0]
                if item.method.kind in ("turn", "part")
            ]
            self._quickest[damage] = min([*times, self.stop_minutes])
        return self._quickest[damage]

    def _least(self, state: State) -> float:
        """Return what a state's value cannot be below."""
        known = self._values.get(state)
        if known is not None:
            return known
        damage, treated, residue, room, bound, parted, lost = state
        if self.rooms and room != self.rooms[-1]:  # the widest room is never worse
            widest = State(damage, treated, residue, self.rooms[-1], bound, parted, lost)
            known = self._values.get(widest)
        return self._quickest_way(damage) if known is None else known

    def value(self, state: State) -> float:
        """Return the expected minutes from a state on, going on optimally."""
        known = self._values.get(state)
        if known is not None:
            return known
        best: float = self.stop_minutes
        picked: Play | Move | None = None
        _, treated, residue, room, _, parted, lost = state
        for play in self._plays(state):
            if play.floor >= best or (lost and play.turn.candidate.method.grip == "extractor"):
                continue
            open_ = [
                (
                    ending.share,
                    State(
                        ending.damage or "",
                        treated,
                        residue,
                        room,
                        ending.bound,
                        parted,
                        lost or ending.extractor,
                    ),
                )
                for ending in play.open_
            ]
            total = self._below(play.base, open_, best)
            if total < best:
                best, picked = total, play
        for move in self._others(state, False, best):
            total, open_ = move.minutes, []
            for branch in move.branches:
                total += branch.share * branch.minutes
                if branch.state is not None:
                    open_.append((branch.share, branch.state))
            total = self._below(total, open_, best)
            if total < best:
                best, picked = total, move
        self._values[state] = best
        self._picked[state] = picked
        return best

    def _below(self, base: float, open_: list[tuple[float, State]], best: float) -> float:
        """Return base and what follows; no further than to show that it is not below the best."""
        leasts = []
        for share, after in open_:
            least = self._least(after)
            base += share * least
            leasts.append((-share, least, after))
        if base >= best:
            return base
        leasts.sort()
        for share, least, after in leasts:
            base -= share * (self.value(after) - least)
            if base >= best:
                break
        return base

    def best(self, state: State) -> Choice:
        """Return the best choice of a state; stopping is always one."""
        if state not in self._chosen:
            self.value(state)
            picked = self._picked[state]
            if picked is None:
                self._chosen[state] = Choice("stop", None, 0.0, self.stop_minutes, 0.0, ())
            elif isinstance(picked, Play):
                self._chosen[state] = self._choice(self._turned(state, picked.turn))
            else:
                self._chosen[state] = self._choice(picked)
        return self._chosen[state]

    def first(self, state: State) -> tuple[str, float]:
        """Return the name of the best move, stop among them, and its expected minutes."""
        minutes, picked = self.value(state), self._picked[state]
        if picked is None:
            return "stop", minutes
        return (
            picked.turn.candidate.method.id if isinstance(picked, Play) else picked.name
        ), minutes

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
            if not (state.lost_extractor and turn.candidate.method.grip == "extractor"):
                yield self._turned(state, turn)
        yield from self._others(state, every)

    def _others(self, state: State, every: bool = False, best: float = inf) -> Iterator[Move]:
        """Yield the moves that are no turn; without those that cannot stay below the best."""
        quickest = self._quickest_way(state.damage)
        found, _ = self.options.at(state.damage, state.residue, state.room)
        for candidate in found:
            kind = candidate.method.kind
            if kind == "turn" or candidate.minutes >= best:
                continue
            if kind == "part" and candidate.minutes > state.parted:
                branches = self._part(state, candidate)
            elif kind == "treat" and candidate.minutes + quickest < best:
                branches = self._treat(state, candidate, every)
            else:
                continue
            if branches:
                yield Move(candidate.method.id, candidate, candidate.minutes, branches)
        if state.residue == "flammable" and self._dry + quickest < best:
            done = Branch("done", 1.0, 0.0, state._replace(residue="none"))
            yield Move(DRY_OFF, None, self._dry, (done,))
        rooms = [number for number in self.rooms if number > state.room]
        if rooms and best < inf:
            least = min([self.options.rooms[number].minutes for number in rooms])
            # the widest room is never worse
            if least + quickest >= best or (
                least + self.value(state._replace(room=self.rooms[-1])) >= best
            ):
                return
        for number in rooms:
            room = self.options.rooms[number]
            if room.minutes + quickest < best:
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
        after = state.once_treated(number, candidate.method.residue)
        return (Branch("done", 1.0, 0.0, after),)

    def _turned(self, state: State, turn: Turn) -> Move:
        """Return a turn as a move from a state."""
        _, treated, residue, room, _, parted, lost = state
        branches = []
        for name, share, minutes, damage, bound, extractor in self._endings(
            state.damage, state.bound, turn
        ):
            after = None
            if damage is not None:
                snapped = lost or extractor
                after = State(damage, treated, residue, room, bound, parted, snapped)
            branches.append(Branch(name, share, minutes, after))
        return Move(turn.candidate.method.id, turn.candidate, turn.minutes, tuple(branches))

    def _endings(self, damage: str, start: int, turn: Turn) -> Iterator[Ending]:
        """Yield the outcomes of an attempt, success first."""
        success, failures = turn.outcomes(start)
        lost = damage in HEADLESS  # what has snapped is spoiled already; a worn head must yet serve
        spoils = 0.0 if lost else turn.candidate.method.spoils * self.spoil
        yield Ending("free", success, spoils, None, start, False)
        for gives, bound, share in failures:
            name = NAMES[gives]
            if gives == "thread":
                torn = spoils + TORN_SHARE * self.spoil
                yield Ending(name, share, torn, None, bound, False)
                continue
            price = spoils + (SNAP_SHARE * self.spoil if gives == "shank" else 0.0)
            for after, part in self._becomes(damage, gives):
                yield Ending(name, share * part, price, after, bound, gives == "extractor")

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
        chance = weighed(chance, self.own(method.id, state.damage))
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
