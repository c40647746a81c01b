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
    found: dict[str, Any] = {
        {"depth_mm": "engage_mm"}.get(name, name): value for name, value in lengths.items()
    }
    if strange := found.keys() - {"engage_mm"}:
        raise Misuse(f"{strange.pop().partition('_')[0]}: expected 12 engaged, or 12 deep")
    while rest:
        taken = min(LONGEST, len(rest))
        while taken and not (named := resolve.friction_named(held, " ".join(rest[:taken]))):
            taken -= 1
        word = rest[0]
        if taken and named and word not in BODIES:
            found["friction"] = named.id
        elif word in BODIES:
            found["into"] = BODIES[word]
        elif word in HEADS:
            found["head"] = HEADS[word]
        elif word in ("reused", "used"):
            found["reused"] = True
        elif word not in IDLE:
            raise Misuse(
                f"{word[:40]!r} is not understood; expected how the thread is (oiled, dry), what "
                "holds it (aluminium), 12 engaged, the head (flange), reused"
            )
        rest = rest[max(1, taken) :]
    return found
