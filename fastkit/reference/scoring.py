"""
How well an entry answers a question, 0 to 100.

A score says two things in per cent: how much of what was asked the entry holds (85), and how much
of the entry's own name was said (15).
"""

import re
from collections.abc import Mapping, Sequence, Set
from typing import NamedTuple

from fastkit.notation.entry import CALLED
from fastkit.reference.said import DENYING, by_other_name
from fastkit.reference.spelling import EMPTY_WORDS, cut

HELD, NAMED = 85.0, 15.0  # shares of a score, per cent
MEASURED = 0.9  # worth of a size that stands in an entry's key or title: M8 in triple-square-M8
KIND_SAID = 0.3  # share of its name that an entry's kind is, beside a designation
BESIDE = 0.8  # worth of a number that stands in an entry's title only, not in its names
ANOTHER = 0.8  # worth of a tube's other name where a thread was read
LACKED = 0.5  # worth of an entry without what is denied; one that denies it too has all
SELDOM = {"source": 0.9, "seizure": 0.95}  # kinds that are seldom meant where another fits as well
THREADED = frozenset(
    ("broken", "insert", "structural", "prevailing", "nut-torque")
)  # keyed by a thread
UNSIZED = frozenset(("method", "seizure", "hazard", "neighbour"))  # a size says little of them
SIZED = frozenset(("head", "washer", "hardware"))  # kinds whose keys end in a thread's size
OF_ANY_SIZE = frozenset(("engagement",))  # a thread says next to nothing of them
FAINTLY = 0.25  # share of its weight that a thread has there
UNSAID = 0.8  # worth of an entry keyed by a thread whose kind, called by a name, was not said
OF_ONE_THREAD = frozenset(("thread", "torque", "tube"))  # a thread beside theirs is another one
LENGTH = re.compile(r"(\d)(mm|in)$")


class Term(NamedTuple):
    """One thing asked for: the ids it may stand for, or the words it may be written with."""

    weight: float
    ids: tuple[str, ...] = ()  # best first
    words: tuple[tuple[str, float], ...] = ()  # word as the file has it, what the match is worth
    phrases: tuple[str, ...] = ()  # how it is found in the index
    size_worth: float = 1.0  # of an entry that shares a thread's size only
    length: str = ""  # `13mm`, `T25`, `10.9`: what was read, as it may stand in a title
    said: str = ""  # the word that was typed
    size: str = ""  # of the thread that was read: `M8`, `#8`
    denied: bool = False  # what holds it is not meant


class Entry(NamedTuple):
    """An entry with the words in it; `place` is its rank among those that fit as well."""

    id: str
    kind: str
    title: str
    place: int
    words: frozenset[str]
    names: frozenset[str]  # those of its key and its other names
    said: str = ""  # its other names, as they stand


def score(
    entry: Entry,
    terms: Sequence[Term],
    called: Sequence[str],
    aliases: Sequence[str],
    said: Sequence[Mapping[str, float]],
    not_meant: Set[str],
) -> float:
    """How much of what was asked the entry holds, and how much of its name was said."""
    if entry.id in called:
        return 100.0
    heard = said[entry.kind in UNSIZED]
    if not_meant and not entry.words & DENYING:
        heard = {word: n for word, n in heard.items() if word not in not_meant | DENYING}
    named = by_other_name(aliases, heard) * _own(entry, terms)
    if entry.kind in OF_ANY_SIZE:
        terms = [t._replace(weight=t.weight * FAINTLY) if _sizes(t) else t for t in terms]
    asked = sum(term.weight for term in terms)
    held = sum(term.weight * _held_by(entry, term) for term in terms)
    if not asked or not held:
        return named
    called_by = CALLED.get(entry.kind, ()) if entry.kind in THREADED else ()
    unsaid = called_by and not any(w in called_by for term in terms for w, _ in term.words)
    found = HELD * held / asked + NAMED * _named(entry, terms, aliases)
    found = max(found, named)
    return found * SELDOM.get(entry.kind, UNSAID if unsaid else 1.0)


def _own(entry: Entry, terms: Sequence[Term]) -> float:
    """What another name is worth where a thread was read that may not be the entry's."""
    threads = [term for term in terms if _sizes(term)]
    if not threads:
        return 1.0
    if entry.kind in THREADED:
        return float(any(_held_by(entry, term) for term in threads))
    return ANOTHER if entry.kind == "tube" else 1.0


def _sizes(term: Term) -> bool:
    return term.ids[:1] != () and term.ids[0].startswith("thread:")


def _held_by(entry: Entry, term: Term) -> float:
    """What the match of one term with an entry is worth, 0 to 1."""
    if term.denied and not entry.words & DENYING:
        return 0.0 if any(word in entry.words for word, _ in term.words) else LACKED
    if term.ids:
        key = entry.id.partition(":")[2]
        pieces = set(key.split("@")) if entry.kind == "torque" else {key}
        keys = [id_.partition(":")[2] for id_ in term.ids]
        best = [n for n, k in enumerate(keys) if k in pieces]
        if best:
            return 1.0 - 0.02 * min(best)
        sizes = (*term.phrases, LENGTH.sub(r"\1", term.length))
        by_size = entry.kind in SIZED and any(key.endswith(f"-{size}") for size in sizes)
        if by_size:
            return term.size_worth
        if term.size and entry.kind not in OF_ONE_THREAD and _holds(entry.id, term.size):
            return MEASURED * term.size_worth
        lengths = (*(keys if entry.kind == "tube" else ()), term.length)
        if any(_holds(f"{entry.id} {entry.title}", length) for length in filter(None, lengths)):
            return MEASURED
    elif term.length:
        return 1.0 if _stands(term.length, f"{entry.id} {entry.title} {entry.said}") else 0.0
    held = [(word, worth) for word, worth in term.words if word in entry.words]
    beside = {word for word, _ in held if word.isdigit()} - entry.names
    return max((worth * (BESIDE if word in beside else 1.0) for word, worth in held), default=0.0)


def _holds(text: str, size: str) -> bool:
    """Whether the size stands in an entry's key or title, not as a part of a longer one."""
    spaced = LENGTH.sub(r"\1 ?\2", re.escape(size))
    return bool(re.search(rf"(?<![\d/.])(?<!\d-(?=\d)){spaced}(?![A-Za-z])", text))


def _stands(figures: str, text: str) -> bool:
    """Whether the joined figures stand in the text, not as a part of longer ones."""
    if figures not in (text := text.lower()):
        return False
    return bool(re.search(rf"(?<![\w./])(?<!\d-){re.escape(figures)}(?!\d|[./-]\d)", text))


def _named(entry: Entry, terms: Sequence[Term], aliases: Sequence[str]) -> float:
    """Share of the entry's name that was said: of its key, its title or its best other name."""
    if any(entry.id in term.ids for term in terms):
        return 1.0
    if any(term.ids for term in terms):
        said_kind = any(word == entry.kind for term in terms for word, _ in term.words)
        return KIND_SAID if said_kind else 0.0
    said = {word: worth for term in terms for word, worth in reversed(term.words)}
    shares = [0.0]
    for name in (entry.id.partition(":")[2], entry.title, *aliases):
        words = [word for word in cut(name) if word not in EMPTY_WORDS]
        if words:
            shares.append(sum(said.get(word, 0.0) for word in words) / len(words))
    return max(shares)
