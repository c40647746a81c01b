"""What is said of the old part and of its place, read from words."""

import re
from collections.abc import Iterable, Mapping, Sequence
from typing import NamedTuple

from fastkit.notation.designation import parse
from fastkit.notation.rules import Part
from fastkit.notation.units import length_mm

# what was said -> value, in the order of the words
Said = list[tuple[str, str]]
NOT = {"no", "not", "without", "never", "isn't"}
IDLE = frozenset(
    """a an and at bolt bolts by cap degrees deg fastener for from had hardware has head heads hot
    iso din in into is it its longer made near of off on one or out part piece place plated recess
    screw screws side some the there to under up was were with x °c °f c f thread old mm just only
    very bit little slot slotted cross recess hex pump flat mount frame cover case beside next
    around area line rail long length""".split()
)
HEAT = re.compile(r"(?<![\w.])(-?\d{1,4}(?:\.\d+)?)\s*(?:°\s*)?(c|f|degrees|deg)(?![a-z])")
LONGEST = 5  # words in a phrase
HEAD_OF_SYSTEM = {"hex-socket": "socket", "hexagon": "hexagon", "external-hexalobular": "hexagon"}


class Old(NamedTuple):
    """The part that came out; None or empty: not said."""

    kind: str = "screw"
    form: str | None = None
    grade: str | None = None
    finish: str | None = None
    drive: str | None = None
    length_mm: float | None = None
    states: tuple[str, ...] = ()
    had: tuple[str, ...] = ()
    safety: tuple[str, ...] = ()
    point: str | None = None  # of a set screw: flat, cone, dog, cup
    clamped: str | None = None  # material of what it holds down


class Place(NamedTuple):
    """Where it sits: `level` 1 dry inside, 2 damp, 3 outdoors, 4 salt; None: not said."""

    level: int | None = None
    temperature_degc: float | None = None
    flags: tuple[str, ...] = ()
    circuit: str | None = None


class Read(NamedTuple):
    """Both, what was not understood, and whether the temperature stands for a word only."""

    old: Old
    place: Place
    left: tuple[str, ...]
    heat_word: str | None


def phrases_in(
    text: str, phrases: Mapping[str, Iterable[tuple[str, str]]]
) -> tuple[list[tuple[str, str, str]], str]:
    """
    Find the longest phrases first; one that is denied (`not rusted`) counts for nothing.

    Returns:
        (what, value, words) of each, and the text with a comma in place of each of their words.
    """
    words = re.findall(r"[^\s,;()]+", text)
    taken = [False] * len(words)
    found: list[tuple[int, str, str, str]] = []
    for count in range(min(LONGEST, len(words)), 0, -1):
        for at in range(len(words) - count + 1):
            run = " ".join(words[at : at + count]).strip(".")
            if any(taken[at : at + count]) or run not in phrases:
                continue
            taken[at : at + count] = [True] * count
            if at and words[at - 1] in NOT:
                taken[at - 1] = True
                continue
            found += [(at, what, value, run) for what, value in phrases[run]]
    left = " ".join("," if gone else word for word, gone in zip(words, taken, strict=True))
    return [(what, value, run) for _, what, value, run in sorted(found)], left


