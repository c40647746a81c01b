"""Whether the first move hangs on what was assumed, and what to measure for it."""

from collections.abc import Iterable
from typing import Any, NamedTuple

from fastkit.extraction.facts import Facts
from fastkit.extraction.options import Options
from fastkit.extraction.otherwise import narrower, otherwise
from fastkit.extraction.result import Measure
from fastkit.extraction.situation import Situation
from fastkit.extraction.solving import (
    Coarse,
    Solved,
    asked_first,
    coarse_plan,
    first_with_less_room,
    still_first,
    useful_first,
)
from fastkit.extraction.stubs import PROUD
from fastkit.records.method import Variant

AXES = ("above_mm", "beside_mm", "swing_deg", "stub_mm")
SCALES = (1.25, 1.5, 2.0, 3.0, 4.0)  # of the bond, to either side


class Steady(NamedTuple):
    """By what factor the bond may be weaker or stronger before another first move wins."""

    weaker: float | None  # None: not even at the furthest factor tried
    stronger: float | None


def steady(situation: Situation, facts: Facts) -> Steady:
    """Return how wrong the bond, the worst known of all numbers, must be to change the first."""
    coarse = coarse_plan(situation, facts)

    def changed_by(scale: float) -> bool:
        rows = tuple(
            row._replace(
                tau_thread_mpa=scale * row.tau_thread_mpa,
                tau_head_mpa=scale * row.tau_head_mpa,
                tau_shank_mpa=scale * row.tau_shank_mpa,
            )
            for row in facts.seizures
        )
        other = facts._replace(seizures=rows)
        return not still_first(situation, other, coarse)

    return Steady(
        next((scale for scale in SCALES if changed_by(1 / scale)), None),
        next((scale for scale in SCALES if changed_by(scale)), None),
    )


def changes(coarse: Coarse, what: str, solved: Solved, facts: Facts) -> bool:
    """Say whether the first move would be another if one assumption were otherwise."""
    if any(not _stands(other, solved, facts) for other in narrower(what, solved.situation)):
        return True
    return any(
        not still_first(other, rows, coarse)
        for other, rows in otherwise(what, solved.situation, facts)
    )


def _stands(other: Situation, solved: Solved, facts: Facts) -> bool:
    """Say whether the first move can still be made, as it is, in a narrower situation."""
    options = Options(other, facts, solved.policy.resistance, solved.options)
    asked = asked_first(other, facts, options)
    gates = tuple(gate for gate, _ in asked)
    if gates != tuple(gate for gate, _ in solved.gates):
        return False
    first = next((choice for choice in solved.roots if choice.chance > 0), None)
    if first is None or first.candidate is None:
        return True
    state, mine = solved.state, first.candidate
    way = options.openings.tools(mine.method, state.damage, other.residue, state.room)
    return way is not None and (
        way.tools is None or any(tool == mine.variant for tool, _ in way.tools)
    )


def measure(assumed: Iterable[str], solved: Solved, facts: Facts, coarse: Coarse) -> Measure | None:
    """
    Return the unmeasured axis whose shortage would cost the plan most, and its threshold.

    The axes are put in order by the best root that a shortage leaves; what the first move then
    becomes is taken from a whole plan, and said only where it is another. The threshold is what the
    smallest tool takes with which the method is still first.
    """
    choice = useful_first(solved)
    if solved.gates or not choice or not choice.candidate or not choice.candidate.variant:
        return None
    losses: list[tuple[float, str]] = []
    for axis in AXES:
        need = _need(choice.candidate.variant, axis, solved)
        if axis in assumed and need:
            less = _with(solved, axis, need - 1.0)
            losses.append((_left(less, solved, facts) - choice.expected, axis))
    for _, axis in sorted(losses, reverse=True, key=lambda row: row[0]):
        found = _threshold(axis, choice.move, solved, facts, coarse)
        if found is not None:
            return found
    return None


def _threshold(
    axis: str, move: str, solved: Solved, facts: Facts, coarse: Coarse
) -> Measure | None:
    """
    Return the room below which a move is first no more, where that is what one tool takes.

    What a coarse plan begins with otherwise is not asked of a whole one.
    """
    state = solved.state
    ways = solved.options.openings.open(state.damage, state.residue, state.room)
    tools = [tool for way in ways if way.method.id == move for tool, _ in way.tools or ()]
    needs = {_need(tool, axis, solved) for tool in tools}
    for need in sorted(needs - {0.0}):
        if coarse.first == move and not still_first(_with(solved, axis, need), facts, coarse):
            continue
        at, policy = first_with_less_room(_with(solved, axis, need), facts, solved.policy)
        if at is not None and at.move == move:
            less = _with(solved, axis, need - 1.0)
            below, _ = first_with_less_room(less, facts, policy)
            becomes = below.move if below else "stop"
            return Measure(axis, need, becomes) if becomes != move else None
    return None


def _with(solved: Solved, axis: str, value: float) -> Situation:
    room: dict[str, Any] = {axis: value}
    return solved.situation._replace(**room)


def _need(tool: Variant, axis: str, solved: Solved) -> float:
    """Return the room or the stub that a tool takes; 0 where it takes none."""
    if axis == "stub_mm":
        options, damage = solved.options, solved.state.damage
        grips = options.shop.stub_grips
        taken = grips.reach(tool.method, tool.id, damage, options.size.d)
        return taken or 0.0 if damage == PROUD else 0.0
    return getattr(solved.options.envelope(tool), axis) or 0.0


def _left(other: Situation, solved: Solved, facts: Facts) -> float:
    """Return what the best root that a narrower situation leaves is worth, in minutes."""
    options = Options(other, facts, solved.policy.resistance, solved.options)
    state = solved.state
    ways = {
        way.method.id: None if way.tools is None else [tool for tool, _ in way.tools]
        for way in options.openings.open(state.damage, state.residue, state.room)
    }
    for choice in solved.roots:
        tools = ways.get(choice.move, [])
        candidate = choice.candidate
        if tools is None or (candidate and candidate.variant in tools):
            return choice.expected
    return solved.policy.stop_minutes
