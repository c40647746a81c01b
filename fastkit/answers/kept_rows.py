"""Rows of the own file that have a name: kept, and found again by it."""

from typing import TypeVar

from fastkit.errors import NotHeld
from fastkit.reference.lookup import nearest
from fastkit.shopbook.rows import Kept, KeptJob
from fastkit.shopbook.store import Held, read, writing
from fastkit.shopbook.text import plain

Named = TypeVar("Named", Kept, KeptJob)


def keep(row: Kept | KeptJob) -> tuple[str, ...]:
    """
    Keep a row under its name; the latest of a name counts.

    Returns:
        What had to be done to the own file first.

    Raises:
        Misuse: When the name cannot be kept.
        Broken: When the own file cannot be written.
    """
    named = row._replace(name=plain(row.name, "name"))
    with writing() as pen:
        pen.add(named)
        return pen.said


def latest(kind: type[Named], name: str, none: str) -> tuple[Named, Held]:
    """
    Return the row that is kept under a name, and all that the own file holds.

    Raises:
        NotHeld: When there is none, in the words of *none*; the nearest names are named.
        Broken: When the own file cannot be read.
    """
    held = read()
    rows = {row.name: row for row in held.of(kind)}
    found = rows.get(" ".join(name.split()))
    if found is None:
        raise NotHeld(f"{none} is kept as {name[:60]!r}", nearest(name[:60], sorted(rows)))
    return found, held
