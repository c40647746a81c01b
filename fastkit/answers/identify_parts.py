"""Which drive, head or grade is this: measurements, counts and marks to candidates."""

import sqlite3
from collections.abc import Mapping
from math import isfinite
from typing import Any

from fastkit.answers.identified import Identified, Likely, Trap
from fastkit.errors import Misuse, NotHeld
from fastkit.hardware.marks import Said, rank_marks, read_marks
from fastkit.hardware.shapes import (
    Fit,
    Shape,
    drive_shape,
    fit,
    head_shape,
    lobes_of,
    nearest_shapes,
    next_measure,
)
from fastkit.notation.entry import entry_id
from fastkit.notation.units import figures
from fastkit.reach.near import beside
from fastkit.records.bench import Bench, BenchNumber
from fastkit.records.drive import Drive
from fastkit.records.grade import Grade, GradeRow, MarkStroke, NutRow
from fastkit.records.head import Head
from fastkit.reference.lookup import keys, many, nearest
from fastkit.reference.store import connect

USUAL_ERROR_MM = 0.05  # inside jaws in a recess, or over a forged head; judgement
LEAST_SHARE, MOST, TRAPS = 0.005, 15, 4
PSI_PER_MPA = 145.0377
FORMS = (
    *("hexagon", "socket", "flange", "countersunk", "button", "pan", "cheese", "nut"),
    "set-screw",
)
SIZED = {"across": 0.5, "diameter": 0.5, "height": 0.2, "flats": 0.5}


def identify_drive(
    across_mm: float | None = None,
    lobes: int | None = None,
    *,
    external: bool | None = None,
    system: str | None = None,
    error_mm: float = USUAL_ERROR_MM,
    store: sqlite3.Connection | None = None,
) -> Identified:
    """
    Return the drives that a width and a count may mean, likeliest first.

    Args:
        across_mm: Over points, flats or wings, whichever one measures.
        lobes: Lobes, corners or arms counted: 2, 4, 5, 6 or 12.
        external: Driven from outside; None: not said.
        system: The only system that it may be of, with a pin or without; None: any.
        error_mm: Bound of the caliper's error, either way.
        store: Open reference; the package's own if left out.

    Raises:
        Misuse: When nothing was read, or a value is out of its range.
        NotHeld: When no drive has such a size; `nearest` names what is missed by least.
        Broken: When the reference cannot be read.
    """
    store = store or connect()
    if across_mm is None and lobes is None:
        raise Misuse("nothing was read; expected --across, --lobes or both", ("--across 5.05",))
    bench = Bench(many(store, BenchNumber))
    rows = [row for row in many(store, Drive) if row.system in bench.kinds("met_drive")]
    counts = sorted({lobes_of(row) for row in rows})
    if lobes is not None and lobes not in counts:
        raise Misuse(f"--lobes must be one of {', '.join(map(str, counts))}, got {lobes}")
    read = _read({"across": across_mm}, error_mm)
    if system is not None:
        rows = [row for row in rows if row.system in (system, f"{system}-tamper")]
    known = {"lobes": lobes, "external": external}
    shapes = [
        shape
        for shape in (drive_shape(row, bench, lobes is not None) for row in rows)
        if shape
        and all(value is None or shape.code[name] == value for name, value in known.items())
    ]
    fits = fit(shapes, read, error_mm)
    if not fits:
        raise NotHeld(
            f"no drive in the data measures {across_mm:g} mm" + (f" with {lobes}" if lobes else ""),
            tuple(entry_id("drive", name) for name in nearest_shapes(shapes, read)),
        )
    given = {name for name, value in known.items() if value is not None}
    if across_mm is None:
        fits = tuple(item for item in fits if item.probability > 0)
    readings = {"across_mm": across_mm, **known, "caliper_error_mm": error_mm}
    found = _identified("drive", fits, read, given, error_mm, readings)
    lead = next(row for row in rows if row.id == fits[0].shape.id)
    traps = tuple(
        Trap(
            *((entry_id("drive", near.drive), found.candidates[0].id), (), "rounds"),
            *(None, None, f"{near.play_mm:+.2f} mm, {near.how}", None),
        )
        for near in beside(lead, rows)
        if near.how.startswith("by hand")
    )
    return found._replace(danger=traps[:TRAPS])


