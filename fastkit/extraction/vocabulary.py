"""The phrases of the data made ready for reading, the little words, and slips of the keyboard."""

from collections.abc import Iterable, Mapping
from typing import NamedTuple

from fastkit.records.source import Phrase

FILLERS = frozenset(
    "a an and are as at be been but does for from get got had has have he i ill im is it "
    "its ive just like me my of or please really s so some t that the their them then there theres "
    "these they this those to too very was we were which with you your also plus".split()
)
# say nothing by themselves, but may make a phrase
QUIET = FILLERS | frozenset("bit by in into on only off out up down round when what if can".split())


class Vocabulary(NamedTuple):
    """The phrases by their words, the longest phrase by its first word, and every known word."""

    rows: Mapping[tuple[str, ...], tuple[Phrase, ...]]
    longest: Mapping[str, int]
    words: frozenset[str]


def vocabulary(phrases: Iterable[Phrase]) -> Vocabulary:
    """Return the phrases made ready for `words.read`; words as `tokenise` cuts them."""
    rows: dict[tuple[str, ...], tuple[Phrase, ...]] = {}
    longest: dict[str, int] = {}
    for phrase in phrases:
        words = phrase.words.split()
        key = tuple([word for word in words if word not in FILLERS]) or tuple(words)
        same = rows.get(key)
        if same is None:
            rows[key] = (phrase,)
            longest[key[0]] = max(longest.get(key[0], 0), len(key))
        elif all((row.option, row.value) != (phrase.option, phrase.value) for row in same):
            rows[key] = (*same, phrase)
    return Vocabulary(rows, longest, frozenset(word for key in rows for word in key) | FILLERS)


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
