"""The plan for a fastener that will not move: ranked moves, what is ruled out, when to stop."""

from collections.abc import Iterable, Sequence

from fastkit.extraction.ahead import FREES, in_room_made, later, leads_to, opened
from fastkit.extraction.attempts import LEAST_CHANCE
from fastkit.extraction.chain import weakest
from fastkit.extraction.facts import Facts
from fastkit.extraction.gates import CLEAN_RECESS, DRY_OFF, gate_minutes, undone
from fastkit.extraction.options import Candidate
from fastkit.extraction.policy import Choice, State
from fastkit.extraction.recess import in_recess, settled
from fastkit.extraction.result import (
    Assumption,
    Later,
    Move,
    Plan,
    Reason,
    RuledOut,
    WeakestLink,
)
from fastkit.extraction.rooms import CLEARED, MOVED
from fastkit.extraction.rules import HEATS, barred_rooms, giving_off
from fastkit.extraction.search import STOP
from fastkit.extraction.sensitivity import changes, measure
from fastkit.extraction.situation import SNAPPED, TURNING, Situation
from fastkit.extraction.solving import (
    Solved,
    coarse_plan,
    solve,
    solve_first,
    useful_first,
    with_root,
    wrung,
)
from fastkit.extraction.warmth import LIGHT
from fastkit.reach.fit import Margins

FREE = Margins(None, None, None, None)
LAST_RESORT_SPOILS = 0.1  # share of the spoiled part's price from which a way is a last resort
NEAR_FIT_METHODS = ("oversize-bit", "next-size-socket")
INSERT_OUT = "insert-out"  # the fastener is out, its insert with it
CLEANED_OUT = "what fills the recess picked out of it first"
WELD = "weld-nut"  # a nut that broke off is welded on again
GLOW_WORDS = "a dull glow in the dark is too hot to use again"
NO_GLOW_NEAR = "no glow at all, what stands beside it fails without one"
NO_GLOW_WORDS = "no glow at all, this body melts or softens without one"
DISPROVED = "it was tried in vain with more than such a bond takes: more holds it"
WRINGS = "it breaks something far more surely than it frees it: weaken the bond first"
PARTED = (CLEARED, MOVED, "bench")  # rooms in which what came away is no longer at it


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
    coarse = coarse_plan(situation, facts, solved.policy)
    return ranked(solved, facts)._replace(
        assumed=tuple(
            Assumption(what, value, changes(coarse, what, solved, facts)) for what, value in assumed
        ),
        measure_next=measure([what for what, _ in assumed], solved, facts, coarse),
    )


def line(situation: Situation, facts: Facts, most: int) -> tuple[Plan, Solved]:
    """
    Return the first move and what follows it on failure, up to so many; nothing else is ranked.

    Nor is anything said of what is ruled out.
    """
    solved = solve_first(situation, facts)
    choice = useful_first(solved)
    for _ in range(most - 1):
        if choice is None:
            break
        move = _if_it_fails(solved, choice)[0]
        solved = with_root(solved, move)
        choice = next((root for root in solved.roots if root.move == move), None)
    return ranked(solved, facts)._replace(ruled_out=()), solved


def ranked(solved: Solved, facts: Facts) -> Plan:
    """Return the plan alone: nothing of what was assumed, nor what to measure."""
    solved, useful, useless, filled = settled(solved)
    moves = [*_gate_moves(solved, facts, useful)]
    after = moves[-1].method if moves else None
    for choice in useful:
        move = _move(solved, choice, len(moves) + 1, after)
        if filled and in_recess(solved, choice):
            more = (*move.conditions, CLEANED_OUT)
            move = move._replace(after=CLEAN_RECESS, conditions=more)
        moves.append(move)
    best = useful[0] if useful else None
    stop_when, last, rooms = _stop_when(solved, best)
    gate_minutes = sum(move.minutes for move in moves if move.rank <= len(solved.gates))
    return Plan(
        solved.situation,
        (),
        tuple(moves),
        _ruled_out(solved, useless),
        (best.expected if best else solved.policy.stop_minutes) + gate_minutes,
        best.chance if best else 0.0,
        stop_when,
        leads_to(solved, best) if best else None,
        in_room_made(solved, best) if best else None,
        None,
        last,
        opened(solved, rooms),
    )


def _gate_moves(solved: Solved, facts: Facts, useful: Sequence[Choice]) -> list[Move]:
    """Return the gates that are due as the first ranks, each after the one before it."""
    methods = {method.id: method for method in facts.methods}
    moves: list[Move] = []
    minutes = {
        gate: gate_minutes(methods[gate], solved.situation, facts.bench) for gate, _ in solved.gates
    }
    follow = useful[0].move if useful else STOP
    for number, (gate, reason) in enumerate(solved.gates):
        method = methods[gate]
        later = solved.gates[number + 1][0] if number + 1 < len(solved.gates) else follow
        best = useful[0].expected if useful else solved.policy.stop_minutes
        rest = sum(minutes[name] for name, _ in solved.gates[number:])
        moves.append(
            Move(
                number + 1,
                gate,
                None,
                "first" if number == 0 else "next",
                method.chance or 1.0,
                minutes[gate],
                best + rest,
                FREE,
                None,
                (("done", method.chance or 1.0), ("not done", 1 - (method.chance or 1.0))),
                (reason,),
                (),
                moves[-1].method if moves else None,
                (),
                later,
                None,
            )
        )
    return moves


