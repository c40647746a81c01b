"""What to lay out for a job: the tools of all its steps, at hand or to borrow."""

import sqlite3
from collections.abc import Mapping, Sequence
from typing import NamedTuple

from fastkit.answers.job_loosen import Planned
from fastkit.answers.job_rows import Fastener, Job, told
from fastkit.answers.job_tighten import Tightening
from fastkit.answers.understand import understand
from fastkit.notation.entry import drive_words
from fastkit.notation.units import show_nm
from fastkit.shopbook.rows import Owned
from fastkit.shopbook.store import read


class ToolLine(NamedTuple):
    """One tool; `at_hand` is None where the own file lists no tools or cannot know."""

    id: str | None
    title: str
    at_hand: bool | None
    for_: tuple[str, ...]


def lay_out(
    job: Job,
    planned: Sequence[Planned],
    tightening: Mapping[str, Tightening],
    store: sqlite3.Connection,
) -> tuple[ToolLine, ...]:
    """
    Return the tools of all steps, each once, with what it is for.

    Raises:
        Broken: When the own file cannot be read.
    """
    own = {row.tool for row in read().of(Owned)}
    titles: dict[str, str] = {}
    uses: dict[str, list[str]] = {}
    for item in planned:
        for tool, title in item.tools.items():
            titles[tool] = title
            uses.setdefault(tool, []).append(item.row.name)
    found = [
        ToolLine(tool, titles[tool], tool in own if own else None, tuple(names))
        for tool, names in uses.items()
    ]
    drives: dict[str, list[str]] = {}
    known = {item.row.name: item.drive for item in planned}
    for row in job.fasteners:
        drive = known[row.name] if row.name in known else _drive(row, store)
        if drive:
            drives.setdefault(drive, []).append(row.name)
    found += [
        ToolLine(None, f"bit, key or socket for {drive_words(drive)}", None, tuple(names))
        for drive, names in drives.items()
    ]
    return (*found, *_wrench(tightening))


def _drive(row: Fastener, store: sqlite3.Connection) -> str | None:
    """Return the drive that the row's words name, None where they name none."""
    words = " ".join(filter(None, (row.state, row.was)))
    return understand(store, words, told(row)).situation.drive if words else None


def _wrench(tightening: Mapping[str, Tightening]) -> tuple[ToolLine, ...]:
    known = {row.name: row.torque_nm for row in tightening.values() if row.torque_nm}
    if not known:
        return ()
    low, high = (show_nm(1000 * pick(known.values())) for pick in (min, max))
    span = high if low == high else f"{low} to {high}"
    return (ToolLine(None, f"torque wrench for {span}", None, tuple(known)),)
