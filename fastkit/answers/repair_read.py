"""A ruined thread told in a hurry: `aluminium stripped 15 deep wall 3`."""

import re
import sqlite3
from collections.abc import Iterable, Mapping
from typing import Any

from fastkit.answers import said
from fastkit.answers.critical import hangs, unsaid
from fastkit.answers.dangers import dangers, must_be, without
from fastkit.answers.hands_off import refuse
from fastkit.answers.sealed import sealed_names
from fastkit.hardware.old import phrases_in
from fastkit.notation.names import words_said
from fastkit.records.repair import PartHole
from fastkit.reference.lookup import many
from fastkit.reference.spelling import heard
from fastkit.reference.store import connect

# what a number is, by the word before or behind it
BESIDE: Mapping[str, str] = {
    **dict.fromkeys(("deep", "depth", "thick"), "depth_mm"),
    **{"wall": "wall_mm", "edge": "edge_mm", "above": "above_mm"},
    **dict.fromkeys(("engaged", "engagement"), "engage_mm"),
    **dict.fromkeys(
        ("hole", "bore", "oversize", "drilled", "enlarged", "opened", "bored"), "oversize_mm"
    ),
    "blind": "depth_mm",
}
HOLES: Mapping[str, str] = {
    **dict.fromkeys(
        (
            "stripped",
            "strip",
            "pulled",
            "torn",
            "gone",
            "knackered",
            "ruined",
            "came",
            "loose",
            "big",
        ),
        "stripped",
    ),
    **dict.fromkeys(("cracked", "crack", "split"), "cracked"),
    **dict.fromkeys(
        ("damaged", "nicked", "rusty", "rusted", "crossed", "cross-threaded", "dirty", "burred"),
        "damaged",
    ),
}
IDLE = said.IDLE | {"spark", "plug", "plugs", "long", "drain", "tapped", "too"}
IDLE |= {"bung", "port"}
INSERT = re.compile(r"\b(?:(?:brass|steel|wire|solid|threaded|heat[- ]set) )*inserts?\b")
EXPECTED = (
    "a material, stripped, cracked, damaged, 15 deep, wall 3, edge 8, hole 6.9, above 60, blind"
)
SIDES: Mapping[str, str] = {"blind": "blind", "reachable": "reachable", "through": "reachable"}


def read_line(words: Iterable[str], store: sqlite3.Connection | None = None) -> dict[str, Any]:
    """
    What a line says, by the names of `repair`'s arguments; what is not said is left out.

    Under `not_understood` the words that say nothing, under `dangers` what the words tell of.

    Raises:
        Misuse: When a word is not understood.
    """
    store = store or connect()
    words = tuple(words)
    hears = heard(store, " ".join(words))
    refuse(store, hears)
    hung, warns = hangs(store, hears), dangers(store, hears)
    text = without(" ".join(words).lower(), warns)
    part, text = _part(store, INSERT.sub(" ", text))  # an insert is no body
    line = said.Line(store, [text])
    thread = line.thread()
    found: dict[str, Any] = {"thread": thread.text} if thread else {}
    if warns:
        found["dangers"] = must_be(warns)
    if part:
        found["part"] = part
    left = line.left()
    lengths, rest, free = said.numbers(left, BESIDE)
    if free:
        raise said.of_what(free, f"deep, wall {free[:40]}")
    found |= lengths
    if "oversize_mm" in found:
        found["hole"] = f"oversize:{found.pop('oversize_mm'):g}"
    unread: list[str] = []
    idle = IDLE | said.places(store)
    for word in unsaid((*rest, *(word for word in left if word in SIDES)), hung):
        if word in HOLES:
            found.setdefault("hole", HOLES[word])
        elif word.startswith("oversize:"):
            found["hole"] = word
        elif word in said.BODIES:
            found["into"] = said.BODIES[word]
        elif word in SIDES:
            found["far_side"] = SIDES[word]
        elif not thread and not part and word not in idle:
            found.setdefault("thread", word)  # told as what it fails to be, with the nearest
        elif word not in idle:
            unread.append(word)
    if hung.rows:
        found["critical"] = min(hung.rows, key=lambda row: row.mended != "renewed").id
    if unread:
        known = (*HOLES, *said.BODIES, *BESIDE, *SIDES)
        found["not_understood"] = said.unread(unread, known, EXPECTED)
    return found


def _part(store: sqlite3.Connection, text: str) -> tuple[str | None, str]:
    """Return the part named whose hole must seal, and the text without its name."""
    names = {words: [("part", hole.part)] for words, hole in sealed_names(store).items()}
    found, left = phrases_in(text, names)
    if found:
        return found[0][1], left
    for hole in many(store, PartHole):
        if words := words_said(text, hole.also or ""):
            return hole.part, re.sub(rf"\b(?:{'|'.join(words)})\b", " ", text)
    return None, text