def _move(solved: Solved, choice: Choice, rank: int, after: str | None) -> Move:
    candidate, method = choice.candidate, None
    for row in solved.options.facts.methods:
        if row.id == choice.move:
            method = row
    assert method is not None
    own = choice.branches[0].share + sum(
        branch.share for branch in choice.branches if branch.name == INSERT_OUT
    )
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
        why.append(Reason("time", (choice.minutes,)))
    else:
        why.append(Reason("chance_time", (own, choice.minutes)))
    noted = solved.policy.attempts.own(method.id, solved.state.damage)
    if noted and method.kind in FREES:
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
        *_if_it_fails(solved, choice),
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
    policy, state, slices = solved.policy, solved.state, solved.policy.resistance.slices
    factor = policy.attempts.left(method or "", policy.treatments.factor(state.treated))
    known = min(slices.edges[state.bound], slices.hardest)
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
    number = solved.policy.treatments.index[choice.move]
    then = solved._replace(state=solved.state.once_treated(number, None))
    return Reason("treats", (choice.move, _required(solved, None)[1], _required(then, None)[1]))


def _outcomes(choice: Choice) -> tuple[tuple[str, float], ...]:
    shares: dict[str, float] = {}
    for branch in choice.branches:
        shares[branch.name] = shares.get(branch.name, 0.0) + branch.share
    total = sum(shares.values())
    return tuple((name, share / total) for name, share in shares.items() if share > 0)


def _if_it_fails(solved: Solved, choice: Choice) -> tuple[str, Later | None]:
    """
    Return the best move after the likeliest outcome that leaves the fastener in.

    Besides it what that move asks for there.
    """
    open_ = [branch for branch in choice.branches if branch.state is not None]
    if not open_:
        return STOP, None
    shares: dict[str, float] = {}
    for branch in open_:
        shares[branch.name] = shares.get(branch.name, 0.0) + branch.share
    likeliest = max(open_, key=lambda branch: (shares[branch.name], branch.share))
    assert likeliest.state is not None
    then = solved.policy.best(likeliest.state)
    snapped = likeliest.state.damage in SNAPPED and likeliest.state.damage != solved.state.damage
    if then.move != choice.move or then.move == WELD or snapped:  # a stub is held otherwise
        return then.move, later(solved, then, likeliest.state)
    other = _another(solved, choice, likeliest.state)
    return (other.move, later(solved, other, likeliest.state)) if other else (STOP, None)


def _another(solved: Solved, choice: Choice, state: State) -> Choice | None:
    """Return the way on where one has just failed, whatever the model held possible of it."""
    others = [row for row in solved.policy.choices(state) if row.move != choice.move]
    return min(others, key=lambda row: (row.expected, row.move), default=None)


def _ruled_out(solved: Solved, useless: Iterable[Choice]) -> tuple[RuledOut, ...]:
    """Return what cannot be used here, and what would bring it back."""
    state, options = solved.state, solved.options
    found = options.open(state.damage, state.residue, state.room)
    listed = {choice.move for choice in solved.roots}
    dry: set[str] = set()
    if state.residue == "flammable":
        dry = {item.method.id for item in options.open(state.damage, "none", state.room)}
    result = [*undone(options.situation, options.outer, options.shop.variants)]
    for row in options.shut(state.damage, state.residue, state.room):
        if row.method in listed:  # as on what is more damaged: the best there is
            continue
        opens = Reason("method_first", (DRY_OFF,)) if row.method in dry else row.opens_it
        result.append(row._replace(opens_it=opens))
    stands = solved.situation._replace(support=options.rooms[0].support)
    for method, bar in barred_rooms(stands, options.facts, options.shop.vetoes).items():
        result.append(RuledOut(method, bar.because, None, bar.opens_it))
    for choice in useless:
        result.append(_too_weak(solved, choice))
    for item in dict.fromkeys(item.method.id for item in found):
        if item not in listed:
            why = "no stronger than what has failed, or it leaves this bond as it is"
            result.append(RuledOut(item, Reason("cannot_free", (why,)), None, None))
    return tuple(result)


def _too_weak(solved: Solved, choice: Choice) -> RuledOut:
    """Return what a turn that frees nothing carries against what is asked, and what helps it."""
    if wrung(choice):
        return RuledOut(choice.move, Reason("cannot_free", (WRINGS,)), None, None)
    link = _link(solved, choice)
    if link is None or choice.candidate is None:
        why = Reason("cannot_free", ("nothing that follows frees it",))
        return RuledOut(choice.move, why, None, None)
    if link.capacity_nm > link.required_nm[-1]:  # and yet it was in vain
        why = Reason("cannot_free", (DISPROVED,))
        return RuledOut(choice.move, why, None, _helped_by(solved, choice.candidate))
    why = Reason("too_weak", (link.part, link.capacity_nm, *link.required_nm))
    return RuledOut(choice.move, why, None, _helped_by(solved, choice.candidate))


