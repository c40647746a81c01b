"""What a job asks one to buy: fasteners with spares, seals."""

import sqlite3
from collections.abc import Sequence
from typing import NamedTuple

from fastkit.answers.job_rows import Fastener, Job
from fastkit.records.job import Spare
from fastkit.records.thread import Thread
from fastkit.reference.lookup import get, many


class Buy(NamedTuple):
    """One line of the list: how many, spares among them, what it is called, and what it is for."""

    pieces: int
    spares: int
    line: str
    for_: str
    why: str


def shopping(job: Job, store: sqlite3.Connection) -> tuple[Buy, ...]:
    """Return what is bought for a job: rows that are renewed, then seals."""
    spares = many(store, Spare)
    found = [_row(row, store, spares) for row in job.fasteners if renewed(row)]
    seals = [
        Buy(1, 0, part.seal, part.name, "seals are renewed") for part in job.parts if part.seal
    ]
    return (*found, *seals)


def renewed(row: Fastener) -> bool:
    """Whether a row is renewed: as the file says, else where some of it would not move."""
    return row.renew if row.renew is not None else row.stuck > 0


def _row(row: Fastener, store: sqlite3.Connection, spares: Sequence[Spare]) -> Buy:
    diameter = get(store, Thread, row.thread).nominal_mm
    every = next((s.for_every for s in spares if diameter <= s.up_to_mm), spares[-1].for_every)
    more = -(-row.pieces // every)
    words = ", ".join(filter(None, (row.thread, row.was, row.grade and f"class {row.grade}")))
    why = "as the job file says" if row.renew else "what would not move is not used again"
    return Buy(row.pieces + more, more, words, row.name, why)
