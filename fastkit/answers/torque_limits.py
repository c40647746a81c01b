"""What bounds a torque, in words, and how each bound is computed with its numbers put in."""

from collections.abc import Iterator, Mapping
from math import cos, pi, radians, sqrt

from fastkit.answers.torque_parts import Parts
from fastkit.joint.strip import bolt_shear, shear_areas
from fastkit.joint.window import Joint, Limit, Window, frictions, yield_friction
from fastkit.mechanics.strip import bending_factors
from fastkit.mechanics.thread import stress_diameter
from fastkit.notation.units import show_kn, show_nm

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


def limit_steps(joint: Joint, parts: Parts, found: Window) -> Iterator[str]:
    """
    Each limit as a sentence: formula, numbers, force, torque at the fastener, source.

    Args:
        joint: What was computed.
        parts: The records behind it.
        found: The window.

    Returns:
        Sentences, lowest limit first.
    """
    mu, under = frictions(joint)[0]
    at = f"friction {mu:g}" if mu == under else f"friction {mu:g}, {under:g} under the head"
    for limit in found.limits:
        yield (
            f"Limit, {LIMITS[limit.name]}: {_formula(limit, joint, parts)}; at the lowest {at} "
            f"{show_nm(limit.torque_nmm)} at the fastener."
        )


def _formula(limit: Limit, joint: Joint, parts: Parts) -> str:
    return {
        "yield": _yield,
        "thread-strip": _internal,
        "bolt-thread-strip": _external,
        "nut-proof": _nut,
        "bearing-pressure": _pressure,
        "drive": _drive,
    }[limit.name](limit, joint, parts)


def _yield(limit: Limit, joint: Joint, parts: Parts) -> str:
    """The friction in the thread is the one, of the two ends, at which less torque is enough."""
    thread, mu = parts.thread, yield_friction(joint, joint.utilisation * joint.yield_mpa)
    d_s = stress_diameter(thread.stress_area_mm2)
    helix = thread.pitch_mm / (2 * pi)
    flanks = thread.pitch_diameter_mm * mu / (2 * cos(radians(thread.flank_angle_deg / 2)))
    k = 3 * (helix + flanks) / d_s
    force = thread.stress_area_mm2 * joint.utilisation * joint.yield_mpa / sqrt(1 + 3 * k**2)
    return (
        f"As ν Re/√(1 + 3 k²), k = 3 ({helix:.3f} + {flanks:.3f})/{d_s:.3f} = {k:.3f} at friction "
        f"{mu:g}: {thread.stress_area_mm2:.3g} mm² × {joint.utilisation:g} × {joint.yield_mpa:g} "
        f"MPa / {sqrt(1 + 3 * k**2):.3f} = {show_kn(force)} (von Mises, VDI 2230-1 eq. R8/4)"
    )


def _internal(limit: Limit, _: Joint, parts: Parts) -> str:
    areas = shear_areas(parts.thread, parts.engage_mm or 0.0)
    shear = parts.material.shear_strength_mpa if parts.material else None
    if areas is None or shear is None:
        return show_kn(limit.preload_n)
    c3 = bending_factors(_ratio(parts, areas.internal_mm2, areas.external_mm2))[1]
    return (
        f"shear area over {areas.length_mm:.3g} mm, 0.8 P of run-out off, {areas.internal_mm2:.0f} "
        f"mm² × {shear:g} MPa × C3 {c3:.3f} = {show_kn(limit.preload_n)} (FED-STD-H28/2B; bending "
        "factor ISO/TR 16224)"
    )


def _external(limit: Limit, _: Joint, parts: Parts) -> str:
    areas = shear_areas(parts.thread, parts.engage_mm or 0.0)
    if areas is None:
        return show_kn(limit.preload_n)
    tensile = parts.strength.tensile_min_mpa
    share = bolt_shear(parts.strength) / tensile
    c2 = bending_factors(_ratio(parts, areas.internal_mm2, areas.external_mm2))[0]
    return (
        f"shear area {areas.external_mm2:.0f} mm² × {share:g} × {tensile:g} MPa × C2 {c2:.3f} = "
        f"{show_kn(limit.preload_n)} (FED-STD-H28/2B; share of the tensile strength VDI 2230-1 "
        "clause 5.5.5 [memory])"
    )


def _ratio(parts: Parts, internal_mm2: float, external_mm2: float) -> float:
    """Strip strength of the nut's thread over that of the bolt's."""
    body = parts.material.shear_strength_mpa if parts.material else None
    return internal_mm2 * (body or 0.0) / (external_mm2 * bolt_shear(parts.strength))


def _nut(limit: Limit, _: Joint, parts: Parts) -> str:
    area = parts.thread.stress_area_mm2
    return (
        f"proof stress of {parts.nut.grade if parts.nut else 'the nut'} times stress area, "
        f"{parts.nut.proof_mpa if parts.nut else 0:g} MPa × {area:.3g} mm² = "
        f"{show_kn(limit.preload_n)} (ISO 898-2)"
    )


def _pressure(limit: Limit, joint: Joint, _: Parts) -> str:
    outside = joint.spread_mm or joint.seat.d_w_mm
    return (
        f"p π/4 (d_w² - d_h²) = {joint.bearing_mpa or 0:g} MPa × π/4 × ({outside:g}² - "
        f"{joint.seat.d_h_mm:g}²) mm² = {show_kn(limit.preload_n)} (VDI 2230-1)"
    )


def _drive(limit: Limit, _: Joint, parts: Parts) -> str:
    tool = parts.drive_torque
    said = f"{tool.drive}, {tool.tool}" if tool else "the tool"
    return f"proof torque of {said}, {show_kn(limit.preload_n)} of clamp"
