"""
The torque window of a bolted joint: lowest setting that clamps enough, highest that harms nothing.

The lowest is taken at the highest friction with the wrench delivering least; the highest at the
lowest friction with the wrench delivering most, under every limit that is known.
"""

from math import floor
from typing import NamedTuple

from fastkit.joint.seat import Seat
from fastkit.mechanics.bounds import positive, within
from fastkit.mechanics.strength import internal_shear_area
from fastkit.mechanics.thread import stress_diameter
from fastkit.mechanics.tightening import (
    bearing_pressure,
    equivalent_stress,
    lever_arms,
    nut_factor,
    preload_at_utilisation,
)
from fastkit.mechanics.tolerance import (
    iso_external,
    iso_internal,
    unified_external,
    unified_internal,
)
from fastkit.records.friction import Friction
from fastkit.records.grade import GradeRow
from fastkit.records.thread import Thread
from fastkit.records.torque import TorqueRow

CLAMP_SHARE = 0.4  # required clamp where none is named: share of the table preload (practice)
UTILISATION = 0.9  # VDI 2230-1, Table A1
WRENCH_ERROR = 0.04  # ISO 6789-1
# Practice: what a person sets on a scale. Up to (N·mm), step (N·mm).
SCALE = ((2e3, 10.0), (2e4, 100.0), (1e5, 500.0), (4e5, 1e3), (1e6, 5e3), (float("inf"), 1e4))


class Joint(NamedTuple):
    """
    Everything that a window follows from.

    Symbols: mu, friction in thread and under head [-]; strip_n, force at which the internal thread
    strips [N]; bearing_mpa, pressure that the seat stands [MPa]; drive_nmm, torque that the drive
    stands [N·mm]; a limit that is None is not known. spread_mm, outside of the washer that spreads
    the load on the seat [mm]; None: the head's own bearing face. clamp_n None: 40 % of
    `table_preload_n`.
    """

    thread: Thread
    yield_mpa: float
    tensile_mpa: float
    seat: Seat
    mu_min: float
    mu_mid: float
    mu_max: float
    utilisation: float = UTILISATION
    wrench_error: float = WRENCH_ERROR
    prevailing_nmm: float = 0.0
    clamp_n: float | None = None
    table_preload_n: float | None = None  # None: of this joint's own seat and friction
    strip_n: float | None = None
    bearing_mpa: float | None = None
    spread_mm: float | None = None
    drive_nmm: float | None = None


class Limit(NamedTuple):
    """One thing that bounds the torque: at the fastener, at the lowest friction."""

    name: str  # yield, thread-strip, bearing-pressure, drive
    torque_nmm: float
    preload_n: float


class Window(NamedTuple):
    """
    Settings of the wrench [N·mm] and the preloads [N] that belong to them.

    `preload_min_n` is what the lowest setting still gives, `preload_max_n` what the highest may
    give, `preload_n` that of `torque_nmm` at the middle friction. `limits` come lowest first.
    Empty when `torque_min_nmm` exceeds `torque_max_nmm`.
    """

    torque_min_nmm: float
    torque_nmm: float
    torque_max_nmm: float
    preload_min_n: float
    preload_n: float
    preload_max_n: float
    guaranteed_n: float
    limits: tuple[Limit, ...]
    weakest_part: str  # shank, internal-thread, drive
    nut_factor: float

    @property
    def empty(self) -> bool:
        """No setting does both."""
        return self.torque_min_nmm > self.torque_max_nmm


class Reached(NamedTuple):
    """What a setting gives at one friction: preload [N] and share of yield [-]."""

    mu: float
    preload_n: float
    utilisation: float


def arm(joint: Joint, mu: float) -> float:
    """Torque per unit of preload at one friction in thread and under head [mm]."""
    thread, seat = joint.thread, joint.seat
    return sum(
        lever_arms(
            thread.pitch_mm,
            thread.pitch_diameter_mm,
            seat.d_km_mm,
            mu,
            mu,
            thread.flank_angle_deg / 2,
            seat.cone_half_angle_deg,
        )
    )


