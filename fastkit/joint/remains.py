"""What is left of a broken fastener: what shank, extractor, slot, weld and jaws carry."""

from typing import NamedTuple

from fastkit.joint.breaking import breaking_torque, shank_root, torsion_ratio
from fastkit.mechanics.bond import flank_bond_torque
from fastkit.mechanics.extractor import (
    extractor_torque,
    jaw_torque,
    largest_bore,
    throat_torque,
)
from fastkit.mechanics.strength import blade_torque
from fastkit.records.bench import Bench
from fastkit.records.drilling import DrillOut
from fastkit.records.grade import GradeRow
from fastkit.records.thread import Thread

EXTRACTORS = ("spiral-extractor", "straight-extractor")


class Hole(NamedTuple):
    """
    One hole along the axis: largest drill for its purpose, and what then carries how much [N·mm].

    `tool_nmm` is what the extractor itself stands, `equal_mm` the hole at which the shell would
    stand no more than that; None where no extractor goes in.
    """

    purpose: str
    drill_mm: float
    wall_mm: float
    extractor: str | None
    shank_nmm: float
    tool_nmm: float | None
    equal_mm: float | None


class Remains(NamedTuple):
    """Torques [N·mm] that the stub, and what grips it, carry."""

    shank_nmm: float
    holes: tuple[Hole, ...]
    slot_nmm: float
    weld_nmm: float
    jaw_nmm: float


def extractor_capacity(hole_mm: float, bench: Bench) -> float:
    """Torque at which an extractor that bites in a hole snaps [N·mm]."""
    return extractor_torque(hole_mm, bench.get("extractor_shear"), bench.get("extractor_core"))


def slot_capacity(across_mm: float, d_mm: float, bench: Bench) -> float:
    """Torque of a blade in a slot cut over a width, in a thread of a diameter [N·mm]."""
    return blade_torque(bench.get("slot_width") * across_mm, bench.get("slot_blade") * d_mm)


def weld_capacity(d_mm: float, bench: Bench) -> float:
    """Torque of a nut welded on a stub of a thread's diameter [N·mm]."""
    return throat_torque(d_mm, bench.get("weld_throat") * d_mm, bench.get("weld_shear"))


def insert_capacity(d_mm: float, length_mm: float, bench: Bench) -> float:
    """Torque at which a wire thread insert turns out of its hole with the screw [N·mm]."""
    return flank_bond_torque(bench.get("insert_hold"), d_mm, length_mm)


def jaw_capacity(d_mm: float, bench: Bench) -> float:
    """Torque at which locking pliers slip on a round of a diameter [N·mm]."""
    return jaw_torque(bench.get("jaw_force"), d_mm, bench.get("jaw_friction"))


def remains(
    thread: Thread, strength: GradeRow, drills: tuple[DrillOut, ...], bench: Bench
) -> Remains:
    """
    What a stub and its tools carry.

    Args:
        thread: The thread.
        strength: Strength of its class at its size.
        drills: Largest drill for each purpose in that thread.
        bench: Numbers of practice.

    Returns:
        The torques.
    """
    d = thread.nominal_mm
    return Remains(
        breaking_torque(thread, strength),
        tuple(_hole(thread, strength, drill, bench) for drill in drills),
        slot_capacity(thread.root_mm, d, bench),
        weld_capacity(d, bench),
        jaw_capacity(d, bench),
    )


def _hole(thread: Thread, strength: GradeRow, drill: DrillOut, bench: Bench) -> Hole:
    root = shank_root(thread)
    left = breaking_torque(thread, strength, drill.drill_mm) if drill.drill_mm < root else 0.0
    tool = equal = None
    if drill.purpose in EXTRACTORS:
        tool = extractor_capacity(drill.drill_mm, bench)
        shear = torsion_ratio(strength) * strength.tensile_min_mpa
        equal = largest_bore(root, shear, tool)
    return Hole(drill.purpose, drill.drill_mm, drill.wall_mm, drill.extractor, left, tool, equal)
