"""A ruined thread told in a hurry: `aluminium stripped 15 deep wall 3`."""

import re
from collections.abc import Iterable, Mapping
from itertools import pairwise
from typing import Any

from fastkit.errors import Misuse
from fastkit.notation.units import length_mm

NUMBER = re.compile(r"(?:\d+-)?\d+/\d+|\d+(?:\.\d+)?")
UNITS = ("mm", "in", "inch", '"')
# what a number is, by the word before or behind it
BESIDE: Mapping[str, str] = {
    **dict.fromkeys(("deep", "depth", "thick"), "depth_mm"),
    **{"wall": "wall_mm", "edge": "edge_mm", "above": "above_mm"},
    **dict.fromkeys(("engaged", "engagement"), "engage_mm"),
    **dict.fromkeys(("hole", "bore", "oversize"), "oversize"),
}
HOLES: Mapping[str, str] = {
    **dict.fromkeys(("stripped", "strip", "pulled", "torn"), "stripped"),
    **dict.fromkeys(("cracked", "crack", "split"), "cracked"),
    **dict.fromkeys(
        ("damaged", "nicked", "rusty", "rusted", "crossed", "cross-threaded", "dirty", "burred"),
        "damaged",
    ),
}
BODIES: Mapping[str, str] = {
    **dict.fromkeys(("aluminium", "aluminum", "alu", "ally", "alloy"), "aluminium"),
    **{"steel": "steel", "iron": "cast-iron", "cast-iron": "cast-iron", "castiron": "cast-iron"},
    **{"magnesium": "magnesium", "mag": "magnesium", "brass": "brass", "bronze": "brass"},
    **dict.fromkeys(("plastic", "nylon"), "plastic"),
    **dict.fromkeys(("sheet", "panel", "tin"), "sheet"),
}
SIDES: Mapping[str, str] = {"blind": "blind", "reachable": "reachable", "through": "reachable"}
# what hangs on the thread, by the part that somebody names
CRITICAL: Mapping[str, str] = {
    **dict.fromkeys(("brake", "brakes", "caliper", "braking"), "brakes"),
    **dict.fromkeys(("steering", "steer", "tie-rod", "trackrod"), "steering"),
    **dict.fromkeys(("suspension", "strut", "wishbone", "damper"), "suspension"),
    **dict.fromkeys(("wheel", "wheels", "hub"), "wheels"),
    **dict.fromkeys(("seat", "belt", "seatbelt", "airbag", "harness", "restraint"), "restraint"),
    **dict.fromkeys(("lifting", "hoist", "crane", "lift", "jack"), "lifting"),
    **dict.fromkeys(("pressure", "boiler", "compressor", "hydraulic", "hydraulics"), "pressure"),
}
THREAD = re.compile(
    r"(thread:.+|m\d.*|plug-.+|ba-\d+|g\d.*|#\d+.*|\d+(-\d+)?/\d+-\d+.*|\d+ba)", re.I
)
IDLE = {"bracket", "cover", "housing", "block", "head", "case", "casing", "engine", "gearbox"}
IDLE |= {"pump", "frame", "boss", "rail", "anchor", "anchorage", "bolt", "screw", "stud", "on"}
IDLE |= {"in", "into", "the", "a", "is", "out", "mm", "cast", "thread", "metal", "body", "with"}


def thread_first(words: Iterable[str]) -> tuple[str, tuple[str, ...]]:
    """The word that names a thread, else the first one; and the others."""
    every = tuple(words)
    at = next((n for n, word in enumerate(every) if THREAD.fullmatch(word)), 0)
    return every[at], (*every[:at], *every[at + 1 :])


def body_of(words: Iterable[str]) -> tuple[str, str | None]:
    """
    Return the other words and the body that stands behind `in` or `into`, if any.

    >>> body_of(("pan head rusted", "into", "alloy"))
    ('pan head rusted', 'aluminium')
    """
    every = " ".join(words).split()
    for at, (before, word) in enumerate(pairwise(every)):
        if before in ("in", "into") and (body := BODIES.get(word.lower().rstrip(","))):
            return " ".join([*every[:at], *every[at + 2 :]]), body
    return " ".join(every), None


def read_words(words: Iterable[str]) -> dict[str, Any]:
    """
    What the words say, by the names of `repair`'s arguments.

    Raises:
        Misuse: When a word is not understood.
    """
    found, words = numbers(tokens(" ".join(words).lower()[:300]))
    if "oversize" in found:
        found["hole"] = f"oversize:{found.pop('oversize'):g}"
    for word in words:
        if word in HOLES:
            found.setdefault("hole", HOLES[word])
        elif word.startswith("oversize:"):
            found["hole"] = word
        elif word in BODIES:
            found["into"] = BODIES[word]
        elif word in CRITICAL:
            found["critical"] = CRITICAL[word]
        elif word in SIDES:
            found["far_side"] = SIDES[word]
        elif word not in IDLE:
            raise Misuse(
                f"{word[:40]!r} is not understood; expected a material, stripped, cracked, "
                "damaged, 15 deep, wall 3, edge 8, hole 6.9, above 60, blind"
            )
    return found


def tokens(text: str) -> list[str]:
    """Words and numbers, a unit with its number."""
    found: list[str] = []
    for word in re.sub(r"(?<=\d)(?=mm|in\b|inch|\")", " ", text.replace(",", " ")).split():
        if word in UNITS and found and NUMBER.fullmatch(found[-1]):
            found[-1] += "mm" if word == "mm" else "in"
        else:
            found.append(word)
    return found


def numbers(words: list[str]) -> tuple[dict[str, Any], list[str]]:
    """
    Lengths by the word beside them, a free number before it or else the one behind; the rest.

    Raises:
        Misuse: When a number stands beside no such word.
    """
    found: dict[str, Any] = {}
    rest: list[str] = []
    free: str | None = None
    named: str | None = None
    for word in words:
        if NUMBER.match(word) and not word.startswith("oversize"):
            if named:
                found[named], named = length_mm(word), None
            elif free:
                break
            else:
                free = word
        elif word in BESIDE and free:
            found[BESIDE[word]], free = length_mm(free), None
        elif word in BESIDE:
            named = BESIDE[word]
        else:
            named = None
            rest.append(word)
    if free:
        raise Misuse(f"{free[:40]!r} mm of what? Expected {free[:40]} deep, wall {free[:40]} or so")
    return found, rest
