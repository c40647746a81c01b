"""What must not be done here: named vetoes, and hazards too near a neighbour."""

from collections.abc import Collection, Iterable, Mapping, Sequence
from typing import NamedTuple

from fastkit.extraction.facts import Facts
from fastkit.extraction.result import Reason
from fastkit.extraction.situation import Near, Situation
from fastkit.records.hazard import Clearance
from fastkit.records.method import Renewal, ToolVeto, Veto

TRUE_WORDS = frozenset(("yes", "true", "1"))
MOTOR = "motor"  # the hazard of what a motor drives; a hand has no brushes
OF_TOOL = "/"  # between a method and its tool
FIRE = ("flame", "sparks", "heat")
HEATS = ("flame", "heat")  # of them, what warms what stands beside
WHAT_IT_IS = ("residue", "coating", "into")  # fields that heat of any kind may make poison or fire


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


class Rule(NamedTuple):
    """One condition of a rule, its value read once: a set of words, a number, or yes or no."""

    field: str
    op: str
    words: frozenset[str]
    number: float


def _rule(veto: Veto | Renewal) -> Rule:
    number = float(veto.value) if veto.op in ("<", ">") else 0.0
    return Rule(veto.field, veto.op, frozenset(veto.value.split()), number)


def holds(rule: Rule, seen: Mapping[str, object]) -> bool:
    """
    Say whether one condition of a rule is true of the situation.

    Raises:
        ValueError: When the rule names a field or an operator that does not exist.
    """
    if rule.field not in seen:
        raise ValueError(f"veto: unknown field {rule.field!r}")
    have = seen[rule.field]
    if isinstance(have, frozenset):
        return not have.isdisjoint(rule.words)
    if isinstance(have, bool):
        return have == (not rule.words.isdisjoint(TRUE_WORDS))
    if rule.op in ("=", "in"):
        return str(have) in rule.words
    if rule.op == "not":
        return str(have) not in rule.words
    if rule.op not in ("<", ">"):
        raise ValueError(f"veto on {rule.field}: unknown operator {rule.op!r}")
    if not isinstance(have, (int, float)):
        return False
    return have < rule.number if rule.op == "<" else have > rule.number


def all_hold(rows: Iterable[Veto | Renewal], seen: Mapping[str, object]) -> bool:
    """Say whether every condition of one rule is true of the situation; errors as of `holds`."""
    return all(holds(_rule(row), seen) for row in rows)


ROOMS_OWN = frozenset(("support", "near"))  # what making room changes
STATES_OWN = frozenset(("damage", "residue"))  # what attempts change


class Open(NamedTuple):
    """A rule that may yet hold: how it is told, the bits of its conditions on room and state."""

    bar: Bar
    room: int
    state: int


def tool_key(method: str, variant: str) -> str:
    """Return the name by which the rules on one tool of a method are kept."""
    return f"{method}{OF_TOOL}{variant}"


def is_tool(key: str) -> bool:
    """Say whether rules are kept by the name of one tool, and not of a method."""
    return OF_TOOL in key


def method_of(key: str) -> str:
    """Return the method of a `tool_key`."""
    return key.partition(OF_TOOL)[0]


def _of_tool(row: ToolVeto) -> Veto:
    """Return a rule on one tool as one on a method of its own."""
    cells = row._asdict()
    key = tool_key(cells["method"], cells.pop("variant"))
    return Veto(**{**cells, "method": key})


def _by_rule(vetoes: Iterable[Veto]) -> dict[tuple[str, str], list[Veto]]:
    """Return the conditions of each method's each rule."""
    rules: dict[tuple[str, str], list[Veto]] = {}
    for veto in vetoes:
        rules.setdefault((veto.method, veto.rule), []).append(veto)
    return rules


