"""Which words ask for something, and how much of what was asked is another name of an entry."""

import re
from collections.abc import Iterable, Mapping
from itertools import pairwise

from fastkit.reference.spelling import EMPTY_WORDS, cut

# beside a designation these say nothing more
IDLE_WORDS = frozenset("bolt bolts inch od screw screws size sizes thread threads".split())
# beside a thread these ask for what its own entry says
OF_THREADS = frozenset(
    "across big clearance dimension dimensions drill drills flats height hole holes machine pilot "
    "pitch tap tapping thickness through thru wheel width".split()
)
DENYING = frozenset("not no non without isnt nicht ohne kein keine".split())  # what comes is not
ARTICLES = frozenset(("a", "an", "any", "the"))
FIGURES = 3.0  # weight of a word with figures against a word's 1
UNWEIGHED = EMPTY_WORDS | {"no", "nr", "number"}
ALIAS = 95.0  # score of an entry where all that was asked is another name of it
WORDY = 1.0  # more of a score for each word of that name
JOINED = r"\d+(?:[./-]\d+)+"  # 6.8, 3/8, 18-8: one thing, said as such


def weighed(text: str, figure: float = FIGURES) -> dict[str, float]:
    """The words that ask for something, each with its weight; a figure's parts share *figure*."""
    said: dict[str, float] = {}
    for token in text.split():
        words = cut(token)
        figures = any(map(str.isdigit, token))
        said |= dict.fromkeys(re.findall(JOINED, token) if figures else (), 0.0)
        said |= {word: figure / len(words) if figures else 1.0 for word in words}
    return {word: weight for word, weight in said.items() if word not in UNWEIGHED}


def denied(text: str) -> frozenset[str]:
    """The words of letters that come after one that denies them: `not split`, `without nylon`."""
    words = [word for word in cut(text.replace("'", "")) if word not in ARTICLES]
    return frozenset(
        b for a, b in pairwise(words) if a in DENYING and b.isalpha() and b not in UNWEIGHED
    )


def by_other_name(aliases: Iterable[str], said: Mapping[str, float]) -> float:
    """
    The score of an entry one of whose other names was said whole, in whatever order.

    Args:
        aliases: Its other names.
        said: The words that were said, as `weighed` gives them.
    """
    held = {word.removesuffix("s"): weight for word, weight in said.items()} | dict(said)
    asked = sum(weight for word, weight in said.items() if word not in IDLE_WORDS | OF_THREADS)
    best = 0.0
    for alias in aliases:
        words = {word for word in cut(alias) if word not in UNWEIGHED}
        if words <= held.keys():
            words.update(re.findall(JOINED, alias))
        if len(words) > 1 and words <= held.keys():
            idle = sum(held[word] for word in words if word in IDLE_WORDS | OF_THREADS)
            whole = sum(held[word] for word in words)
            best = max(best, ALIAS * whole / (asked + idle) + WORDY * len(words))
    return min(best, 100.0)
