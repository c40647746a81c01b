"""What the trade calls things: the aliases that occur in a line of words."""

import re
import sqlite3
from collections.abc import Collection, Sequence

from fastkit.reference.store import query

SIZE = r"m\d{1,3}(?:x[\d.]+)?|#\d{1,2}(?:-\d+)?|\d{1,2}-\d\d|\d/\d{1,2}(?:-\d+)?"
INCHES = r"\d/\d|\d ?(?:\"|in(?:ch)?\b)|\binch|#\d|\bun[cf]\b"  # says that sizes are in inches
METRIC = r"(?:iso|din) \d"  # a standard that has no sizes in inches
NOTHING = "nothing but "  # before what is like a part that the files have none of
LONGEST, WORDS = 6, 60  # words in an alias; words of a line that are looked at


def spoken(store: sqlite3.Connection, text: str) -> dict[str, tuple[str, ...]]:
    """Every alias that occurs in *text*, each with the ids of the entries that it stands for."""
    runs = _runs(text)
    runs |= {run.replace("-", " ") for run in runs}
    runs |= {re.sub(r"(?<=[a-z]{3})(?<!s)s\b", "", run) for run in runs}
    runs.discard("")
    marks = ", ".join("?" * len(runs))
    sql = f"SELECT words, entry FROM alias WHERE words IN ({marks}) ORDER BY rowid"
    found: dict[str, tuple[str, ...]] = {}
    for alias, entry in query(store, sql, tuple(sorted(runs))):
        found[alias] = (*found.get(alias, ()), entry)
    return found


def closed_up(store: sqlite3.Connection, text: str) -> str:
    """
    The text with a size that parts a name put before it: `m6 brass bolt` of brass m6 bolt.

    Only where the words about it are a name, and no name is made of them with the size.
    """
    words = text.lower().split()[:WORDS]
    for at in range(1, len(words) - 1):
        if not words[at][-1].isdigit() or not re.fullmatch(SIZE, words[at]):
            continue
        begins, ends = range(max(0, at - 2), at), range(at + 2, min(at + 3, len(words)) + 1)
        across = [" ".join(words[a:at] + words[at + 1 : b]) for a in begins for b in ends]
        with_it = [" ".join(words[a : at + 1]) for a in begins]
        with_it += [" ".join(words[at:b]) for b in ends]
        if _named(store, across) and not _named(store, with_it):
            return " ".join([words[at], *words[:at], *words[at + 1 :]])
    return text


def _named(store: sqlite3.Connection, runs: Sequence[str]) -> bool:
    """Whether one of the runs of words is another name or a saying."""
    marks = ", ".join("?" * len(runs))
    sql = f"SELECT 1 FROM alias WHERE words IN ({marks}) UNION ALL"
    sql += f" SELECT 1 FROM saying WHERE words IN ({marks}) LIMIT 1"
    return bool(query(store, sql, (*runs, *runs)))


def written(store: sqlite3.Connection, text: str) -> str:
    """
    The text with what people say (`sayings.csv`) as the file has it, the longest first.

    What is written as a metric standard is left where the sizes are in inches.
    """
    runs = sorted(_runs(text))
    marks = ", ".join("?" * len(runs))
    sql = f"SELECT words, written FROM saying WHERE words IN ({marks})"
    sql += f" AND written NOT GLOB '{NOTHING}*'"
    inches = re.search(INCHES, text.lower())
    for words, put in sorted(query(store, sql, tuple(runs)), key=lambda row: -len(row[0])):
        if inches and re.match(METRIC, put):
            continue
        found = re.compile(rf"(?<![\w/.-]){re.escape(words)}(?![\w/-])")
        text = put.join(found.split(text.lower()))
    return text


def unheld(store: sqlite3.Connection, text: str, idle: Collection[str]) -> tuple[str, str]:
    """
    The part that a line asks for, and the line with what is like it, where the files have none.

    Args:
        store: The compiled file.
        text: The line, its words put right.
        idle: Words that ask for nothing.
    """
    words = [word for word in text.lower().split() if word.strip("?!.,") not in idle]
    sizes = [word for word in words if any(map(str.isdigit, word))]
    named = " ".join(word for word in words if word not in sizes)
    sql = f"SELECT written FROM saying WHERE words IN (?, ?) AND written GLOB '{NOTHING}*'"
    for (written_,) in query(store, sql, (named, named.removesuffix("s"))):
        return named, " ".join((written_.removeprefix(NOTHING), *sizes))
    return "", ""


def _runs(text: str) -> set[str]:
    """The words that stand together in a line, one to six of them."""
    words = re.sub(r"[^\w/.#+&'-]+", " ", text.lower()).split()[:WORDS]
    words = [word.strip(".'-") for word in words]
    counts = range(1, LONGEST + 1)
    return {" ".join(words[at : at + count]) for at in range(len(words)) for count in counts}


def first_meant(store: sqlite3.Connection, text: str) -> dict[str, str]:
    """The same with the first entry of each only, as `notation.designation.parse` takes it."""
    return {words: entries[0] for words, entries in spoken(store, text).items()}


def readable(text: str) -> str:
    """*text* without what the file cannot be asked for (halves of a surrogate pair, NUL)."""
    return text.encode("utf-8", "replace").decode("utf-8").replace("\0", " ")
