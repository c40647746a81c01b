"""Anything, by a few words."""

import sqlite3
from typing import NamedTuple

from fastkit.answers.dangers import dangers, must_be
from fastkit.errors import Misuse
from fastkit.notation.entry import KINDS
from fastkit.reference.aliases import readable
from fastkit.reference.search import Hit, search
from fastkit.reference.spelling import heard
from fastkit.reference.store import connect, query

MOST = 1_000
MOST_WORDS = 20  # that are looked at for what they say of a fastener's state
WILL_NOT_MOVE = (
    "(option = 'damage' AND value <> 'intact' OR option = 'seized' AND value IN "
    "('seized', 'rusted', 'galled'))"
)


class FindAnswer(NamedTuple):
    """
    What was looked for, how it was read, and what was found, best first.

    `reason` and `nearest` are filled where nothing was found; `see` names a command that says more;
    `dangers` is what the words tell of.
    """

    query: str
    read_as: str
    hits: tuple[Hit, ...]
    reason: str | None
    nearest: tuple[str, ...]
    see: str | None
    dangers: tuple[str, ...]


class Kind(NamedTuple):
    """One kind of entry: how many there are, and one of them."""

    kind: str
    entries: int
    example: str


def kinds(*, store: sqlite3.Connection | None = None) -> tuple[Kind, ...]:
    """
    Return the map of what there is to be found, in the order of the data.

    Raises:
        Broken: When the reference cannot be read.
    """
    sql = "SELECT kind, count(*), id, min(rowid) AS first FROM entry GROUP BY kind ORDER BY first"
    rows = query(store or connect(), sql)
    return tuple(Kind(str(kind), int(entries), str(id_)) for kind, entries, id_, _ in rows)


def find(
    words: str,
    limit: int = 10,
    kind: str | None = None,
    *,
    store: sqlite3.Connection | None = None,
) -> FindAnswer:
    """
    Look for entries by words as people type them.

    Args:
        words: Designations, trade names, any words; forgiving of misspelt names.
        limit: Most hits, 1 to 1000.
        kind: Only entries of this kind, as `thread`; of any if left out.
        store: The compiled file; opened here if left out.

    Raises:
        Misuse: When there is nothing to look for, or *limit* or *kind* is not valid.
    """
    if not words.strip():
        raise Misuse("nothing to look for; expected words such as `m8 8.8 torque`")
    if not 1 <= limit <= MOST:
        raise Misuse(f"limit {limit}: expected 1 to {MOST}")
    if kind is not None and kind not in KINDS:
        from fastkit.reference.lookup import nearest

        expected = ", ".join(KINDS)
        raise Misuse(f"no kind {kind[:60]!r}; expected one of {expected}", nearest(kind, KINDS, 1))
    store = store or connect()
    found = search(store, words, limit, kind)
    reason = None if found.hits else f"nothing found for {words.strip()[:60]!r}"
    plain = readable(words)
    warns = must_be(dangers(store, heard(store, plain)))
    return FindAnswer(
        words, found.read_as, found.hits, reason, found.nearest, _see(store, plain), warns
    )


def _see(store: sqlite3.Connection, words: str) -> str | None:
    """Return the command that plans for it where the words say that a fastener will not move."""
    plain = words.lower().replace("'", "").split()[:MOST_WORDS]
    runs = [" ".join(plain[at : at + n]) for n in (1, 2, 3) for at in range(len(plain) - n + 1)]
    sql = f"SELECT 1 FROM phrase WHERE words IN ({', '.join('?' * len(runs))}) AND {WILL_NOT_MOVE}"
    return "extract" if runs and query(store, f"{sql} LIMIT 1", tuple(runs)) else None
