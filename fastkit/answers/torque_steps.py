"""The torque answer in words: what opens a window, what each limit is, the steps with numbers."""

from fastkit.answers.torque_limits import limit_steps
from fastkit.answers.torque_parts import Parts
from fastkit.joint.breakaway import breakaway_torque
from fastkit.joint.breaking import (
    breaking_torque,
    ratio_is_listed,
    shank_root,
    torsion_ratio,
)
from fastkit.joint.opening import Opening
from fastkit.joint.window import CLAMP_SHARE, Joint, Window, arm, clamp_of, frictions
from fastkit.mechanics.nut_factor import torque_by_nut_factor
from fastkit.mechanics.thread import stress_diameter
from fastkit.mechanics.tightening import lever_arms
from fastkit.notation.units import show_kn, show_mm, show_nm


def opening_words(way: Opening, parts: Parts) -> str:
    """One way that opens an empty window, as a sentence without its full stop."""
    value = way.value or 0.0
    engage = (parts.engage_mm or 0.0) * value
    return {
        "known-lubricant": f"one known lubricant on thread and head (friction about {value:g})",
        "finer-wrench": f"a wrench true to ±{100 * value:g} %",
        "longer-engagement": f"longer engagement: {show_mm(engage)}",
        "insert": "a wire thread insert at the same depth, strip load about "
        f"{100 * (value - 1):.0f} % higher",
        "higher-class": f"class {way.name} in place of {parts.grade.id}, nut to match",
        "stronger-nut": "a nut of a higher class",
        "washer": "a hard washer or flange head under the load",
        "other-drive": "a larger or stronger drive",
        "less-clamp": f"a required clamp of at most {show_kn(value)}: a larger thread, "
        "a higher class or more fasteners for the rest",
    }[way.code]


def steps(joint: Joint, parts: Parts, found: Window, bonds_nmm: float = 0.0) -> tuple[str, ...]:
    """
    The way to the window, each step with its numbers and its source.

    Args:
        joint: What was computed.
        parts: The records behind it.
        found: The window.
        bonds_nmm: Torque of a threadlocker [N·mm].

    Returns:
        Sentences in order.
    """
    thread, seat = parts.thread, joint.seat
    d_s = stress_diameter(thread.stress_area_mm2)
    said = [
        f"Thread {thread.id}: d {thread.nominal_mm:g} mm, P {thread.pitch_mm:.4g} mm, "
        f"d2 {thread.pitch_diameter_mm:.3f} mm, stress area {thread.stress_area_mm2:.1f} mm², "
        f"d_s {d_s:.3f} mm ({'ASME B1.1' if thread.family == 'UN' else 'ISO 724, ISO 898-1'}).",
        f"Class {parts.grade.id}: tensile {joint.tensile_mpa:g} MPa, yield {joint.yield_mpa:g} MPa "
        f"for {parts.strength.size_range} ({parts.grade.system}).",
        f"Head: bearing d_w {seat.d_w_mm:.2f} mm on a hole of {seat.d_h_mm:g} mm, "
        f"D_km = (d_w + d_h)/2 = {seat.d_km_mm:.2f} mm, cone half angle "
        f"{seat.cone_half_angle_deg:g}° (VDI 2230-1).",
    ]
    ends = frictions(joint)
    for name, (mu, under) in (("lowest", ends[0]), ("highest", ends[2])):
        helix, flank, head = lever_arms(
            thread.pitch_mm,
            thread.pitch_diameter_mm,
            seat.d_km_mm,
            mu,
            under,
            thread.flank_angle_deg / 2,
            seat.cone_half_angle_deg,
        )
        said.append(
            f"Arms at the {name} friction {mu:g}{_under(mu, under)}: helix P/2π {helix:.3f} + "
            f"flanks {flank / (mu * thread.pitch_diameter_mm):.3f} d2 µ {flank:.3f} + "
            f"head D_km µ/2 sin β {head:.3f} = {arm(joint, mu, under):.3f} mm "
            "(VDI 2230-1 eq. R13/1)."
        )
    said += limit_steps(joint, parts, found)
    error = 100 * joint.wrench_error
    said += [
        f"Highest setting: {show_nm(found.limits[0].torque_nmm)} / (1 + {error:g} %) = "
        f"{show_nm(found.torque_max_nmm)} (ISO 6789-1).",
        f"Required clamp: {show_kn(clamp_of(joint))}"
        + (
            f", {100 * CLAMP_SHARE:g} % of the table preload (practice)."
            if joint.clamp_n is None
            else "."
        ),
        f"Lowest setting: ({show_kn(clamp_of(joint))} × {arm(joint, *ends[2]):.3f} mm + prevailing "
        f"{joint.prevailing_nmm / 1000:g} N·m) / (1 - {error:g} %) = "
        f"{show_nm(found.torque_min_nmm)}.",
        f"Set: the highest mark of a wrench's scale up to that, {show_nm(found.torque_nmm)} "
        f"(practice); {show_kn(found.preload_n)} at the middle friction.",
        *_after(joint, parts, found, bonds_nmm),
        f"Nut factor that this sum implies at friction {joint.mu_mid:g}: K = "
        f"{found.nut_factor:.3f}; T = K d F = {found.nut_factor:.3f} × {thread.nominal_mm:g} mm × "
        f"{show_kn(found.preload_n)} = "
        f"{show_nm(torque_by_nut_factor(found.nut_factor, thread.nominal_mm, found.preload_n))} "
        "before prevailing torque (Shigley's Mechanical Engineering Design, eq. 8-27).",
    ]
    return tuple(said)


def _after(joint: Joint, parts: Parts, found: Window, bonds_nmm: float) -> tuple[str, str]:
    """What it takes to turn it loose again, and to twist it off."""
    mu, under = frictions(joint)[2]
    thread, strength = parts.thread, parts.strength
    terms = breakaway_torque(
        thread,
        found.preload_n,
        mu,
        under,
        joint.seat.d_km_mm,
        bonds_nmm,
        prevailing_nmm=joint.prevailing_nmm,
        cone_half_angle_deg=joint.seat.cone_half_angle_deg,
    )
    root, ratio = shank_root(thread), torsion_ratio(strength)
    whose = "ISO 898-7" if ratio_is_listed(strength) else "ISO 898-7, ratio of the next class"
    return (
        f"Loosens again, {show_kn(found.preload_n)} at rest with friction {mu:g}: helix "
        f"{terms.helix / 1000:.1f} + flanks {terms.thread / 1000:.1f} + head "
        f"{terms.head / 1000:.1f} + bonds {terms.bonds / 1000:.1f} + prevailing "
        f"{terms.prevailing / 1000:g} = "
        f"{show_nm(terms.total)} (VDI 2230-1, helix term turned about).",
        f"Twists off: X Rm π/16 d3,min³ = {ratio:g} × {strength.tensile_min_mpa:g} MPa × π/16 × "
        f"{root:.3f}³ mm³ = {show_nm(breaking_torque(thread, strength))} ({whose}).",
    )


def _under(mu: float, under: float) -> str:
    return "" if under == mu else f", {under:g} under the head"
