"""What holds a thread and how it is, told in a hurry: `oiled into aluminium 12 engaged`."""

import sqlite3
from collections.abc import Iterable, Mapping
from typing import Any

from fastkit.answers.repair_read import BODIES, numbers, tokens
from fastkit.errors import Misuse
from fastkit.reference import resolve
from fastkit.reference.store import connect

HEADS: Mapping[str, str] = {
    **dict.fromkeys(("hexagon", "hex"), "hexagon"),
    **dict.fromkeys(("socket", "cap"), "socket"),
    **dict.fromkeys(("flange", "flanged"), "flange"),
    **dict.fromkeys(("countersunk", "csk"), "countersunk"),
}
IDLE = {"bolt", "bolts", "screw", "screws", "nut", "stud", "thread", "threads", "head", "torque"}
IDLE |= {"in", "into", "the", "a", "an", "and", "with", "for", "of", "on", "is", "it", "cast"}
LONGEST = 3  # words of a friction condition's name


def read_words(words: Iterable[str], store: sqlite3.Connection | None = None) -> dict[str, Any]:
    """
    Return what the words say, by the names of `torque`'s arguments.

    Raises:
        Misuse: When a word is not understood.
    """
    held = store or connect()
    lengths, rest = numbers(tokens(" ".join(words).lower()[:300]))
    found: dict[str, Any] = {}
    for name, length in lengths.items():
        if name not in ("engage_mm", "depth_mm"):
            raise Misuse(f"{name.partition('_')[0]}: expected 12 engaged, or 12 deep")
        found["engage_mm"] = length
    while rest:
        word, taken = rest[0], 1
        if word in BODIES:
            found["into"] = BODIES[word]
        elif named := _friction(held, rest):
            found["friction"], taken = named
        elif word in HEADS:
            found["head"] = HEADS[word]
        elif word in ("reused", "used"):
            found["reused"] = True
        elif word not in IDLE:
            raise Misuse(
                f"{word[:40]!r} is not understood; expected how the thread is (oiled, dry), what "
                "holds it (aluminium), 12 engaged, the head (flange), reused"
            )
        rest = rest[taken:]
    return found


def _friction(store: sqlite3.Connection, words: list[str]) -> tuple[str, int] | None:
    """Return the friction condition that words begin with, its longest name, and its words."""
    for taken in range(min(LONGEST, len(words)), 0, -1):
        if named := resolve.friction_named(store, " ".join(words[:taken])):
            return named.id, taken
    return None
