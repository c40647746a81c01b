"""
Words as the file knows them: as they stand, begun, ended otherwise, or misspelt.

A misspelt word is compared with the distinct words of the file, never with its rows, and only
where the file does not know it. Designations are not spelt: they are read (`notation`).
"""

import re
import sqlite3
from collections.abc import Iterable, Iterator, Sequence
from functools import lru_cache

from fastkit.notation.entry import CALLED, VOWELS, letter_pairs, sound
from fastkit.reference.counted import COUNTED, TENS
from fastkit.reference.store import query

HYPHEN = re.compile(r"(?<=[^\W\d_]{2})-(?=[^\W\d_]{2})")  # between two words
WORD = re.compile(r"[^\W_]+")
BEGUN, STEM = 0.9, 0.85  # worth of a word of which the beginning was typed, or another ending
SPELLING = 74.0  # least likeness of a misspelt word, per cent
MOST_TOKENS = 16  # words of a line that are kept with what they are like
COMPARED = 120  # words, those with most pairs of letters in common, that are compared in full
SHORT, ONE_SLIP, TWO_SLIPS = 4, 5, 8  # letters of a word in which so many slips are forgiven
LONGEST_WORD = 24  # letters of a word that is put right
# a size with a word run on to it, and a word with a size; which of the two is the word
GLUED = (
    (r"(?<![\w./-])([a-z]{0,2}\d[\d./x-]*(?:mm|inch|in)?)([a-z]{3,})\b", 1),
    (r"(?<![\w./-])([a-z]{3,})(\d(?:[\d./x]*\d)?)(?![\w./-])", 0),
)
# words that designations are read by (`notation.designation`)
READ = frozenset(
    "coarse eighth eighths grade metric number quarter quarters sixteenth sixteenths square thread "
    "threads whitworth".split()
) | (COUNTED.keys() | TENS.keys())
KINDS_CALLED = frozenset(word for words in CALLED.values() for word in words)
# in these nothing is asked, and nothing is put right
EMPTY_WORDS = frozenset(
    "a an and any are at be but can do does for from get go got have how i in into is it long "
    "many me much my need of off on one or out please s should that the this to use wat what whats "
    "which will with you does did goes would could looking anyone know please thanks mean means "
    "wants trying they them then their when your our am was "
    "bei das dem den der ein eine fur für im mit und von welche welcher wie zu".split()
)
# what people name besides, which looks like other words
BESIDE = frozenset(
    "boots bike boat cart chain chair chainsaw cheap coach door dirty error fence fly frame "
    "front gate great gross gutter horse house joist kitchen linkes lathe lever makes mower never "
    "pedal place plant reducer right rocker roof rotor scooter seat shelf shop spoke sprocket step "
    "table taking think tractor trailer trick truck wheels window world".split()
)


def spelt(store: sqlite3.Connection, text: str) -> str:
    """The text with words joined or parted as the file has them, and misspelt ones put right."""
    return mended(store, parted(store, together(store, HYPHEN.sub(" ", text))))


def mended(store: sqlite3.Connection, text: str) -> str:
    """The text with the misspelt words put right that are surely another, known one."""
    for token in dict.fromkeys(re.findall(r"\b[^\W\d_]{3,}\b", text.lower())):
        meant = "" if _known(store, token) else slip(store, token)
        if meant:
            text = re.sub(rf"\b{token}\b", meant, text, flags=re.IGNORECASE)
    return text


def heard(store: sqlite3.Connection, text: str) -> str:
    """A line for names to be looked for in: as typed, in small letters, and as mended."""
    typed = text.lower().replace("-", " ")
    return f" {typed} . {mended(store, typed)} "


@lru_cache(maxsize=MOST_TOKENS)  # one line asks for a word twice
def slip(store: sqlite3.Connection, token: str) -> str:
    """
    The known word that an unknown one is surely a slip of; empty where it may be none.

    A slip is a letter too many, too few, another or two exchanged: one in a word of five letters,
    two in one of eight; of vowels, as many as are left out. Of words as near, one that numbers
    hang on comes first, then one that sounds the same, then the commonest.
    """
    from rapidfuzz.distance import OSA

    if len(token) > LONGEST_WORD:
        return ""
    sql = "SELECT words FROM alias WHERE entry GLOB 'system:*' AND words NOT GLOB '* *'"
    drives = {str(name) for (name,) in query(store, sql) if len(name) >= SHORT}
    if begun := [name for name in sorted(drives) if token.startswith(name)]:
        return begun[-1]
    first = drives | READ
    heard = sound(token)
    heard_whole = token if len(token) <= SHORT else token[1:]
    bare = len(heard) > 2 and not set(VOWELS).intersection(heard_whole)
    most = _forgiven(token)
    found = []
    for term in _near(store, token, heard, bare) | first:
        same = sound(term) == heard
        named = term in first and min(len(term), len(token)) >= SHORT
        slips = 0 if same and bare else OSA.distance(token, term)
        if slips <= max(most, named) + (same and len(token) > SHORT):
            found.append((slips - same, term not in first, term))
    if not found:
        return ""
    near = min(found)[:2]
    terms = [term for *place, term in found if tuple(place) == near]
    return min(terms, key=lambda term: (-_entries(store, term), term))


