"""Torque cards: what to set by thread, one class a card, one surface a face."""

import sqlite3
from functools import partial
from math import ceil, floor, log10
from typing import Any, NamedTuple

from fastkit.answers.cards import row
from fastkit.answers.torque import torque
from fastkit.deck.card import Card, Caution, Cell, Sketch, Table, Text, standing
from fastkit.notation.units import LBFT_NMM, LBIN_NMM
from fastkit.records.friction import Friction
from fastkit.records.thread import Thread

COARSE = ("M4x0.7", "M5x0.8", "M6x1", "M8x1.25", "M10x1.5", "M12x1.75", "M16x2", "M20x2.5")
UNC = (
    "1/4-20-UNC",
    "5/16-18-UNC",
    "3/8-16-UNC",
    "7/16-14-UNC",
    "1/2-13-UNC",
    "9/16-12-UNC",
    "5/8-11-UNC",
    "3/4-10-UNC",
)
UNF = (
    "1/4-28-UNF",
    "5/16-24-UNF",
    "3/8-24-UNF",
    "7/16-20-UNF",
    "1/2-20-UNF",
    "9/16-18-UNF",
    "5/8-18-UNF",
    "3/4-16-UNF",
)
MAKER = "Maker's value first, alone for angle-tightened, wheels, brakes, steering, lifting."
NOT_OILED = "Not for an oiled bolt: it tears."


FINE = ("M8x1", "M10x1", "M10x1.25", "M12x1.25", "M12x1.5", "M14x1.5", "M16x1.5", "M20x1.5")
SMALL = ("M1.6x0.35", "M2x0.4", "M2.5x0.45", "M3x0.5", "M3.5x0.6", "M4x0.7", "M5x0.8")
TAPPED = ("M4x0.7", "M5x0.8", "M6x1", "M8x1.25", "M10x1.5", "M12x1.75")


class Face(NamedTuple):
    """One face: threads, friction condition, surface in words; engagement where it is tapped."""

    threads: tuple[str, ...]
    friction: str
    surface: str
    engage_d: float | None = None


class Plan(NamedTuple):
    """One card: id, class, title, both faces, whether lb·ft stands first, a caution for each."""

    id: str
    grade: str
    title: str
    front: Face
    back: Face
    inch: bool = False
    note: str = MAKER
    back_note: str = NOT_OILED
    into: str | None = None


GREASED = "Oiled or greased"
OILED, DRY = "Oiled, greased or as delivered", "Dry: bare, phosphated, zinc"
GALLS = "Stainless galls: paste, slow, by hand. The maker's value goes first."
SCATTERS = "Oil alone scatters widely: paste is better."
CARDS = (
    *(
        Plan(
            f"torque-{grade}{suffix}",
            grade,
            f"Torque {grade}, {word}",
            Face(threads, "oiled", OILED),
            Face(threads, "dry", DRY),
        )
        for word, suffix, threads in (("coarse", "", COARSE), ("fine", "-fine", FINE))
        for grade in ("8.8", "10.9", "12.9")
    ),
    *(
        Plan(
            f"torque-{grade.lower()}",
            grade,
            f"Torque {grade}, coarse",
            Face(COARSE, "stainless-paste", "Stainless with paste"),
            Face(COARSE, "stainless-oiled", "Stainless with oil only"),
            note=GALLS,
            back_note=SCATTERS,
        )
        for grade in ("A2-70", "A4-80")
    ),
    *(
        Plan(
            f"torque-{grade.lower()}",
            grade,
            f"Torque {grade}, inch",
            Face(UNC, "oiled", f"UNC. {GREASED}"),
            Face(UNF, "oiled", f"UNF. {GREASED}"),
            inch=True,
            back_note=MAKER,
        )
        for grade in ("SAE-5", "SAE-8")
    ),
    Plan(
        "torque-small",
        "8.8",
        "Torque small, 8.8",
        Face(SMALL, "oiled", OILED),
        Face(SMALL, "dry", DRY),
        note="The drive gives way first: whole bit, straight, pressed. "
        "The maker's value goes first.",
    ),
    Plan(
        "torque-small-stainless",
        "A2-70",
        "Torque small, A2-70",
        Face(SMALL, "stainless-paste", "Stainless with paste"),
        Face(SMALL, "stainless-oiled", "Stainless with oil only"),
        note=GALLS,
        back_note=SCATTERS,
    ),
    Plan(
        "torque-into-aluminium",
        "8.8",
        "Torque in aluminium",
        Face(TAPPED, "oiled", "8.8, oiled, engaged 1.5 diameters", 1.5),
        Face(TAPPED, "oiled", "8.8, oiled, engaged only 1 diameter", 1.0),
        note="Cast aluminium: washer under the head, thread whole and clean. "
        "The maker's value goes first.",
        back_note="Too short strips the body, not the bolt: longer bolt or insert.",
        into="aluminium",
    ),
)


