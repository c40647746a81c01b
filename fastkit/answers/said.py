"""A line typed in a hurry: which words name the thread or the grade, and what its numbers are."""

import re
import sqlite3
from collections.abc import Iterable, Mapping, Sequence
from typing import NamedTuple

from fastkit.errors import Misuse
from fastkit.notation.designation import parse
from fastkit.notation.units import angle_deg, length_mm, quantity
from fastkit.reference.aliases import first_meant, readable
from fastkit.reference.store import query

LONGEST = 4  # words of one designation
MOST = 300  # letters of a line that are looked at
WRITTEN = {"thread", "grade", "length"}  # what a part's designation holds
SYSTEM = re.compile("system:").match
HOLE, DEEP = "oversize_mm", {"deep", "thick"}
BETWEEN_NUMBERS = {"to", "out", "is", "about", "at"}  # a number and its word
# what parts words: no decimal sign, and the dash before a class: `m8x40-8.8`
BETWEEN = re.compile(r"[?!+]|\.(?!\d)|,(?!\d)|(?<!\d),|(?<=\d)-(?=\d{1,2}\.\d(?!\S))")
NUMBER = re.compile(r"(?:\d+-)?\d+/\d+|\d+(?:\.\d+)?")
FASTENERS = {"bolt", "bolts", "screw", "screws", "nut", "nuts", "stud", "studs", "thread"}
FASTENERS |= {"washer", "washers"}
BODIES: Mapping[str, str] = {
    **dict.fromkeys(("aluminium", "aluminum", "alu", "ali", "ally", "alloy"), "aluminium"),
    **{"steel": "steel", "iron": "cast-iron", "cast-iron": "cast-iron", "castiron": "cast-iron"},
    **{"magnesium": "magnesium", "mag": "magnesium", "brass": "brass", "bronze": "brass"},
    **dict.fromkeys(("plastic", "nylon"), "plastic"),
    **dict.fromkeys(("sheet", "panel", "tin"), "sheet"),
}
CAST = {"aluminium", "magnesium", "cast-iron", "plastic"}  # bodies, where nobody says otherwise
# words between: they ask for nothing
IDLE = {"in", "into", "the", "a", "an", "and", "with", "for", "of", "on", "is", "it", "out", "my"}
IDLE |= {"mm", "cast", "metal", "body", "from", "then", "to", "has", "threads", *FASTENERS}


class Named(NamedTuple):
    """Some words that name one thing."""

    text: str  # as typed
    key: str  # of the entry, as far as it was said


class Line:
    """The words of a line that nothing has been made of yet."""

    def __init__(self, store: sqlite3.Connection, words: Iterable[str]) -> None:
        text = BETWEEN.sub(" ", readable(" ".join(words))[:MOST])
        text = re.sub(r"(?<=\d) ?[x×] ?(?=\d)", "x", text)
        named = first_meant(store, text)
        self.systems = {w: what.partition(":")[2] for w, what in named.items() if SYSTEM(what)}
        self._aliases = {w: what for w, what in named.items() if not SYSTEM(what)}
        self.words = [part for word in text.split() for part in self._parted(word)]

    def _parted(self, word: str) -> list[str]:
        """The designations that stand in one word: `m8x40` is an M8, 40 long."""
        parts = parse(word, self._aliases)
        if len(parts) < 2 or not {part.kind for part in parts} <= WRITTEN:
            return [word]
        found: list[str] = []
        for part in parts:
            found += [part.key, "long"] if part.kind == "length" else [part.key]
        return found

    def take(self, kind: str) -> list[Named]:
        """Take every run of words that names one entry of a kind, the longest runs first."""
        found: list[tuple[int, Named]] = []
        for count in range(LONGEST, 0, -1):
            for at in range(len(self.words) - count, -1, -1):
                run = " ".join(self.words[at : at + count])
                parts = parse(run, self._aliases)
                if [part.kind for part in parts] == [kind]:
                    found.append((at, Named(run, parts[0].key)))
                    self.words[at : at + count] = []
        return [named for _, named in sorted(found)]

    def names(self, run: Sequence[str]) -> bool:
        """Say whether words of the line together name one thing, or a thread and its length."""
        kinds = [part.kind for part in parse(" ".join(run), self._aliases)]
        return kinds == ["thread", "length"] or (len(kinds) == 1 and kinds != ["word"])

    def thread(self) -> Named | None:
        """
        Take the words that name the thread: `m10 x 1.25`, `spark plug m14`, `8 mm bolt`.

        Raises:
            Misuse: When there are two.
        """
        found = self.take("thread") or self._bare()
        if len(found) > 1:
            names = " and ".join(named.text for named in found)
            raise Misuse(f"{names}: expected one thread")
        return found[0] if found else None

    def _bare(self) -> list[Named]:
        """A bare size that stands before `bolt` or the like."""
        for count in (2, 1):
            for at in range(len(self.words) - count):
                run = " ".join(self.words[at : at + count])
                parts = parse(run, self._aliases)
                behind = self.words[at + count].lower()
                if [part.kind for part in parts] == ["length"] and behind in FASTENERS:
                    self.words[at : at + count] = []
                    size = parts[0].key.removesuffix("in")
                    named = f"M{size.removesuffix('mm')}" if size.endswith("mm") else size
                    return [Named(named, named)]
        return []

    def body(self) -> str | None:
        """Take the material behind `in` or `into`, or one that no fastener is made of here."""
        words = [word.lower() for word in self.words]
        for at, word in enumerate(words):
            named = BODIES.get(word)
            start = at - (words[at - 1 : at] == ["cast"])
            led = start - 1 - (words[max(0, start - 1)] in ("the", "a", "an"))
            behind = words[at + 1] if at + 1 < len(words) else ""
            into = led >= 0 and words[led] in ("in", "into")
            if named and (into or (named in CAST and behind not in FASTENERS)):
                self.words[led if into else start : at + 1] = []
                return named
        return None

    def left(self) -> list[str]:
        """The words and numbers left over in lower case, a unit with its number."""
        return with_units(" ".join(self.words).lower().split())


