"""What is asked of `replace`, settled: bounds, the old class, the place, what was assumed."""

import sqlite3
from collections.abc import Iterable
from math import isfinite
from typing import Any

from fastkit.answers.replace_parts import METAL_OF, Rows, bolt_grades, phrases
from fastkit.answers.said import Line
from fastkit.answers.torque import TorqueAnswer, torque
from fastkit.errors import Misuse, NotHeld
from fastkit.hardware.candidates import Asked
from fastkit.hardware.old import Old, Place, Read, read
from fastkit.joint.choice import strength_at
from fastkit.records.finish import Finish
from fastkit.records.material import Material
from fastkit.reference.aliases import first_meant, readable
from fastkit.reference.lookup import one, usual
from fastkit.reference.store import connect

LACKED = frozenset(("lack", "finish", "form"))
SYSTEM_OF = {"socket": "hex-socket", "hexagon": "hexagon"}
LEVEL = 2  # inside and unheated, where nobody said
PLASTIC = "plastic"  # clamped: no metal, but it creeps
THIN_D = 0.6  # diameters: a sheet thinner than this carries no thread (practice)
LADDER = ("4.8", "8.8", "10.9", "12.9")
BOUNDS = {
    "grip_mm": (0.1, 2000.0),
    "depth_mm": (0.1, 2000.0),
    "torque_known_nm": (0.01, 1e5),
    "above_mm": (0.0, 1e4),
    "beside_mm": (0.0, 1e4),
    "swing_deg": (0.0, 360.0),
}
Numbers = dict[str, Any]


def read_line(words: Iterable[str]) -> tuple[str, str, str | None]:
    """
    Return the thread that a line names, empty where none, what it says of the old part, the body.

    >>> read_line("rusty m6 pan head 16 long in the alloy cover".split())
    ('m6', 'rusty pan head 16 long cover', 'aluminium')
    """
    line = Line(connect(), words)
    thread, body = line.thread(), line.body()
    return thread.text if thread else "", " ".join(line.words), body


def check(**values: float | None) -> None:
    """Refuse what no joint could have, naming the option's bounds."""
    for name, value in values.items():
        low, high = BOUNDS[name]
        if value is not None and not (isfinite(value) and low <= value <= high):
            word, _, unit = name.rpartition("_")
            shown = {"mm": "mm", "nm": "N·m", "deg": "°"}[unit]
            word = word.replace("_", "-")
            raise Misuse(f"{word} must be {low:g} to {high:g} {shown}, got {value:g}")


def lacking(
    store: sqlite3.Connection, lack: tuple[str, ...] | list[str], inch: bool
) -> tuple[str, ...]:
    """
    What the shop has none of: heads, finishes, classes, drives by their ids; metric, length.

    Raises:
        Misuse: When a word names none of them.
    """
    held, grades = phrases(store), bolt_grades(store)
    found: list[str] = []
    for word in lack:
        plain = " ".join(readable(word).lower().split())
        named = [value for what, value in held.get(plain, ()) if what in LACKED]
        if not named:
            old = read(plain, "", {}, grades, first_meant(store, plain), inch).old
            named = [one_ for one_ in (old.grade, old.drive, SYSTEM_OF.get(old.form or "")) if one_]
        if not named:
            raise Misuse(
                f"lack: {plain[:40]!r} is not understood; expected a head, finish, class or drive "
                "such as stainless, 10.9, T30, or metric or length"
            )
        found += named
    return tuple(found)


def is_thin(material: Material | None, depth_mm: float | None, d: float) -> bool:
    """Whether a body is too thin for a thread, so that a nut goes behind it."""
    if material is None:
        return False
    return material.id == "sheet" or (depth_mm is not None and depth_mm < THIN_D * d)


def metals(material: Material | None, plate: Material | None) -> tuple[str, ...]:
    """Metals that the fastener touches: body and clamped part; steel where nobody said."""
    plates = () if plate is None or plate.id == PLASTIC else (plate,)
    touched = [METAL_OF.get(one_.id) for one_ in (material, *plates) if one_ is not None]
    return tuple(dict.fromkeys(metal for metal in touched if metal)) or ("steel",)