def slip_of(word: str, known: Iterable[str]) -> str | None:
    """The known word that one is a slip away from, or two where it is long; None: there is none."""
    from rapidfuzz.distance import OSA

    slips, term = min((OSA.distance(word, term), term) for term in known)
    return term if slips <= _forgiven(term) else None


def _forgiven(word: str) -> int:
    """How many slips are forgiven in a word."""
    return (len(word) >= TWO_SLIPS) + (len(word) >= ONE_SLIP)


def _near(store: sqlite3.Connection, token: str, heard: str, bare: bool) -> set[str]:
    """The words that a slip may have been made in: those that sound the same or look alike."""
    sql = "SELECT term FROM search_word WHERE sound = ? AND length(term) > 2"
    same = query(store, sql, (heard,)) if bare or len(token) > SHORT else []
    alike = _alike(store, token) if len(token) > SHORT and not _begins(store, token) else []
    return {term for (term,) in same}.union(alike)


def _entries(store: sqlite3.Connection, term: str) -> int:
    found = query(store, "SELECT entries FROM search_word WHERE term = ?", (term,))
    return int(found[0][0]) if found else 0


def _begins(store: sqlite3.Connection, token: str) -> bool:
    sql = "SELECT 1 FROM search_word WHERE term > ? AND term < ? LIMIT 1"
    return bool(query(store, sql, (token, f"{token}\U0010ffff")))


def together(store: sqlite3.Connection, text: str) -> str:
    """The text with the halves of a known word put together of which one is no word itself."""
    words = text.split()
    for at in range(len(words) - 1, 0, -1):
        a, b = words[at - 1].lower(), words[at].lower()
        halves = (a + b).isalpha() and not (_known(store, a) and _known(store, b))
        if halves and _known(store, a + b):
            words[at - 1 : at + 1] = [a + b]
    return " ".join(words)


def parted(store: sqlite3.Connection, text: str) -> str:
    """The text with words run together cut apart: two known ones, or one and a size."""
    for pattern, n in GLUED if re.search(r"\d", text) else ():
        for pair in re.findall(pattern, text.lower()):
            joined = re.escape("".join(pair))
            if _known(store, pair[n]) and not _known(store, "".join(pair)):
                text = re.sub(rf"\b{joined}\b", " ".join(pair), text, flags=re.IGNORECASE)
    for token in dict.fromkeys(re.findall(r"\b[^\W\d_]{6,}\b", text.lower())):
        if _known(store, token) or slip(store, token):
            continue
        cuts = [(token[:at], token[at:]) for at in range(3, len(token) - 2)]
        whole = [pair for pair in cuts if _known(store, pair[0]) and _known(store, pair[1])]
        if whole:
            best = max(whole, key=lambda pair: min(_entries(store, piece) for piece in pair))
            text = re.sub(rf"\b{token}\b", " ".join(best), text, flags=re.IGNORECASE)
    return text


def _known(store: sqlite3.Connection, token: str) -> bool:
    """Whether the file has the word, in whatever it says, or people have it beside."""
    if token in READ | EMPTY_WORDS | BESIDE | KINDS_CALLED:
        return True
    sql = "SELECT 1 FROM search_word WHERE term = ? UNION ALL"
    return bool(query(store, f"{sql} SELECT 1 FROM plain_word WHERE word = ?", (token, token)))


def cut(text: str) -> list[str]:
    """The words of a text as the index cuts them."""
    return WORD.findall(text.lower())


def forms(store: sqlite3.Connection, token: str) -> Iterator[tuple[str, float]]:
    """The word itself where the file has it, else what it begins, ends or misspells."""
    exact = token in KINDS_CALLED or _entries(store, token) > 0
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
    if not (exact or begun or found or _known(store, token)):
        yield from misspelt(store, token)


def misspelt(
    store: sqlite3.Connection, token: str, least: float = SPELLING
) -> list[tuple[str, float]]:
    """Words of the file that are spelt much like *token*, with what the match is worth."""
    return _likest(token, _alike(store, token), least)[:4]


@lru_cache(maxsize=MOST_TOKENS)
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
