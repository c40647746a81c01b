"""What is done once it is out: of lines that were opened, and what is not put back."""

import sqlite3
from itertools import islice

from fastkit.extraction.aftermath import not_put_back, was_heated
from fastkit.extraction.facts import Facts
from fastkit.extraction.gates import AT_IT, PRESSURE
from fastkit.extraction.result import Plan
from fastkit.extraction.situation import TUBE_NUT, Situation
from fastkit.records.job import LineKind
from fastkit.records.method import Renewal
from fastkit.reference.lookup import many

ANY_LINE = "pressure on, every joint looked at for leaks before it is used; a brake is bled as well"
STRIPS = {"brake-fluid", "paint"}  # beside each other
PAINT = "brake fluid eats paint: it is covered, a spill washed off with water at once"
HEATED = "once out: {0} that was in the heat seen to as under DANGER before anything is started"
WHERE_OPENED = "{0}, where opened: {1}"


def opens_a_line(situation: Situation, facts: Facts) -> bool:
    """Say whether it opens a line, or a part that holds its fluid, once it is undone."""
    return situation.kind == TUBE_NUT or bool(facts.part and facts.part.opens)


def afterwards(store: sqlite3.Connection, found: Plan, facts: Facts) -> tuple[str, ...]:
    """Return what is done after a line was opened, what is renewed and what is looked at."""
    situation = found.situation
    heated = was_heated(situation, facts)
    kinds = [row for row in many(store, LineKind) if row.beside]
    own = _own_line(kinds, situation) if opens_a_line(situation, facts) else ()
    way = [row for row in kinds if row.beside in found.opened and row.afterwards not in own]
    return (
        *own,
        *(WHERE_OPENED.format(row.title, row.afterwards) for row in way),
        *((PAINT,) if STRIPS <= {near.thing for near in situation.near} else ()),
        *not_put_back(many(store, Renewal), situation, _first(found)),
        *((HEATED.format(" and ".join(heated)),) if heated else ()),
    )


def _first(found: Plan) -> set[str]:
    """Return the first move that is no gate; none where there is no plan."""
    own = (move.method for move in found.moves if move.why and move.why[0].code != "due_first")
    return {*islice(own, 1)}


def _own_line(kinds: list[LineKind], situation: Situation) -> tuple[str, ...]:
    """Return what is done after the line was opened that it belongs to, by what stands at it."""
    # what is shut for good, a strut, is not what runs in the line
    beside = [near for near in situation.near if near.thing not in situation.sealed]
    at = {near.thing for near in beside if near.mm <= AT_IT}
    rows = [row for row in kinds if row.beside in at]
    known = [row for row in rows if row.beside != PRESSURE]  # what stands under it has a name
    return tuple(row.afterwards for row in known or rows) or (ANY_LINE,)
