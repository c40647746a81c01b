"""What is printed for fasteners that get no window, each value with its source; then the way."""

import re
import sqlite3
from collections.abc import Callable, Iterator, Mapping

from fastkit.answers.refused import (
    PLUG,
    SELF_TAPPING,
    SET_SCREW,
    STRUCTURAL,
    TAPER,
    TUBE,
    TUBE_NUTS,
    Refusal,
)
from fastkit.answers.torque_parts import proof_torque
from fastkit.answers.torque_sources import Used, used_of
from fastkit.errors import FastkitError
from fastkit.notation.units import show_kn, show_mm, show_nm
from fastkit.records.set_screw import PlugTorque, PlugTurn, TappingTorque
from fastkit.records.thread import PipeGauge, Thread
from fastkit.records.tightening import StructuralTorque
from fastkit.records.tube import Tube, TubeTorque
from fastkit.reference import resolve
from fastkit.reference.lookup import many, one

Said = Iterator[tuple[str, Used]]
WAY = Used("practice", "Common workshop practice", "-", "judgement", "the way instead")
SET_WORDS = re.compile(r"\b(set|grub) ?screws?\b", re.IGNORECASE)
SET_CLASS = "45H"  # in which they come where nothing else is said
TUBE_WORDS = re.compile(rf"^tube:|\b(brake|{TUBE_NUTS}|nut)\b", re.IGNORECASE)


def published(
    store: sqlite3.Connection, thread: str, grade: str, into: str | None, found: Refusal
) -> tuple[tuple[str, ...], tuple[Used, ...]]:
    """
    Values and the way that apply where a window would be a lie, with their sources.

    Args:
        store: Compiled reference.
        thread: As typed.
        grade: As typed.
        into: Body material, as typed; None: not named.
        found: Why no window is given.

    Returns:
        Sentences without full stop, printed values first; and the sources.
    """
    values = PRINTED.get(found)
    rows = list(values(store, thread, grade, into)) if values is not None else []
    return (*(said for said, _ in rows), found.way), (*(used for _, used in rows), WAY)


def _range(low_nm: float, high_nm: float) -> str:
    low, high = show_nm(low_nm * 1000), show_nm(high_nm * 1000)
    return low if low == high else f"{low} to {high}"


def _thread(store: sqlite3.Connection, text: str) -> Thread | None:
    """The thread that the words name; None where they name a kind of fastener only."""
    try:
        return resolve.thread(store, text)
    except FastkitError:
        return None


def _set_screw(store: sqlite3.Connection, thread: str, grade: str, _: str | None) -> Said:
    size = SET_WORDS.sub("", thread).strip()
    proof = proof_torque(store, size, grade or SET_CLASS) if _thread(store, size) else None
    if proof is not None:
        yield (
            f"proof torque of {proof.size} {proof.grade}: {show_nm(proof.proof_torque_nm * 1000)}",
            used_of(store, proof, "proof torque"),
        )


def _tube(store: sqlite3.Connection, thread: str, *_: str | None) -> Said:
    """By the tube's id, else every tube nut of that thread or tube size."""
    key = TUBE_WORDS.sub("", thread).strip()
    tube = one(store, Tube, id=key)
    sized = [row for row in many(store, Tube) if row.id.startswith(f"{key}-")] if key else []
    for found in [tube] if tube is not None else many(store, Tube, thread=key) or sized:
        for row in many(store, TubeTorque, tube=found.id):
            note = f", {row.note}" if row.note else ""
            yield (
                f"printed for {row.tube}: {_range(row.torque_min_nm, row.torque_max_nm)}{note}",
                used_of(store, row, "tube nut"),
            )


def _gauge(store: sqlite3.Connection, thread: str, *_: str | None) -> Said:
    """How far a taper thread goes in by hand: to its gauge plane, in length and turns."""
    pipe = _thread(store, thread)
    gauge = one(store, PipeGauge, thread=pipe.id) if pipe is not None else None
    if pipe is None or gauge is None:
        return
    turns = gauge.gauge_mm / pipe.pitch_mm
    yield (
        f"{pipe.id} is hand tight after about {show_mm(gauge.gauge_mm)}, {turns:.1f} turns: one "
        "that goes in much further by hand is worn, small or another thread",
        used_of(store, gauge, "gauge plane"),
    )


def _plug(store: sqlite3.Connection, thread: str, _: str, into: str | None) -> Said:
    """By print and seat; of the head that was named, where one print holds it."""
    plug = _thread(store, thread)
    rows = many(store, PlugTorque, thread=plug.id) if plug is not None else []
    named = (into or "").replace("-", " ")
    rows = [row for row in rows if row.head == named] or rows
    groups: dict[tuple[str, str], list[PlugTorque]] = {}
    for row in rows:
        groups.setdefault((row.source, row.seat), []).append(row)
    for (_, seat), heads in groups.items():
        by_head = "; ".join(
            f"{row.head} head {_range(row.torque_min_nm, row.torque_max_nm)}" for row in heads
        )
        used = used_of(store, heads[0], "spark plug")
        where = used.title.rpartition(", ")[2]
        yield f"{where}, {heads[0].thread}, {seat} seat: {by_head}", used
    for turn in many(store, PlugTurn):
        if not rows or turn.seat in {row.seat for row in rows}:
            yield (
                f"by the turn, {turn.seat} seat: {turn.turn} after finger tight ({turn.note})",
                used_of(store, turn, "turn of a spark plug"),
            )


def _tapping(store: sqlite3.Connection, thread: str, *_: str | None) -> Said:
    screw = _thread(store, thread)
    row = one(store, TappingTorque, thread=screw.id) if screw is not None else None
    if row is not None:
        yield (
            f"{row.thread} twists off at {show_nm(row.breaking_nm * 1000)} at the earliest: an "
            "upper bound, in thin sheet it strips long before",
            used_of(store, row, "tapping screw"),
        )


def _structural(store: sqlite3.Connection, thread: str, *_: str | None) -> Said:
    bolt = _thread(store, thread)
    row = one(store, StructuralTorque, thread=bolt.id) if bolt is not None else None
    if row is not None:
        yield (
            f"{row.thread} of class {row.grade}: reference torque "
            f"{show_nm(row.torque_nm * 1000)} for {show_kn(row.preload_n)}; first step 75 %, "
            "second 110 % of it",
            used_of(store, row, "structural assembly"),
        )


PRINTED: Mapping[Refusal, Callable[[sqlite3.Connection, str, str, str | None], Said]] = {
    SET_SCREW: _set_screw,
    TUBE: _tube,
    TAPER: _gauge,
    PLUG: _plug,
    SELF_TAPPING: _tapping,
    STRUCTURAL: _structural,
}