class Vetoes:
    """
    The rules of every method, and of single tools by their `tool_key`.

    Each condition has a bit, one where several rules ask it: a rule holds where all its bits are
    true. What is true is asked once of each value of a field.
    """

    def __init__(self, facts: Facts) -> None:
        bits: dict[tuple[str, str, str], int] = {}
        self._conditions: dict[str, list[tuple[int, Rule]]] = {}
        self._rules: list[tuple[int, int, int, Veto]] = []  # bits: fixed, of the room, of the state
        vetoes = (*facts.vetoes, *(_of_tool(row) for row in facts.tool_vetoes))
        for rows in _by_rule(vetoes).values():
            fixed = room = state = 0
            for row in rows:
                key = row.field, row.op, row.value
                bit = bits.get(key)
                if bit is None:
                    bit = bits[key] = 1 << len(bits)
                    self._conditions.setdefault(row.field, []).append((bit, _rule(row)))
                if row.field in ROOMS_OWN:
                    room |= bit
                elif row.field in STATES_OWN:
                    state |= bit
                else:
                    fixed |= bit
            self._rules.append((fixed, room, state, rows[0]))
        moves = {row.method for row in facts.room_gains}
        self._of_rooms = [rule for rule in self._rules if rule[-1].method in moves]
        self._fixed = [name for name in self._conditions if name not in ROOMS_OWN | STATES_OWN]
        self._open: dict[int, Open] = {}
        self._true: dict[tuple[str, object], int] = {}
        self._settled: dict[int, dict[str, tuple[Open, ...]]] = {}

    def settle(self, seen: Mapping[str, object]) -> dict[str, tuple[Open, ...]]:
        """Return the rules of each method that hold but for room and state."""
        true = self.true(seen, self._fixed)
        found = self._settled.get(true)
        if found is None:
            found = self._settled[true] = {}
            for fixed, room, state, row in self._rules:
                if not fixed & ~true:
                    if id(row) not in self._open:
                        self._open[id(row)] = Open(_bar(row), room, state)
                    found[row.method] = (*found.get(row.method, ()), self._open[id(row)])
        return found

    def rooms(self, seen: Mapping[str, object]) -> dict[str, Bar]:
        """Return the room-making moves that a rule forbids."""
        true, found = self.true(seen, self._conditions), dict[str, Bar]()
        for fixed, room, state, row in self._of_rooms:
            if not (fixed | room | state) & ~true:
                found.setdefault(row.method, _bar(row))
        return found

    def true(self, seen: Mapping[str, object], fields: Iterable[str]) -> int:
        """Return the bits of the conditions on these fields that are true of what is seen."""
        bits = 0
        for field in fields:
            key = field, seen.get(field)
            found = self._true.get(key)
            if found is None:
                rules = self._conditions.get(field, ())
                found = self._true[key] = sum([bit for bit, rule in rules if holds(rule, seen)])
            bits |= found
        return bits


def _bar(veto: Veto) -> Bar:
    opens = Reason("rule", (veto.opens_it,)) if veto.opens_it else None
    return Bar(Reason("veto", (veto.rule, veto.because)), opens)


def barred_rooms(situation: Situation, facts: Facts, vetoes: Vetoes) -> dict[str, Bar]:
    """Return the room-making moves that a rule forbids where the work now stands."""
    return vetoes.rooms(view(situation, facts.thread.nominal_mm, None))


def giving_off(facts: Facts, hazards: Iterable[str]) -> frozenset[str]:
    """Return the methods that give off one of some hazards, whatever their tool."""
    asked = frozenset(hazards)
    return frozenset(row.method for row in facts.method_hazards if row.hazard in asked)


class Never(NamedTuple):
    """What no fire may do here, whatever else keeps it away."""

    near: tuple[tuple[Near, str, float], ...]  # neighbour, hazard, how far off it wants that [mm]
    because: tuple[tuple[str, tuple[str, ...]], ...]  # why, and the methods that it forbids


def never(situation: Situation, facts: Facts) -> Never:
    """
    Return how far off the neighbours want fire, and why what the fastener is forbids it for good.

    Said of every hazard and every reason, also where a method is out for another one already.
    """
    rows = {(row.neighbour, row.hazard): row.forbid_mm for row in facts.clearances}
    near = [
        (item, hazard, rows[item.thing, hazard])
        for item in situation.near
        for hazard in FIRE
        if item.mm < rows.get((item.thing, hazard), 0.0)
    ]
    hot = giving_off(facts, FIRE)
    seen = view(situation, facts.thread.nominal_mm, None)
    rules = _by_rule(veto for veto in facts.vetoes if veto.method in hot and not veto.opens_it)
    because: dict[str, list[str]] = {}
    for (method, _), found in rules.items():
        if all(row.field in WHAT_IT_IS for row in found) and all_hold(found, seen):
            because.setdefault(found[0].because, []).append(method)
    return Never(tuple(near), tuple((why, tuple(them)) for why, them in because.items()))