def rounded(value: float, up: bool) -> str:
    """
    Three figures, away from the window's edge: a lower edge up, an upper edge down.

    Args:
        value: Torque [N·m].
        up: Round up.
    """
    step = 10.0 ** (floor(log10(value)) - 2)
    return f"{(ceil if up else floor)(value / step + (-1e-9 if up else 1e-9)) * step:.6g}"


def scale(value: float) -> str:
    """
    A value rounded down to what a wrench's scale shows: tenths, halves, ones.

    Args:
        value: Torque in any unit [-].
    """
    step = 0.1 if value < 30 else 0.5 if value < 100 else 1.0
    return f"{floor(value / step + 1e-9) * step:.6g}"


def pounds(nm: float, read: bool = False) -> str:
    """
    The same torque in lb·ft; below 2 N·m in lb·in, as elsewhere.

    Args:
        nm: Torque [N·m].
        read: Only on marks that a scale shows.
    """
    if nm < 2:
        return f"{rounded(nm * 1000 / LBIN_NMM, False)} lb·in"
    return (scale if read else partial(rounded, up=False))(nm * 1000 / LBFT_NMM)


def span(a: Any, inch: bool) -> str:
    """The window in the card's first unit, its edges rounded inward."""
    unit = 1000 / LBFT_NMM if inch else 1.0
    return f"{rounded(a.torque_min_nm * unit, True)} to {rounded(a.torque_max_nm * unit, False)}"


def names(plan: Plan) -> tuple[str, str, str, str]:
    """Id, family, title and question of a torque card."""
    return (plan.id, "torque", plan.title, "What do I set on the wrench?")


def asked(plan: Plan, side: Face, thread: Thread, store: sqlite3.Connection) -> Any:
    """The answer that one row of a face prints."""
    engaged = side.engage_d * thread.nominal_mm if side.engage_d else None
    return torque(
        thread.id,
        plan.grade,
        friction=side.friction,
        into=plan.into,
        engage_mm=engaged,
        store=store,
    )


def card(plan: Plan, store: sqlite3.Connection) -> Card:
    """One class."""
    answers: dict[str, Any] = {}
    faces = []
    for side, note in ((plan.front, plan.note), (plan.back, plan.back_note)):
        friction = row(store, Friction, id=side.friction)
        lines = []
        for key in side.threads:
            thread = row(store, Thread, id=key)
            if thread is None:
                continue
            a = asked(plan, side, thread, store)
            if a.torque_nm is None or a.empty:
                continue
            answers[key] = a
            lines.append(_line(plan, side, thread, a))
        units = ("lb·ft", "N·m") if plan.inch else ("N·m", "lb·ft")
        heads = ("thread", f"set {units[0]}", units[1], f"window {units[0]}")
        scatter = f": friction {friction.mu_min:g} to {friction.mu_max:g}" if friction else ""
        words = Text(f"{side.surface}{scatter}", "small")
        faces.append((words, Table(heads, tuple(lines), "torque"), Caution(note)))
    used = [u for a in answers.values() for u in a.sources if u.used_for != "breaking torque"]
    basis = Text("Hexagon head, 90 % of yield, wrench ± 4 %.", "small")
    return Card(
        *names(plan),
        (f"grade:{plan.grade}", *(f"torque:{key}@{plan.grade}" for key in answers)),
        tuple(dict.fromkeys(u.id for u in used)),
        faces[0],
        (*faces[1], basis),
        "".join(sorted({standing(u.checked) for u in used})),
        back_title=plan.title,
    )


def _line(plan: Plan, side: Face, thread: Thread, a: Any) -> tuple[Cell, ...]:
    """One row: thread, setting in both units, window."""
    if plan.inch:
        name = f"{thread.size}-{thread.tpi:g}"
    else:  # a fine pitch is said, a coarse one goes without saying
        name = thread.id if side.threads is FINE else thread.size
    first, second = rounded(a.torque_nm, False), pounds(a.torque_nm, plan.inch)
    if plan.inch:
        first, second = second, first
    return (
        Cell(name, "head"),
        Cell(first, "big"),
        Cell(second, "plain" if "in" in second else "head"),
        Cell(span(a, plan.inch), "small", "p"),
    )


SKETCHES = tuple(Sketch(*names(plan), partial(card, plan)) for plan in CARDS)
