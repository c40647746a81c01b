"""
Names that a line of words may say: one way of writing them, one reader.

Names stand between `; `. The words of one stand side by side, those with ` + ` between them
anywhere in the line. Behind ` not ` stand single words beside which a name means something else,
anywhere; `but scaffold board` is a longer name that is none of them. A plural says the same.
"""

import re
from collections.abc import Iterator
from functools import cache

BUT, NOT, APART = "but ", " not ", " + "
Places = list[list[tuple[int, int]]]  # where each part of a name stands


def named(line: str, names: str) -> Iterator[tuple[str, Places]]:
    """
    Yield the names that a line in small letters says, and where their parts stand in it.

    >>> [name for name, _ in named("blade of the mower", "mower + blade not wiper; mower blade")]
    ['mower + blade']
    >>> [*named("scaffold boards", "scaffold; but scaffold board")]
    []
    """
    kept = names.split("; ")
    for name in kept:
        if name.startswith(BUT):
            line = line.replace(longer := name.removeprefix(BUT), " " * len(longer))
    for name in kept:
        words, _, others = name.partition(NOT)
        parts = words.split(APART)
        if not all(part in line for part in parts):  # spares a pattern for each name there is
            continue
        places = [[found.span() for found in _pattern(part).finditer(line)] for part in parts]
        if all(places) and not any(_pattern(word).search(line) for word in others.split()):
            yield words, places


def words_said(line: str, names: str) -> frozenset[str]:
    """Return the words of a line that say one of some names."""
    return frozenset(
        word
        for _, places in named(line, names)
        for place in places
        for start, end in place
        for word in line[start:end].split()
    )


def plain(names: str) -> list[str]:
    """Return those names whose words stand side by side, whatever else is said."""
    return [name for name in names.split("; ") if not name.startswith(BUT) and APART not in name]


@cache
def _pattern(words: str) -> re.Pattern[str]:
    return re.compile(rf"(?<!\w){re.escape(words)}s?(?!\w)")
