"""
What a page needs to look for entries as `find` does: the entries, and the tables of the search.

Nothing is said twice: the ways of writing, words and weights are those that `find` itself reads.
"""

import re
import sqlite3
from collections.abc import Callable, Iterable
from typing import Any

from fastkit.answers.find import WILL_NOT_MOVE
from fastkit.errors import Broken
from fastkit.notation import designation, entry, other_threads, rules
from fastkit.records.thread import Thread
from fastkit.reference import (
    aliases,
    counted,
    gathered,
    heard,
    said,
    scoring,
    search,
    spelling,
    threads,
)
from fastkit.reference.lookup import many
from fastkit.reference.store import query

DRIVES = "SELECT id, system, size FROM drive WHERE system NOT IN ('hexagon', 'hex-socket')"
SAYINGS = "SELECT words, written FROM saying ORDER BY rowid"
PLAIN = "SELECT word FROM plain_word ORDER BY word"
LETTER = r"\p{L}\p{N}_"  # what Python counts as a letter of a word
EDGE = rf"(?:(?<=[{LETTER}])(?![{LETTER}])|(?<![{LETTER}])(?=[{LETTER}]))"
NUMBERS = {
    search: (
        *("LONGEST", "MOST_WORDS", "DIGIT", "NUMBER", "DESIGNATION", "FAINT"),
        *("MATERIAL", "WEAKEST"),
    ),
    gathered: ("COMMON", "POOL", "MOST_TOGETHER"),
    scoring: (
        *("HELD", "NAMED", "MEASURED", "KIND_SAID", "BESIDE", "ANOTHER", "LACKED"),
        *("FAINTLY", "UNSAID"),
    ),
    said: ("ALIAS", "WORDY", "FIGURES"),
    spelling: (
        *("BEGUN", "STEM", "SPELLING", "COMPARED", "SHORT", "ONE_SLIP", "TWO_SLIPS"),
        "LONGEST_WORD",
    ),
    rules: ("COARSEST", "GAUGE_TPI"),
    other_threads: ("PIPE_WHOLE",),
    counted: ("SMALLEST", "NEAR", "MM_IN"),
}
WORDS = {
    search: (
        *("OF_BOLTS", "OF_SIZES", "OF_HEADS", "OF_SQUARES", "NO_PART", "WRITTEN", "NUTS"),
        *("SIZES_BEFORE", "SQUARE", "TURNED"),
    ),
    scoring: ("THREADED", "UNSIZED", "SIZED", "SELDOM", "OF_ANY_SIZE", "OF_ONE_THREAD"),
    said: ("IDLE_WORDS", "OF_THREADS", "UNWEIGHED", "ARTICLES", "DENYING"),
    spelling: ("READ", "EMPTY_WORDS", "BESIDE", "KINDS_CALLED"),
    entry: ("KINDS", "PROMINENT", "CALLED", "HEARD_AS", "VOWELS", "UNHEARD"),
    heard: ("LETTERS",),
    designation: ("FRACTIONS", "SINGLE", "SIZE_OF"),
    rules: ("PITCHES",),
    other_threads: ("TAPPING", "NUMBERED", "PLUGS"),
    counted: ("COUNTED", "TENS", "BELOW", "GAUGES"),
    threads: ("COARSE", "FINE"),
}
PATTERNS = {
    "spoken": designation.SPOKEN,
    "size_heard": heard.SIZE,
    "size": aliases.SIZE,
    "classes": rules.CLASSES,
    "other_wrenches": rules.OTHER_WRENCHES,
    "inches": aliases.INCHES,
    "metric": aliases.METRIC,
    "glued_size": spelling.GLUED[0][0],
    "glued_word": spelling.GLUED[1][0],
    "standard": search.STANDARD,
    "joined": search.JOINED,
    "pitch": search.PITCH,
    "of_a_hexagon": search.OF_A_HEXAGON,
    "figures": said.JOINED,
}


