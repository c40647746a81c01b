"""Where the numbers come from: every source with the hand-kept rows that stand on it."""

import sqlite3
from pathlib import Path
from typing import NamedTuple

from fastkit.answers.check import checked_tables
from fastkit.records.source import Source
from fastkit.reference.lookup import many
from fastkit.reference.store import connect, query

LISTS = ("method_text", "method_hazard", "repair_text")  # sourced by their method or repair


class SourceCount(NamedTuple):
    """One source; `rows` counts the hand-kept rows that name it, `share` is theirs of all."""

    id: str
    title: str
    edition: str
    kind: str
    rows: int
    share: float


def sources(*, store: sqlite3.Connection | None = None) -> tuple[SourceCount, ...]:
    """Every source, the one that most hand-kept rows stand on first."""
    held = store or connect()
    counts: dict[str, int] = {}
    for table in checked_tables(held):
        sql = f'SELECT source, count(*) FROM "{table}" GROUP BY source'
        for source, rows in query(held, sql):
            counts[source] = counts.get(source, 0) + rows
    total = max(sum(counts.values()), 1)
    found = []
    for source in many(held, Source):
        rows = counts.get(source.id, 0)
        found.append(SourceCount(*source[:4], rows, rows / total))
    return tuple(sorted(found, key=lambda source: (-source.rows, source.id)))


def export(folder: Path, *, store: sqlite3.Connection | None = None) -> tuple[Path, ...]:
    """
    Write every subject table as CSV into *folder*, with the columns that name its sources.

    Files of the same names are replaced; the folder is made where it is missing. The compiler
    makes the same rows of the folder again.

    Returns:
        The files written.

    Raises:
        OSError: When a file cannot be written.
    """
    import csv

    held = store or connect()
    folder.mkdir(parents=True, exist_ok=True)
    written = []
    for table in ["source", "torque", *LISTS, *checked_tables(held)]:
        rows = held.execute(f'SELECT * FROM "{table}" ORDER BY rowid')
        file = folder / f"{table}.csv"
        with file.open("w", encoding="utf-8", newline="") as stream:
            writer = csv.writer(stream, lineterminator="\n")
            writer.writerow(column[0] for column in rows.description)
            writer.writerows(rows)
        written.append(file)
    return tuple(written)
