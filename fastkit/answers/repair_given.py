"""What is given of a ruined thread, checked, and what is taken where nobody says."""

import sqlite3
from math import isfinite
from typing import Any

from fastkit.errors import Misuse
from fastkit.records.bench import Bench
from fastkit.records.material import Material
from fastkit.records.part import Part
from fastkit.records.repair import PartHole
from fastkit.records.thread import Thread
from fastkit.reference import aliases, resolve
from fastkit.reference.lookup import keys, many, nearest, one

HOLES = ("stripped", "oversize", "cracked", "damaged")
FAR_SIDES = ("reachable", "blind", "unknown")
BOUNDS = {
    "depth": (0.3, 500.0),
    "engage": (0.3, 500.0),
    "wall": (0.0, 500.0),
    "edge": (0.0, 500.0),
    "above": (0.0, 10000.0),
    "hot": (-100.0, 1200.0),
}
USUAL_BODY = "aluminium"  # where nobody says what the thread was in
SHEET_MM = 1.5
SPARK_PLUG = "spark-plug"
USUAL_GRADE = {"M": "8.8", "plug": "5.8"}
ELSE_GRADE = "SAE-5"
SOFT_GRADE = {"plastic": "4.8", "sheet": "4.8"}


def material(store: sqlite3.Connection, into: str) -> Material:
    """
    Return the material of a body.

    Raises:
        Misuse: When it is none.
    """
    word = " ".join(aliases.readable(into).lower().removeprefix("material:").split())
    meant = aliases.first_meant(store, word).get(word, word).removeprefix("material:")
    found = one(store, Material, id=meant) or one(store, Material, id=word.replace(" ", "-"))
    if found is None:
        held = keys(store, Material)
        raise Misuse(
            f"no body material {into[:40]!r}; expected one of {', '.join(held)}",
            nearest(word, held, 1),
        )
    return found


def hole(text: str, thread: Thread) -> tuple[str, float | None]:
    """
    Read the state of the hole.

    Raises:
        Misuse: When it is none of them, or an oversize lies out of its range.
    """
    word, _, size = text.strip().lower().partition(":")
    if word not in HOLES:
        raise Misuse(
            f"no hole {text[:40]!r}; expected stripped, oversize:MM, cracked or damaged",
            nearest(word, HOLES, 1),
        )
    if word != "oversize":
        return word, None
    low, high = thread.minor_mm, 2 * thread.nominal_mm
    try:
        value = float(size.strip().removesuffix("mm"))
    except ValueError as error:
        raise Misuse(f"cannot read {text[:40]!r}: expected oversize:MM such as 6.9") from error
    if not low <= value <= high:
        raise Misuse(f"oversize must be {low:.2f} to {high:.2f} mm for {thread.id}, got {value:g}")
    return word, value


def one_of(word: str, choices: tuple[str, ...], wrong: str) -> None:
    """
    Let a word pass that is one of the choices.

    Raises:
        Misuse: When it is none.
    """
    if word not in choices:
        raise Misuse(
            f"{wrong.format(repr(word[:40]))}; expected one of {', '.join(choices)}",
            nearest(word, choices, 1),
        )


def checked(given: dict[str, float | None]) -> None:
    """
    Let numbers pass that lie in their bounds [mm, degC].

    Raises:
        Misuse: When one does not.
    """
    for name, value in given.items():
        low, high = BOUNDS[name]
        if value is not None and not (isfinite(value) and low <= value <= high):
            raise Misuse(f"--{name} must be {low:g} to {high:g}, got {value:g}")


def depths(
    thread: Thread,
    body: Material,
    bench: Bench,
    depth_mm: float | None,
    engage_mm: float | None,
    usual_mm: float | None,
    assumed: list[dict[str, Any]],
) -> tuple[float, float]:
    """Return depth of the hole and engagement, with what was taken for granted [mm]."""
    usual = usual_mm or bench.get("engaged", body.id) * thread.nominal_mm
    if body.id == "sheet":
        usual = SHEET_MM
    if depth_mm is None:
        depth_mm = max(usual, engage_mm or 0.0)
        assumed.append({"what": "depth_mm", "value": depth_mm})
    if engage_mm is None:
        engage_mm = min(usual, depth_mm)
        assumed.append({"what": "engage_mm", "value": engage_mm})
    return depth_mm, min(engage_mm, depth_mm)


def grade(
    store: sqlite3.Connection,
    thread: Thread,
    body: Material,
    said: str | None,
    assumed: list[dict[str, Any]],
) -> str:
    """Return the class of the screw, said or usual."""
    if said is not None:
        return resolve.grade(store, said).id
    class_ = SOFT_GRADE.get(body.id) or USUAL_GRADE.get(thread.family, ELSE_GRADE)
    assumed.append({"what": "grade", "value": class_})
    return class_


def sealed_part(
    store: sqlite3.Connection, part: str | None, thread: str | None
) -> tuple[Thread, tuple[Part, PartHole] | None]:
    """
    Return the thread, said or usual of the part; and the part where its hole must seal.

    A spark plug's thread is one, and a spark plug has its own.

    Raises:
        Misuse: When there is no such part, or nothing says which thread.
    """
    held = keys(store, Part)
    if part is not None and part not in held:
        raise Misuse(
            f"no part {part[:40]!r}; expected one such as drain-plug or sender",
            nearest(part, held, 1),
        )
    sits = one(store, Part, id=part) if part else None
    text = thread or (sits and sits.thread)
    if text is None:
        raise Misuse("no thread; expected one such as M8 or 1/4-20")
    row = resolve.thread(store, text)
    if part == SPARK_PLUG and row.family != "plug":
        plugs = many(store, Thread, family="plug")
        row = next((plug for plug in plugs if plug.nominal_mm == row.nominal_mm), row)
    if sits is None and row.family == "plug":
        sits = one(store, Part, id=SPARK_PLUG)
    hole = one(store, PartHole, part=sits.id) if sits else None
    return row, (sits, hole) if sits and hole else None
