"""Entries out of the file: by their ids, and by the index of the words that find them."""

import sqlite3
from collections.abc import Iterable, Sequence
from itertools import combinations, permutations

from fastkit.notation.entry import CALLED
from fastkit.reference.scoring import Entry, Term
from fastkit.reference.spelling import KINDS_CALLED, cut
from fastkit.reference.store import query

COMMON = 200  # entries; a word in more of them than this is not looked for by itself
POOL = 40  # entries that are taken of each question to the index
MOST_TOGETHER = 6  # terms; of so many, fewer and fewer are looked for together


def entries(store: sqlite3.Connection, ids: Sequence[str]) -> list[Entry]:
    """Entries of those ids that are held, in the order asked for."""
    marks = ", ".join("?" * len(ids))
    sql = "SELECT id, entry.kind, entry.title, entry.rowid, words, serves FROM entry"
    sql += f" JOIN search ON search.rowid = entry.rowid WHERE id IN ({marks})"
    held = {row[0]: row for row in query(store, sql, tuple(ids))}
    return [_entry(*held[id_]) for id_ in ids if id_ in held]


def _entry(id_: str, kind: str, title: str, place: int, words: str, serves: str) -> Entry:
    key = id_.partition(":")[2]
    names = frozenset(cut(f"{key} {words}"))
    said = names.union(cut(f"{kind} {title} {serves}"), CALLED.get(kind, ()))
    return Entry(id_, kind, title, place, said, names, words)


def indexed(store: sqlite3.Connection, terms: Sequence[Term], kind: str | None) -> list[Entry]:
    """Entries of the index that hold every term; where few do, those that hold a telling one."""
    asked = [term for term in terms if not term.denied]
    grouped = [(group, term) for term in asked if (group := _group(term.phrases))]
    weights = {group: term.weight for group, term in grouped}
    groups = list(weights)
    if not groups:
        return []
    found = match(store, " AND ".join(groups), kind, "rowid")
    if len(found) < 3:
        heaviest = sorted(groups, key=lambda group: -weights[group])[:MOST_TOGETHER]
        for size in range(len(heaviest) - 1, 1, -1):
            for some in combinations(heaviest, size):
                found += match(store, " AND ".join(some), kind, "rowid")
            if found:
                break
        telling = [group for group in groups if _count(store, group) <= COMMON]
        if telling:
            found += match(store, " OR ".join(telling), kind, "rank, rowid")
    # the words that a kind is called by stand in no index
    named = [group for group, term in grouped if term.said not in KINDS_CALLED]
    if 1 < len(named) < len(groups):
        found += match(store, " AND ".join(named), kind, "rowid")
    spelt = [term.words[0][0] for term in asked if term.words and not term.ids][:MOST_TOGETHER]
    if len(spelt) > 1:
        found += _begun_with(store, spelt, kind)
    return found


def _group(phrases: Iterable[str]) -> str:
    """The phrases as one bracket of the index's language, every word of them quoted."""
    quoted = [f'"{" ".join(words)}"' for phrase in phrases if (words := cut(phrase))]
    return f"({' OR '.join(quoted)})" if quoted else ""


def match(
    store: sqlite3.Connection, wanted: str, kind: str | None, order: str, most: int = POOL
) -> list[Entry]:
    """Entries that the index finds, in an order; by `rowid` it stops at the first that suffice."""
    sql = "SELECT entry, kind, title, rowid, words, serves FROM search WHERE search MATCH ?"
    sql += " AND kind = ?" if kind else ""
    values = (wanted, kind) if kind else (wanted,)
    rows = query(store, f"{sql} ORDER BY {order} LIMIT {most}", values)
    return [_entry(*row) for row in rows]


def _begun_with(store: sqlite3.Connection, said: Sequence[str], kind: str | None) -> list[Entry]:
    """Entries whose key begins with two of the words that were said, in whatever order."""
    starts = [f"{a} {b}" for a, b in permutations(said, 2)]
    sql = "SELECT entry, kind, title, rowid, words, serves FROM search WHERE rowid IN (SELECT place"
    sql += f" FROM search_key WHERE start IN ({', '.join('?' * len(starts))})"
    sql += f" ORDER BY place LIMIT {POOL}){' AND kind = ?' if kind else ''} ORDER BY rowid"
    return [_entry(*row) for row in query(store, sql, (*starts, kind) if kind else tuple(starts))]


def _count(store: sqlite3.Connection, group: str) -> int:
    sql = f"SELECT count(*) FROM (SELECT 1 FROM search WHERE search MATCH ? LIMIT {COMMON + 1})"
    return int(query(store, sql, (group,))[0][0])