def preload_for_stress(thread: Thread, stress_mpa: float, mu: float) -> float:
    """Preload at which tension and tightening torsion reach a von Mises stress [N]."""
    return preload_at_utilisation(
        stress_mpa,
        1.0,
        stress_diameter(thread.stress_area_mm2),
        thread.pitch_mm,
        thread.pitch_diameter_mm,
        mu,
        thread.flank_angle_deg / 2,
    )


def table_values(joint: Joint) -> tuple[float, float]:
    """Torque [N·mm] and preload [N] as tables print them: middle friction, no scatter."""
    preload = preload_for_stress(joint.thread, joint.utilisation * joint.yield_mpa, joint.mu_mid)
    return preload * arm(joint, joint.mu_mid), preload


def strip_load(thread: Thread, shear_mpa: float, engage_mm: float) -> float:
    """
    Force at which the internal thread strips, by the least overlap that the usual classes leave.

    Classes 6g/6H for metric, 2A/2B for Unified threads; every turn of the engagement carries.

    Args:
        thread: The thread.
        shear_mpa: Shear strength of the internal thread [MPa], > 0.
        engage_mm: Length of engagement [mm], > 0.

    Returns:
        Force [N].

    Raises:
        ValueError: When an argument is out of its range.
    """
    d, p = thread.nominal_mm, thread.pitch_mm
    if thread.family == "UN":
        d_min, d2_max = unified_external(d, p).d_min, unified_internal(d, p).d2_max
    else:
        d_min, d2_max = iso_external(d, p).d_min, iso_internal(d, p).d2_max
    return positive(shear_mpa, "shear_mpa") * internal_shear_area(engage_mm, p, d_min, d2_max)


def limits(joint: Joint) -> tuple[Limit, ...]:
    """Every known limit at the lowest friction, lowest torque first."""
    lever, extra = arm(joint, joint.mu_min), joint.prevailing_nmm
    forces = {
        "yield": preload_for_stress(joint.thread, joint.utilisation * joint.yield_mpa, joint.mu_min)
    }
    if joint.strip_n is not None:
        forces["thread-strip"] = joint.strip_n
    if joint.bearing_mpa is not None:
        outside = joint.spread_mm or joint.seat.d_w_mm
        per_newton = bearing_pressure(1.0, outside, joint.seat.d_h_mm)
        forces["bearing-pressure"] = joint.bearing_mpa / per_newton
    found = [Limit(name, force * lever + extra, force) for name, force in forces.items()]
    if joint.drive_nmm is not None:
        found.append(Limit("drive", joint.drive_nmm, max(joint.drive_nmm - extra, 0.0) / lever))
    return tuple(sorted(found, key=lambda limit: limit.torque_nmm))


def weakest_part(joint: Joint) -> str:
    """The part that fails first when the torque goes on rising, at the lowest friction."""
    lever, extra = arm(joint, joint.mu_min), joint.prevailing_nmm
    failing = {
        "shank": preload_for_stress(joint.thread, joint.tensile_mpa, joint.mu_min) * lever + extra
    }
    if joint.strip_n is not None:
        failing["internal-thread"] = joint.strip_n * lever + extra
    if joint.drive_nmm is not None:
        failing["drive"] = joint.drive_nmm
    return min(failing, key=lambda part: failing[part])


def settable(torque_nmm: float, at_least: float = 0.0) -> float:
    """The next lower mark of a wrench's scale; the torque itself where that falls below a bound."""
    step = next(step for up_to, step in SCALE if torque_nmm < up_to)
    mark = floor(torque_nmm / step + 1e-9) * step
    return mark if mark >= at_least and mark > 0 else torque_nmm


def clamp_of(joint: Joint) -> float:
    """The clamp that the lowest setting must give [N]."""
    if joint.clamp_n is not None:
        return joint.clamp_n
    table = joint.table_preload_n or table_values(joint)[1]
    return CLAMP_SHARE * table


