"""What someone wrote -> the one record that is meant, or a refusal that names the nearest."""

import sqlite3
from typing import NoReturn

from fastkit.errors import Misuse, NotHeld
from fastkit.notation.designation import parse
from fastkit.notation.rules import Part
from fastkit.records.drive import Drive
from fastkit.records.friction import Friction
from fastkit.records.grade import Grade
from fastkit.records.thread import Thread
from fastkit.reference.aliases import first_meant, readable
from fastkit.reference.lookup import R, keys, many, nearest, one, resembling
from fastkit.reference.threads import threads

IDLE = {"thread", "bolt", "screw", "nut", "stud", "class", "grade", "drive", "bit", "key", "head"}
IDLE |= {"left", "hand", "handed", "left-hand", "left-handed", "lefthand", "lh", "lht", "rh"}
IDLE |= {"driver", "screwdriver", "wrench", "socket", "stainless", "steel", "pitch", "recess"}


def thread(store: sqlite3.Connection, text: str) -> Thread:
    """
    The thread that *text* names; where no pitch is said, the coarse one of its size.

    Raises:
        NotHeld: When it reads as a thread, but the data does not hold it.
        Misuse: When it does not read as a thread.
    """
    part = _meant(store, Thread, "thread", text, "M8, M8x1 or 1/4-20")
    if isinstance(part, Thread):
        return part
    found = threads(store, part.key)
    return found[0] if found else _not_held(store, Thread, "thread", part.key)


def grade(store: sqlite3.Connection, text: str) -> Grade:
    """
    The property class or grade that *text* names.

    Raises:
        NotHeld: When it reads as a grade, but the data does not hold it.
        Misuse: When it does not read as a grade, or as one of several.
    """
    part = _meant(store, Grade, "grade", text, "8.8, A2-70 or SAE-5")
    if isinstance(part, Grade):
        return part
    several = [g.id for g in many(store, Grade) if g.id.startswith(f"{part.key}-")]
    if several:
        raise Misuse(f"{text.strip()!r} is more than one grade; expected one", tuple(several))
    return _not_held(store, Grade, "grade", part.key)


def drive(store: sqlite3.Connection, text: str) -> Drive:
    """
    The drive that *text* names.

    A hexagon size that is held only as a socket, or only as a head, is taken as that one.

    Raises:
        NotHeld: When it reads as a drive, but the data does not hold it.
        Misuse: When it does not read as a drive.
    """
    part = _meant(store, Drive, "drive", text, "T20, hex-5mm, AF-13mm or PH2")
    if isinstance(part, Drive):
        return part
    return other_hexagon(store, part.key) or _not_held(store, Drive, "drive", part.key)


def other_hexagon(store: sqlite3.Connection, key: str) -> Drive | None:
    """The outer hexagon of a hex socket's size, or the other way round, where the data has it."""
    system, _, size = key.partition("-")
    other = {"hex": "AF", "AF": "hex"}.get(system)
    return one(store, Drive, id=f"{other}-{size}") if other else None


def friction(store: sqlite3.Connection, text: str) -> Friction:
    """
    The friction condition that *text* names, by id, title or another name.

    Raises:
        Misuse: When there is none of that name.
    """
    found = friction_named(store, text)
    if found is None:
        ids = [row.id for row in many(store, Friction)]
        raise Misuse(
            f"no friction condition {text[:60]!r}; expected one of {', '.join(ids)}",
            nearest(text, ids, 1),
        )
    return found


def friction_named(store: sqlite3.Connection, text: str) -> Friction | None:
    """The friction condition of that id, title or other name; None where there is none."""
    words = " ".join(readable(text).lower().removeprefix("friction:").split())
    alias = first_meant(store, words).get(words, "").removeprefix("friction:")
    for row in many(store, Friction):
        if words in {row.id, row.title.lower()} or row.id in {words.replace(" ", "-"), alias}:
            return row
    return None


def _meant(
    store: sqlite3.Connection, record: type[R], kind: str, text: str, expected: str
) -> R | Part:
    """The record whose id was written, else the one part of that kind that the words hold."""
    plain = readable(text).strip()
    prefix, colon, rest = plain.partition(":")
    key = rest if colon and prefix.lower() == kind else plain
    exact = one(store, record, id=key) or one(store, record, id=_cased(store, record, key))
    if exact is not None:
        return exact
    parts = parse(key[:400], first_meant(store, key[:400]))
    named = [part for part in parts if part.kind == kind]
    left = [p for p in parts if p.kind != kind and not (p.kind == "word" and p.key in IDLE)]
    if kind == "thread" and not named and len(left) == 1 and left[0].kind == "length":
        named, left = [_as_thread(left[0])], []
    if len(named) != 1 or left:
        raise Misuse(
            f"{plain[:60]!r} is not understood as a {kind}; expected such as {expected}",
            _likest(store, kind, key, keys(store, record)),
        )
    found = one(store, record, id=named[0].key)
    return named[0] if found is None else found


def _likest(store: sqlite3.Connection, kind: str, text: str, held: list[str]) -> tuple[str, ...]:
    """
    Keys of the three records of a kind that a search for the words finds, or comes near to.

    What holds no size is near only to what it resembles.
    """
    from fastkit.reference.search import search

    found = search(store, text, 3, kind)
    sized = any(map(str.isdecimal, text))
    ids = [hit.id for hit in found.hits] or (found.nearest if sized else ())
    return tuple(id_.partition(":")[2] for id_ in ids) or resembling(text, held)


def _cased(store: sqlite3.Connection, record: type[R], key: str) -> str:
    """The key as the data spells it, where only the case of its letters differs."""
    return next((held for held in keys(store, record) if held.lower() == key.lower()), key)


def _as_thread(length: Part) -> Part:
    """A bare size where a thread is asked for: `8 mm` is M8, `3/8` the inch size."""
    size = length.key.removesuffix("in")
    key = f"M{size.removesuffix('mm')}" if size.endswith("mm") else size
    return length._replace(kind="thread", key=key)


def _not_held(store: sqlite3.Connection, record: type[R], kind: str, key: str) -> NoReturn:
    raise NotHeld(f"no {kind} {key} in the data", nearest(key, keys(store, record)))
