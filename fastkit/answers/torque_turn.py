"""Torque to snug, then an angle: stretch of the joint and what the angle adds."""

from typing import Any

from fastkit.answers.torque_parts import Parts
from fastkit.joint.stretch import by_angle, stretch
from fastkit.joint.window import Joint, window
from fastkit.mechanics.elastic import elongation, turning_angle

Numbers = dict[str, Any]
GRIP_D = 2.5  # practice: clamped length over diameter where none is named
SNUG_SHARE = 0.2  # practice: torque at which the parts lie close, over the setting


def turned(
    joint: Joint,
    parts: Parts,
    setting_nm: float,
    angle_deg: float | None,
    snug_nm: float | None,
    grip_mm: float | None,
) -> Numbers:
    """
    Stretch of the joint, and what an angle from snug adds.

    Snug is the setting asked about, else a fifth of the window's; the grip two and a half
    diameters where none is named.
    """
    grip = GRIP_D * parts.thread.nominal_mm if grip_mm is None else grip_mm
    tapped = parts.material is not None
    parts_mpa = parts.material.modulus_mpa if parts.material is not None else None
    socket = parts.head is not None and parts.head.form == "socket"
    found = stretch(parts.thread, joint.seat, grip, parts_mpa, tapped, socket)
    snug = SNUG_SHARE * setting_nm if snug_nm is None else snug_nm
    there = by_angle(joint, found, snug * 1000, angle_deg or 0.0)
    target = window(joint).preload_n
    gained = max(target - there[1].snug_n, 0.0)
    return {
        "angle_deg": angle_deg,
        "grip_mm": grip,
        "snug_nm": snug,
        "bolt_compliance_mm_n": found.bolt,
        "parts_compliance_mm_n": found.parts,
        "preload_n": [one.preload_n for one in there],
        "utilisation_pct": [one.utilisation * 100 for one in there],
        "past_yield": [one.past_yield for one in there],
        "elongation_mm": elongation(there[1].preload_n, found.bolt),
        "target_elongation_mm": elongation(target, found.bolt),
        "target_angle_deg": turning_angle(gained, parts.thread.pitch_mm, found.total),
    }