def tables(store: sqlite3.Connection) -> dict[str, Any]:
    """
    Everything that the search stands on, ready for JSON; the same data give the same mapping.

    `entries` holds [id, title, what else finds it beside its key and its other names,
    what it is for]; `aliases`
    [words, place of the entry]; `sayings` [words, what is written for them]; `threads` [id, size,
    series, pitch in mm, threads per inch]; `drives` [id, system, size] of all but the hexagons;
    `rules`, `heard` and `patterns` the ways of writing as regular expressions of ECMAScript with
    the name and arguments of what reads them (less what only spares their compiling);
    `stuck` the words that say that a fastener will not move; `plain` words that are no slips.

    Raises:
        Broken: When the reference cannot be read.
    """
    held = query(store, "SELECT entry, title, words, serves FROM search ORDER BY rowid")
    place = {row[0]: n for n, row in enumerate(held)}
    named = query(store, "SELECT words, entry FROM alias ORDER BY rowid")
    names: dict[str, list[str]] = {}
    for words, id_ in named:
        names.setdefault(id_, []).append(words)
    phrases = query(store, f"SELECT DISTINCT words FROM phrase WHERE {WILL_NOT_MOVE} ORDER BY 1")
    return {
        "entries": [
            [id_, title, _rest(id_, words, names), *filter(None, [serves])]
            for id_, title, words, serves in held
        ],
        "aliases": [[words, place[id_]] for words, id_ in named],
        "sayings": [list(row) for row in query(store, SAYINGS)],
        "threads": [[t.id, t.size, t.series, t.pitch_mm, t.tpi] for t in many(store, Thread)],
        "drives": [list(row) for row in query(store, DRIVES)],
        "stuck": [words for (words,) in phrases],
        "plain": [word for (word,) in query(store, PLAIN)],
        "rules": [_rule(rule) for rule in rules.RULES],
        "heard": [_hearing(*rule) for rule in heard.RULES],
        "patterns": {name: ecmascript(pattern) for name, pattern in PATTERNS.items()},
        "alias_words": [aliases.LONGEST, aliases.WORDS],
        "nothing": aliases.NOTHING,
        "numbers": {n: getattr(module, n) for module, names in NUMBERS.items() for n in names},
        "words": {n: _plain(getattr(module, n)) for module, names in WORDS.items() for n in names},
    }


def _rest(id_: str, words: str, names: dict[str, list[str]]) -> str:
    """What finds an entry less its key and its other names, which stand first."""
    first = " ".join((id_.partition(":")[2], *names.get(id_, ())))
    if not words.startswith(first):
        raise Broken(f"what finds {id_} does not begin with its other names: {words[:60]!r}")
    return words.removeprefix(first).strip()


def _plain(words: Any) -> Any:
    """Words as JSON has them; a set in the order of letters."""
    return sorted(words) if isinstance(words, set | frozenset) else words


def _rule(rule: rules.Rule) -> list[Any]:
    return [ecmascript(rule.pattern), *_reader(rule.build)]


def _hearing(needs: Iterable[str], pattern: str, written: Any) -> list[Any]:
    if callable(written):
        return [list(needs), ecmascript(pattern), None, written.__name__.strip("_")]
    text = re.sub(r"\\(\d)", r"$\1", written.replace("$", "$$"))
    return [list(needs), ecmascript(pattern), text, None]


def _reader(build: Callable[..., Any]) -> tuple[str, dict[str, Any]]:
    """Name of what makes a key of a match, and what it was made with."""
    free = zip(build.__code__.co_freevars, build.__closure__ or (), strict=True)
    held = {name: cell.cell_contents for name, cell in free}
    if "way" in held:
        return _reader(held["way"].key)
    name = build.__qualname__.partition(".")[0].strip("_")
    return name, held


def ecmascript(pattern: str) -> str:
    r"""
    Return a pattern of Python's as one of ECMAScript's with the flag u.

    Raises:
        Broken: When it holds what has no counterpart.

    >>> print(ecmascript(r"(?P<n>\d)\w[^\w/]"))
    (?<n>\d)[\p{L}\p{N}_][^\p{L}\p{N}_/]
    """
    said, inside, at = "", False, 0
    while at < len(pattern):
        sign = pattern[at]
        if sign == "\\":
            said += _escaped(pattern[at + 1], inside)
            at += 2
            continue
        if pattern.startswith(("(?P=", "(?x", "(?i", "(?(", r"(?#"), at):
            raise Broken(f"a way of writing has no form for a page: {pattern[:60]!r}")
        if pattern.startswith("(?P<", at):
            said, at = said + "(?<", at + 4
            continue
        inside = sign == "[" or (inside and sign != "]")
        said += sign
        at += 1
    return said


def _escaped(sign: str, inside: bool) -> str:
    if sign == "w":
        return LETTER if inside else f"[{LETTER}]"
    if sign == "b" and not inside:
        return EDGE
    if sign in "dsDS" or sign.isdigit() or sign in r"^$\.*+?()[]{}|/" or (sign == "-" and inside):
        return f"\\{sign}"
    if sign.isalpha():
        raise Broken(f"a way of writing has no form for a page: \\{sign}")
    return sign
