"""
Words as the file knows them: as they stand, begun, ended otherwise, or misspelt.

A misspelt word is compared with the distinct words of the file, never with its rows, and only
where the file does not know it. Designations are not spelt: they are read (`notation`).
"""

import re
import sqlite3
from collections.abc import Iterator, Sequence
from functools import lru_cache

from fastkit.notation.entry import letter_pairs
from fastkit.reference.store import query

WORD = re.compile(r"[^\W_]+")
BEGUN, STEM = 0.9, 0.85  # worth of a word of which the beginning was typed, or another ending
SPELLING = 74.0  # least likeness of a misspelt word, per cent
MOST_TOKENS = 16  # words of a line that are kept with what they are like
COMPARED = 120  # words, those with most pairs of letters in common, that are compared in full
MENDED = 80.0  # the same of a form of drive
SHORT = 4  # letters; so short a word is put right only where it is surely a form of drive
SURE = 85.0  # the same of a word that is read as the one it is like
# a size with a word run on to it, and a word with a size; which of the two is the word
GLUED = (
    (r"(?<![\w./-])([a-z]{0,2}\d[\d./x-]*(?:mm|inch|in)?)([a-z]{3,})\b", 1),
    (r"(?<![\w./-])([a-z]{3,})(\d(?:[\d./x]*\d)?)(?![\w./-])", 0),
)
# words that designations are read by (`notation.designation`)
READ = (
    *("coarse", "eighth", "eighths", "grade", "metric", "number", "quarter", "quarters"),
    *("sixteenth", "sixteenths", "square", "thread", "threads", "three", "whitworth"),
    *("fifty", "sixty", "seventy", "eighty", "eleven", "seven", "forty", "thirty", "twenty"),
)


def mended(store: sqlite3.Connection, text: str) -> str:
    """
    The text with misspelt words put right where one known word is all but the same.

    First come the names of forms of drive and the words that designations are read by, since
    numbers hang on them.
    """
    for token in dict.fromkeys(re.findall(r"\b[^\W\d_]{4,}\b", text.lower())):
        if token in READ or _known(store, token):
            continue
        sql = "SELECT words FROM alias WHERE entry GLOB 'system:*' AND words NOT GLOB '* *'"
        names = [name for (name,) in query(store, sql)]
        begun = [name for name in names if len(name) > 3 and token.startswith(name)]
        short = len(token) <= SHORT
        known, least = (names, SURE) if short else ([*names, *READ], MENDED)
        close = begun or [name for name, _ in _likest(token, known, least)]
        if not close and not short and not _begins(store, token):
            close = [name for name, _ in misspelt(store, token, SURE)]
        if close:
            text = re.sub(rf"\b{token}\b", close[0], text, flags=re.IGNORECASE)
    return text


def _begins(store: sqlite3.Connection, token: str) -> bool:
    sql = "SELECT 1 FROM search_word WHERE term > ? AND term < ? LIMIT 1"
    return bool(query(store, sql, (token, f"{token}\U0010ffff")))


def parted(store: sqlite3.Connection, text: str) -> str:
    """The text with words run together cut apart: two known ones, or one and a size."""
    for pattern, n in GLUED if re.search(r"\d", text) else ():
        for pair in re.findall(pattern, text.lower()):
            joined = re.escape("".join(pair))
            if _known(store, pair[n]) and not _known(store, "".join(pair)):
                text = re.sub(rf"\b{joined}\b", " ".join(pair), text, flags=re.IGNORECASE)
    for token in dict.fromkeys(re.findall(r"\b[^\W\d_]{6,}\b", text.lower())):
        if _known(store, token):
            continue
        cuts = [(token[:at], token[at:]) for at in range(3, len(token) - 2)]
        pieces = sorted({piece for pair in cuts for piece in pair})
        marks = ", ".join("?" * len(pieces))
        sql = f"SELECT term, entries FROM search_word WHERE term IN ({marks})"
        held = dict(query(store, sql, tuple(pieces)))
        whole = [pair for pair in cuts if pair[0] in held and pair[1] in held]
        if whole:
            best = max(whole, key=lambda pair: min(held[pair[0]], held[pair[1]]))
            text = re.sub(rf"\b{token}\b", " ".join(best), text, flags=re.IGNORECASE)
    return text


def _known(store: sqlite3.Connection, token: str) -> bool:
    return bool(query(store, "SELECT 1 FROM search_word WHERE term = ?", (token,)))


def cut(text: str) -> list[str]:
    """The words of a text as the index cuts them."""
    return WORD.findall(text.lower())


def forms(store: sqlite3.Connection, token: str) -> Iterator[tuple[str, float]]:
    """The word itself where the file has it, else what it begins, ends or misspells."""
    exact = _known(store, token)
    if exact:
        yield token, 1.0
    if len(token) < 3:
        return
    sql = "SELECT term FROM search_word WHERE term > ? AND term < ?"
    sql += " ORDER BY entries DESC, term LIMIT 8"
    begun = [row[0] for row in query(store, sql, (token, f"{token}\U0010ffff"))]
    yield from ((word, BEGUN) for word in begun if word.isalpha())
    if not token.isalpha():
        return
    stems = [token[:end] for end in range(len(token) - 1, max(3, len(token) - 4), -1)]
    stems += [f"{token[:-3]}e"] if token.endswith("ing") and len(token) > 6 else []
    marks = ", ".join("?" * len(stems))
    found = query(store, f"SELECT term FROM search_word WHERE term IN ({marks})", tuple(stems))
    yield from ((word, STEM) for (word,) in found)
    if not (exact or begun or found):
        yield from misspelt(store, token)


def misspelt(
    store: sqlite3.Connection, token: str, least: float = SPELLING
) -> list[tuple[str, float]]:
    """Words of the file that are spelt much like *token*, with what the match is worth."""
    return _likest(token, _alike(store, token), least)[:4]


@lru_cache(maxsize=MOST_TOKENS)  # one line asks for a word thrice
def _alike(store: sqlite3.Connection, token: str) -> list[str]:
    """Words about as long that have most pairs of letters in common with *token*."""
    pairs = sorted(letter_pairs(token))
    sql = f"""
        SELECT term FROM search_pair WHERE pair IN ({", ".join("?" * len(pairs))})
        AND length(term) BETWEEN ? AND ? GROUP BY term
        ORDER BY count(*) DESC, term LIMIT {COMPARED}
    """
    window = (len(token) - 2, len(token) + 2)
    return [word for (word,) in query(store, sql, (*pairs, *window))]


def _likest(token: str, known: Sequence[str], least: float) -> list[tuple[str, float]]:
    """The words spelt most like *token*, and how much, 0 to 1; ties in the order of letters."""
    from rapidfuzz import fuzz, process

    close = process.extract(
        token, known, scorer=fuzz.ratio, processor=None, score_cutoff=least, limit=None
    )
    ranked = sorted(close, key=lambda match: (-match[1], match[0]))
    return [(word, likeness / 100) for word, likeness, _ in ranked]