def identify_head(
    diameter_mm: float | None = None,
    height_mm: float | None = None,
    *,
    flats_mm: float | None = None,
    form: str | None = None,
    error_mm: float = USUAL_ERROR_MM,
    store: sqlite3.Connection | None = None,
) -> Identified:
    """
    Return the heads and nuts that measurements may mean, likeliest first.

    Args:
        diameter_mm: Over the head, a hexagon over its corners.
        height_mm: Of the head.
        flats_mm: Across the flats of an outer hexagon.
        form: Hexagon, socket, flange, countersunk, button, pan, cheese, nut or set-screw.
        error_mm: Bound of the caliper's error, either way.
        store: Open reference; the package's own if left out.

    Raises:
        Misuse: When nothing was read, or a value is out of its range.
        NotHeld: When no head has such sizes; `nearest` names what is missed by least.
        Broken: When the reference cannot be read.
    """
    store = store or connect()
    read = _read({"diameter": diameter_mm, "height": height_mm, "flats": flats_mm}, error_mm)
    if not read:
        raise Misuse(
            "nothing was read; expected --diameter, --height or --flats", ("--diameter 13",)
        )
    if form is not None and form not in FORMS:
        raise Misuse(
            f"no head form {form[:40]!r}; expected one of {', '.join(FORMS)}",
            nearest(form, FORMS, 1),
        )
    drives = {row.id: row for row in many(store, Drive)}
    rows = [row for row in many(store, Head) if form is None or row.form == form]
    bench = Bench(many(store, BenchNumber))
    made = (
        head_shape(row, drives.get(row.drive or ""), FORMS.index(row.form), bench) for row in rows
    )
    shapes = [shape for shape in made if shape]
    fits = fit(shapes, read, error_mm)
    if not fits:
        raise NotHeld(
            "no head in the data has such sizes",
            tuple(entry_id("head", name) for name in nearest_shapes(shapes, read)),
        )
    given = {"form"} if form else set()
    readings = {
        **{"diameter_mm": diameter_mm, "height_mm": height_mm, "flats_mm": flats_mm},
        **{"form": form, "caliper_error_mm": error_mm},
    }
    return _identified("head", fits, read, given, error_mm, readings)


def identify_grade(marks: str, *, store: sqlite3.Connection | None = None) -> Identified:
    """
    Return the grades that marks on a head or nut may mean, likeliest first.

    Args:
        marks: As read: `8.8`, `A2-70`, `three radial lines`, `nut, dot at 12, bar at 8 o'clock`,
            `no mark`.
        store: Open reference; the package's own if left out.

    Raises:
        NotHeld: When no grade of the data carries such a mark; `nearest` names marks like it.
        Broken: When the reference cannot be read.
    """
    store = store or connect()
    said = read_marks(marks[:200])
    grades = many(store, Grade)
    ranked = rank_marks(said, grades, many(store, MarkStroke), Bench(many(store, BenchNumber)))
    if not ranked:
        raise NotHeld(
            f"no grade in the data is marked {marks[:60]!r}; a maker's sign alone says nothing",
            nearest(marks, keys(store, Grade)),
        )
    by_id = {row.id: row for row in grades}
    candidates = tuple(
        Likely(
            entry_id("grade", item.grade),
            f"{by_id[item.grade].system} {item.grade}{_strength(store, item.grade)}",
            *(round(item.probability, 4), (), (), {}),
        )
        for item in ranked
        if item.probability >= LEAST_SHARE
    )
    even = tuple(one.id for one in candidates if one.probability >= candidates[0].probability / 20)
    return Identified(
        {"marks": marks, "how": ranked[0].how},
        *(candidates[:MOST], even, None, (), ()),
        notes=_notes(said, by_id[ranked[0].grade], len(even)),
    )


