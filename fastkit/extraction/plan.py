"""The plan for a fastener that will not move: ranked moves, what is ruled out, when to stop."""

from collections.abc import Iterable, Sequence
from typing import NamedTuple

from fastkit.extraction.chain import weakest
from fastkit.extraction.facts import Facts
from fastkit.extraction.gates import DRY_OFF, due
from fastkit.extraction.options import Options
from fastkit.extraction.policy import MOST_TREATMENTS, Choice, Policy, State
from fastkit.extraction.resistance import QUANTILES, Resistance
from fastkit.extraction.result import (
    Assumption,
    Measure,
    Move,
    Plan,
    Reason,
    RuledOut,
    WeakestLink,
)
from fastkit.extraction.sensitivity import narrower, otherwise
from fastkit.extraction.situation import Situation
from fastkit.extraction.start import start
from fastkit.reach.fit import Margins

COARSE_QUANTILES = 3  # for asking whether an assumption changes the first move
COARSE_TREATMENTS = 1
FREE = Margins(None, None, None, None)
LEAST_SHOWN = 0.005  # a method less likely to do its job than this cannot free the fastener
LAST_RESORT_SPOILS = 0.1  # share of the spoiled part's price from which a way is a last resort
NEAR_FIT_METHODS = ("oversize-bit", "next-size-socket")
WELD = "weld-nut"  # a nut that broke off is welded on again
HOT = ("flame-heat", "induction-heat", "warm-host", "iron-heat", "weld-nut")


class Solved(NamedTuple):
    """A situation with its policy and the state after the gates that are due."""

    situation: Situation
    options: Options
    policy: Policy
    state: State
    gates: tuple[tuple[str, Reason], ...]
    roots: tuple[Choice, ...]  # one a method, best first; stop left out


def begin(
    situation: Situation,
    facts: Facts,
    quantiles: int,
    treatments: int,
    like: Options | None = None,
) -> tuple[Options, Policy, State, tuple[tuple[str, Reason], ...]]:
    """Return the options, the policy, and the state once the gates that are due are done."""
    resistance = Resistance(situation, facts, quantiles)
    if like and like.situation is situation and like.facts is facts:
        options = like
    else:
        options = Options(situation, facts, resistance, like)
    gates = due(situation, options.outer)
    state, policy = start(situation, facts, options, resistance, treatments)
    if any(gate == DRY_OFF for gate, _ in gates):
        state = state._replace(residue="none")
    return options, policy, state, gates


def solve(
    situation: Situation,
    facts: Facts,
    quantiles: int = QUANTILES,
    treatments: int = MOST_TREATMENTS,
) -> Solved:
    """Return the policy and the root choices, gates that are due taken as done."""
    options, policy, state, gates = begin(situation, facts, quantiles, treatments)
    roots = _roots(policy, state)
    if roots and roots[0].move == DRY_OFF:
        gates = (*gates, (DRY_OFF, Reason("due_first", ("residue_flammable",))))
        state = state._replace(residue="none")
        roots = _roots(policy, state)
    return Solved(situation, options, policy, state, gates, roots)


def coarse_first(
    situation: Situation, facts: Facts, like: Options | None = None
) -> tuple[str, float]:
    """Return the first move and the expected minutes of a coarser plan, for comparison alone."""
    _, policy, state, gates = begin(situation, facts, COARSE_QUANTILES, COARSE_TREATMENTS, like)
    policy.rooms = (*policy.rooms[:1], *policy.rooms[1:][-1:])  # the nearest and the widest
    move, minutes = policy.first(state)
    return (gates[0][0] if gates else move), minutes


def _roots(policy: Policy, state: State) -> tuple[Choice, ...]:
    best: dict[str, Choice] = {}
    for choice in policy.choices(state):
        kept = best.get(choice.move)
        if kept is None or choice.expected < kept.expected:
            best[choice.move] = choice
    return tuple(sorted(best.values(), key=lambda item: (item.expected, item.move)))