def read(
    was: str,
    place: str,
    phrases: Mapping[str, Iterable[tuple[str, str]]],
    grades: Iterable[str],
    aliases: Mapping[str, str],
    inch: bool,
) -> Read:
    """
    Read what was said of the old part and of its place.

    Args:
        was: Words on the part: head, class, finish, drive, state.
        place: Words on the place; either text may hold words of the other.
        phrases: Words in lower case, each with what it says and the value.
        grades: Ids of the classes that may be named.
        aliases: Trade names, as `notation.designation.parse` takes them.
        inch: The thread is an inch one: `grade 5` is the SAE grade.

    Returns:
        What is understood, and the words left over.
    """
    text = f"{was} , {place}".lower().replace("℃", "°c")
    degrees, text = _heat(text)
    grade, text = _grade(text, list(grades), inch)
    found, rest = phrases_in(text, phrases)
    drive, form, length, left = _parsed(parse(rest, aliases))
    said: dict[str, list[str]] = {}
    for what, value, _ in found:
        said.setdefault(what, []).append(value)
    heat_word = None
    if degrees is None and "heat" in said:
        degrees = max(map(float, said["heat"]))
        heat_word = next(
            run for what, value, run in found if what == "heat" and float(value) == degrees
        )
    if grade is None and said.get("finish") == ["passivated"]:
        grade = "A4-70" if re.search(r"(?<!\w)a4(?!\w)", text) else "A2-70"
    kinds = said.get("kind", [])
    forms = said.get("form", [])
    if grade is not None and re.match(r"[ACDF]\d-", grade):
        said.setdefault("finish", []).append("passivated")
    headed = bool(forms) or form is not None
    if headed and "lock-nut" in kinds:  # a bolt that had such a nut
        said.setdefault("had", []).append("lock-nut")
    kinds = [kind for kind in kinds if not (headed and kind in {"nut", "lock-nut"})]
    old = Old(
        next((kind for kind in kinds if kind != "nut"), kinds[0] if kinds else "screw"),
        "flange" if "flange" in forms else forms[0] if forms else form,
        grade,
        next(iter(said.get("finish", [])), None),
        drive,
        length,
        _each(said, "state"),
        _each(said, "had"),
        _each(said, "safety"),
        next(iter(said.get("point", [])), None),
        next(iter(said.get("clamped", [])), None),
    )
    levels = [int(value) for value in said.get("level", [])]
    where = Place(
        max(levels, default=None),
        degrees,
        _each(said, "flag"),
        next(iter(said.get("circuit", [])), None),
    )
    return Read(old, where, left, heat_word)


def _each(said: Mapping[str, list[str]], what: str) -> tuple[str, ...]:
    return tuple(dict.fromkeys(said.get(what, ())))


def _heat(text: str) -> tuple[float | None, str]:
    """The highest temperature said [degC]; of cold ones the lowest."""
    found = []
    for match in HEAT.finditer(text):
        value = float(match[1])
        found.append((value - 32) / 1.8 if match[2] == "f" else value)
    if not found:
        return None, text
    return max(found, key=lambda value: (value > 0, abs(value))), HEAT.sub(" ", text)


def _grade(text: str, grades: list[str], inch: bool) -> tuple[str | None, str]:
    """A class as printed on heads; `SAE 5` or, of an inch thread, `grade 5`."""
    named = {name.lower(): name for name in grades}
    pattern = "|".join(re.escape(name) for name in sorted(named, key=len, reverse=True))
    match = re.search(rf"(?<![\w.-])({pattern})(?![\w.-]*\d)", text)
    if match:
        return named[match[1]], text[: match.start()] + text[match.end() :]
    match = re.search(r"(?<!\w)(sae|grade|gr\.?)[ -]*(\d(?:\.2)?)(?!\w)", text)
    if match and (inch or match[1] == "sae") and f"sae-{match[2]}" in named:
        return named[f"sae-{match[2]}"], text[: match.start()] + text[match.end() :]
    return None, text


def _parsed(
    parts: Sequence[Part],
) -> tuple[str | None, str | None, float | None, tuple[str, ...]]:
    """Drive, head form and length that a line of designations names, and the words left over."""
    drive = form = length = None
    left = []
    for at, part in enumerate(parts):
        if part.kind == "drive":
            drive = part.key
        elif part.kind == "system":
            form = HEAD_OF_SYSTEM.get(part.key, form)
        elif part.kind == "length":
            length = length_mm(part.key)
        elif part.key == "long" and parts[at - 1].key.isdecimal():
            length = float(parts[at - 1].key)
        elif part.kind == "word" and part.key not in IDLE and re.search(r"[a-z]", part.key):
            left.append(part.key)
    return drive, form, length, tuple(left)
