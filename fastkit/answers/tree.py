"""The policy drawn to a depth of three, and how far its weakest number may be off."""

import sqlite3
from typing import Any

from fastkit.answers.extract_answer import ExtractAnswer
from fastkit.answers.facts import gather
from fastkit.extraction.sensitivity import Steady, steady
from fastkit.extraction.situation import Situation
from fastkit.extraction.tree import Node, tree
from fastkit.reference.store import connect

__all__ = ["Node", "Steady", "drawn", "how_steady", "tree_document", "why_first"]


def drawn(situation: Situation, store: sqlite3.Connection | None = None) -> Node | None:
    """Return the policy for a situation that `extract` has understood."""
    return tree(situation, gather(store or connect(), situation))


def how_steady(situation: Situation, store: sqlite3.Connection | None = None) -> Steady:
    """Return by what factor the bond must be off before another first move wins."""
    return steady(situation, gather(store or connect(), situation))


def why_first(answer: ExtractAnswer, off: Steady) -> dict[str, Any] | None:
    """
    Return the JSON of why rank 1 stands before rank 2; gates that are due are not ranked.

    `steady` says by what factor the bond, the worst known number, must be weaker or stronger before
    another first move wins; null where not even four times does it.
    """
    ways = [step for step in answer.plan if step.kind != "gate"]
    if not ways:
        return None
    saved = ways[1].expected_minutes - ways[0].expected_minutes if len(ways) > 1 else None
    return {
        "first": ways[0].method,
        "second": ways[1].method if len(ways) > 1 else None,
        "saves_min": saved,
        "reasons": [{"method": step.method, "why": step.why} for step in ways[:2]],
        "steady": off._asdict(),
    }


def tree_document(node: Node | None) -> dict[str, Any] | None:
    """Return the JSON of a tree; outcomes are empty where the drawing ends."""
    if node is None:
        return None
    fields = node._asdict()
    fields["outcomes"] = [
        {**outcome._asdict(), "then": tree_document(outcome.then)} for outcome in node.outcomes
    ]
    return fields
