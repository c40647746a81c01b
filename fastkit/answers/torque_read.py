"""How tight, asked in a hurry: `m10 fine 10.9 oiled into alloy 12 engaged`, `m12x1.5 wheel nut`."""

import re
import sqlite3
from collections.abc import Iterable, Mapping
from typing import Any

from fastkit.answers import said
from fastkit.answers.critical import hangs, is_governed, unsaid
from fastkit.answers.dangers import dangers, must_be, without
from fastkit.answers.hands_off import refuse
from fastkit.answers.refused import of_words
from fastkit.errors import Misuse
from fastkit.notation.units import angle_deg, force_n, quantity, torque_nmm
from fastkit.records.friction import Friction
from fastkit.reference import resolve
from fastkit.reference.lookup import many
from fastkit.reference.spelling import heard
from fastkit.reference.store import connect

HEADS: Mapping[str, str] = {
    **dict.fromkeys(("hexagon", "hex"), "hexagon"),
    **dict.fromkeys(("socket", "cap"), "socket"),
    **dict.fromkeys(("flange", "flanged"), "flange"),
    **dict.fromkeys(("countersunk", "csk"), "countersunk"),
    **{"button": "button", "pan": "pan"},
}
# what a number is, by the word before or behind it
BESIDE: Mapping[str, str] = {
    **dict.fromkeys(("deep", "depth", "engaged", "engagement"), "engage_mm"),
    **dict.fromkeys(("grip", "thick"), "grip_mm"),
    **dict.fromkeys(("wrench", "ratchet"), "wrench_length_mm"),
    **dict.fromkeys(("crowfoot", "adapter"), "adapter_mm"),
    **dict.fromkeys(("long", "length"), "long_mm"),
    **dict.fromkeys(("angle", "turn"), "angle_deg"),
    **dict.fromkeys(("friction", "mu"), "mu"),
}
MAKERS = {"maker", "makers", "manual", "book", "handbook", "spec", "plate"}
OF_SYSTEM = {"hex-socket": "socket", "hexagon": "hexagon"}
TURNS = {"quarter": 90.0, "half": 180.0}
DRAGS = {"prevailing", "running", "drag", "drags"}
CLASS = re.compile(r"\d{1,2}\.\d")  # as property classes are written
LOCKS = re.compile(r"\b(lock(ing)?|self[- ]locking|prevailing) ?nut", re.IGNORECASE)
IDLE = {"head", "torque", "tight", "how", "what", "be", "ok", "okay", "clamp", "enough", "much"}
IDLE |= {"snug", "set", "at", "clean", "new", "plus", "lock", "locking", "should", "i", "can"}
IDLE |= {"too", "says", *MAKERS, *DRAGS}
EXPECTED = (
    "how the thread is (oiled, dry), what holds it (aluminium), 12 engaged, the head (flange), "
    "reused"
)
LONGEST = 3  # words of a friction condition's name


