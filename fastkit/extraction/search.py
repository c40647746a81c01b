"""
The search for the least expected minutes from every state of a plan.

All that is known and done, but for the bound on the severity, is a cell; nothing ever goes back
(a tool that slipped raises the bound above its own reach), so one memoised pass finds the optimum.
A way is followed no further than to show that its minutes reach the best found; that loses nothing.
"""

from collections.abc import Iterator
from math import inf
from typing import NamedTuple

from fastkit.extraction.attempts import Attempts, Play
from fastkit.extraction.gates import DRY_OFF
from fastkit.extraction.options import Candidate, Options
from fastkit.extraction.treatments import Treatments


class Way(NamedTuple):
    """A move that is no turn: what it costs at least, and the cells that it leads to."""

    name: str
    candidate: Candidate | None  # None: a gate or a room-making move
    base: float  # its minutes and those its outcomes add
    floor: float  # base, and the quickest way on from each outcome
    branches: tuple[tuple[str, float, float, "Cell | None"], ...]  # name, share, minutes, then


class Cell:
    """All that is known and done but for the bound, with what is found of each bound."""

    __slots__ = (
        *("damage", "treated", "residue", "room", "parted", "lost", "values", "above", "picked"),
        *("spoilt", "after", "ways", "quickest"),
    )

    def __init__(self, place: "Place", count: int, quickest: float) -> None:
        self.damage, self.treated, self.residue, self.room, self.parted = place[:5]
        self.lost, self.spoilt = place[5:]
        self.quickest = quickest
        self.values: list[float | None] = [None] * (count + 1)
        self.above = [quickest] * (count + 1)  # what a value is not below
        self.picked: list[Play | Way | None] = [None] * (count + 1)  # None: stop
        self.after: dict[tuple[str | None, bool], Cell] = {}
        self.ways: list[Way] | None = None


class Place(NamedTuple):
    """What tells one cell from another; `treated` tells which treatments have been done."""

    damage: str
    treated: tuple[int, ...]
    residue: str
    room: int
    parted: float  # minutes of the heaviest other way tried at this damage
    lost_extractor: bool  # one has snapped in the hole: no second is risked
    spoilt: bool = False  # drilled out or cut in vain: only ways that take longer are left


