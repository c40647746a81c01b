"""The policy drawn to a depth of three, and how far its weakest number may be off."""

import sqlite3
from typing import Any

from fastkit.answers.facts import gather
from fastkit.extraction.situation import Situation
from fastkit.extraction.tree import Node, Steady, steady, tree
from fastkit.reference.store import connect

__all__ = ["Node", "Steady", "drawn", "how_steady", "tree_document"]


def drawn(situation: Situation, store: sqlite3.Connection | None = None) -> Node | None:
    """Return the policy for a situation that `extract` has understood."""
    return tree(situation, gather(store or connect(), situation))


def how_steady(situation: Situation, store: sqlite3.Connection | None = None) -> Steady:
    """Return by what factor the bond must be off before another first move wins."""
    return steady(situation, gather(store or connect(), situation))


def tree_document(node: Node | None) -> dict[str, Any] | None:
    """Return the JSON of a tree; outcomes are empty where the drawing ends."""
    if node is None:
        return None
    fields = node._asdict()
    fields["outcomes"] = [
        {**outcome._asdict(), "then": tree_document(outcome.then)} for outcome in node.outcomes
    ]
    return fields