def plan(
    situation: Situation, facts: Facts, assumed: Sequence[tuple[str, str | float | bool | None]]
) -> Plan:
    """
    Return the ranked plan.

    Args:
        situation: What is known of the fastener; `None` on a room axis means free.
        facts: Rows of the database.
        assumed: Names and values of what was not said, in the order to be shown.

    Raises:
        StopIteration: When the facts lack the row of a seizure, material or method named.
    """
    solved = solve(situation, facts)
    useful, useless = _sorted_out(solved)
    stop_minutes = solved.policy.stop_minutes
    coarse, _ = coarse_first(situation, facts, solved.options)
    shown = tuple(
        Assumption(what, value, _changes(coarse, what, solved, facts)) for what, value in assumed
    )
    moves = [*_gate_moves(solved, facts)]
    after = moves[-1].method if moves else None
    for choice in useful:
        moves.append(_move(solved, choice, len(moves) + 1, after))
    best = useful[0] if useful else None
    gate_minutes = sum(move.minutes for move in moves if move.rank <= len(solved.gates))
    return Plan(
        situation,
        shown,
        tuple(moves),
        _ruled_out(solved, useless),
        (best.expected if best else stop_minutes) + gate_minutes,
        best.chance if best else 0.0,
        _stop_when(solved, best),
        _measure([what for what, _ in assumed], solved, facts),
    )


def _sorted_out(solved: Solved) -> tuple[list[Choice], list[Choice]]:
    """Part the root choices into those that can help and those that cannot."""
    useful: list[Choice] = []
    useless: list[Choice] = []
    for choice in solved.roots:
        own = choice.branches[0].share
        helps = choice.chance > 0 and own >= LEAST_SHOWN and not _disproved(choice, solved)
        (useful if helps else useless).append(choice)
    return useful, useless


def _disproved(choice: Choice, solved: Solved) -> bool:
    """Say whether a turn failed here although the model held no bond possible that it would not."""
    tried, policy = solved.situation.tried, solved.policy
    if choice.move not in tried or choice.candidate is None or not choice.candidate.chain:
        return False
    since = tried[len(tried) - tried[::-1].index(choice.move) :]
    treated = any(name in policy.index for name in since)
    return solved.state.bound >= policy.resistance.count and not treated


def useful_first(solved: Solved) -> Choice | None:
    """Return the best first choice that can help, as the plan ranks it."""
    useful, _ = _sorted_out(solved)
    return useful[0] if useful else None


def _gate_moves(solved: Solved, facts: Facts) -> list[Move]:
    """Return the gates that are due as the first ranks, each after the one before it."""
    methods = {method.id: method for method in facts.methods}
    moves: list[Move] = []
    follow = next((choice.move for choice in solved.roots if choice.chance > 0), "stop")
    for number, (gate, reason) in enumerate(solved.gates):
        method = methods[gate]
        later = solved.gates[number + 1][0] if number + 1 < len(solved.gates) else follow
        best = solved.roots[0].expected if solved.roots else solved.policy.stop_minutes
        rest = sum(methods[name].minutes for name, _ in solved.gates[number:])
        moves.append(
            Move(
                number + 1,
                gate,
                None,
                "first" if number == 0 else "next",
                method.chance or 1.0,
                method.minutes,
                best + rest,
                FREE,
                None,
                (("done", method.chance or 1.0), ("not done", 1 - (method.chance or 1.0))),
                (reason,),
                (),
                moves[-1].method if moves else None,
                (),
                later,
            )
        )
    return moves


def _move(solved: Solved, choice: Choice, rank: int, after: str | None) -> Move:
    candidate, method = choice.candidate, None
    for row in solved.options.facts.methods:
        if row.id == choice.move:
            method = row
    assert method is not None
    own = choice.branches[0].share
    if method.kind in ("treat", "room", "gate"):
        own = method.chance or 1.0
    verdict = "first" if rank == 1 else "next"
    if rank > 1 and (
        method.spoils >= LAST_RESORT_SPOILS or choice.expected >= solved.policy.stop_minutes
    ):
        verdict = "last-resort"
    link, why = _link(solved, choice), []
    if candidate and candidate.variant:
        why.append(_fits(candidate.variant.title, candidate.fit.margins))
    if method.id in NEAR_FIT_METHODS and solved.options.near:
        near = solved.options.near[0]
        why.append(Reason("near_fit", (near.drive, -near.play_mm, near.how)))
    if link:
        why.append(Reason("weakest", (link.part, link.capacity_nm, *link.required_nm)))
    if method.kind == "treat":
        why.append(_treats(solved, choice))
    why.append(Reason("chance_time", (own, choice.minutes)))
    noted = solved.policy.own(method.id, solved.state.damage)
    if noted and method.kind in ("turn", "part"):
        why.append(Reason("own_tries", (str(noted.ok), str(noted.of))))
    return Move(
        rank,
        method.id,
        candidate.variant.id if candidate and candidate.variant else None,
        verdict,
        own,
        choice.minutes,
        choice.expected,
        candidate.fit.margins if candidate else FREE,
        link,
        _outcomes(choice),
        tuple(why),
        (candidate.variant.tool,) if candidate and candidate.variant else (),
        after,
        candidate.conditions if candidate else (),
        _if_it_fails(solved, choice),
    )


