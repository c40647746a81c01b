"""The phrases that a text may hold, out of the thousands that people use."""

import sqlite3
from collections.abc import Collection

from fastkit.records.source import Phrase
from fastkit.reference.store import query


def phrases(store: sqlite3.Connection, starts: Collection[str]) -> list[Phrase]:
    """Every phrase whose first word that counts is one of *starts*, in the order of the data."""
    columns = ", ".join(Phrase._fields)
    marks = ", ".join("?" * len(starts))
    sql = (
        f"SELECT {columns} FROM phrase WHERE rowid IN "
        f"(SELECT phrase FROM phrase_start WHERE word IN ({marks})) ORDER BY rowid"
    )
    return [Phrase._make(row) for row in query(store, sql, tuple(sorted(starts)))]