class Search:
    """What is best in every cell at every bound."""

    def __init__(
        self,
        options: Options,
        attempts: Attempts,
        treatments: Treatments,
        rooms: tuple[int, ...],
        most_treatments: int,
        spoil: float,
        stop_minutes: float,
    ) -> None:
        self.options, self.attempts, self.treatments = options, attempts, treatments
        self.rooms, self.most_treatments = rooms, most_treatments
        self.spoil, self.stop_minutes = spoil, stop_minutes
        self.count = attempts.resistance.count
        self.dry = next(row.minutes for row in options.facts.methods if row.id == DRY_OFF)
        self.cells: dict[Place, Cell] = {}
        self._follow: dict[tuple[str, str, int, tuple[bool, ...]], frozenset[str]] = {}
        self._here: dict[tuple[str, str, int], list[Candidate]] = {}

    def cell(self, place: Place) -> Cell:
        """Return the cell of a place."""
        found = self.cells.get(place)
        if found is None:
            quickest = self.attempts.quickest(place.damage, place.parted, place.spoilt)
            found = self.cells[place] = Cell(place, self.count, quickest)
        return found

    def value(self, cell: Cell, bound: int, limit: float = inf) -> float:
        """
        Return the expected minutes from a cell and bound on, going on optimally.

        No further than to show that they are not below `limit`: what is returned then is no
        more than the value and not below the limit.
        """
        known = cell.values[bound]
        if known is not None:
            return known
        if cell.above[bound] >= limit:
            return cell.above[bound]
        best: float = min(self.stop_minutes, limit)
        picked: Play | Way | None = None
        for play in self.plays(cell, bound, best):
            if play.floor >= best:
                continue
            total, leasts = play.base, []
            for _, share, _, damage, then, extractor in play.open_:
                on = cell.after.get((damage, extractor)) or self._after(cell, damage, extractor)
                least = on.values[then]
                if least is None:
                    least = on.above[then]
                    leasts.append((-share, then, least, on))
                total += share * least
            if total < best and leasts:
                total = self._below(total, leasts, best)
            if total < best:
                best, picked = total, play
        for way in cell.ways or self._ways(cell):
            if way.floor >= best:
                break
            total, leasts = way.base, []
            for _, share, _, after in way.branches:
                if after is not None:
                    least = after.values[bound]
                    if least is None:
                        least = after.above[bound]
                        leasts.append((-share, bound, least, after))
                    total += share * least
            if total < best and leasts:
                total = self._below(total, leasts, best)
            if total < best:
                best, picked = total, way
        if picked is None and best < self.stop_minutes:
            cell.above[bound] = best
            return best
        cell.values[bound] = best
        cell.picked[bound] = picked
        return best

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
                cell.values[bound], cell.picked[bound] = best, picked

    def _below(
        self, total: float, leasts: list[tuple[float, int, float, Cell]], best: float
    ) -> float:
        """Return the total with its leasts made good; no further than to reach the best."""
        if len(leasts) > 1:
            leasts.sort(key=lambda row: row[0])
        for share, then, least, after in leasts:
            total -= share * (self.value(after, then, least + (best - total) / -share) - least)
            if total >= best:
                break
        return total

    def plays(self, cell: Cell, bound: int, best: float = inf) -> Iterator[Play]:
        """Yield the turns that may stay below the best, the likeliest bargain first."""
        if cell.spoilt:
            return
        factor = self.treatments.factor(cell.treated)
        attempts, damage = self.attempts, cell.damage
        for rough, item, turn in attempts.able(damage, cell.residue, cell.room, factor, bound):
            if rough < best and not (cell.lost and item.method.grip == "extractor"):
                yield attempts.play(damage, bound, item, turn)

    def _after(self, cell: Cell, damage: str | None, extractor: bool) -> Cell:
        """Return the cell that a turn leads to; none leads on where the fastener is out."""
        assert damage is not None
        place = Place(
            damage, cell.treated, cell.residue, cell.room, cell.parted, cell.lost or extractor
        )
        if damage == cell.damage and place.lost_extractor == cell.lost:
            found = cell
        else:
            found = self.cell(place)
        cell.after[damage, extractor] = found
        return found

    def _ways(self, cell: Cell) -> list[Way]:
        """Return the moves from a cell that are no turns, the least first."""
        if cell.ways is None:
            cell.ways = sorted(self.ways(cell), key=lambda way: way.floor)
        return cell.ways

    def ways(self, cell: Cell, every: bool = False) -> Iterator[Way]:
        """Yield the moves from a cell that are no turns; treatments not followed too."""
        found = self._candidates(cell)
        followed = self._followed(cell, found)
        treated = sum(cell.treated) < self.most_treatments and not cell.spoilt
        for candidate in found:
            method = candidate.method
            if method.kind == "part":
                if candidate.minutes > cell.parted and method.leads_to != cell.damage:
                    yield self._part(cell, candidate)
            elif treated and (every or method.id in followed):
                yield from self._treat(cell, candidate)
        place = place_of(cell)
        if cell.residue == "flammable":
            yield self._done(DRY_OFF, None, self.dry, place._replace(residue="none"))
        for number in self.rooms:
            if number > cell.room:
                room = self.options.rooms[number]
                yield self._done(room.move or "", None, room.minutes, place._replace(room=number))

    def _candidates(self, cell: Cell) -> list[Candidate]:
        """Return the other ways and treatments open here."""
        key = cell.damage, cell.residue, cell.room
        found = self._here.get(key)
        if found is None:
            found = self._here[key] = [
                item
                for item in self.options.at(*key)[0]
                if item.method.kind == "part" or item.method.id in self.treatments.index
            ]
        return found

    def _followed(self, cell: Cell, found: list[Candidate]) -> frozenset[str]:
        used = tuple([times > 0 for times in cell.treated])
        key = cell.damage, cell.residue, cell.room, used
        if key not in self._follow:
            self._follow[key] = self.treatments.followed(found, cell.treated)
        return self._follow[key]

    def _treat(self, cell: Cell, candidate: Candidate) -> Iterator[Way]:
        """Yield a treatment where it is worth doing once more."""
        method, treated = candidate.method, cell.treated
        number = self.treatments.index[method.id]
        if treated[number] < self.treatments.rows[number].repeats:
            then = place_of(cell)._replace(
                treated=once_more(treated, number),
                residue=wetted(cell.residue, method.residue),
            )
            yield self._done(method.id, candidate, candidate.minutes, then)

    def _done(self, name: str, candidate: Candidate | None, minutes: float, then: Place) -> Way:
        """Return a move that always does its job."""
        after = self.cell(then)
        floor = minutes + after.quickest
        return Way(name, candidate, minutes, floor, (("done", 1.0, 0.0, after),))

    def _part(self, cell: Cell, candidate: Candidate) -> Way:
        """Return a way whose odds only judgement gives."""
        place = place_of(cell)
        chance, spoils, damage, ends, spoilt = self.attempts.part(candidate.method, cell.damage)
        done = self.cell(place._replace(damage=damage, parted=0.0)) if damage else None
        # heavier ways only from here on, so that no chain of them comes back to its beginning
        after = place._replace(parted=candidate.minutes)
        if spoilt:
            after = after._replace(spoilt=True, treated=self.treatments.none, lost_extractor=False)
        failed = None if ends else self.cell(after)
        price = self.stop_minutes if ends else 0.0
        base = candidate.minutes + chance * spoils + (1 - chance) * price
        floor = base + (chance * done.quickest if done else 0.0)
        floor += (1 - chance) * failed.quickest if failed else 0.0
        branches = (
            ("done" if done else "free", chance, spoils, done),
            ("failed", 1 - chance, price, failed),
        )
        return Way(candidate.method.id, candidate, base, floor, branches)


def place_of(cell: Cell) -> Place:
    """Return what tells a cell from another."""
    return Place(
        cell.damage,
        cell.treated,
        cell.residue,
        cell.room,
        cell.parted,
        cell.lost,
        cell.spoilt,
    )


def once_more(treated: tuple[int, ...], number: int) -> tuple[int, ...]:
    """Return what has been done after one more treatment, by its place among them."""
    return (*treated[:number], treated[number] + 1, *treated[number + 1 :])


def wetted(residue: str, left: str | None) -> str:
    """
    Return the residue after a treatment that leaves one.

    It wets a clean part; what is there already stays, so that nothing laid over a chlorinated
    residue ever lets heat near it.
    """
    return left if left and residue == "none" else residue
