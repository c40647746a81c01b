"""
The torque window of a bolted joint: lowest setting that clamps enough, highest that harms nothing.

The lowest is taken at the highest friction with the wrench delivering least; the highest at the
lowest friction with the wrench delivering most, under every limit that is known.
"""

from math import floor
from typing import NamedTuple

from fastkit.joint.seat import Seat
from fastkit.mechanics.bearing import bearing_pressure
from fastkit.mechanics.bounds import positive, within
from fastkit.mechanics.nut_factor import nut_factor
from fastkit.mechanics.thread import stress_diameter
from fastkit.mechanics.tightening import (
    equivalent_stress,
    lever_arms,
    preload_at_utilisation,
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

    Symbols: mu, friction in the thread, and under the head where `mu_head` names none [-]; mu_head,
    lowest, middle and highest under the head [-]; strip_n and bolt_strip_n, force at which the
    internal and the external thread strip [N]; nut_proof_n, proof load of the nut [N]; bearing_mpa,
    pressure that the seat stands [MPa]; drive_nmm, torque that the drive stands [N·mm]; a limit
    that is None is not known. spread_mm, outside of the washer that spreads the load on the seat
    [mm]; None: the head's own bearing face. clamp_n None: 40 % of `table_preload_n`.
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
    bolt_strip_n: float | None = None
    nut_proof_n: float | None = None
    mu_head: tuple[float, float, float] | None = None


class Limit(NamedTuple):
    """One thing that bounds the torque: at the fastener, at the lowest friction."""

    # yield, thread-strip, bolt-thread-strip, nut-proof, bearing-pressure, drive
    name: str
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
    weakest_part: str  # shank, internal-thread, external-thread, drive
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


def arm(joint: Joint, mu: float, mu_head: float | None = None) -> float:
    """Torque per unit of preload at one friction in thread and under head [mm]."""
    thread, seat = joint.thread, joint.seat
    return sum(
        lever_arms(
            thread.pitch_mm,
            thread.pitch_diameter_mm,
            seat.d_km_mm,
            mu,
            mu if mu_head is None else mu_head,
            thread.flank_angle_deg / 2,
            seat.cone_half_angle_deg,
        )
    )


def frictions(joint: Joint) -> tuple[tuple[float, float], ...]:
    """Lowest, middle and highest friction in thread and under head [-]."""
    thread = (joint.mu_min, joint.mu_mid, joint.mu_max)
    return tuple(zip(thread, joint.mu_head or thread, strict=True))


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
    return preload * arm(joint, *frictions(joint)[1]), preload


def torque_for_stress(joint: Joint, stress_mpa: float) -> float:
    """
    Least torque that takes the shank to a stress, whatever the thread's friction [N·mm].

    At a given torque the stress falls and then rises as the thread rubs more (less pull, more
    twist), so that the least is at one of the ends; under the head less friction is always worse.
    """
    mu, head = yield_friction(joint, stress_mpa), frictions(joint)[0][1]
    preload = preload_for_stress(joint.thread, stress_mpa, mu)
    return joint.prevailing_nmm + preload * arm(joint, mu, head)


def yield_friction(joint: Joint, stress_mpa: float) -> float:
    """The end of the thread's friction at which less torque takes the shank to a stress [-]."""
    head = frictions(joint)[0][1]

    def torque(mu: float) -> float:
        return preload_for_stress(joint.thread, stress_mpa, mu) * arm(joint, mu, head)

    return min((joint.mu_min, joint.mu_max), key=torque)


def _forces(joint: Joint) -> dict[str, float]:
    """Preloads that a part other than the shank does not stand [N]."""
    found = {
        "thread-strip": joint.strip_n,
        "bolt-thread-strip": joint.bolt_strip_n,
        "nut-proof": joint.nut_proof_n,
    }
    if joint.bearing_mpa is not None:
        outside = joint.spread_mm or joint.seat.d_w_mm
        per_newton = bearing_pressure(1.0, outside, joint.seat.d_h_mm)
        found["bearing-pressure"] = joint.bearing_mpa / per_newton
    return {name: force for name, force in found.items() if force is not None}


def limits(joint: Joint) -> tuple[Limit, ...]:
    """Every known limit at the lowest friction, lowest torque first."""
    lever, extra = arm(joint, *frictions(joint)[0]), joint.prevailing_nmm

    def at(name: str, torque_nmm: float) -> Limit:
        return Limit(name, torque_nmm, max(torque_nmm - extra, 0.0) / lever)

    found = [at("yield", torque_for_stress(joint, joint.utilisation * joint.yield_mpa))]
    found += [at(name, force * lever + extra) for name, force in _forces(joint).items()]
    if joint.drive_nmm is not None:
        found.append(at("drive", joint.drive_nmm))
    return tuple(sorted(found, key=lambda limit: limit.torque_nmm))


# A nut that stands its proof load need not fail there, so that it is a limit and no weakest part.
PARTS = {"thread-strip": "internal-thread", "bolt-thread-strip": "external-thread"}


def weakest_part(joint: Joint) -> str:
    """The part that fails first when the torque goes on rising, at the lowest friction."""
    lever, extra = arm(joint, *frictions(joint)[0]), joint.prevailing_nmm
    failing = {"shank": torque_for_stress(joint, joint.tensile_mpa)}
    forces = _forces(joint)
    failing |= {part: forces[n] * lever + extra for n, part in PARTS.items() if n in forces}
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


class Edges(NamedTuple):
    """Lowest, chosen and highest setting [N·mm], and the limit that governs the highest."""

    least: float
    chosen: float
    most: float
    limits: tuple[Limit, ...]


def edges(joint: Joint) -> Edges:
    """
    The settings alone: what the materialised table needs.

    Raises:
        ValueError: When a value of *joint* is out of its range.
    """
    positive(joint.mu_min, "mu_min")
    within(joint.mu_mid, "mu_mid", joint.mu_min, 1.0)
    within(joint.mu_max, "mu_max", joint.mu_mid, 1.0)
    if joint.mu_head is not None:
        least_mu, middle_mu, most_mu = joint.mu_head
        within(middle_mu, "mu_head", positive(least_mu, "mu_head"), 1.0)
        within(most_mu, "mu_head", middle_mu, 1.0)
    positive(within(joint.utilisation, "utilisation", 0.0, 1.0), "utilisation")
    error = within(joint.wrench_error, "wrench_error", 0.0, 0.5)
    within(joint.prevailing_nmm, "prevailing_nmm", 0.0, float("inf"))
    clamp = within(clamp_of(joint), "clamp_n", 0.0, float("inf"))
    bounds = limits(joint)
    least = (clamp * arm(joint, *frictions(joint)[2]) + joint.prevailing_nmm) / (1 - error)
    most = bounds[0].torque_nmm / (1 + error)
    return Edges(least, settable(most, least) if least <= most else most, most, bounds)


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
    least, chosen, most, bounds = edges(joint)
    low, middle, _ = reached(joint, chosen)
    thread = joint.thread
    return Window(
        least,
        chosen,
        most,
        clamp_of(joint),
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
            *frictions(joint)[1],
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
    shares = (1 - error, 1.0, 1 + error)
    for (mu, under), share in zip(reversed(frictions(joint)), shares, strict=True):
        preload = max(setting_nmm * share - joint.prevailing_nmm, 0.0) / arm(joint, mu, under)
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
    least, chosen, most, _ = edges(joint)
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
            None if least > most else least / 1000,
            chosen / 1000,
            most / 1000,
            chosen / arm(joint, *frictions(joint)[1]),
        )
    )
