"""Words and options to one situation: what was said, what was taken from it, what is a default."""

import re
import sqlite3
from collections.abc import Collection, Iterable, Mapping
from typing import Any, NamedTuple

from fastkit.answers import facts, options
from fastkit.answers.critical import before_loosened
from fastkit.answers.dangers import dangers, must_be, without
from fastkit.answers.hands_off import refuse
from fastkit.errors import Misuse, NotHeld
from fastkit.extraction.reading import Reading, Taken
from fastkit.extraction.situation import HEADLESS, TURNING, Near, Situation
from fastkit.extraction.stubs import USUAL_D
from fastkit.extraction.vocabulary import Phrases, Vocabulary, indexed
from fastkit.extraction.words import OTHERS, read
from fastkit.notation.names import words_said
from fastkit.notation.units import length_mm
from fastkit.records.drive import Drive
from fastkit.records.hazard import Neighbour
from fastkit.records.part import Part
from fastkit.records.source import FILLERS, DangerWord
from fastkit.records.thread import Thread
from fastkit.reference import aliases, resolve
from fastkit.reference.lookup import get, many, usual
from fastkit.reference.phrases import phrases
from fastkit.reference.spelling import heard
from fastkit.reference.store import query
from fastkit.reference.threads import threads

NEAR_HEXAGON = 0.1  # of a size across flats: how far off a hexagon still tells how large it is
LONGEST_WORDS = 2000
HOW_ALONE = {"seized", "seized_at", "near", "above_mm", "beside_mm", "swing_deg", "support"}
EXAMPLE = "M8, 6 mm hex socket rounded out, rusted, 90 mm above, rubber hose 20 mm off"
DEFAULT_THREAD = "M8"
BROKE = (*HEADLESS, "tool-stuck")
OUTER = ("hexagon", "external-hexalobular", "twelve-point")
SOFT_SYSTEMS = ("cross-h", "cross-z", "square", "slot")  # screws of class 4.8 or SAE 2 mostly
TAPPING = "ST"  # the family of threads that a screw forms for itself
NOT_ASSUMED = (
    "have",
    "lack",
    "tried",
    "near",
    "left_hand",
    "no_heat",
    "pocket_mm",
    "drive",
    "insert",
    "prevailing",
    "stub_mm",
    "part",
    "loose",
    "rigid",
    "piped",
    "sealed",
)
SAYS_NOTHING = Reading({}, (), (), None)

Assumed = tuple[str, Any]


class Understood(NamedTuple):
    """
    The situation, the fields that somebody said, those of them that were only said in vague words,
    what was assumed in order, the words left over; what the words tell of dangers, and the methods
    that somebody means to use.
    """

    situation: Situation
    said: frozenset[str]
    vague: frozenset[str]
    assumed: tuple[Assumed, ...]
    not_understood: tuple[str, ...]
    dangers: tuple[str, ...] = ()
    meant: tuple[str, ...] = ()


