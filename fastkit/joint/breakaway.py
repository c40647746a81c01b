"""What it takes to start a thread turning loose."""

from collections.abc import Mapping
from typing import NamedTuple

from fastkit.mechanics.bounds import within
from fastkit.mechanics.tightening import lever_arms
from fastkit.records.thread import Thread


class Breakaway(NamedTuple):
    """The terms of the loosening torque [N·mm]; the helix helps and is below zero."""

    helix: float
    thread: float
    head: float
    bonds: float
    prevailing: float

    @property
    def total(self) -> float:
        """Their sum; below zero it turns loose by itself."""
        return sum(self)


def breakaway_torque(
    thread: Thread,
    preload_n: float,
    mu_thread: float,
    mu_head: float,
    d_km_mm: float | None,
    bonds_nmm: float = 0.0,
    prevailing_nmm: float = 0.0,
    cone_half_angle_deg: float = 90.0,
) -> Breakaway:
    """
    Loosening torque: preload still there, bonds, prevailing torque.

    Once the head is off or the shank has snapped (`d_km_mm` None) nothing clamps any more: preload
    and head terms are zero, whatever the preload was, and only bonds and prevailing torque hold.

    Args:
        thread: The thread.
        preload_n: Preload still there [N], >= 0.
        mu_thread: Friction of rest in the thread [-].
        mu_head: Friction of rest under the head [-].
        d_km_mm: Mean bearing diameter [mm]; None: the head is gone.
        bonds_nmm: Torque of rust, paint or adhesive [N·mm], >= 0.
        prevailing_nmm: Prevailing torque [N·mm], >= 0.
        cone_half_angle_deg: Half angle of the bearing cone [deg]; 90 flat.

    Returns:
        The terms [N·mm].

    Raises:
        ValueError: When an argument is out of its range.
    """
    within(preload_n, "preload_n", 0.0, float("inf"))
    within(bonds_nmm, "bonds_nmm", 0.0, float("inf"))
    within(prevailing_nmm, "prevailing_nmm", 0.0, float("inf"))
    held = 0.0 if d_km_mm is None else preload_n
    helix, flank, head = lever_arms(
        thread.pitch_mm,
        thread.pitch_diameter_mm,
        d_km_mm or 0.0,
        mu_thread,
        mu_head,
        thread.flank_angle_deg / 2,
        cone_half_angle_deg,
    )
    return Breakaway(-held * helix, held * flank, held * head, bonds_nmm, prevailing_nmm)


def loser(required_nmm: float, capacities_nmm: Mapping[str, float]) -> str | None:
    """
    The part that gives way before the thread turns loose.

    Args:
        required_nmm: Loosening torque [N·mm].
        capacities_nmm: What each part carries [N·mm]: shank, drive, and whatever else is loaded.

    Returns:
        The weakest part where it carries less than is required; None where all of them hold.
    """
    weakest = min(capacities_nmm, key=lambda part: capacities_nmm[part], default=None)
    if weakest is None or capacities_nmm[weakest] >= required_nmm:
        return None
    return weakest
