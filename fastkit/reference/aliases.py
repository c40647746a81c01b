"""What the trade calls things: the aliases that occur in a line of words."""

import re
import sqlite3

from fastkit.reference.store import query

LONGEST, WORDS = 6, 60  # words in an alias; words of a line that are looked at


def spoken(store: sqlite3.Connection, text: str) -> dict[str, tuple[str, ...]]:
    """Every alias that occurs in *text*, each with the ids of the entries that it stands for."""
    words = re.sub(r"[^\w/.#+&'-]+", " ", text.lower()).split()[:WORDS]
    words = [word.strip(".'-") for word in words]
    runs = {
        " ".join(words[at : at + count])
        for at in range(len(words))
        for count in range(1, LONGEST + 1)
    }
    runs |= {run.replace("-", " ") for run in runs}
    runs |= {re.sub(r"(?<=[a-z]{3})(?<!s)s\b", "", run) for run in runs}
    runs.discard("")
    marks = ", ".join("?" * len(runs))
    sql = f"SELECT words, entry FROM alias WHERE words IN ({marks}) ORDER BY rowid"
    found: dict[str, tuple[str, ...]] = {}
    for alias, entry in query(store, sql, tuple(sorted(runs))):
        found[alias] = (*found.get(alias, ()), entry)
    return found


def first_meant(store: sqlite3.Connection, text: str) -> dict[str, str]:
    """The same with the first entry of each only, as `notation.designation.parse` takes it."""
    return {words: entries[0] for words, entries in spoken(store, text).items()}


def readable(text: str) -> str:
    """*text* without what the file cannot be asked for (halves of a surrogate pair, NUL)."""
    return text.encode("utf-8", "replace").decode("utf-8").replace("\0", " ")
