"""
Names that a line of words may say: one way of writing them, one reader.

Names stand between `; `. The words of one stand side by side, those with ` + ` between them
anywhere in the line; `(on|up)` is one or the other, `#` a number. Behind ` not ` stand single
words beside which a name means something else, anywhere; `but scaffold board` is a longer name that
is none of them. A plural says the same.
"""

import re
from collections.abc import Iterator
from functools import cache
from itertools import product

BUT, NOT, APART, NUMBER = "but ", " not ", " + ", "#"
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
            longer = _pattern(name.removeprefix(BUT))
            line = longer.sub(lambda found: " " * len(found[0]), line)
    for name in kept:
        if name.startswith(BUT):  # it may hold a ` not ` of its own
            continue
        words, _, others = name.partition(NOT)
        parts = words.split(APART)
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


def blank(text: str, names: str) -> str:
    """
    Return a text, in whatever letters, without the names that it says.

    >>> blank("M10 bolt, 12 m up", "# m up").strip()
    'M10 bolt,'
    """
    for name, _ in list(named(text.lower(), names)):
        for part in name.split(APART):
            text = _pattern(part).sub(" ", text)
    return text


def plain(names: str) -> list[str]:
    """Return those names whose words stand side by side, whatever else is said."""
    return [name for name in names.split("; ") if not name.startswith(BUT) and APART not in name]


def spread(words: str) -> list[str]:
    """
    Return every way of saying words, `(on|up)` being one or the other.

    >>> spread("(engine|header tank) (still |)hot")
    ['engine still hot', 'engine hot', 'header tank still hot', 'header tank hot']
    """
    pieces = [piece.split("|") for piece in re.split(r"[()]", words)]
    return [" ".join("".join(said).split()) for said in product(*pieces)]


def keys(names: str) -> frozenset[str]:
    """
    Return words, one of which stands in whatever line says one of some names, or its singular.

    >>> sorted(keys("(on|up) the ladder; crane + hook; but crane fly; (drunk|stoned)"))
    ['crane', 'drunk', 'ladder', 'stoned']
    """
    found: set[str] = set()
    for name in names.split("; "):
        part = name.partition(NOT)[0].split(APART)[0]
        always = [word for word in part.split() if word.isalnum()]
        if not name.startswith(BUT):
            found |= {max(always, key=len)} if always else set(re.findall(r"\w+", part))
    return frozenset(found)


@cache
def _pattern(words: str) -> re.Pattern[str]:
    free = re.escape(words).replace(r"\(", "(?:").replace(r"\)", ")").replace(r"\|", "|")
    counted = free.replace(rf"\{NUMBER}\ ", r"\d[\d.,]* ?").replace(rf"\{NUMBER}", r"\d[\d.,]*")
    return re.compile(rf"(?<!\w){counted}s?(?!\w)", re.IGNORECASE)
