"""The torque answer in words: what opens a window, what each limit is, the steps with numbers."""

from collections.abc import Mapping

from fastkit.answers.torque_parts import Parts
from fastkit.joint.opening import Opening
from fastkit.joint.window import CLAMP_SHARE, Joint, Window, arm, clamp_of, frictions
from fastkit.mechanics.thread import stress_diameter
from fastkit.mechanics.tightening import lever_arms
from fastkit.notation.units import show_kn, show_mm, show_nm

LIMITS: Mapping[str, str] = {
    "yield": "yield of the shank",
    "thread-strip": "strip of the internal thread",
    "bolt-thread-strip": "strip of the bolt's own thread",
    "nut-proof": "proof load of the nut",
    "bearing-pressure": "pressure under the head",
    "drive": "what the drive carries",
}
WEAKEST: Mapping[str, str] = {
    "shank": "the shank stretches and snaps",
    "internal-thread": "the internal thread strips",
    "external-thread": "the bolt's own thread strips",
    "drive": "the drive gives way",
}


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


def steps(joint: Joint, parts: Parts, found: Window) -> tuple[str, ...]:
    """
    The way to the window, each step with its numbers and its source.

    Args:
        joint: What was computed.
        parts: The records behind it.
        found: The window.

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
    for limit in found.limits:
        said.append(
            f"Limit, {LIMITS[limit.name]}: {show_kn(limit.preload_n)} at the lowest friction, "
            f"{show_nm(limit.torque_nmm)} at the fastener{_of(limit.name, joint)}."
        )
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
        f"Lowest setting: (clamp × {arm(joint, *ends[2]):.3f} mm + prevailing "
        f"{joint.prevailing_nmm / 1000:g} N·m) / (1 - {error:g} %) = "
        f"{show_nm(found.torque_min_nmm)}.",
        f"Nut factor that this sum implies at friction {joint.mu_mid:g}: K = "
        f"{found.nut_factor:.3f} in T = K d F (Shigley's Mechanical Engineering Design, eq. 8-27).",
    ]
    return tuple(said)


def _under(mu: float, under: float) -> str:
    return "" if under == mu else f", {under:g} under the head"


def _of(name: str, joint: Joint) -> str:
    """The formula or value behind a limit."""
    return {
        "yield": f": tension and torsion together at {100 * joint.utilisation:g} % of yield, "
        "von Mises (VDI 2230-1 eq. R8/4)",
        "thread-strip": ": shear area by FED-STD-H28/2B times the body's shear strength and the "
        "bending factor of VDI 2230-1 clause 5.5.5, 0.8 P of run-out off",
        "bolt-thread-strip": ": the same with the bolt's shear strength",
        "nut-proof": ": proof stress times stress area (ISO 898-2)",
        "bearing-pressure": f": limiting pressure {joint.bearing_mpa or 0:g} MPa (VDI 2230-1)",
        "drive": ": proof torque of the tool",
    }[name]
