"""What the first moves make way for, with what it asks for where it is then done."""

from collections.abc import Iterable

from fastkit.extraction.gates import AT_IT, ISOLATE, own_lines
from fastkit.extraction.options import Candidate
from fastkit.extraction.policy import Choice, State
from fastkit.extraction.result import Later, Turned
from fastkit.extraction.rooms import CLEARED
from fastkit.extraction.solving import Solved

BATTERY_POSTS = "battery"
FREES = ("turn", "part")  # kinds of methods that free it; the others make ready for them
MOST_BEFORE_TURN = 8  # treatments one after another; more are never worth it


def leads_to(solved: Solved, choice: Choice) -> Turned | None:
    """Return the turn that the treatments before it make way for; none where there are none."""
    state: State | None = solved.state
    for done in range(MOST_BEFORE_TURN):
        if state is None:
            break
        kind = choice.candidate.method.kind if choice.candidate else ""
        if kind in FREES:
            return _asking(solved, choice, state) if done else None
        state = choice.branches[0].state if choice.branches else None
        if state is not None:
            choice = solved.policy.best(state)
    return None


def in_room_made(solved: Solved, choice: Choice) -> Turned | None:
    """Return what follows where the first move makes room; none where it does not."""
    after = choice.branches[0].state if choice.branches else None
    if after is None or after.room == solved.state.room:
        return None
    following = solved.policy.best(after)
    return _asking(solved, following, after) if following.candidate else None


def later(solved: Solved, choice: Choice, state: State) -> Later:
    """Return a choice of a later state with what it asks for there."""
    if choice.candidate is None:
        return Later(choice.move, state.damage, (), ())
    away = _moved_away(solved, choice.candidate, state)
    return Later(choice.move, state.damage, choice.candidate.conditions, away)


def opened(solved: Solved, rooms: Iterable[int]) -> tuple[str, ...]:
    """Return the neighbours whose lines may be opened for the rooms made, or to make it safe."""
    situation, options = solved.situation, solved.options
    reach = {row.method: row.distance_mm or AT_IT for row in options.facts.room_gains}
    moves = {options.rooms[number].move for number in rooms} - {None}
    far = max((reach[move] for move in moves if move and move != CLEARED), default=0.0)
    shut = (BATTERY_POSTS, *situation.sealed)  # nothing of them is opened
    found = [near.thing for near in situation.near if near.mm < far and near.thing not in shut]
    if CLEARED in moves:
        found += situation.piped
    if any(gate == ISOLATE for gate, _ in solved.gates):
        found += own_lines(situation)
    return tuple(dict.fromkeys(found))


def _asking(solved: Solved, choice: Choice, state: State) -> Turned:
    item = choice.candidate
    assert item is not None
    away = _moved_away(solved, item, state)
    return Turned(choice.move, choice.branches[0].share, choice.minutes, item.conditions, away)


def _moved_away(solved: Solved, item: Candidate, state: State) -> tuple[tuple[str, float], ...]:
    """Return what was too near for a move and must go with what is moved, and how far [mm]."""
    rooms, beside = solved.options.rooms, solved.options.shop.neighbourhood
    if rooms[state.room].move == CLEARED:
        return ()  # which says so itself
    moved = {near.thing for near in rooms[state.room].near}  # the others are left behind
    variant = item.variant.id if item.variant else ""
    here = beside.too_near(item.method.id, variant, rooms[solved.state.room].near)
    return tuple((thing, mm) for thing, mm in here if thing in moved)