def _fits(title: str, margins: Margins) -> Reason:
    """Name the tool and the axis on which it fits most tightly."""
    axes = [(margin, axis) for axis, margin in margins._asdict().items() if margin is not None]
    if not axes:
        return Reason("fits_with", (title, "", 0.0))
    margin, axis = min(axes)
    return Reason("fits_with", (title, axis, margin))


def _required(solved: Solved, method: str | None) -> tuple[float, float, float]:
    """Return R in N·m at the 10th, 50th and 90th percentile of what is still possible."""
    policy, state = solved.policy, solved.state
    factor = policy.factor(state.treated) * policy.own_effect.get(method or "", 1.0)
    known = min(state.bound / policy.resistance.count, 1 - 0.25 / policy.resistance.count)
    low, middle, high = (
        policy.resistance.required(state.damage, factor, known + (1 - known) * part) / 1000
        for part in (0.1, 0.5, 0.9)
    )
    return low, middle, high


def _link(solved: Solved, choice: Choice) -> WeakestLink | None:
    if choice.candidate is None or not choice.candidate.chain:
        return None
    link = weakest(choice.candidate.chain)
    return WeakestLink(link.part, link.capacity / 1000, _required(solved, choice.move))


def _treats(solved: Solved, choice: Choice) -> Reason:
    """Say what a treatment does to the middle of the torque that is needed."""
    after = choice.branches[0].state
    assert after is not None
    then = solved._replace(state=after)
    return Reason("treats", (choice.move, _required(solved, None)[1], _required(then, None)[1]))


def _outcomes(choice: Choice) -> tuple[tuple[str, float], ...]:
    shares: dict[str, float] = {}
    for branch in choice.branches:
        shares[branch.name] = shares.get(branch.name, 0.0) + branch.share
    total = sum(shares.values())
    return tuple((name, share / total) for name, share in shares.items() if share > 0)


def _if_it_fails(solved: Solved, choice: Choice) -> str:
    """Return the best move after the likeliest outcome that leaves the fastener in."""
    open_ = [branch for branch in choice.branches if branch.state is not None]
    if not open_:
        return "stop"
    likeliest = max(open_, key=lambda branch: branch.share)
    assert likeliest.state is not None
    then = solved.policy.best(likeliest.state).move
    if then != choice.move or then == WELD:
        return then
    # what has just failed is not the way on, whatever the model held possible
    others = [row for row in solved.policy.choices(likeliest.state) if row.move != then]
    return min(others, key=lambda row: (row.expected, row.move)).move if others else "stop"


def _ruled_out(solved: Solved, useless: Iterable[Choice]) -> tuple[RuledOut, ...]:
    """Return what cannot be used here, and what would bring it back."""
    state, options = solved.state, solved.options
    found, out = options.at(state.damage, state.residue, state.room)
    listed = {choice.move for choice in solved.roots}
    dry: set[str] = set()
    if state.residue == "flammable":
        dry = {item.method.id for item in options.at(state.damage, "none", state.room)[0]}
    result = []
    for row in out:
        opens = Reason("method_first", (DRY_OFF,)) if row.method in dry else row.opens_it
        result.append(row._replace(opens_it=opens))
    for choice in useless:
        why = "too weak for what holds it" if choice.candidate else "nothing that follows frees it"
        result.append(RuledOut(choice.move, Reason("cannot_free", (why,)), None, None))
    for item in dict.fromkeys(item.method.id for item in found):
        if item not in listed:
            why = "no stronger than what has failed, or it leaves this bond as it is"
            result.append(RuledOut(item, Reason("cannot_free", (why,)), None, None))
    return tuple(result)