def read_line(words: Iterable[str], store: sqlite3.Connection | None = None) -> dict[str, Any]:
    """
    Return what a line says, by the names of `torque`'s arguments; what is not said is left out.

    Under `not_understood` the words that say nothing, under `critical` what hangs on it, under
    `dangers` what the words tell of.

    Raises:
        Misuse: When a word is not understood.
    """
    held = store or connect()
    text = " ".join(words)
    hears = heard(held, text)
    refuse(held, hears)
    hung, warns = hangs(held, hears), dangers(held, hears)
    text = without(text, warns)
    line = said.Line(held, [text.replace("crow foot", "crowfoot")])
    typed = " ".join(line.words)
    kinds = of_words(typed)
    found: dict[str, Any] = {"dangers": must_be(warns)} if warns else {}
    grades = line.take("grade")  # before the thread: `grade 5 1/2 unf` is no 5 1/2
    bolts = [named for named in grades if not named.key.startswith("nut-")]
    if len(bolts) > 1:
        raise Misuse(f"{' and '.join(named.text for named in bolts)}: expected one grade")
    for nut in grades:
        if nut not in bolts:
            found["into"] = nut.key
    thread = line.thread()
    for drive in line.take("drive")[:1]:
        found["drive"] = drive.key
    if bolts:
        found["grade"] = bolts[0].text
    if thread:
        found["thread"] = thread.key if kinds else thread.text
        if kinds.get("thread", "").lower() in thread.text.lower():
            kinds.pop("thread", None)  # `spark plug m14`, `1/8 npt`: its own name says it
    elif kinds:
        bodies = [said.BODIES[word] for word in typed.lower().split() if word in said.BODIES]
        if bodies:
            found["into"] = bodies[0]
        sizes = line.take("length") or line.take("word")
        found["thread"] = sizes[0].key if sizes else ""
    rest = unsaid(_rest(held, line, found), hung)
    if governed := [row.id for row in hung.rows if is_governed(row)]:
        found["critical"] = governed[0]
    if LOCKS.search(typed) and "prevailing_nm" not in found:
        raise Misuse("a lock nut adds its own drag: expected it measured, as prevailing 3 Nm")
    if kinds:
        return found | {
            name: f"{found.get(name, '')} {kind}".strip() for name, kind in kinds.items()
        }
    for name in ("thread", "grade"):  # told as what it fails to be, with the nearest
        if name not in found and len(rest) == 1 and "critical" not in found:
            found[name] = rest.pop()
    if rest:
        frictions = (row.id for row in many(held, Friction))
        known = (*frictions, *HEADS, *said.BODIES, *BESIDE, *DRAGS, "reused")
        found["not_understood"] = said.unread(rest, known, EXPECTED)
    return found


def _rest(store: sqlite3.Connection, line: said.Line, found: dict[str, Any]) -> list[str]:
    """Put what the other words say into what is found; return those that say nothing."""
    rest: list[str] = []
    idle = IDLE | said.IDLE | said.places(store)
    lengths, words, free = said.numbers(_quantities(line.left(), found), BESIDE)
    if free and "grade" not in found and CLASS.fullmatch(free):
        found["grade"] = free  # one that there is not: told with the nearest
    elif free:
        raise said.of_what(free, f"deep, grip {free[:40]}")
    lengths.pop("long_mm", None)  # of the bolt: it says nothing of the torque
    found |= lengths
    while words:
        word, taken = words[0], 1
        if word in said.BODIES:
            found.setdefault("into", said.BODIES[word])
        elif named := _friction(store, words):
            found["friction"], taken = named
        elif word in HEADS:
            found["head"] = HEADS[word]
        elif line.systems.get(word) in OF_SYSTEM:
            found["head"] = OF_SYSTEM[line.systems[word]]
        elif word in ("reused", "used"):
            found["reused"] = True
        elif word not in idle:
            rest.append(word)
        words = words[taken:]
    return rest


def _quantities(words: list[str], found: dict[str, Any]) -> list[str]:
    """Take torque, angle and force, which carry their units, for what the words beside them say."""
    rest: list[str] = []
    adapter = not {"crowfoot", "adapter"}.isdisjoint(words)
    for at, word in enumerate(words):
        what = quantity(word)
        if what == "torque":
            drag = not DRAGS.isdisjoint(words[max(0, at - 1) : at + 2])
            name = "set_nm" if MAKERS.isdisjoint(words) else "maker_nm"
            found["prevailing_nm" if drag else name] = torque_nmm(word) / 1000
        elif what == "angle":
            found["adapter_angle_deg" if adapter else "angle_deg"] = angle_deg(word)
        elif what == "force":
            found["clamp_n"] = force_n(word)
        elif word in TURNS:
            found["angle_deg"] = TURNS[word]
        else:
            rest.append(word)
    return rest


def _friction(store: sqlite3.Connection, words: list[str]) -> tuple[str, int] | None:
    """Return the friction condition that words begin with, its longest name, and its words."""
    for taken in range(min(LONGEST, len(words)), 0, -1):
        if named := resolve.friction_named(store, " ".join(words[:taken])):
            return named.id, taken
    return None
