"""What heat and cold do to a joint: clamp, gap, press fit, temper; what a locker lets go at."""

import re
import sqlite3
from typing import Any

from fastkit.answers.torque_parts import Parts
from fastkit.answers.torque_sources import Used, used_of
from fastkit.answers.torque_turn import GRIP_D
from fastkit.errors import Misuse
from fastkit.joint.stretch import stretch
from fastkit.joint.window import Joint, window
from fastkit.mechanics.bond import flank_bond_torque
from fastkit.mechanics.elastic import STEEL_MPA
from fastkit.mechanics.heat import (
    gap_change,
    preload_by_heat,
    press_compliance,
    press_grip,
    press_pressure,
    rise_for,
)
from fastkit.records.compound import CompoundLimit
from fastkit.records.grade import GradeLimit, Temper
from fastkit.records.material import Material
from fastkit.records.seizure import Seizure
from fastkit.records.stuff import Expansion
from fastkit.reference.lookup import many, one

Numbers = dict[str, Any]
ROOM_C = 20.0  # ISO 1: reference temperature of sizes
BODY_D = 3.0  # practice: outside of the body round a pin, in diameters of the pin
LOCKERS = ("low", "medium", "high")
BOLT_STUFFS = (  # grades, and the row of their expansion; plain steel's for the others
    (re.compile(r"A\d-|A193-B8"), "stainless-304"),
    (re.compile(r"[CF]\d-"), "stainless-405"),
    (re.compile(r"AL\d"), "6061"),
    (re.compile(r"CU\d"), "c36000"),
    (re.compile(r"TI\d"), "ti-6al-4v"),
    (re.compile(r"D\d-|PA"), None),
)


def heated(
    store: sqlite3.Connection,
    joint: Joint,
    parts: Parts,
    heat_c: tuple[float, float],
    grip_mm: float | None,
    press_mm: float | None,
) -> tuple[Numbers, tuple[Used, ...]]:
    """
    What the body and the bolt at two temperatures do to a joint tightened at 20 °C.

    Args:
        store: Compiled reference.
        joint: The joint.
        parts: Its records.
        heat_c: Temperature of the body, of the bolt [degC].
        grip_mm: Clamped length [mm]; None: two and a half diameters.
        press_mm: Interference of a stud or pin of that diameter in the body [mm]; None: none.

    Returns:
        The numbers of the answer, and their sources.
    """
    body = parts.material or one(store, Material, id="steel")
    assert body is not None
    body_alpha = body.expansion_per_k
    if body_alpha is None:
        raise Misuse(f"no expansion is held for {body.title.lower()}; expected a metal for --into")
    bolt = bolt_expansion(store, parts.grade.id)
    body_k, bolt_k = (degrees - ROOM_C for degrees in heat_c)
    d = parts.thread.nominal_mm
    grip = GRIP_D * d if grip_mm is None else grip_mm
    springs = stretch(parts.thread, joint.seat, grip, body.modulus_mpa, parts.material is not None)
    rise = (body_alpha, body_k, bolt.expansion_per_k, bolt_k)
    change = preload_by_heat(grip, *rise, springs.total)
    gap = gap_change(d, *rise)
    found = window(joint)
    temper = one(store, Temper, grade=parts.grade.id)
    limit = one(store, GradeLimit, grade=parts.grade.id)
    hottest = found.preload_max_n + change
    said = {
        "body_c": heat_c[0],
        "bolt_c": heat_c[1],
        "body": body.id,
        "grip_mm": grip,
        "gap_change_mm": gap,
        "preload_change_n": change,
        "preload_left_n": max(found.preload_n + change, 0.0),
        "passes": [bound.name for bound in found.limits if bound.preload_n < hottest]
        if change > 0
        else [],
        "temper_c": temper.temper_c if temper else None,
        "loses_temper": temper is not None and heat_c[1] > temper.temper_c,
        "use_max_c": limit.use_max_c if limit else None,
        **_pressed(press_mm, joint, parts, body, rise, gap),
    }
    used = [
        used_of(store, body, "expansion of the body"),
        used_of(store, bolt, "expansion of the bolt"),
    ]
    used += [used_of(store, temper, "temper")] if temper else []
    used += [used_of(store, limit, "limit of use")] if limit else []
    return said, tuple(used)


def _pressed(
    press_mm: float | None,
    joint: Joint,
    parts: Parts,
    body: Material,
    rise: tuple[float, float, float, float],
    gap_mm: float,
) -> Numbers:
    """Where a press fit opens and what it still holds; nulls where none was asked about."""
    if press_mm is None:
        return {"press_mm": None, "press_opens_c": None, "press_grip_nm": None}
    d = parts.thread.nominal_mm
    length = parts.engage_mm or d
    softness = press_compliance(d, 0.0, BODY_D * d, STEEL_MPA, body.modulus_mpa or STEEL_MPA)
    pressure = press_pressure(press_mm - gap_mm, softness)
    body_alpha, _, bolt_alpha, bolt_k = rise
    return {
        "press_mm": press_mm,
        "press_opens_c": ROOM_C + rise_for(press_mm + d * bolt_alpha * bolt_k, d, body_alpha),
        "press_grip_nm": press_grip(pressure, d, length, joint.mu_mid) / 1000,
    }


def bolt_expansion(store: sqlite3.Connection, grade: str) -> Expansion:
    """
    Expansion of a bolt's own material.

    Raises:
        Misuse: When none is held for its kind.
    """
    stuff = next((stuff for kind, stuff in BOLT_STUFFS if kind.match(grade)), "steel-1020")
    if stuff is None:
        raise Misuse(f"no expansion is held for {grade}; expected steel, A2, A4, aluminium, brass")
    return many(store, Expansion, stuff=stuff)[0]


def locked(
    store: sqlite3.Connection, parts: Parts, strength: str
) -> tuple[Numbers, float, tuple[Used, ...]]:
    """
    A threadlocker by its strength: its bond on the flanks, and the heat at which it lets go.

    Args:
        store: Compiled reference.
        parts: The records of the answer.
        strength: low, medium or high.

    Returns:
        The numbers of the answer, the torque of the bond [N·mm], and the sources.

    Raises:
        Misuse: When there is no such strength.
    """
    word = strength.strip().lower()
    if word not in LOCKERS:
        raise Misuse(f"unknown locker {strength[:20]!r}; expected {', '.join(LOCKERS)}")
    bond = one(store, Seizure, id=f"threadlocked-{word}")
    assert bond is not None
    length = parts.engage_mm or parts.thread.nominal_mm
    torque = flank_bond_torque(bond.tau_thread_mpa, parts.thread.pitch_diameter_mm, length)
    limits = {row.what: row for row in many(store, CompoundLimit, compound=f"threadlocker-{word}")}
    ends = [limits.get(f"lets go {end}") for end in ("from", "to")]
    low, high = (None if row is None else row.temperature_degc for row in ends)
    said = {
        "strength": word,
        "bond_nm": torque / 1000,
        "lets_go_from_c": low,
        "lets_go_to_c": high,
    }
    used = [used_of(store, bond, "bond of the locker")]
    used += [used_of(store, row, "heat for the locker") for row in ends if row is not None]
    return said, torque, tuple(dict.fromkeys(used))
