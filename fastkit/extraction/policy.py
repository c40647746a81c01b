"""
The policy over states that minimises the expected minutes to a free fastener.

A state is what is known and done: damage, treatments, residue, room, the lower bound on the
severity quantile, and the strongest attempts that have failed since the bond or the damage last
changed. Nothing ever goes back, so one memoised pass is exact for the severities' grid.
"""

from collections.abc import Iterator
from typing import NamedTuple

from fastkit.extraction.chain import first_to_give
from fastkit.extraction.options import Candidate, Options
from fastkit.extraction.resistance import HEADLESS, Resistance

# Workshop judgement, common practice with no published source.
TORN_SHARE = 0.4  # of --spoil: the fastener is out, its thread came with it
STOP_MINUTES = 60.0  # handing the part on, besides --spoil
DRY_OFF = "dry-off"
MOST_TREATMENTS = 3
LEAST_CHANCE = 0.02  # a turn less likely than this is not worth its place in the policy
SNAPS = {  # where a shank parts, by what stood there before
    "snapped-proud": (("snapped-flush", 0.5), ("snapped-below", 0.5)),
    "snapped-flush": (("snapped-below", 1.0),),
    "snapped-below": (("snapped-below", 1.0),),
}
SNAPS_WHOLE = (("snapped-proud", 0.45), ("snapped-flush", 0.35), ("snapped-below", 0.2))
WORSE = {"intact": "worn"}  # any other damage of a drive ends stripped or rounded


