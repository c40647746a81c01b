"""What must be minded of what was tried here, and of what stands beside what is planned."""

import sqlite3
from collections.abc import Iterator

from fastkit.extraction.aftermath import done_too_near, given_off
from fastkit.extraction.facts import Facts
from fastkit.extraction.gates import AT_IT
from fastkit.extraction.result import Plan
from fastkit.extraction.situation import TUBE_NUT, Near, Situation
from fastkit.records.hazard import Danger
from fastkit.reference.lookup import many

SHOWN = 3  # the first moves, besides those that follow them
REACHES = ("vibration", "shock", "drill", "cut", "energy", "push")  # hazards that strike or open


def minded(store: sqlite3.Connection, facts: Facts, found: Plan) -> tuple[str, ...]:
    """Return what must be minded of attempts made too near something, and of what is planned."""
    situation = found.situation
    told = (
        *done_too_near(situation, facts),
        *_of_what_was_tried(store, facts, situation),
        *_of_what_is_planned(facts, found),
    )
    return tuple(dict.fromkeys(told))


def _of_what_was_tried(
    store: sqlite3.Connection, facts: Facts, situation: Situation
) -> Iterator[str]:
    gave = given_off(situation, facts)
    for row in many(store, Danger):
        if row.hazard in gave and getattr(situation, row.field) in row.value.split():
            yield row.danger


def _of_what_is_planned(facts: Facts, found: Plan) -> Iterator[str]:
    """Yield the danger of a neighbour that a move which is shown may reach, or that must go."""
    ahead = (found.leads_to, found.in_room_made, found.last)
    shown = {move.method for move in found.moves[:SHOWN]} | {row.method for row in ahead if row}
    shown |= {move.if_it_fails for move in found.moves[:1]}
    told = {row.id: row.danger for row in facts.neighbours if row.danger}
    for near in found.situation.near:
        if near.thing in told and _reached(near, shown, facts, found.situation):
            yield str(told[near.thing])


def _reached(near: Near, methods: set[str], facts: Facts, situation: Situation) -> bool:
    if situation.kind == TUBE_NUT and near.mm <= AT_IT:
        return True
    pushed = (row.distance_mm or AT_IT for row in facts.room_gains if row.method in methods)
    gives = {row.hazard for row in facts.method_hazards if row.method in methods}
    gives |= {row.hazard for row in facts.variant_hazards if row.method in methods}
    shields = (
        row.shield_mm
        for row in facts.clearances
        if row.neighbour == near.thing and row.hazard in gives and row.hazard in REACHES
    )
    return near.mm < max((*pushed, *shields), default=0.0)