class Neighbourhood:
    """Hazards of methods against what stands beside the work."""

    def __init__(self, facts: Facts) -> None:
        self.hazards: dict[str, list[str]] = {}
        for row in facts.method_hazards:
            self.hazards.setdefault(row.method, []).append(row.hazard)
        self.of_tools: dict[tuple[str, str], list[str]] = {}
        for tool in facts.variant_hazards:
            self.of_tools.setdefault((tool.method, tool.variant), []).append(tool.hazard)
        self.clearances: dict[tuple[str, str], Clearance] = {
            (row.neighbour, row.hazard): row for row in facts.clearances
        }
        self.movable = {row.id for row in facts.neighbours if row.movable}
        self.aside = {
            row.id: (row.aside_mm, row.aside_min)
            for row in facts.neighbours
            if row.aside_mm is not None and row.aside_min is not None
        }
        self.undone = {
            row.id: (row.undone_mm, row.undone_min)
            for row in facts.neighbours
            if row.undone_mm is not None and row.undone_min is not None
        }
        self.reach: dict[str, float] = {}  # how far off each forbids anything
        for clear in facts.clearances:
            known = self.reach.get(clear.neighbour, 0.0)
            self.reach[clear.neighbour] = max(known, clear.forbid_mm)
        self.of_motors = frozenset(
            row.condition for row in facts.clearances if row.hazard == MOTOR and row.condition
        )

    def cleared(self, situation: Situation) -> tuple[tuple[Near, ...], float]:
        """
        Return the neighbours once what is loose and in the way is aside, and the minutes.

        A rigid pipe is undone at its unions.
        """
        found, minutes = [], 0.0
        for item in situation.near:
            away = self.aside.get(item.thing) if item.thing in situation.loose else None
            if item.thing in situation.piped and item.thing in situation.rigid:
                away = self.undone.get(item.thing)
            if away and item.mm < self.reach.get(item.thing, 0.0):
                item, minutes = Near(item.thing, item.mm + away[0]), minutes + away[1]
            found.append(item)
        return tuple(found), minutes

    def moved(
        self,
        near: tuple[Near, ...],
        distance: float | None,
        rigid: Collection[str],
        own: Collection[str] | None = None,
    ) -> tuple[Near, ...]:
        """
        Return the neighbours after a room-making move; what can be moved goes further off.

        What is `rigid` stays. `own`: it is the assembly that moves; what touches the
        fastener goes along, and so do these, which it brings with it by its name.
        """
        if distance is None:
            return tuple(item for item in near if item.thing not in self.movable)

        def stays(item: Near) -> bool:
            along = item.thing in rigid if own is None else item.mm == 0 or item.thing in own
            return along or item.thing not in self.movable

        return tuple(item if stays(item) else Near(item.thing, item.mm + distance) for item in near)

    def check(
        self, method: str, near: tuple[Near, ...], before: tuple[Near, ...]
    ) -> tuple[Bar | None, tuple[str, ...]]:
        """
        Return what forbids a method with whatever tool, or what it may be used with only.

        `before`: the same neighbours where they stand as long as another is moved in their place.
        """
        return self._weigh(self.hazards.get(method, ()), near, before)

    def check_tool(
        self, method: str, variant: str, near: tuple[Near, ...], before: tuple[Near, ...]
    ) -> tuple[Bar | None, tuple[str, ...]]:
        """Return what forbids one tool of a method, or what it may be used with only."""
        return self._weigh(self.of_tools.get((method, variant), ()), near, before)

    def too_near(
        self, method: str, variant: str, near: tuple[Near, ...]
    ) -> tuple[tuple[str, float], ...]:
        """Return the neighbours that forbid a method with a tool, and how far off it wants them."""
        hazards = (*self.hazards.get(method, ()), *self.of_tools.get((method, variant), ()))
        rows = self.clearances
        wanted = {
            item: max(
                (
                    rows[item.thing, name].forbid_mm
                    for name in hazards
                    if (item.thing, name) in rows
                ),
                default=0.0,
            )
            for item in near
        }
        return tuple((item.thing, mm) for item, mm in wanted.items() if item.mm < mm)

    def _weigh(
        self, hazards: Sequence[str], near: tuple[Near, ...], before: tuple[Near, ...]
    ) -> tuple[Bar | None, tuple[str, ...]]:
        """
        Return what forbids the method, or the conditions under which it may be used.

        Of several neighbours that forbid it, the one that wants it furthest off.
        """
        conditions, forbidding = [], []
        for item, stood in zip(near, before, strict=True):
            for hazard in hazards:
                row = self.clearances.get((item.thing, hazard))
                if row is None:
                    continue
                if item.mm < row.forbid_mm:
                    forbidding.append((item, row))
                elif stood.mm < row.shield_mm and row.condition:
                    conditions.append(row.condition)
        if not forbidding:
            return None, tuple(dict.fromkeys(conditions))
        item, row = max(forbidding, key=lambda found: found[1].forbid_mm)
        values = (item.thing, row.hazard, item.mm, row.forbid_mm, row.because)
        opens = Reason("more_distance", (item.thing, row.forbid_mm))
        return Bar(Reason("neighbour", values), opens), ()
