"""A situation solved: its policy, the gates that are due, every first move with its worth."""

from typing import NamedTuple

from fastkit.extraction.attempts import wrings
from fastkit.extraction.facts import Facts
from fastkit.extraction.gates import DRY_OFF, due
from fastkit.extraction.options import Options
from fastkit.extraction.policy import MOST_TREATMENTS, Choice, Policy, State
from fastkit.extraction.resistance import SLICES, Resistance
from fastkit.extraction.result import Reason
from fastkit.extraction.situation import TURNING, Situation
from fastkit.extraction.start import start
from fastkit.extraction.stubs import PROUD

COARSE_TREATMENTS = 1  # for asking whether an assumption changes the first move
COARSE_ROOMS = 1
LEAST_SHOWN = 0.005  # a method less likely to do its job than this cannot free the fastener


class Solved(NamedTuple):
    """A situation with its policy and the state after the gates that are due."""

    situation: Situation
    options: Options
    policy: Policy
    state: State
    gates: tuple[tuple[str, Reason], ...]
    roots: tuple[Choice, ...]  # one a method, best first; stop left out


Begun = tuple[Policy, State, tuple[tuple[str, Reason], ...]]  # the last: the gates due


def begin(
    situation: Situation,
    facts: Facts,
    slices: int,
    treatments: int,
    rooms: int | None = None,
    like: Policy | None = None,
    narrower: bool = False,
) -> Begun:
    """Return the policy and the state once the gates that are due are done; see `Policy`."""
    situation = _bearing(situation, facts)
    resistance = Resistance(situation, facts, slices)
    options = like.options if like else None
    if not options or options.situation is not situation or options.facts is not facts:
        options = Options(situation, facts, resistance, options)
    gates = asked_first(situation, facts, options)
    state, policy = start(situation, facts, options, resistance, treatments, rooms, like, narrower)
    if any(gate == DRY_OFF for gate, _ in gates):
        state = state._replace(residue="none")
    return policy, state, gates


def _bearing(situation: Situation, facts: Facts) -> Situation:
    """Return it without a load that the wheel on the ground holds and no nut of it lets go."""
    wheel = facts.part is not None and facts.part.on_wheels
    held = wheel and situation.load in ("spring", "weight")
    return situation._replace(load="none") if held else situation


def asked_first(
    situation: Situation, facts: Facts, options: Options
) -> tuple[tuple[str, Reason], ...]:
    """
    Return the gates due; what burns is dried off only where something may come that lights it.

    That hangs on no tool, room or neighbour, nor on how far the damage has gone.
    """
    still = {row.damage for row in facts.drive_states} - set(TURNING)
    states = (situation.damage,) if situation.damage in TURNING else still
    wet = situation.residue == "flammable"
    idle = wet and not any(options.openings.dried(state) for state in states)
    oil = idle or options.openings.wants_oil
    return due(situation, options.outer, options.shop.variants, oil)


def solve(
    situation: Situation,
    facts: Facts,
    slices: int = SLICES,
    treatments: int = MOST_TREATMENTS,
    like: Policy | None = None,
) -> Solved:
    """
    Return the policy and the root choices, gates that are due taken as done.

    `like` is the policy of a situation that differs little, from the same facts: it spares time
    and changes nothing.
    """
    policy, state, gates = begin(situation, facts, slices, treatments, None, like)
    roots = _roots(policy, state)
    if roots and roots[0].move == DRY_OFF:
        gates = (*gates, (DRY_OFF, Reason("due_first", ("residue_flammable",))))
        state = state._replace(residue="none")
        roots = _roots(policy, state)
    return Solved(situation, policy.options, policy, state, gates, roots)


def first_with_less_room(
    situation: Situation, facts: Facts, wider: Policy
) -> tuple[Choice | None, Policy]:
    """
    Return the best first choice that can help, the others not ranked, and the policy.

    `wider` is the policy of the situation with more room: what is known of it bounds the search.
    """
    policy, state, gates = begin(
        situation,
        facts,
        wider.resistance.count,
        wider.search.most_treatments,
        None,
        wider,
        narrower=not facts.own,  # whose tries are counted by the method: a weaker tool may gain
    )
    policy.start(state)
    best = policy.best(state)
    found = None
    if best.move not in ("stop", DRY_OFF):
        found = useful_first(Solved(situation, policy.options, policy, state, gates, (best,)))
    return found or useful_first(solve(situation, facts)), policy


