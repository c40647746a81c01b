"""Stretch of a joint: compliance of bolt and parts, torque to snug and angle from there."""

from typing import NamedTuple

from fastkit.joint.seat import Seat
from fastkit.joint.window import Joint, frictions, preload_for_stress, reached
from fastkit.mechanics.bounds import positive, within
from fastkit.mechanics.elastic import (
    STEEL_MPA,
    bolt_compliance,
    parts_compliance,
    preload_by_angle,
)
from fastkit.mechanics.thread import stress_diameter
from fastkit.mechanics.tightening import equivalent_stress
from fastkit.records.thread import Thread

HEAD_D = {False: 0.5, True: 0.4}  # VDI 2230-1, clause 5.1.1: hexagon; socket head
ENGAGED_D = {False: 0.4, True: 0.33}  # the same: nut; tapped body
FULL_THREAD = 1.0  # practice: thread to the head where nobody says how long the shank is


class Stretch(NamedTuple):
    """Elastic compliances [mm/N]."""

    bolt: float
    parts: float

    @property
    def total(self) -> float:
        """Of bolt and parts together [mm/N]."""
        return self.bolt + self.parts


class Turned(NamedTuple):
    """Preload at snug and after the angle [N], share of yield [-], whether yield was passed."""

    snug_n: float
    preload_n: float
    utilisation: float
    past_yield: bool


def stretch(
    thread: Thread,
    seat: Seat,
    grip_mm: float,
    parts_mpa: float | None = None,
    tapped: bool = False,
    socket: bool = False,
    thread_share: float = FULL_THREAD,
) -> Stretch:
    """
    Compliance of a steel bolt and of what it clamps.

    Args:
        thread: The thread.
        seat: Bearing face.
        grip_mm: Clamped length [mm], > 0.
        parts_mpa: Modulus of the clamped parts and of a tapped body [MPa]; None: steel.
        tapped: True where it is screwed into the body.
        socket: True for a socket head.
        thread_share: Share of the grip that is threaded [-], 0..1.

    Returns:
        The compliances.

    Raises:
        ValueError: When an argument is out of its range.
    """
    grip = positive(grip_mm, "grip_mm")
    share = within(thread_share, "thread_share", 0.0, 1.0)
    modulus = STEEL_MPA if parts_mpa is None else parts_mpa
    bolt = bolt_compliance(
        thread.nominal_mm,
        thread.root_mm,
        grip * (1 - share),
        grip * share,
        HEAD_D[socket],
        ENGAGED_D[tapped],
        body_modulus_mpa=modulus if tapped else STEEL_MPA,
    )
    return Stretch(bolt, parts_compliance(seat.d_w_mm, seat.d_h_mm, grip, modulus, tapped=tapped))


def by_angle(
    joint: Joint, springs: Stretch, snug_nmm: float, angle_deg: float
) -> tuple[Turned, Turned, Turned]:
    """
    Torque to snug, then an angle: preload at the highest, middle and lowest friction.

    The angle's own gain does not depend on friction. Past yield the bolt gives at nearly constant
    force: the preload stays at that of full yield (hardening left out, the low side).

    Args:
        joint: The joint.
        springs: Its compliances.
        snug_nmm: Setting of the wrench for snug [N·mm], >= 0.
        angle_deg: Angle from there [deg], >= 0.

    Returns:
        What is reached, least preload first.

    Raises:
        ValueError: When an argument is out of its range.
    """
    thread = joint.thread
    gain = preload_by_angle(angle_deg, thread.pitch_mm, springs.total)
    found = []
    for at_snug, (mu, _) in zip(reached(joint, snug_nmm), reversed(frictions(joint)), strict=True):
        wanted = at_snug.preload_n + gain
        ceiling = preload_for_stress(thread, joint.yield_mpa, mu)
        force = min(wanted, ceiling)
        stress = equivalent_stress(
            force,
            stress_diameter(thread.stress_area_mm2),
            thread.pitch_mm,
            thread.pitch_diameter_mm,
            mu,
            thread.flank_angle_deg / 2,
        )
        found.append(Turned(at_snug.preload_n, force, stress / joint.yield_mpa, wanted > ceiling))
    return found[0], found[1], found[2]