def _stop_when(solved: Solved, best: Choice | None) -> tuple[Reason, ...]:
    """Follow the likeliest failures to the last move worth making, and name the signs to stop."""
    if best is None:
        return (Reason("cheaper_to_stop", (solved.policy.stop_minutes,)),)
    reasons, choice, last = [], best, best.move
    turned = heated = False
    for _ in range(20):
        turned = turned or bool(choice.candidate and choice.candidate.chain)
        heated = heated or choice.move in HOT
        open_ = [branch for branch in choice.branches if branch.state is not None]
        if not open_:
            break
        state = max(open_, key=lambda branch: branch.share).state
        assert state is not None
        choice = solved.policy.best(state)
        if choice.move == "stop":
            break
        last = choice.move
    reasons.append(Reason("after_failures", (last,)))
    if turned:
        reasons.append(Reason("shank_yields"))
    if heated:
        reasons.append(Reason("heat_limit", ("a dull glow in the dark is too hot to use again",)))
    reasons.append(Reason("cheaper_to_stop", (solved.policy.stop_minutes,)))
    return tuple(reasons)


def _changes(first: str, what: str, solved: Solved, facts: Facts) -> bool:
    """Say whether the first move would be another if one assumption were otherwise."""
    if any(not _stands(other, solved, facts) for other in narrower(what, solved.situation)):
        return True
    return any(
        coarse_first(other, rows, solved.options)[0] != first
        for other, rows in otherwise(what, solved.situation, facts)
    )


def _stands(other: Situation, solved: Solved, facts: Facts) -> bool:
    """Say whether the first move can still be made, as it is, in a narrower situation."""
    resistance = Resistance(other, facts, COARSE_QUANTILES)
    options = Options(other, facts, resistance, solved.options)
    gates = tuple(gate for gate, _ in due(other, options.outer))
    if gates != tuple(gate for gate, _ in solved.gates):
        return False
    first = next((choice for choice in solved.roots if choice.chance > 0), None)
    if first is None or first.candidate is None:
        return True
    state, mine = solved.state, first.candidate
    for way in options.openings.at(state.damage, other.residue, state.room)[0]:
        if way.method.id == mine.method.id:
            return way.tools is None or any(tool == mine.variant for tool, _ in way.tools)
    return False


def _measure(assumed: Iterable[str], solved: Solved, facts: Facts) -> Measure | None:
    """
    Return the unmeasured axis whose shortage would cost the plan most, and its threshold.

    The axes are put in order by the best root that a shortage leaves; what the first move then
    becomes is taken from a whole plan, and said only where it is another.
    """
    choice = useful_first(solved)
    if solved.gates or not choice or not choice.candidate or not choice.candidate.variant:
        return None
    envelope = solved.options.envelope(choice.candidate.variant)
    losses: list[tuple[float, str, float, Situation]] = []
    for axis in ("above_mm", "beside_mm", "swing_deg"):
        need = getattr(envelope, axis)
        if axis in assumed and need:
            less = solved.situation._replace(**{axis: need - 1.0})
            losses.append((_left(less, solved, facts) - choice.expected, axis, need, less))
    for _, axis, need, less in sorted(losses, reverse=True, key=lambda row: row[0]):
        then = solve(less, facts)
        best = useful_first(then)
        becomes = best.move if best else "stop"
        if becomes != choice.move:
            return Measure(axis, need, becomes)
    return None


def _left(other: Situation, solved: Solved, facts: Facts) -> float:
    """Return what the best root that a narrower situation leaves is worth, in minutes."""
    options = Options(other, facts, Resistance(other, facts, COARSE_QUANTILES), solved.options)
    state = solved.state
    ways = {
        way.method.id: None if way.tools is None else [tool for tool, _ in way.tools]
        for way in options.openings.at(state.damage, state.residue, state.room)[0]
    }
    for choice in solved.roots:
        tools = ways.get(choice.move, [])
        candidate = choice.candidate
        if tools is None or (candidate and candidate.variant in tools):
            return choice.expected
    return solved.policy.stop_minutes