def window(joint: Joint) -> Window:
    """
    Compute the window.

    Args:
        joint: The joint; mu in 0..1 and rising, utilisation above 0 up to 1, wrench error 0..0.5.

    Returns:
        The window, possibly empty.

    Raises:
        ValueError: When a value of *joint* is out of its range.
    """
    positive(joint.mu_min, "mu_min")
    within(joint.mu_mid, "mu_mid", joint.mu_min, 1.0)
    within(joint.mu_max, "mu_max", joint.mu_mid, 1.0)
    positive(within(joint.utilisation, "utilisation", 0.0, 1.0), "utilisation")
    error = within(joint.wrench_error, "wrench_error", 0.0, 0.5)
    within(joint.prevailing_nmm, "prevailing_nmm", 0.0, float("inf"))
    clamp = within(clamp_of(joint), "clamp_n", 0.0, float("inf"))
    bounds = limits(joint)
    least = (clamp * arm(joint, joint.mu_max) + joint.prevailing_nmm) / (1 - error)
    most = bounds[0].torque_nmm / (1 + error)
    chosen = settable(most, least) if least <= most else most
    low, middle, _ = reached(joint, chosen)
    thread = joint.thread
    return Window(
        least,
        chosen,
        most,
        clamp,
        middle.preload_n,
        bounds[0].preload_n,
        low.preload_n,
        bounds,
        weakest_part(joint),
        nut_factor(
            thread.nominal_mm,
            thread.pitch_mm,
            thread.pitch_diameter_mm,
            joint.seat.d_km_mm,
            joint.mu_mid,
            joint.mu_mid,
            thread.flank_angle_deg / 2,
            joint.seat.cone_half_angle_deg,
        ),
    )


def reached(joint: Joint, setting_nmm: float) -> tuple[Reached, Reached, Reached]:
    """
    What a setting gives: highest friction and wrench low; the middle; lowest friction, wrench high.

    Args:
        joint: The joint.
        setting_nmm: What the wrench is set to [N·mm], >= 0.

    Returns:
        Preload and share of yield, least first.

    Raises:
        ValueError: When *setting_nmm* is out of its range.
    """
    within(setting_nmm, "setting_nmm", 0.0, float("inf"))
    error, thread = joint.wrench_error, joint.thread
    found = []
    for mu, share in ((joint.mu_max, 1 - error), (joint.mu_mid, 1.0), (joint.mu_min, 1 + error)):
        preload = max(setting_nmm * share - joint.prevailing_nmm, 0.0) / arm(joint, mu)
        stress = equivalent_stress(
            preload,
            stress_diameter(thread.stress_area_mm2),
            thread.pitch_mm,
            thread.pitch_diameter_mm,
            mu,
            thread.flank_angle_deg / 2,
        )
        found.append(Reached(mu, preload, stress / joint.yield_mpa))
    return found[0], found[1], found[2]


def table_row(
    thread: Thread,
    strength: GradeRow,
    friction: Friction,
    seat: Seat,
    utilisation: float = UTILISATION,
    wrench_error: float = WRENCH_ERROR,
) -> TorqueRow | None:
    """
    One row of the materialised table.

    Args:
        thread: The thread.
        strength: Strength of the class at the thread's size.
        friction: Friction condition.
        seat: Bearing face of the default head on its hole.
        utilisation: Share of yield [-].
        wrench_error: Share by which the wrench may be off [-].

    Returns:
        The row; `torque_min_nm` None where the window is empty; None where the class states no
        yield strength.

    Raises:
        ValueError: When a value is out of its range.
    """
    if strength.yield_min_mpa is None:
        return None
    joint = Joint(
        thread,
        strength.yield_min_mpa,
        strength.tensile_min_mpa,
        seat,
        friction.mu_min,
        friction.mu_mid,
        friction.mu_max,
        utilisation=utilisation,
        wrench_error=wrench_error,
    )
    found = window(joint)
    return TorqueRow._make(
        (
            thread.id,
            strength.grade,
            friction.id,
            friction.mu_min,
            friction.mu_mid,
            friction.mu_max,
            utilisation * 100,
            seat.d_w_mm,
            seat.d_h_mm,
            wrench_error * 100,
            None if found.empty else found.torque_min_nmm / 1000,
            found.torque_nmm / 1000,
            found.torque_max_nmm / 1000,
            found.preload_n,
        )
    )
