"""Torsional breaking of a shank, from its thread and strength records."""

from fastkit.mechanics.strength import (
    TORSION_RATIO,
    breaking_root,
    hollow_shaft_torque,
    round_bar_torque,
)
from fastkit.mechanics.tolerance import unified_external
from fastkit.records.grade import GradeRow
from fastkit.records.thread import Thread

ROOT_P = 0.616  # ISO 898-7: root radius 0.125 P
# Where ISO 898-7 lists no ratio, that of the listed class of the next higher tensile strength:
# the softer the steel, the higher its ratio, so the answer errs to the low side.
RATIO_UP_TO = ((830.0, 0.84), (900.0, 0.815), (1040.0, 0.79))


def ratio_is_listed(strength: GradeRow) -> bool:
    """Whether ISO 898-7 gives this class's ratio of torsional to tensile strength."""
    return strength.grade in TORSION_RATIO


def torsion_ratio(strength: GradeRow) -> float:
    """
    Ratio of torsional to tensile strength: the standard's, else that of the next harder class.

    Returns:
        X [-].
    """
    if ratio_is_listed(strength):
        return TORSION_RATIO[strength.grade]
    tensile = strength.tensile_min_mpa
    return next((ratio for up_to, ratio in RATIO_UP_TO if tensile <= up_to), TORSION_RATIO["12.9"])


def shank_root(thread: Thread) -> float:
    """
    Smallest root diameter by the thread's usual tolerance class (6g, 6h below M1.6; 2A).

    Families whose tolerances are not held here (Whitworth, BA, pipe, sheet) have their basic root.

    Returns:
        d3,min [mm].
    """
    if thread.family == "UN":
        limits = unified_external(thread.nominal_mm, thread.pitch_mm)
        return limits.d2_min - ROOT_P * thread.pitch_mm
    if thread.family in {"M", "plug"}:
        return breaking_root(thread.nominal_mm, thread.pitch_mm)
    return thread.root_mm


def breaking_torque(thread: Thread, strength: GradeRow, bore_mm: float = 0.0) -> float:
    """
    Least torque that twists the shank off, drilled or whole (ISO 898-7 form).

    Args:
        thread: The thread.
        strength: Strength of its class at its size.
        bore_mm: Diameter of a hole drilled along the axis [mm], >= 0 and below the root.

    Returns:
        Breaking torque [N·mm].

    Raises:
        ValueError: When the bore leaves nothing of the shank.
    """
    shear = torsion_ratio(strength) * strength.tensile_min_mpa
    root = shank_root(thread)
    return hollow_shaft_torque(root, bore_mm, shear) if bore_mm else round_bar_torque(root, shear)
