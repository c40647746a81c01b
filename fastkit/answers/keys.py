"""Ids and names that begin so: what a shell may complete."""

from fastkit.reference.store import connect, query
from fastkit.shopbook.rows import Kept, KeptJob
from fastkit.shopbook.store import read


def begin_with(begun: str, kind: str = "") -> tuple[str, ...]:
    """
    Return the keys of a kind that begin so; without a kind, whole ids, or the kinds of such.

    An id is long and there are thousands: as long as no colon is typed, the kinds stand for
    theirs, each with its colon. Capitals and small letters are alike.

    Raises:
        Broken: When the reference cannot be read.
    """
    before = f"{kind}:" if kind else ""
    whole = (before + begun).lower()
    what = "id" if ":" in whole else "DISTINCT kind || ':'"
    sql = f"SELECT {what} FROM entry WHERE substr(lower(id), 1, ?) = ? ORDER BY 1"
    rows = query(connect(), sql, (len(whole), whole))
    return tuple(str(row[0]).removeprefix(before) for row in rows)


def kept_names(jobs: bool) -> tuple[str, ...]:
    """
    Return the names under which jobs, or else situations, are kept in the own file.

    Raises:
        Broken: When the own file cannot be read.
    """
    held = read()
    rows = held.of(KeptJob) if jobs else held.of(Kept)
    return tuple(sorted({row.name for row in rows}))