def understand(
    store: sqlite3.Connection, words: str, given: Mapping[str, Any] | None = None
) -> Understood:
    """
    Return the situation of words and options; options win.

    Args:
        store: Open reference.
        words: What people type.
        given: Options as `options.fields` takes them.

    Raises:
        Misuse: When an option is not valid, or nothing at all was understood.
        NotHeld: When a designation is well formed but not in the data, or it is nothing for home.
    """
    line = heard(store, words)
    refuse(store, line)
    fields = options.fields(store, given or {})
    warns = dangers(store, line)
    plain = without(words, [row for row in warns if row.near is None])
    reading = _of_held_sizes(store, _read(store, plain), words.lower())
    steel = usual(store, "class-of-steel", str(reading.given.get("grade")))
    strong = {"grade": steel} if steel else {}  # a steel was said, not how strong it is
    said = {**_resolved(store, {**reading.given, **strong}, fields), **fields}
    if not said and reading.system is None:
        what = f"nothing understood in {words[:60]!r}" if words.strip() else "nothing was said"
        raise Misuse(f"{what}; expected drive or thread, damage, room and neighbours", (EXAMPLE,))
    if reading.left and reading.system is None and said.keys() <= HOW_ALONE:
        what = f"{' '.join(reading.left)[:60]!r} is no fastener that is known"
        raise Misuse(f"{what}; expected bolt, nut, screw, stud, its thread or drive", (EXAMPLE,))
    warns = _with_dangers(said, warns)
    told_of = frozenset().union(*(words_said(line, row.words) for row in warns))
    others = told_of.union(*(item.words.lower().split() for item in reading.taken))
    hung, names = before_loosened(store, line, others)
    told_of |= names
    left = tuple(word for word in reading.left if word.lower() not in told_of)
    vague = [what for what in (*(t.what for t in reading.taken), *strong) if what not in fields]
    part = get(store, Part, said["part"]) if "part" in said else None
    if part and "thread" in said and "part" not in fields and _other_thread(store, part, said):
        part = said.pop("part") and None
    if part and part.seized and said.get("seized") == "seized" and "seized" not in fields:
        said["seized"] = part.seized  # "stuck", as such a part sticks
        vague.append("seized")
    if part and "thread" not in fields and (pitch := _usual_pitch(store, part, reading)):
        said["thread"] = pitch
        vague.append("thread")
    inferred = _inferred(store, said, reading.system, part)
    if reading.given.get("damage") in BROKE and "seized" not in said:
        inferred.setdefault("seized", "seized")  # it would not move, so it broke
    situation = Situation(**{**inferred, **said})
    own = {*reading.carried, *((part.near or "").split() if part else ())}
    situation = with_movable(store, situation, own, reading)
    drive = get(store, Drive, situation.drive) if situation.drive else None
    situation = _as_each_other(situation, drive.system if drive else None)
    if situation.damage == "rounded" == reading.given.get("damage") and "seized" not in said:
        inferred.setdefault("seized", "seized")  # a hexagon goes round that does not move
        situation = situation._replace(seized=inferred["seized"])
    assumed = [
        *((what, getattr(situation, what)) for what in dict.fromkeys(vague)),
        *inferred.items(),
    ]
    told = {what for what, _ in assumed} | said.keys()
    assumed += [
        (what, getattr(situation, what))
        for what in Situation._fields
        if what not in told and what not in NOT_ASSUMED
    ]
    return Understood(
        situation,
        frozenset(said),
        frozenset(vague),
        tuple(assumed),
        left,
        (*must_be(warns), *hung),
        reading.meant,
    )


def _with_dangers(said: dict[str, Any], warns: Iterable[DangerWord]) -> list[DangerWord]:
    """Add to what was said the neighbours and the material that dangers are; return the news."""
    news = []
    for row in warns:
        near = said.get("near", ())
        if row.near is None:
            news.append(row)
        elif row.near not in {item.thing for item in near}:
            said["near"] = (*near, Near(row.near, 0.0))
            news.append(row)
        if row.body is not None:
            said.setdefault("into", row.body)
    return news


def _read(store: sqlite3.Connection, words: str) -> Reading:
    if len(words) > LONGEST_WORDS:
        raise Misuse(f"{len(words)} characters are too many; expected up to {LONGEST_WORDS}")
    plain = aliases.readable(words)
    if not plain.strip():
        return SAYS_NOTHING

    def beginning(starts: Collection[str]) -> Phrases:
        return indexed(phrases(store, starts))

    known = FILLERS.union(row[0] for row in query(store, "SELECT word FROM phrase_word"))
    return read(plain, Vocabulary(known, beginning), aliases.first_meant(store, plain))


