"""The phrases of the data made ready for reading, the little words, and slips of the keyboard."""

from collections.abc import Callable, Collection, Iterable, Mapping
from typing import NamedTuple

from fastkit.records.source import FILLERS, Phrase

# say nothing by themselves, but may make a phrase
QUIET = FILLERS | frozenset(
    "bit by in just into on only off out up down round when what if can".split()
)


class Phrases(NamedTuple):
    """Phrases by their words, and the longest of them by its first word."""

    rows: Mapping[tuple[str, ...], tuple[Phrase, ...]]
    longest: Mapping[str, int]


class Vocabulary(NamedTuple):
    """Every known word, and what gives the phrases that begin with some of them."""

    words: frozenset[str]
    beginning: Callable[[Collection[str]], Phrases]


def indexed(phrases: Iterable[Phrase]) -> Phrases:
    """Return the phrases made ready for reading; words as `tokenise` cuts them."""
    rows: dict[tuple[str, ...], tuple[Phrase, ...]] = {}
    longest: dict[str, int] = {}
    for phrase in phrases:
        key = phrase.key
        same = rows.get(key)
        if same is None:
            rows[key] = (phrase,)
            longest[key[0]] = max(longest.get(key[0], 0), len(key))
        elif all((row.option, row.value) != (phrase.option, phrase.value) for row in same):
            rows[key] = (*same, phrase)
    return Phrases(rows, longest)


def vocabulary(phrases: Iterable[Phrase]) -> Vocabulary:
    """Return the vocabulary of phrases that are all at hand."""
    held = tuple(phrases)
    every = indexed(held)
    words = frozenset(word for phrase in held for word in phrase.words.split())
    return Vocabulary(words | FILLERS, lambda starts: every)


def one_slip(word: str, known: frozenset[str]) -> str | None:
    """
    Return the known word that a single slip (wrong, missing, extra, swapped letter) makes of it.

    Of several the longest, since letters are left out more often than added; none where two are.
    """
    if len(word) < 6 or word in known or not word.isalpha():
        return None
    letters = "abcdefghijklmnopqrstuvwxyz"
    cuts = [(word[:i], word[i:]) for i in range(len(word) + 1)]
    slips = {
        *(a + b[1:] for a, b in cuts if b),
        *(a + b[1] + b[0] + b[2:] for a, b in cuts if len(b) > 1),
        *(a + c + b[1:] for a, b in cuts if b for c in letters),
        *(a + c + b for a, b in cuts for c in letters),
    }
    found = [slip for slip in slips & known if len(slip) > 4 and slip[0] == word[0]]
    longest = [slip for slip in found if len(slip) == max(map(len, found))]
    return longest[0] if len(longest) == 1 else None
