"""
The search for the least expected minutes from every state of a plan.

All that is known and done, but for the bound on the severity, is a cell; nothing ever goes back
(a tool that slipped raises the bound above its own reach), so one memoised pass finds the optimum.
A way is followed no further than to show that its minutes reach the best found; that loses nothing.
The moves are looked at by what they are not below, from what is known of the cells they lead to.
"""

from collections.abc import Iterator
from math import inf
from typing import Any, NamedTuple

from fastkit.extraction.acts import Turn
from fastkit.extraction.attempts import NOTHING, TORN_DEEPER, Attempts, Play
from fastkit.extraction.gates import DRY_OFF
from fastkit.extraction.options import Candidate, Options
from fastkit.extraction.situation import HEADLESS
from fastkit.extraction.treatments import Treatments, once_more

STOP = "stop"  # the name of making no move at all
MIDDLE = 0.5  # of the severities
EASED = 0.97  # of the torque needed: a treatment that leaves more of it is no move; practice


class Way(NamedTuple):
    """A move that is no turn: its minutes, and the cells that it leads to."""

    name: str
    candidate: Candidate | None  # None: a gate or a room-making move
    base: float  # its minutes and those its outcomes add
    branches: tuple[tuple[str, float, float, "Cell | None"], ...]  # name, share, minutes, then
    leads: tuple[tuple[float, "Cell"], ...]  # share and cell of those that go on


class Cell:
    """All that is known and done but for the bound, with what is found of each bound."""

    __slots__ = (
        *("damage", "treated", "residue", "room", "parted", "lost", "values", "above", "picked"),
        *("spoilt", "after", "ways", "quickest", "harms", "open", "factor", "place"),
    )

    def __init__(self, place: "Place", above: list[float]) -> None:
        self.place = place
        self.damage, self.treated, self.residue, self.room, self.parted = place[:5]
        self.lost, self.spoilt = place[5:]
        self.above = above  # what a value is not below: the value where it is known
        self.quickest = above[0]
        self.values: list[float | None] = [None] * len(above)
        self.picked: list[Play | Way | None] = [None] * len(above)  # None: stop
        self.after: dict[tuple[str | None, bool], Cell] = {}
        self.ways: list[Way] | None = None
        self.harms: dict[str, tuple[float, list[tuple[float, Cell]]]] = {}
        self.open: tuple[Candidate, ...] | None = None  # what can be done, looked up when needed
        self.factor = 1.0


class Place(NamedTuple):
    """What tells one cell from another; `treated` tells which treatments have been done."""

    damage: str
    treated: tuple[int, ...]
    residue: str
    room: int
    parted: frozenset[str]  # other ways tried in vain at this damage
    lost_extractor: bool  # one has snapped in the hole: no second is risked
    spoilt: bool = False  # drilled out or cut in vain: only ways that take longer are left


Step = tuple[float, int, Candidate | None, Any, Way | None]  # not below, number, turn or way
Leasts = list[tuple[float, int, float, Cell]]


