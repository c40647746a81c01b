"""What a move asks for here, in words: of what stands beside it, holds it up or is on it."""

from collections.abc import Iterable, Iterator

from fastkit.answers.opened import opens_a_line
from fastkit.answers.wording import thing
from fastkit.extraction.facts import Facts
from fastkit.extraction.gates import JACK, PRESSURE, UNLOAD, at_hand, touching
from fastkit.extraction.options import is_outer
from fastkit.extraction.result import Later, Move, Plan, Turned
from fastkit.extraction.situation import Situation
from fastkit.notation.units import show_mm
from fastkit.records.method import Condition

GOVERNS = (
    "The maker's specification governs. Brakes, steering, restraint, fuel, pressure: qualified "
    "hands, local rules. Chances are workshop judgement."
)
STANDS = "stands under it before anything else, never a jack alone"
UNDER_IT = f"{STANDS.capitalize()}. {GOVERNS}"
ON_WHEELS = "wheel on the ground, brake on"
THEN_LIFTED = f"{ON_WHEELS.capitalize()}, until it is loose; then lifted, and on stands. {GOVERNS}"

MOVED = "the {0} moved {1} off"
DRAINED = "line off, drained and cleaned of {0}"  # what stands in it is moved nowhere
OF_A_LINE, OF_A_BODY = "line vented", "sealed body"  # in the conditions of clearances.csv
SEALED = "sealed"  # in conditions.csv, of what is loose: a gas strut, and no hose
RUNS_OUT = ("brake-fluid", "fuel")  # stands in the part itself, or in its line


class Asks:
    """What moves ask for at one fastener; `rows` are those of conditions.csv."""

    def __init__(self, situation: Situation, facts: Facts, rows: Iterable[Condition]) -> None:
        self.situation, self.facts = situation, facts
        self.on_wheels = bool(facts.part and facts.part.on_wheels)
        self._rows: dict[str, list[Condition]] = {}
        for row in rows:
            self._rows.setdefault(row.method, []).append(row)
        self._seen: dict[str, dict[str, frozenset[str]]] = {}  # by damage

    @property
    def hand(self) -> frozenset[str]:
        """The neighbours and states by which texts are told, as `gates.at_hand`."""
        return self._hand(self.situation)

    @property
    def governs(self) -> str:
        """What goes before all else: what it rests on, and the maker's specification."""
        if self.on_wheels:
            return THEN_LIFTED
        return UNDER_IT if self.situation.support == "unknown" else GOVERNS

    def move(self, move: Move) -> tuple[str, ...]:
        """Return what a move asks for as things stand."""
        return self._all(move.method, self.situation.damage, move.conditions)

    def later(self, later: Later | None) -> tuple[str, ...]:
        """Return what a move that comes later asks for, at the damage that it then meets."""
        if later is None:
            return ()
        return self._all(later.method, later.damage, later.conditions, later.away)

    def ahead(self, turned: Turned | None) -> Turned | None:
        """Return what is led to with all that it asks for."""
        if turned is None:
            return None
        asked = self._all(turned.method, self.situation.damage, turned.conditions, turned.away)
        return turned._replace(conditions=asked)

    def last(self, found: Plan) -> Later | None:
        """Return the last move worth making with all that it asks for, and the room made for it."""
        rooms = [row.values[1] for row in found.stop_when if row.code == "after_failures_moved"]
        moved = [text for room in rooms for text in self._of(str(room), self.situation.damage)]
        last = found.last
        return last and last._replace(conditions=(*moved, *self.later(last)))

    def _all(
        self,
        method: str,
        damage: str,
        conditions: Iterable[str],
        away: Iterable[tuple[str, float]] = (),
    ) -> tuple[str, ...]:
        """Return what must move first, what the method asks for, and what its neighbours do."""
        return (*self._moved(away), *self._of(method, damage), *self._of_form(conditions))

    def _moved(self, away: Iterable[tuple[str, float]]) -> Iterator[str]:
        """Yield what must have moved, and how far; what stands in the part itself is drained."""
        situation, parts = self.situation, {row.id: row.part for row in self.facts.neighbours}
        inside = [near.thing for near in situation.near if near.mm == 0 and near.thing in RUNS_OUT]
        drained = inside if opens_a_line(situation, self.facts) else []
        for name, mm in away:
            if name in drained:
                yield DRAINED.format(thing(name))
            else:
                yield MOVED.format(parts[name], show_mm(mm))

    def _of(self, method: str, damage: str) -> tuple[str, ...]:
        """Return what a method asks for here, whatever its tool."""
        held = [row.condition for row in self._rows.get(method, ()) if self._is_so(row, damage)]
        jack = self.situation.support == JACK and method != UNLOAD
        standing = (ON_WHEELS if self.on_wheels else STANDS,) if jack else ()
        return tuple(dict.fromkeys((*standing, *held)))

    def _is_so(self, row: Condition, damage: str) -> bool:
        """Say whether a field has one of the values of a row."""
        if damage not in self._seen:
            self._seen[damage] = self._values(self.situation._replace(damage=damage))
        return not self._seen[damage][row.field].isdisjoint(row.value.split())

    def _values(self, situation: Situation) -> dict[str, frozenset[str]]:
        """Return the values of every field that a row may name."""
        near = frozenset(item.thing for item in situation.near)
        piped, sealed = situation.piped, situation.sealed
        return {
            **{name: frozenset((str(value),)) for name, value in situation._asdict().items()},
            "near": near,
            "loose": frozenset(SEALED if name in sealed else name for name in situation.loose),
            "piped": near.intersection(piped),
            "sealed": near.intersection(sealed),
            "unnamed": near.difference(piped, sealed),
            "tried": frozenset(situation.tried),
            "hand": self._hand(situation),
            "touching": touching(situation),
        }

    def _hand(self, situation: Situation) -> frozenset[str]:
        outer = is_outer(situation, self.facts)
        return at_hand(situation, outer, self.on_wheels, self.facts.thread.nominal_mm)

    def _of_form(self, conditions: Iterable[str]) -> Iterator[str]:
        """Yield what a neighbour asks for, without what is for a line on a strut, and the same."""
        situation = self.situation
        sealed = PRESSURE in situation.sealed
        piped = not sealed and PRESSURE in (*situation.piped, *situation.loose)
        for condition in conditions:
            kept = [
                part
                for part in condition.split("; ")
                if not (sealed and part.startswith(OF_A_LINE))
                and not (piped and part.startswith(OF_A_BODY))
            ]
            if kept:
                yield "; ".join(kept)


def only_with(conditions: Iterable[str]) -> tuple[str, ...]:
    """Return what a move asks for as cautions."""
    return tuple(f"Only with this: {condition}." for condition in conditions)
