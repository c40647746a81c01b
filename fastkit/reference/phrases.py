"""The phrases that a text may hold, out of the thousands that people use."""

import sqlite3
from collections.abc import Collection, Iterable

from fastkit.records.part import Part
from fastkit.records.source import Phrase
from fastkit.reference.lookup import many
from fastkit.reference.store import query

PART = "part"


def phrases(store: sqlite3.Connection, starts: Collection[str]) -> list[Phrase]:
    """
    Every phrase whose first word that counts is one of *starts*, in the order of the data.

    The name of a part says its kind, and what stands at it, as well.
    """
    columns = ", ".join(Phrase._fields)
    marks = ", ".join("?" * len(starts))
    sql = (
        f"SELECT {columns} FROM phrase WHERE rowid IN "
        f"(SELECT phrase FROM phrase_start WHERE word IN ({marks})) ORDER BY rowid"
    )
    found = [Phrase._make(row) for row in query(store, sql, tuple(sorted(starts)))]
    if any(row.option == PART for row in found):
        found += of_parts(found, many(store, Part))
    return found


def of_parts(found: Iterable[Phrase], parts: Iterable[Part]) -> list[Phrase]:
    """Return what else the names of parts among some phrases say: kind, and what stands at it."""
    known = {part.id: part for part in parts}
    more = []
    for row in found:
        if row.option == PART:
            part = known[row.value]
            more.append(row._replace(option="kind", value=part.kind))
            for thing in (part.near or "").split():
                more.append(row._replace(option="touching?", value=thing))
    return more
