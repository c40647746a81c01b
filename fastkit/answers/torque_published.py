"""What is printed for fasteners that get no window: proof torques, tube nut torques, the way."""

import sqlite3
from collections.abc import Iterator

from fastkit.answers.refused import SET_SCREW, TAPER, TUBE, Refusal
from fastkit.answers.torque_parts import proof_torque
from fastkit.answers.torque_sources import Used
from fastkit.notation.units import show_mm, show_nm
from fastkit.records.source import Source
from fastkit.records.thread import PipeGauge, Thread
from fastkit.records.tube import Tube, TubeTorque
from fastkit.reference.lookup import many, one

WAY = Used("practice", "Common workshop practice", "-", "judgement", "the way instead")


def published(
    store: sqlite3.Connection, thread: str, grade: str, found: Refusal
) -> tuple[tuple[str, ...], tuple[Used, ...]]:
    """
    Values and the way that apply where a window would be a lie, with their sources.

    Args:
        store: Compiled reference.
        thread: As typed.
        grade: As typed.
        found: Why no window is given.

    Returns:
        Sentences without full stop, printed values first; and the sources.
    """
    rows = list(_values(store, thread, grade, found))
    return (*(said for said, _ in rows), found.way), (*(used for _, used in rows), WAY)


def _values(
    store: sqlite3.Connection, thread: str, grade: str, found: Refusal
) -> Iterator[tuple[str, Used]]:
    if found is SET_SCREW:
        proof = proof_torque(store, thread, grade)
        if proof is not None:
            yield (
                f"proof torque of {proof.size} {proof.grade}: "
                f"{show_nm(proof.proof_torque_nm * 1000)}",
                _used(store, proof.source, proof.locator, proof.checked, "proof torque"),
            )
    if found is TUBE:
        tube = one(store, Tube, id=thread.strip().removeprefix("tube:"))
        for row in many(store, TubeTorque, tube=tube.id) if tube is not None else ():
            low, high = show_nm(row.torque_min_nm * 1000), show_nm(row.torque_max_nm * 1000)
            note = f", {row.note}" if row.note else ""
            yield (
                f"printed for {row.tube}: {low if low == high else f'{low} to {high}'}{note}",
                _used(store, row.source, row.locator, row.checked, "tube nut"),
            )
    if found is TAPER:
        yield from _gauge(store, thread.strip().removeprefix("thread:").upper())


def _used(store: sqlite3.Connection, key: str, locator: str, checked: str, of: str) -> Used:
    source = one(store, Source, id=key)
    return Used(key, source.title if source is not None else key, locator, checked, of)


def _gauge(store: sqlite3.Connection, key: str) -> Iterator[tuple[str, Used]]:
    """How far a taper thread goes in by hand: to its gauge plane, in length and turns."""
    pipe, gauge = one(store, Thread, id=key), one(store, PipeGauge, thread=key)
    if pipe is None or gauge is None:
        return
    turns = gauge.gauge_mm / pipe.pitch_mm
    yield (
        f"{key} is hand tight after about {show_mm(gauge.gauge_mm)}, {turns:.1f} turns: one that "
        "goes in much further by hand is worn, small or another thread",
        _used(store, gauge.source, gauge.locator, gauge.checked, "gauge plane"),
    )