class Coarse(NamedTuple):
    """A plan of fewer moves, for comparison alone."""

    policy: Policy
    state: State
    first: str
    minutes: float


def _fewer_moves(situation: Situation, facts: Facts, like: Policy | None) -> Begun:
    return begin(situation, facts, SLICES, COARSE_TREATMENTS, COARSE_ROOMS, like)


def coarse_plan(situation: Situation, facts: Facts, like: Policy | None = None) -> Coarse:
    """Return the first move and the minutes of a plan of one treatment and one room at most."""
    policy, state, gates = _fewer_moves(situation, facts, like)
    move, minutes = policy.first(state)
    return Coarse(policy, state, gates[0][0] if gates else move, minutes)


def still_first(situation: Situation, facts: Facts, coarse: Coarse) -> bool:
    """Say whether another situation, compared in the same way, begins with the same move."""
    policy, state, gates = _fewer_moves(situation, facts, coarse.policy)
    return gates[0][0] == coarse.first if gates else policy.holds(state, coarse.first)


def solve_first(situation: Situation, facts: Facts) -> Solved:
    """Return the policy and the best root choice alone; every one where the best cannot help."""
    policy, state, gates = begin(situation, facts, SLICES, MOST_TREATMENTS)
    policy.start(state)
    best = policy.best(state)
    solved = Solved(situation, policy.options, policy, state, gates, (best,))
    if best.move in ("stop", DRY_OFF) or useful_first(solved) is None:
        return solve(situation, facts)
    return solved


def with_root(solved: Solved, move: str) -> Solved:
    """Return the same with one more root choice ranked, where there is such a move."""
    if any(choice.move == move for choice in solved.roots):
        return solved
    return solved._replace(roots=(*solved.roots, *_roots(solved.policy, solved.state, move)))


def _roots(policy: Policy, state: State, only: str | None = None) -> tuple[Choice, ...]:
    policy.start(state)
    best: dict[str, Choice] = {}
    for choice in policy.choices(state, only):
        kept = best.get(choice.move)
        if kept is None or _rank(choice) < _rank(kept):
            best[choice.move] = choice
    return tuple(sorted(best.values(), key=lambda item: item.expected))


def sorted_out(solved: Solved) -> tuple[list[Choice], list[Choice]]:
    """Part the root choices into those that can help and those that cannot."""
    useful: list[Choice] = []
    useless: list[Choice] = []
    for choice in solved.roots:
        own = choice.branches[0].share
        helps = choice.chance > 0 and own >= LEAST_SHOWN and not _disproved(choice, solved)
        helps = helps and not wrung(choice)
        (useful if helps else useless).append(choice)
    return useful, useless


def wrung(choice: Choice) -> bool:
    """Say whether a move breaks what it should turn: its extractor, or a shank under its head."""
    snapped = [branch for branch in choice.branches if branch.name == "snapped"]
    if not any(branch.state and branch.state.damage == PROUD for branch in snapped):
        snapped = []  # a stub alone never parts proud
    broken = [branch for branch in choice.branches if branch.name == "broken-extractor"]
    return wrings(sum(row.share for row in (*snapped, *broken)), choice.branches[0].share)


def _disproved(choice: Choice, solved: Solved) -> bool:
    """Say whether a turn failed here although the model held no bond possible that it would not."""
    tried, policy = solved.situation.tried, solved.policy
    if choice.move not in tried or choice.candidate is None or not choice.candidate.chain:
        return False
    since = tried[len(tried) - tried[::-1].index(choice.move) :]
    treated = any(name in policy.treatments.index for name in since)
    return solved.state.bound >= policy.resistance.count and not treated


def useful_first(solved: Solved) -> Choice | None:
    """Return the best first choice that can help, as the plan ranks it."""
    useful, _ = sorted_out(solved)
    return useful[0] if useful else None


def _rank(choice: Choice) -> tuple[bool, float]:
    """Order the tools of a method: one that can do it before one that merely slips."""
    return choice.branches[0].share < LEAST_SHOWN or wrung(choice), choice.expected