def _of_held_sizes(store: sqlite3.Connection, reading: Reading, words: str) -> Reading:
    """Return the reading without a size of a drive that none has, unless its designation stands."""
    drive = str(reading.given.get("drive", ""))
    if not drive or drive.lower() in words:
        return reading
    try:
        resolve.drive(store, drive)
    except NotHeld:
        given = {name: value for name, value in reading.given.items() if name != "drive"}
        taken = [taken for taken in reading.taken if taken.what != "drive"]
        size = drive.partition("-")[2]
        if near := _nearest_hexagon(store, drive):
            given["drive"] = near
            taken.append(Taken("drive", near, size))
        return reading._replace(given=given, taken=tuple(taken), left=(*reading.left, size))
    return reading


def _nearest_hexagon(store: sqlite3.Connection, drive: str) -> str | None:
    """Return the hexagon that is nearest to one which the data lack: a nut of 33 mm is large."""
    if not drive.startswith("AF-"):
        return None
    size = length_mm(drive.removeprefix("AF-"))
    unit = drive[-2:]
    rows = [row for row in many(store, Drive, system="hexagon") if row.id.endswith(unit)]
    off, found = min((abs((row.across_flats_mm or 0.0) - size), row.id) for row in rows)
    return found if off <= NEAR_HEXAGON * size else None


def _resolved(
    store: sqlite3.Connection, given: Mapping[str, Any], fields: Mapping[str, Any]
) -> dict[str, Any]:
    """Return the fields of the words with the ids of the data; those that options fill left out."""
    found = {name: value for name, value in given.items() if name not in fields}
    for name, look_up in (
        ("thread", resolve.thread),
        ("grade", resolve.grade),
        ("drive", resolve.drive),
    ):
        if name in found:
            found[name] = look_up(store, found[name]).id
    if "damage" in fields and fields["damage"] != given.get("damage"):
        found.pop("stub_mm", None)  # measured before it broke again
    for name in options.BOUNDS:
        field = options.FIELDS.get(name, name)
        if field in found:
            found[field] = options.in_bounds(name, float(found[field]))
    for name in ("side", "pocket"):
        if f"{name}_mm" in found:
            found[f"{name}_mm"] = options.within(name, found[f"{name}_mm"])
    if OTHERS in found.get("lack", ()):
        every = [row[0] for row in query(store, "SELECT id FROM tool ORDER BY rowid")]
        found["lack"] = tuple(name for name in every if name not in found["have"])
    if "near" in found:
        nearest: dict[str, float] = {}
        for thing, mm in found["near"]:
            nearest[thing] = min(mm, nearest.get(thing, mm))
        found["near"] = tuple(Near(thing, mm) for thing, mm in nearest.items())
    return found


def with_movable(
    store: sqlite3.Connection,
    situation: Situation,
    own: Collection[str] = (),
    reading: Reading = SAYS_NOTHING,
) -> Situation:
    """
    Return the situation with the neighbours that come away, and the pipes that nothing pushes.

    Args:
        store: Open reference.
        situation: With its neighbours.
        own: Neighbours that the part itself carries: neither.
        reading: What words name as hoses, as pipes, as shut for good.
    """
    rows = {row.id: row for row in many(store, Neighbour)}
    beside = {near.thing for near in situation.near}  # options may leave out what words name
    found: tuple[list[str], list[str]] = [], []
    for near in situation.near:
        row = rows[near.thing]
        if row.aside_mm and row.id not in own:
            found[row.named and row.id not in reading.loose].append(row.id)
    return situation._replace(
        loose=tuple(found[0]),
        rigid=tuple(found[1]),
        piped=tuple(name for name in reading.piped if name in beside and name not in own),
        sealed=tuple(name for name in reading.sealed if name in beside),
    )


def _other_thread(store: sqlite3.Connection, part: Part, said: Mapping[str, Any]) -> bool:
    """Say whether its thread cannot be that of a part which forms its own: `M8 hinge screw`."""
    if not part.thread:
        return False
    families = [get(store, Thread, name).family for name in (part.thread, said["thread"])]
    return families[0] == TAPPING != families[1]