class State(NamedTuple):
    """One point of a plan; `treated` counts each treatment of the policy's own list."""

    damage: str
    treated: tuple[int, ...]
    residue: str
    room: int
    bound: int  # first severity still possible
    level: float  # capacity of the strongest turn that has failed here, N·mm
    parted: float  # minutes of the heaviest other way that has failed
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
        self.treatments = self._treatments()
        self.index = {row.method: n for n, row in enumerate(self.treatments)}
        self.outer = options.outer
        self._best: dict[State, Choice] = {}
        self._needed: dict[tuple[bool, float], tuple[float, ...]] = {}
        self._given: dict[tuple[str, str | None, str, float], list[tuple[float, ...]]] = {}
        self._dry = next(row.minutes for row in options.facts.methods if row.id == DRY_OFF)

    def _treatments(self) -> tuple[Treatment, ...]:
        """Choose the treatments that can matter: none that another beats in effect and time."""
        facts = self.options.facts
        seizure = self.options.situation.seized
        effects = {row.method: row for row in facts.bond_effects if row.seizure == seizure}
        rows = sorted(
            (effects[m.id].factor, m.minutes, m.id, m)
            for m in facts.methods
            if m.kind == "treat" and m.id in effects and effects[m.id].factor < 1
        )
        usable = {
            item.method.id
            for room in range(len(self.options.rooms))
            for item in self.options.at(self.options.situation.damage, "none", room)[0]
        }
        chosen: list[Treatment] = []
        quickest = float("inf")
        for factor, minutes, name, method in rows:
            if name in usable and minutes < quickest:
                quickest = minutes
                chosen.append(Treatment(name, factor, effects[name].again, max(1, method.repeats)))
        return tuple(chosen)

    def factor(self, treated: tuple[int, ...]) -> float:
        """Return what the treatments done have left of the bond."""
        left = 1.0
        for row, times in zip(self.treatments, treated, strict=True):
            if times:
                left *= row.factor * row.again ** (times - 1)
        return left

    def needed(self, damage: str, treated: tuple[int, ...]) -> tuple[float, ...]:
        """Return R at each severity."""
        key = damage in HEADLESS, self.factor(treated)
        if key not in self._needed:
            self._needed[key] = self.resistance.at(damage, key[1])
        return self._needed[key]

    def best(self, state: State) -> Choice:
        """Return the best choice of a state; stopping is always one."""
        if state not in self._best:
            self._best[state] = min(self.choices(state), key=lambda item: item.expected)
        return self._best[state]

    def choices(self, state: State, every: bool = False) -> list[Choice]:
        """Return the choices of a state; `every` keeps those too weak to matter."""
        result = [Choice("stop", None, 0.0, self.stop_minutes, 0.0, ())]
        found, _ = self.options.at(state.damage, state.residue, state.room)
        for candidate in found:
            kind = candidate.method.kind
            branches: list[Branch]
            if kind == "treat":
                branches = self._treat(state, candidate)
            elif kind == "turn":
                if candidate.capacity <= state.level:
                    continue
                if state.lost_extractor and candidate.method.grip == "extractor":
                    continue
                branches = list(self._turn(state, candidate))
                if not every and branches[0].share < LEAST_CHANCE:
                    continue
            elif candidate.minutes > state.parted:
                branches = self._part(state, candidate)
            else:
                continue
            if branches:
                result.append(
                    self._choice(candidate.method.id, candidate, candidate.minutes, branches)
                )
        if state.residue == "flammable":
            dried = state._replace(residue="none")
            branch = Branch("done", 1.0, 0.0, dried)
            result.append(self._choice(DRY_OFF, None, self._dry, [branch]))
        for number in range(state.room + 1, len(self.options.rooms)):
            room = self.options.rooms[number]
            branch = Branch("done", 1.0, 0.0, state._replace(room=number))
            result.append(self._choice(room.move or "", None, room.minutes, [branch]))
        return result

    def _choice(
        self, move: str, candidate: Candidate | None, minutes: float, branches: list[Branch]
    ) -> Choice:
        expected, chance = minutes, 0.0
        for branch in branches:
            expected += branch.share * branch.minutes
            if branch.state is None:
                chance += branch.share
            else:
                follow = self.best(branch.state)
                expected += branch.share * follow.expected
                chance += branch.share * follow.chance
        return Choice(move, candidate, minutes, expected, chance, tuple(branches))

    def _treat(self, state: State, candidate: Candidate) -> list[Branch]:
        number = self.index.get(candidate.method.id)
        if number is None or sum(state.treated) >= self.most_treatments:
            return []
        if state.treated[number] >= self.treatments[number].repeats:
            return []
        treated = (
            *state.treated[:number],
            state.treated[number] + 1,
            *state.treated[number + 1 :],
        )
        residue = candidate.method.residue or state.residue
        after = state._replace(treated=treated, residue=residue, level=0.0)
        return [Branch("done", 1.0, 0.0, after)]

    def _turn(self, state: State, candidate: Candidate) -> Iterator[Branch]:
        """Yield the outcomes of an attempt, success first."""
        factor = self.factor(state.treated)
        needed = self.needed(state.damage, state.treated)
        variant = candidate.variant.id if candidate.variant else None
        key = candidate.method.id, variant, state.damage, factor
        if key not in self._given:
            self._given[key] = first_to_give(candidate.chain, needed)
        given = self._given[key]
        bound, count = state.bound, len(needed)
        left = count - bound
        lost = sum(sum(given[severity]) for severity in range(bound, count)) / left
        yield Branch("free", 1.0 - lost, 0.0, None)
        for number, link in enumerate(candidate.chain):
            for severity in range(bound, count):
                before = given[severity - 1][number] if severity > bound else 0.0
                share = (given[severity][number] - before) * (count - severity) / left
                if share > 1e-4:
                    yield from self._gives(state, candidate, link.gives, severity, share)

    def _gives(
        self, state: State, candidate: Candidate, gives: str, bound: int, share: float
    ) -> Iterator[Branch]:
        """Yield what becomes of the fastener when a link gives."""
        if gives == "thread":
            yield Branch("torn", share, TORN_SHARE * self.spoil, None)
            return
        known = state._replace(bound=bound)
        if gives == "nothing":
            yield Branch("nothing", share, 0.0, known._replace(level=candidate.capacity))
        elif gives == "extractor":
            broken = known._replace(damage="extractor-broken", level=0.0, lost_extractor=True)
            yield Branch("broken-extractor", share, 0.0, broken)
        elif gives == "shank":
            for damage, part in SNAPS.get(state.damage, SNAPS_WHOLE):
                level = candidate.capacity if damage == state.damage else 0.0
                snapped = known._replace(damage=damage, level=level)
                yield Branch("snapped", share * part, 0.0, snapped)
        else:
            gone = "rounded" if self.outer else "stripped"
            damage = WORSE.get(state.damage, gone)
            same = damage == state.damage
            level = candidate.capacity if same else 0.0
            yield Branch("worse-drive", share, 0.0, known._replace(damage=damage, level=level))

    def _part(self, state: State, candidate: Candidate) -> list[Branch]:
        """Return the outcomes of a way whose odds only judgement gives."""
        method = candidate.method
        chance = method.chance if method.chance is not None else 0.5
        after = None
        if method.leads_to:
            if method.leads_to == state.damage:
                return []
            after = state._replace(damage=method.leads_to, level=0.0)
        branches = [Branch("done" if after else "free", chance, method.spoils * self.spoil, after)]
        if chance < 1:
            failed = state._replace(parted=candidate.minutes)
            branches.append(Branch("failed", 1 - chance, 0.0, failed))
        return branches