def places(store: sqlite3.Connection) -> frozenset[str]:
    """Return the words for where a fastener sits (`phrases.csv`): they ask for nothing."""
    rows = query(store, "SELECT words FROM phrase WHERE option = 'place'")
    return frozenset(word for (words,) in rows for word in words.split())


def with_units(words: Sequence[str]) -> list[str]:
    """
    Return the words, a number together with the unit behind it.

    >>> with_units("18 ft lbs dry".split())
    ['18ftlbs', 'dry']
    """
    found: list[str] = []
    while words:
        counts = (3, 2) if NUMBER.match(words[0]) else ()
        taken = next((n for n in counts if quantity(" ".join(words[:n]))), 1)
        found.append("".join(words[:taken]))
        words = words[taken:]
    return found


def numbers(
    words: Sequence[str], beside: Mapping[str, str]
) -> tuple[dict[str, float], list[str], str | None]:
    """
    Lengths [mm] and angles [deg] by the word beside them, a number before it or else behind.

    Args:
        words: Words and numbers, a unit with its number.
        beside: What a number is, by such a word: a name that ends in its unit.

    Returns:
        The numbers, the other words, and the first number that stands beside no such word.
    """
    found: dict[str, float] = {}
    rest: list[str] = []
    free: str | None = None
    named: str | None = None
    for at, word in enumerate(words):
        behind = words[at + 1] if at + 1 < len(words) else ""
        if NUMBER.match(word):
            if named and not (named == HOLE and behind in DEEP):  # `hole 15 mm deep`
                found[named], named = _value(named, word), None
            elif free:
                break
            else:
                free = word
        elif word in beside and free:
            found[beside[word]], free = _value(beside[word], free), None
        elif word in beside:
            named = beside[word]
        else:
            named = named if word in BETWEEN_NUMBERS else None
            rest.append(word)
    return found, rest, free


def _value(name: str, text: str) -> float:
    return (angle_deg if name.endswith("_deg") else length_mm)(text)


def unread(words: Iterable[str], known: Iterable[str], expected: str) -> tuple[str, ...]:
    """
    Return the words that say nothing, once each, to be told beside the answer.

    Raises:
        Misuse: When one holds a number, or may be a known word ill spelt: `expected` says what is.
    """
    from fastkit.reference.spelling import slip_of

    told = tuple(dict.fromkeys(words))
    for word in told:
        near = slip_of(word, known)
        if near or any(map(str.isdigit, word)):
            refused = f"{word[:40]!r} is not understood; expected {expected}"
            raise Misuse(refused, (near,) if near else ())
    return told


def of_what(number: str, example: str) -> Misuse:
    """The refusal of a number that stands alone."""
    return Misuse(f"{number[:40]!r} of what? Expected {number[:40]} {example} or so")
