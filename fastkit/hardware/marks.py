"""Which grade a head or nut is marked with: figures, lines, the clock of a nut."""

import re
from collections.abc import Iterable, Mapping, Sequence
from math import atan2, degrees
from typing import NamedTuple

from fastkit.records.bench import Bench
from fastkit.records.grade import Grade, MarkStroke

COUNTS: Mapping[str, int] = {
    **{"no": 0, "none": 0, "zero": 0, "without": 0, "one": 1, "single": 1, "two": 2, "three": 3},
    **{"four": 4, "five": 5, "six": 6, "seven": 7, "eight": 8, "nine": 9, "ten": 10},
    **{"eleven": 11, "twelve": 12},
}
LINES = ("line", "lines", "dash", "dashes", "bar", "bars", "slash", "slashes", "radial", "ticks")
UNMARKED = ("unmarked", "blank", "plain", "nothing", "bare")
STEEL = re.compile(r"[ACDF]\d")  # ISO 3506-1: the steel alone, the figure for its strength unread
NUMBER = re.compile(r"\d+(?:[.,]\d+)?")


class Said(NamedTuple):
    """What was read off a head: text, how many lines, the hour of a nut's bar; None: not said."""

    text: str
    lines: int | None
    hour: int | None
    nut: bool
    unmarked: bool
    underlined: bool


class Marked(NamedTuple):
    """A grade with its probability and how its mark was met: exact, lines, clock, unmarked."""

    grade: str
    probability: float
    how: str


def read_marks(words: str) -> Said:
    """What the words say of a head or nut."""
    low = " ".join(words.lower().replace("’", "'").replace("_", "-").split())
    tokens = re.findall(r"[a-z]+|\d+(?:[.,]\d+)?|[^\s\w]", low)
    counted = [COUNTS.get(t, int(t) if t.isdigit() else None) for t in tokens]
    clock = _hour(low, tokens, counted)
    lines = None if clock is not None else _lines(tokens, counted)
    none = any(t in UNMARKED for t in tokens) or bool(re.search(r"\b(no|without) marks?\b", low))
    none = none or lines == 0 or low in ("none", "no", "-", "")
    return Said(low, lines, clock, bool(re.search(r"\bnut\b", low)), none, "underlined" in low)


def _lines(tokens: Sequence[str], counted: Sequence[int | None]) -> int | None:
    """The count that stands before the word for lines, little words between left out."""
    for place, token in enumerate(tokens):
        if token in LINES:
            before = [n for n in counted[max(0, place - 3) : place] if n is not None]
            if before:
                return before[-1]
    return None


def _hour(low: str, tokens: Sequence[str], counted: Sequence[int | None]) -> int | None:
    """The hour at which a nut's bar stands: the class; the dot's twelve is the reference."""
    if "clock" not in low and "dot" not in tokens:
        return None
    if "sixth" in tokens or "third" in tokens:
        return None
    hours = [n for n in counted if n is not None and 1 <= n <= 12]
    others = [n for n in hours if n != 12]
    return others[-1] if others else 12 if len(hours) == 1 and "dot" not in tokens else None


def rank_marks(
    said: Said, grades: Iterable[Grade], marks: Iterable[MarkStroke], bench: Bench
) -> tuple[Marked, ...]:
    """The grades that carry such a mark, likeliest first."""
    by_grade: dict[tuple[str, str], list[MarkStroke]] = {}
    for mark in marks:
        by_grade.setdefault((mark.grade, mark.variant), []).append(mark)
    found = []
    for grade in grades:
        how = _meets(said, grade, by_grade)
        if how:
            score, word = how
            found.append((score * bench.get("met_grade", grade.id), grade.id, word))
    total = sum(score for score, *_ in found)
    ranked = sorted(found, key=lambda item: (-item[0], item[1]))
    return tuple(Marked(key, score / total, word) for score, key, word in ranked)


def _meets(
    said: Said, grade: Grade, marks: Mapping[tuple[str, str], list[MarkStroke]]
) -> tuple[float, str] | None:
    """How well a grade's marks agree with what was read; None: not at all."""
    words = grade.mark or ""
    if said.unmarked:
        bare = "unmarked" in words or words.startswith(("none", "no lines"))
        other = grade.product == "set-screw" and "set" not in said.text
        fits = bare and not other and said.nut == (grade.product == "nut")
        return (1.0, "unmarked") if fits else None
    if said.hour is not None:
        return (1.0, "clock") if said.hour in _hours(marks.get((grade.id, "clock"), ())) else None
    text = _text_score(said, grade, marks)
    if text is not None:
        return text
    if said.lines is None:
        return None
    place = "face" if grade.product == "nut" else "head"
    shapes = marks.get((grade.id, place), [])
    lines = sum(mark.shape == "line" for mark in shapes)
    lettered = any(mark.shape == "text" for mark in shapes)
    same = lines == said.lines and not lettered and said.nut == (grade.product == "nut")
    return (1.0, "lines") if same else None


def _text_score(
    said: Said, grade: Grade, marks: Mapping[tuple[str, str], list[MarkStroke]]
) -> tuple[float, str] | None:
    """A mark of figures and letters, as it stands on the head, else as people write it."""
    texts = {
        _plain(mark.text)
        for variant in ("head", "face", "underlined")
        for mark in marks.get((grade.id, variant), ())
        if mark.text
    } or {_plain(grade.id)}
    read = _plain(re.sub(r"\b(nut|mark(ed)?|class|grade|bolt|head|screw|on|the)\b", " ", said.text))
    read = read.removesuffix("UNDERLINED")
    if read not in texts and not (STEEL.fullmatch(read) and grade.id.startswith(f"{read}-")):
        return None
    under = (grade.id, "underlined") in marks
    nut = grade.product == "nut"
    if nut != said.nut and not (nut and "." not in said.text and said.lines is None):
        return None
    return (1.0 if under == said.underlined or not said.underlined else 0.1), "exact"


def _plain(text: str) -> str:
    return re.sub(r"[^A-Z0-9]", "", text.upper().replace("SAE", ""))


def _hours(marks: Iterable[MarkStroke]) -> set[int]:
    """The hours at which bars stand on a nut's clock."""
    found = set()
    for mark in marks:
        if mark.shape == "line":
            hour = round((90 - degrees(atan2(mark.y1, mark.x1))) / 30) % 12
            found.add(hour or 12)
    return found
