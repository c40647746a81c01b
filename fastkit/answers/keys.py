"""Ids that begin so: what a shell may complete."""

from fastkit.reference.store import connect, query

MOST = 500


def begin_with(begun: str, kind: str = "") -> tuple[str, ...]:
    """
    Return the ids of a kind without it, or of all kinds whole, that begin so.

    Raises:
        Broken: When the reference cannot be read.
    """
    before = f"{kind}:" if kind else ""
    whole = before + begun
    sql = "SELECT id FROM entry WHERE substr(id, 1, ?) = ? ORDER BY id LIMIT ?"
    rows = query(connect(), sql, (len(whole), whole, MOST))
    return tuple(str(row[0]).removeprefix(before) for row in rows)
