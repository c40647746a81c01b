"""A recess that is filled: whether it is cleaned out before all else, or gone round."""

from typing import NamedTuple

from fastkit.extraction.ahead import MOST_BEFORE_TURN
from fastkit.extraction.gates import CLEAN_RECESS
from fastkit.extraction.policy import Choice
from fastkit.extraction.solving import Solved, sorted_out


class Settled(NamedTuple):
    """A situation solved, its gates those that are due before its best move."""

    solved: Solved
    useful: tuple[Choice, ...]  # what can help, best first
    useless: tuple[Choice, ...]
    filled: bool  # the recess is cleaned out first


def settled(solved: Solved) -> Settled:
    """Rank what can help; the recess is cleaned out first where the best way goes into it."""
    useful, useless = sorted_out(solved)
    filled = any(gate == CLEAN_RECESS for gate, _ in solved.gates)
    if filled:  # what goes over the head saves the picking out
        methods = solved.options.facts.methods
        pick = next(row.minutes for row in methods if row.id == CLEAN_RECESS)
        useful.sort(key=lambda row: row.expected + pick * in_recess(solved, row))
    if filled and not (useful and _wants_it_clean(solved, useful[0])):
        gates = tuple(row for row in solved.gates if row[0] != CLEAN_RECESS)
        solved, filled = solved._replace(gates=gates), False
    return Settled(solved, tuple(useful), tuple(useless), filled)


def in_recess(solved: Solved, choice: Choice) -> bool:
    """Say whether a move puts a tool into the recess."""
    method = choice.candidate.method if choice.candidate else None
    return method is not None and not solved.options.outer and method.grip in ("drive", "bite")


def _wants_it_clean(solved: Solved, choice: Choice) -> bool:
    """
    Say whether the first turn that the best way comes to is one in the recess, or is no turn.

    Nobody cuts or drills before the recess was cleaned and a bit tried in it.
    """
    for _ in range(MOST_BEFORE_TURN):
        open_ = [branch.state for branch in choice.branches if branch.state is not None]
        method = choice.candidate.method if choice.candidate else None
        if (method and method.kind != "treat") or in_recess(solved, choice) or not open_:
            break
        choice = solved.policy.best(open_[0])
    parts = choice.candidate is not None and choice.candidate.method.kind == "part"
    return parts or in_recess(solved, choice)