class Search:
    """
    What is best in every cell at every bound.

    `looser` is a search of which nothing can take longer than here: more room, all else alike.
    """

    def __init__(
        self,
        options: Options,
        attempts: Attempts,
        treatments: Treatments,
        rooms: tuple[int, ...],
        most_treatments: int,
        stop_minutes: float,
        looser: "Search | None" = None,
    ) -> None:
        self.options, self.attempts, self.treatments = options, attempts, treatments
        self.rooms, self.most_treatments = rooms, most_treatments
        self.stop_minutes = stop_minutes
        self.looser = looser
        self.count = attempts.resistance.count
        self.dry = next(row.minutes for row in options.facts.methods if row.id == DRY_OFF)
        self.cells: dict[Place, Cell] = {}
        self._easing: dict[tuple[bool, float, int], bool] = {}
        self._follow: dict[tuple[int, tuple[bool, ...]], frozenset[str]] = {}
        self._here: dict[int, tuple[list[Candidate], list[Candidate]]] = {}

    def cell(self, place: Place) -> Cell:
        """Return the cell of a place."""
        found = self.cells.get(place)
        if found is None:
            found = self.cells[place] = self._new(place)
        return found

    def _new(self, place: Place) -> Cell:
        known = self.looser.cells.get(place) if self.looser else None
        if known is not None:
            return Cell(place, known.above[:])
        least = self.attempts.quickest(place.damage, place.parted, place.spoilt)
        return Cell(place, [least] * (self.count + 1))

    def value(self, cell: Cell, bound: int, limit: float = inf) -> float:
        """
        Return the expected minutes from a cell and bound on, going on optimally.

        No further than to show that they are not below `limit`: what is returned then is no
        more than the value and not below the limit.
        """
        known = cell.values[bound]
        if known is not None:
            return known
        least = cell.above[bound]
        if least >= limit:
            return least
        best: float = min(self.stop_minutes, limit)
        picked: Step | None = None
        steps, low = self._steps(cell, bound, best)
        for step in steps:
            total = step[0] if step[0] >= best else self._made_good(cell, bound, step, best)
            if total < best:
                best, picked = total, step
            elif total < low:
                low = total
        if picked is None and best < self.stop_minutes:
            cell.above[bound] = low = max(best, min(low, self.stop_minutes))
            return low
        cell.values[bound] = cell.above[bound] = best
        if picked:
            _, _, item, turn, way = picked
            play = item and self.attempts.play(cell.damage, bound, item, turn)
            cell.picked[bound] = play or way
        return best

    def holds(self, cell: Cell, bound: int, name: str) -> bool:
        """Say whether a move is the best of a cell, without the minutes of what is better."""
        best: float = self.stop_minutes
        others: list[Step] = []
        mine: list[Step] = []
        for step in self._steps(cell, bound, best)[0]:
            move = step[2].method.id if step[2] else step[4].name if step[4] else ""
            (mine if move == name else others).append(step)
        for step in mine:
            best = min(best, self._made_good(cell, bound, step, best))
        if best == self.stop_minutes and name != STOP:
            return False
        return all(self._made_good(cell, bound, step, best) >= best for step in others)

    def _made_good(self, cell: Cell, bound: int, step: Step, best: float) -> float:
        """Return the minutes of a move, no further than to show that they reach the best."""
        floor, _, item, turn, way = step
        if floor >= best:
            return floor
        if item is not None:
            total, leasts = self._turned(cell, bound, item, turn)
        else:
            assert way is not None
            total, leasts = _led(way, bound)
        return self._below(total, leasts, best) if total < best and leasts else total

    def _steps(self, cell: Cell, bound: int, best: float) -> tuple[list[Step], float]:
        """
        Return the moves that may stay below the best, what they are not below first.

        Besides it what the others are not below.
        """
        above, lost = cell.above, cell.lost
        steps: list[Step] = []
        beyond = inf
        if cell.open is None:
            self._enter(cell)
        if not cell.spoilt:
            assert cell.open is not None
            onward: dict[str, float] = {}
            rated = self.attempts.able(cell.open, cell.damage, cell.factor, bound)
            for fixed, slips, then, again, once, harms, item, turn in rated:
                floor = fixed + slips * above[then] + again * above[once]
                for kind, share in harms:
                    least = onward.get(kind)
                    if least is None:
                        least = onward[kind] = self._onward(cell, bound, kind)
                    floor += share * least
                if lost and item.method.grip == "extractor":
                    continue
                if floor < best:
                    steps.append((floor, len(steps), item, turn, None))
                elif floor < beyond:
                    beyond = floor
        steps.sort()
        first = len(steps)
        for way in cell.ways or self._ways(cell):
            floor = way.base
            for share, after in way.leads:
                floor += share * after.above[bound]
            if floor < best:
                steps.append((floor, len(steps), None, None, way))
            elif floor < beyond:
                beyond = floor
        steps[first:] = sorted(steps[first:])
        return steps, beyond

    def _enter(self, cell: Cell) -> None:
        """Look up what can be done in a cell, once something is asked of it."""
        cell.open = self.options.open(cell.damage, cell.residue, cell.room)
        cell.factor = self.treatments.factor(cell.treated)

    def _onward(self, cell: Cell, bound: int, gives: str) -> float:
        """Return what a harm costs at least, from this bound of the severity on."""
        known = cell.harms.get(gives)
        if known is None:
            price, becomes = self.attempts.harm(cell.damage, gives)
            cells = [
                (part, self._after(cell, damage, gives == "extractor")) for damage, part in becomes
            ]
            known = cell.harms[gives] = price, cells
        least = known[0]
        for part, after in known[1]:
            least += part * min(after.above[bound:])
        return least

    def _turned(self, cell: Cell, bound: int, item: Candidate, turn: Turn) -> tuple[float, Leasts]:
        """Return what a turn is not below, and what may yet raise it."""
        price, _, open_ = self.attempts.played(cell.damage, bound, item, turn)
        total, leasts = item.minutes + price, []
        for _, share, _, damage, then, extractor in open_:
            on = cell.after.get((damage, extractor)) or self._after(cell, damage, extractor)
            least = on.above[then]
            if on.values[then] is None:
                leasts.append((-share, then, least, on))
            total += share * least
        return total, leasts

    def start(self, cell: Cell, bound: int) -> None:
        """
        Value a first state, which nothing leads back to.

        What is less damaged may always be handled as what is more.
        """
        best, worse = self.value(cell, bound), cell
        while damage := self.attempts.order.get(worse.damage):
            worse = self._after(worse, damage, False)
            total = self.value(worse, bound, best)
            if total < best:
                best, picked = total, worse.picked[bound]
                cell.values[bound] = cell.above[bound] = best
                cell.picked[bound] = picked

    def _below(self, total: float, leasts: Leasts, best: float) -> float:
        """Return the total with its leasts made good; no further than to reach the best."""
        if len(leasts) > 1:
            leasts.sort(key=lambda row: row[0])
        for share, then, least, after in leasts:
            total -= share * (self.value(after, then, least + (best - total) / -share) - least)
            if total >= best or after.values[then] is None:
                return max(total, best)  # told to be no less: that it is a hair less is rounding
        return total

    def _after(self, cell: Cell, damage: str | None, extractor: bool) -> Cell:
        """Return the cell that a turn leads to; none leads on where the fastener is out."""
        assert damage is not None
        place = Place(
            damage, cell.treated, cell.residue, cell.room, cell.parted, cell.lost or extractor
        )
        if damage == TORN_DEEPER:
            place = self.spoilt(place._replace(damage=cell.damage))
        if damage == cell.damage and place.lost_extractor == cell.lost:
            found = cell
        else:
            found = self.cell(place)
        cell.after[damage, extractor] = found
        return found

    def spoilt(self, place: Place) -> Place:
        """Return the place where nothing is left to turn: what was done to the bond is past."""
        damage, _, residue, room, parted = place[:5]
        return Place(damage, self.treatments.none, residue, room, parted, False, True)

    def _ways(self, cell: Cell) -> list[Way]:
        """Return the moves from a cell that are no turns."""
        if cell.ways is None:
            cell.ways = list(self.ways(cell))
        return cell.ways

    def ways(self, cell: Cell, every: bool = False) -> Iterator[Way]:
        """Yield the moves from a cell that are no turns; treatments not followed too."""
        if cell.open is None:
            self._enter(cell)
        assert cell.open is not None
        parts, treats = self._others(cell.open)
        for candidate in parts:
            past = candidate.method.id in cell.parted
            if not past and candidate.method.leads_to != cell.damage:
                yield self._part(cell, candidate)
        if treats and not cell.spoilt and sum(cell.treated) < self.most_treatments:
            followed = self._followed(cell.treated, treats)
            for candidate in treats:
                if every or candidate.method.id in followed:
                    yield from self._treat(cell, candidate)
        if cell.residue == "flammable":
            yield self._done(DRY_OFF, None, self.dry, self._beside(cell, "none", cell.room))
        for number in self.rooms:
            if number > cell.room:
                room, after = self.options.rooms[number], self._beside(cell, cell.residue, number)
                yield self._done(room.move or "", None, room.minutes, after)

    def _beside(self, cell: Cell, residue: str, room: int) -> Cell:
        """Return the cell where all else is alike."""
        damage, treated, parted = cell.damage, cell.treated, cell.parted
        return self.cell(Place(damage, treated, residue, room, parted, cell.lost, cell.spoilt))

    def _others(self, found: tuple[Candidate, ...]) -> tuple[list[Candidate], list[Candidate]]:
        """Return the other ways and the treatments among what can be done."""
        known = self._here.get(id(found))
        if known is None:
            known = self._here[id(found)] = (
                [item for item in found if item.method.kind == "part"],
                [item for item in found if item.method.id in self.treatments.index],
            )
        return known

    def _followed(self, treated: tuple[int, ...], treats: list[Candidate]) -> frozenset[str]:
        key = id(treats), tuple([times > 0 for times in treated])
        found = self._follow.get(key)
        if found is None:
            found = self._follow[key] = self.treatments.followed(treats, treated)
        return found

    def _treat(self, cell: Cell, candidate: Candidate) -> Iterator[Way]:
        """Yield a treatment where it is worth doing once more."""
        method, treated = candidate.method, cell.treated
        number = self.treatments.index[method.id]
        if treated[number] < self.treatments.rows[number].repeats and self._eases(cell, number):
            left = self.most_treatments - sum(treated) - 1
            then = Place(
                cell.damage,
                self.treatments.standing_for(once_more(treated, number), left),
                wetted(cell.residue, method.residue),
                cell.room,
                cell.parted,
                cell.lost,
                cell.spoilt,
            )
            yield self._done(method.id, candidate, candidate.minutes, self.cell(then))

    def _eases(self, cell: Cell, number: int) -> bool:
        """Say whether a treatment takes enough off the torque that it mostly needs."""
        key = cell.damage in HEADLESS, self.treatments.factor(cell.treated), number
        found = self._easing.get(key)
        if found is None:
            after = self.treatments.factor(once_more(cell.treated, number))
            needs = self.attempts.resistance.required
            left = needs(cell.damage, after, MIDDLE) / needs(cell.damage, key[1], MIDDLE)
            found = self._easing[key] = left <= EASED
        return found

    def _done(self, name: str, candidate: Candidate | None, minutes: float, after: Cell) -> Way:
        """Return a move that always does its job."""
        return Way(name, candidate, minutes, (("done", 1.0, 0.0, after),), ((1.0, after),))

    def _part(self, cell: Cell, candidate: Candidate) -> Way:
        """Return a way whose odds only judgement gives."""
        treated, residue, room = cell.treated, cell.residue, cell.room
        odds = self.attempts.part(candidate.method, cell.damage)
        chance, spoils, damage, ends, spoilt, past = odds
        if damage and not sum(treated):
            spoils += self.attempts.haste(cell.damage)
        done = failed = None
        leads = []
        if damage:
            done = self.cell(Place(damage, treated, residue, room, NOTHING, cell.lost, cell.spoilt))
            leads.append((chance, done))
        price = self.stop_minutes
        if not ends:
            # each once, so that no chain of them comes back to its beginning
            tried = cell.parted | past
            after = Place(cell.damage, treated, residue, room, tried, cell.lost, cell.spoilt)
            failed, price = self.cell(self.spoilt(after) if spoilt else after), 0.0
            leads.append((1 - chance, failed))
        base = candidate.minutes + chance * spoils + (1 - chance) * price
        branches = (
            ("done" if done else "free", chance, spoils, done),
            ("failed", 1 - chance, price, failed),
        )
        return Way(candidate.method.id, candidate, base, branches, tuple(leads))


def _led(way: Way, bound: int) -> tuple[float, Leasts]:
    """Return what a move that is no turn is not below, and what may yet raise it."""
    total, leasts = way.base, []
    for share, after in way.leads:
        least = after.above[bound]
        if after.values[bound] is None:
            leasts.append((-share, bound, least, after))
        total += share * least
    return total, leasts


def wetted(residue: str, left: str | None) -> str:
    """
    Return the residue after a treatment that leaves one.

    It wets a clean part; what is there already stays, so that nothing laid over a chlorinated
    residue ever lets heat near it.
    """
    return left if left and residue == "none" else residue