def _helped_by(solved: Solved, candidate: Candidate) -> Reason | None:
    """Return the treatment after which a turn may do it; the strongest that can be done here."""
    policy, state = solved.policy, solved.state
    here = {item.method.id for item in solved.options.open(state.damage, "none", state.room)}
    for row in policy.treatments.rows:  # strongest first
        if row.method in here:
            then = state.once_treated(policy.treatments.index[row.method], None)
            factor = policy.treatments.factor(then.treated)
            turn = policy.attempts.turning(candidate, state.damage, factor)
            if turn.outcomes(state.bound)[0] >= LEAST_CHANCE:
                return Reason("method_first", (row.method,))
            return None
    return None


def _held_by_more(solved: Solved) -> bool:
    """Say whether a turn was in vain at what is said not to have seized."""
    situation = solved.situation
    turns = {row.id for row in solved.options.facts.methods if row.kind == "turn"}
    loose = situation.seized == "none" and situation.damage not in TURNING
    return loose and not turns.isdisjoint(situation.tried)


def _at_touching(solved: Solved, choice: Choice, state: State) -> bool:
    """
    Say whether what touches it forbids a move here: elsewhere it would come along.

    But for what is taken off by itself, or left behind with its line.
    """
    item, situation = choice.candidate, solved.situation
    parted = solved.options.rooms[state.room].move in PARTED
    left = {*situation.loose, *situation.piped} if parted else ()
    touching = [near for near in situation.near if near.mm == 0 and near.thing not in left]
    variant = item.variant.id if item and item.variant else ""
    beside = solved.options.shop.neighbourhood
    return bool(beside.too_near(choice.move, variant, tuple(touching)))


def _clear_of_touching(solved: Solved, state: State) -> Choice | None:
    """Return the best way on that nothing touching the fastener forbids."""
    choices = solved.policy.choices(state)
    clear = [row for row in choices if not _at_touching(solved, row, state)]
    return min(clear, key=lambda row: (row.expected, row.move), default=None)


def _limit(solved: Solved) -> str:
    """Say how hot is too hot: short of a glow where the body or what stands beside it fails."""
    if solved.situation.into in LIGHT:
        return NO_GLOW_WORDS
    return NO_GLOW_NEAR if solved.options.warmth.gentle else GLOW_WORDS


def _hand_on(solved: Solved) -> Reason:
    """Say from when on it is cheaper handed on, and to whom."""
    minutes = (solved.policy.stop_minutes,)
    if solved.situation.is_beside("airbag"):
        return Reason("cheaper_at_dealer", minutes)
    return Reason("cheaper_to_stop", minutes)


def _stop_when(
    solved: Solved, best: Choice | None
) -> tuple[tuple[Reason, ...], Later | None, set[int]]:
    """
    Follow the likeliest failures to the last move worth making, and name the signs to stop.

    Besides them the rooms that are made on the way.
    """
    if best is None:
        return (_hand_on(solved),), None, set()
    reasons = [Reason("holds_more")] if _held_by_more(solved) else []
    choice, state, last, moved = best, solved.state, None, ""
    hot = giving_off(solved.options.facts, HEATS)
    turned = heated = False
    failed: set[str] = set()  # since bond, room or damage last changed
    rooms: set[int] = set()
    for _ in range(20):
        turned = turned or bool(choice.candidate and choice.candidate.chain)
        heated = heated or choice.move in hot
        frees = choice.candidate is not None and choice.candidate.method.kind in FREES
        if frees and choice.move not in failed:
            last, moved = later(solved, choice, state), solved.options.rooms[state.room].move or ""
        open_ = [branch for branch in choice.branches if branch.state is not None]
        if not open_:
            break
        then = max(open_, key=lambda branch: branch.share).state
        assert then is not None
        rooms.add(then.room)
        failed = {*failed, choice.move} if frees and then.damage == state.damage else set()
        following: Choice | None = solved.policy.best(then)
        if choice is best and following and following.move in failed - {WELD}:
            following = _another(solved, choice, then)
        if last is None and following and _at_touching(solved, following, then):
            following = _clear_of_touching(solved, then)
        if following is None or following.move == STOP or _at_touching(solved, following, then):
            break
        choice, state = following, then
    if last is None:
        reasons.append(Reason("nothing_frees"))
    elif moved:
        reasons.append(Reason("after_failures_moved", (last.method, moved)))
    else:
        reasons.append(Reason("after_failures", (last.method,)))
    if turned:
        reasons.append(Reason("shank_yields"))
    if heated:
        reasons.append(Reason("heat_limit", (_limit(solved),)))
    reasons.append(_hand_on(solved))
    return tuple(reasons), last, rooms
