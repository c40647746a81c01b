"""What is done once a joint that holds a fluid has been opened."""

import sqlite3

from fastkit.extraction.gates import AT_IT, PRESSURE
from fastkit.extraction.situation import Situation
from fastkit.records.job import LineKind
from fastkit.records.part import Part
from fastkit.reference.lookup import many

TUBE_NUT = "tube-nut"
ANY_LINE = "pressure on, every joint looked at for leaks before it is used; a brake is bled as well"


def afterwards(
    store: sqlite3.Connection, situation: Situation, part: Part | None
) -> tuple[str, ...]:
    """Return what is done after a line, or a part that holds its fluid, was opened; else none."""
    if situation.kind != TUBE_NUT and not (part and part.opens):
        return ()
    at = {near.thing for near in situation.near if near.mm <= AT_IT}
    rows = [row for row in many(store, LineKind) if row.beside in at]
    known = [row for row in rows if row.beside != PRESSURE]  # what stands under it has a name
    return tuple(row.afterwards for row in known or rows) or (ANY_LINE,)