def washer_mm(known: Rows) -> float:
    """Thickness of the plain washer of this size [mm]."""
    return next((row.thickness_mm for row in known.washers if row.standard == "ISO 7089"), 0.0)


def level(place: Place, assumed: list[Numbers]) -> int:
    """How hard the place is on metal; what was not said is assumed."""
    if place.level is None:
        assumed.append({"what": "place", "value": "inside, unheated"})
        return LEVEL
    return place.level


def old_grade(
    store: sqlite3.Connection,
    known: Rows,
    said: Read,
    into: str | None,
    torque_nm: float | None,
    assumed: list[Numbers],
) -> str:
    """The class of the old part: said, or what is usual for its form, never below its torque."""
    old, inch = said.old, known.facts.thread.family != "M"
    if old.grade is not None and old.grade in known.facts.strengths:
        return old.grade
    if old.finish == "passivated":
        grade = "A2-70"
    elif inch:
        grade = "A574" if old.form == "socket" else "SAE-5"
    elif old.form == "socket":
        grade = _socket_grade(store, known, old, into)
    else:
        grade = usual(store, "class-of-form", old.form or "") or "8.8"
    if old.grade is not None:
        raise NotHeld(
            f"{old.grade} is no class replaced here; expected one such as 8.8 or A2-70",
            tuple(sorted(known.facts.strengths))[:6],
        )
    if torque_nm is not None:
        grade = _stands(store, known, grade, _friction(store, old), torque_nm)
    assumed.append({"what": "class of the old one (read its head)", "value": grade})
    return grade


def _socket_grade(store: sqlite3.Connection, known: Rows, old: Old, into: str | None) -> str:
    """12.9, as most socket screws are; 8.8 where plated, or where 12.9 would strip the body."""
    if old.finish in {"zinc-plated", "hot-dip"}:
        return "8.8"
    strips = into and torque(known.facts.thread.id, "12.9", into=into, store=store).empty
    return "8.8" if strips else "12.9"


def _stands(
    store: sqlite3.Connection, known: Rows, grade: str, friction: str, torque_nm: float
) -> str:
    """The class, or the next higher that yields at no less than a torque at middle friction."""
    thread = known.facts.thread.id
    for higher in LADDER[LADDER.index(grade) :] if grade in LADDER else ():
        found = torque(thread, higher, friction=friction, set_nm=torque_nm, store=store)
        if found.set is None or found.set["utilisation_pct"][1] <= 100:
            return higher
    return grade


def _friction(store: sqlite3.Connection, old: Old) -> str:
    """The condition in which the old part was tightened: as its finish comes, else oiled."""
    if "locker" in old.had:
        return "threadlocker"
    finish = one(store, Finish, id=old.finish or "")
    return (finish.friction if finish else None) or "class-b"


def more_assumed(
    assumed: list[Numbers],
    into: str | None,
    clamped: str | None,
    depth_mm: float | None,
    grip_mm: float | None,
    said: Read,
    asked: Asked,
    torque_nm: float | None,
) -> None:
    """Note what else nobody said."""
    if into is None:
        assumed.append({"what": "into", "value": asked.body})
    if clamped is None:
        assumed.append({"what": "clamped part", "value": asked.metals[-1]})
    if depth_mm is None and not asked.nut and grip_mm is not None:
        assumed.append({"what": "hole", "value": "deep enough: measure it with a rod"})
    if torque_nm is not None:
        words = {None: "lightly oiled", "zinc-plated": "zinc plated, dry"}
        value = words.get(said.old.finish, f"{said.old.finish}, as it comes".replace("-", " "))
        assumed.append({"what": "the known torque was for a thread", "value": value})
    if said.heat_word is not None:
        degc = said.place.temperature_degc or 0.0
        assumed.append({"what": f"temperature ({said.heat_word})", "value": f"{degc:g} °C"})


def before(
    store: sqlite3.Connection, known: Rows, asked: Asked, torque_nm: float | None
) -> TorqueAnswer | None:
    """The old part, at its known torque if any: what it clamped, the new one must too."""
    friction = _friction(store, asked.old)
    if strength_at(known.facts.strengths[asked.grade], known.facts.thread) is None:
        return None
    return torque(
        known.facts.thread.id, asked.grade, friction=friction, set_nm=torque_nm, store=store
    )
