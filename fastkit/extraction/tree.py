"""The policy drawn out: what is done, what may come of it, and what is done then."""

from typing import NamedTuple

from fastkit.extraction.facts import Facts
from fastkit.extraction.gates import gate_minutes
from fastkit.extraction.policy import Choice, Policy, State
from fastkit.extraction.recess import settled
from fastkit.extraction.search import STOP
from fastkit.extraction.situation import Situation
from fastkit.extraction.solving import solve

DEPTH = 3  # moves that may fail, one below the other


class Outcome(NamedTuple):
    """One outcome of a move; `damage` is what it leaves, `then` what follows."""

    name: str  # free, done, nothing, worse-drive, snapped, torn, broken-extractor, failed
    share: float
    damage: str | None  # None: the fastener is out
    then: "Node | None"  # None: nothing more to do


class Node(NamedTuple):
    """A move with what it takes from here on; without outcomes where the drawing ends."""

    move: str  # a method, or stop
    variant: str | None
    minutes: float
    expected_minutes: float
    chance: float
    outcomes: tuple[Outcome, ...]


def tree(situation: Situation, facts: Facts, depth: int = DEPTH) -> Node | None:
    """Return the policy to a depth, the gates due before it; None where nothing is done."""
    solved, useful, *_ = settled(solve(situation, facts))
    if not useful and not solved.gates:
        return None
    stop = Node(STOP, None, 0.0, solved.policy.stop_minutes, 0.0, ())
    node = _node(solved.policy, useful[0], depth) if useful else stop
    methods = {method.id: method for method in facts.methods}
    for gate, _ in reversed(solved.gates):
        minutes = gate_minutes(methods[gate], situation, facts.bench)
        done = Outcome("done", 1.0, situation.damage, node)
        expected = minutes + node.expected_minutes
        node = Node(gate, None, minutes, expected, node.chance, (done,))
    return node


def _node(policy: Policy, choice: Choice, depth: int) -> Node:
    candidate = choice.candidate
    variant = candidate.variant.id if candidate and candidate.variant else None
    outcomes = tuple(_outcomes(policy, choice, depth)) if depth else ()
    return Node(choice.move, variant, choice.minutes, choice.expected, choice.chance, outcomes)


def _outcomes(policy: Policy, choice: Choice, depth: int) -> list[Outcome]:
    """Return the outcomes, those alike in name, damage and next move together, likeliest kept."""
    shares: dict[tuple[str, str | None, str], float] = {}
    states: dict[tuple[str, str | None, str], tuple[float, State | None]] = {}
    total = sum(branch.share for branch in choice.branches)
    for branch in choice.branches:
        if branch.share <= 0:
            continue
        state = branch.state
        key = branch.name, state and state.damage, policy.best(state).move if state else ""
        shares[key] = shares.get(key, 0.0) + branch.share / total
        if key not in states or branch.share > states[key][0]:
            states[key] = branch.share, state
    found = []
    for key, (_, state) in states.items():
        treats = key[0] == "done"  # a preparation cannot fail: it takes nothing of the depth
        then = _node(policy, policy.best(state), depth if treats else depth - 1) if state else None
        found.append(Outcome(key[0], shares[key], key[1], then))
    return found
