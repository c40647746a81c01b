"""What must not be done here: named vetoes, and hazards too near a neighbour."""

from collections.abc import Iterable, Mapping
from typing import NamedTuple

from fastkit.extraction.facts import Facts
from fastkit.extraction.result import Reason
from fastkit.extraction.situation import Near, Situation
from fastkit.records.hazard import Clearance
from fastkit.records.method import Veto

TRUE_WORDS = ("yes", "true", "1")


class Bar(NamedTuple):
    """Why a method is out, and what would bring it back."""

    because: Reason
    opens_it: Reason | None


def view(
    situation: Situation, size_mm: float, drive_system: str | None, **now: object
) -> dict[str, object]:
    """Return the situation as the vetoes read it; `now` overrides what has changed since."""
    seen = {**situation._asdict(), "size_mm": size_mm, "drive_system": drive_system, **now}
    seen["near"] = frozenset(near.thing for near in situation.near)
    return seen


def holds(veto: Veto, seen: Mapping[str, object]) -> bool:
    """
    Say whether one row of a rule is true of the situation.

    Raises:
        ValueError: When the row names a field or an operator that does not exist.
    """
    if veto.field not in seen:
        raise ValueError(f"veto {veto.rule}: unknown field {veto.field!r}")
    have = seen[veto.field]
    if isinstance(have, frozenset):
        return bool(have & set(veto.value.split()))
    if isinstance(have, bool):
        return have == (veto.value in TRUE_WORDS)
    if veto.op in ("=", "in"):
        return str(have) in veto.value.split()
    if veto.op not in ("<", ">"):
        raise ValueError(f"veto {veto.rule}: unknown operator {veto.op!r}")
    if not isinstance(have, (int, float)):
        return False
    return have < float(veto.value) if veto.op == "<" else have > float(veto.value)


CHANGING = frozenset(("damage", "residue", "support", "load", "recess", "near"))


class Vetoes:
    """The rules of every method, the parts that a plan cannot change settled once."""

    def __init__(self, vetoes: Iterable[Veto], seen: Mapping[str, object]) -> None:
        rules: dict[tuple[str, str], list[Veto]] = {}
        for veto in vetoes:
            rules.setdefault((veto.method, veto.rule), []).append(veto)
        self._open: dict[str, list[tuple[Veto, list[Veto]]]] = {}
        for (method, _), rows in rules.items():
            if all(holds(row, seen) for row in rows if row.field not in CHANGING):
                changing = [row for row in rows if row.field in CHANGING]
                self._open.setdefault(method, []).append((rows[0], changing))

    def check(self, method: str, seen: Mapping[str, object]) -> Bar | None:
        """Return the first rule of a method that holds."""
        for first, rows in self._open.get(method, ()):
            if all(holds(row, seen) for row in rows):
                opens = Reason("rule", (first.opens_it,)) if first.opens_it else None
                return Bar(Reason("veto", (first.rule, first.because)), opens)
        return None


class Neighbourhood:
    """Hazards of methods against what stands beside the work."""

    def __init__(self, facts: Facts) -> None:
        self.hazards: dict[str, list[str]] = {}
        for row in facts.method_hazards:
            self.hazards.setdefault(row.method, []).append(row.hazard)
        self.clearances: dict[tuple[str, str], Clearance] = {
            (row.neighbour, row.hazard): row for row in facts.clearances
        }
        self.movable = {row.id for row in facts.neighbours if row.movable}

    def moved(self, near: tuple[Near, ...], distance: float | None) -> tuple[Near, ...]:
        """Return the neighbours after a room-making move; what can be moved goes further off."""
        if distance is None:
            return tuple(item for item in near if item.thing not in self.movable)
        return tuple(
            Near(item.thing, item.mm + distance) if item.thing in self.movable else item
            for item in near
        )

    def check(self, method: str, near: tuple[Near, ...]) -> tuple[Bar | None, tuple[str, ...]]:
        """Return what forbids the method, or the conditions under which it may be used."""
        conditions = []
        for item in near:
            for hazard in self.hazards.get(method, ()):
                row = self.clearances.get((item.thing, hazard))
                if row is None:
                    continue
                if item.mm < row.forbid_mm:
                    because = Reason(
                        "neighbour", (item.thing, hazard, item.mm, row.forbid_mm, row.because)
                    )
                    opens = Reason("more_distance", (item.thing, row.forbid_mm))
                    return Bar(because, opens), ()
                if item.mm < row.shield_mm and row.condition:
                    conditions.append(row.condition)
        return None, tuple(dict.fromkeys(conditions))