def _usual_pitch(store: sqlite3.Connection, part: Part, reading: Reading) -> str | None:
    """Return a part's own thread where its diameter alone was said: `m14 spark plug`."""
    said = str(reading.given.get("thread", ""))
    if not part.thread or not re.fullmatch(r"M[\d.]+", said):
        return None
    usual = get(store, Thread, part.thread)
    return usual.id if usual.nominal_mm == float(said[1:]) else None


def _inferred(
    store: sqlite3.Connection, said: Mapping[str, Any], system: str | None, part: Part | None
) -> dict[str, Any]:
    """Return kind, drive, thread, stub and grade where nobody said them, in that order."""
    found = _of_part(said, system, part) if part else {}
    damage = said.get("damage", "intact")
    named = said.get("drive") or found.get("drive")
    drive = get(store, Drive, named) if named else None
    size_held = usual(store, "size-of-system", system or "")
    if drive is None and size_held and "thread" not in said:
        drive = get(store, Drive, size_held)
        found["drive"] = drive.id
    if drive:
        system = drive.system
    kind = said.get("kind") or found.get("kind") or _kind(drive, damage, system)
    if "kind" not in said:
        found["kind"] = kind
    size = None
    if "thread" not in said and "thread" not in found:
        standard = part.standard if part else None
        size = facts.size_from_drive(store, kind, drive, standard) if drive else None
        found["thread"] = _sized(store, size or DEFAULT_THREAD)
    thread = resolve.thread(store, said.get("thread") or found["thread"])
    if drive is None and damage not in HEADLESS:
        likely = facts.drive_from_size(store, kind, thread.size, system)
        likely = likely or size_held
        if likely:
            found["drive"] = likely
            system = get(store, Drive, likely).system
    if damage in USUAL_D and "stub_mm" not in said:
        found["stub_mm"] = USUAL_D[damage] * thread.nominal_mm
    if "grade" not in said and "grade" not in found:
        found["grade"] = _grade(said.get("coating"), system, thread.family)
    return found


def _sized(store: sqlite3.Connection, size: str) -> str:
    """Return the coarse thread of a size as heads name it (`1`, `7/8W`), or the thread named."""
    rows = threads(store, size)
    return rows[0].id if rows else resolve.thread(store, size).id


def _of_part(said: Mapping[str, Any], system: str | None, part: Part) -> dict[str, Any]:
    """Return what a part has by its name and nobody has said otherwise."""
    own = part._asdict() | {"into": part.body}
    found = {
        field: own[field]
        for field in (
            "kind",
            "thread",
            "drive",
            "grade",
            "into",
            "seized",
            "seized_at",
            "engage_mm",
        )
        if field not in said and own[field]
    }
    other = "thread" in said and said["thread"] != part.thread
    if system or other or said.get("damage") in HEADLESS:
        found.pop("drive", None)
    return found


def _as_each_other(situation: Situation, system: str | None) -> Situation:
    """Read stripped on an outer hexagon and rounded in a recess as each other."""
    if situation.damage == "rounded" and system not in (*OUTER, None):
        return situation._replace(damage="stripped")
    if situation.damage == "stripped" and system in OUTER:
        return situation._replace(damage="rounded")
    return situation


def _kind(drive: Drive | None, damage: str, system: str | None) -> str:
    if drive is not None:
        return "bolt" if drive.external else "screw"
    if system is not None:
        return "screw"
    outside = ("rounded", *TURNING, *HEADLESS)
    return "bolt" if damage in outside else "screw"


def _grade(coating: str | None, system: str | None, family: str) -> str:
    if coating == "stainless":
        return "A2-70"
    soft = system in SOFT_SYSTEMS
    if family != "M":
        return "SAE-2" if soft else "SAE-5"
    return "4.8" if soft else "8.8"