def _strength(store: sqlite3.Connection, grade: str) -> str:
    """The least tensile or proof stress over all sizes, in both systems."""
    rows = many(store, GradeRow, grade=grade)
    nuts = many(store, NutRow, grade=grade)
    if rows:
        low, high = (
            min(row.tensile_min_mpa for row in rows),
            max(row.tensile_min_mpa for row in rows),
        )
        word = "tensile strength"
    elif nuts:
        low, high = min(row.proof_mpa for row in nuts), max(row.proof_mpa for row in nuts)
        word = "proof load stress"
    else:
        return ""
    ksi = [f"{value * PSI_PER_MPA / 1000:.0f}" for value in (low, high)]
    mpa = [figures(value) for value in (low, high)]
    spread = [text[0] if text[0] == text[1] else " to ".join(text) for text in (mpa, ksi)]
    return f", {word} {spread[0]} MPa ({spread[1]} ksi)"


def _notes(said: Said, first: Grade, even: int) -> tuple[str, ...]:
    """What follows for the work; common practice."""
    found = []
    if said.unmarked:
        found.append(
            "No mark proves nothing: take it for the weakest there is, and never put it where a "
            "marked one was."
        )
    if first.system.startswith("ISO 3506"):
        found.append(
            "Stainless against stainless galls: anti-seize, slow turning, never an impact tool; "
            "a magnet does not tell it, cold work makes it magnetic."
        )
        found.append("Weaker than 8.8 unless it is class 80 or 100: not a substitute by itself.")
    if first.id in {"10.9", "12.9", "SAE-8", "A490", "45H"}:
        found.append(
            "Hard: plating may have made it brittle, welding and heating ruin it; renew it like "
            "for like."
        )
    if said.lines:
        found.append(
            "Lines need a maker's sign beside them: without one the grade is not to be trusted."
        )
    if said.hour is not None or first.product == "nut":
        found.append("A nut goes with a bolt of its own class or a lower one.")
    if even > 1:
        found.append("More than one grade carries this mark: the weakest of them counts.")
    return tuple(found)


def _read(values: Mapping[str, float | None], error: float) -> dict[str, float]:
    """
    The measurements that were made.

    Raises:
        Misuse: When one is out of its range.
    """
    if not (isfinite(error) and 0.001 <= error <= 1.0):
        raise Misuse(f"--caliper-error must be 0.001 to 1 mm, got {error:g}")
    for name, value in values.items():
        if value is not None and not (isfinite(value) and SIZED[name] <= value <= 200):
            raise Misuse(f"--{name} must be {SIZED[name]:g} to 200 mm, got {value:g}")
    return {name: value for name, value in values.items() if value is not None}


def _identified(
    kind: str,
    fits: tuple[Fit, ...],
    read: Mapping[str, float],
    given: set[str],
    error: float,
    readings: dict[str, Any],
) -> Identified:
    """Candidates with their ids as entries, the ties and what separates them."""
    apart = next_measure(fits, read, given, error)
    if apart is not None:
        tells = tuple(tell._replace(id=entry_id(kind, tell.id)) for tell in apart.tells)
        apart = apart._replace(tells=tells)
    even = tuple(
        _entry(kind, item.shape) for number, item in enumerate(fits) if item.admitted or not number
    )
    candidates = tuple(
        Likely(
            *(_entry(kind, item.shape), item.shape.id, round(item.probability, 4)),
            *((), (), item.offsets),
        )
        for item in fits[:MOST]
        if item.probability >= LEAST_SHARE
    )
    assumed = ({"what": "caliper_error_mm", "value": error},)
    return Identified(readings, candidates, even, apart, (), assumed)


def _entry(kind: str, shape: Shape) -> str:
    return entry_id(kind, shape.id)
