"""What the user's own setting and the maker's value come to; loosening."""

from typing import Any

from fastkit.answers.torque_parts import Parts
from fastkit.joint.breakaway import breakaway_torque, loser
from fastkit.joint.breaking import breaking_torque
from fastkit.joint.window import Joint, clamp_of, frictions, reached, window

Numbers = dict[str, Any]


def loosening(joint: Joint, parts: Parts, setting_nm: float, bonds_nmm: float = 0.0) -> Numbers:
    """
    What turns it loose again: the preload of the middle friction, friction of rest at the highest.

    That rest rubs as the highest of the range does is practice.
    """
    mu, under = frictions(joint)[2]
    needed = breakaway_torque(
        joint.thread,
        reached(joint, setting_nm * 1000)[1].preload_n,
        mu,
        under,
        joint.seat.d_km_mm,
        bonds_nmm,
        prevailing_nmm=joint.prevailing_nmm,
        cone_half_angle_deg=joint.seat.cone_half_angle_deg,
    ).total
    carry = {"shank": breaking_torque(parts.thread, parts.strength)}
    if joint.drive_nmm is not None:
        carry["drive"] = joint.drive_nmm
    return {"loosening_nm": needed / 1000, "loses_loosening": loser(needed, carry)}


def judged(joint: Joint, parts: Parts, setting_nm: float) -> Numbers:
    """What a setting gives, least first: preload, share of yield; the limits that it passes."""
    found = reached(joint, setting_nm * 1000)
    most = setting_nm * 1000 * (1 + joint.wrench_error)
    return {
        "torque_nm": setting_nm,
        "mu": [one.mu for one in found],
        "preload_n": [one.preload_n for one in found],
        "utilisation_pct": [one.utilisation * 100 for one in found],
        "passes": [limit.name for limit in window(joint).limits if limit.torque_nmm < most],
        "twists_off": most > breaking_torque(parts.thread, parts.strength),
    }


def makers(joint: Joint, parts: Parts, setting_nm: float) -> Numbers:
    """The maker's value against the window, and which assumption would bring it in."""
    found = window(joint)
    low, high = found.torque_min_nmm / 1000, found.torque_max_nmm / 1000
    least = reached(joint, setting_nm * 1000)[0].preload_n
    return {
        **judged(joint, parts, setting_nm),
        "inside": low <= setting_nm <= high,
        "friction_needed": _friction_for(joint, setting_nm) if setting_nm > high else None,
        "yield_needed_mpa": _yield_for(joint, setting_nm) if setting_nm > high else None,
        "clamp_needed_n": least if setting_nm < low and least < clamp_of(joint) else None,
    }


def _friction_for(joint: Joint, setting_nm: float) -> float | None:
    """The lowest friction at which a setting overloads nothing; None up to 1."""
    low, high = joint.mu_min, 1.0
    for _ in range(40):
        middle = (low + high) / 2
        tried = joint._replace(mu_min=middle, mu_mid=middle, mu_max=middle, mu_head=None)
        if window(tried).torque_max_nmm < setting_nm * 1000:
            low = middle
        else:
            high = middle
    return high if high < 0.999 else None


def _yield_for(joint: Joint, setting_nm: float) -> float | None:
    """The yield strength at which a setting overloads nothing; None where yield is not at fault."""
    limits = {limit.name: limit.torque_nmm for limit in window(joint).limits}
    most = setting_nm * 1000 * (1 + joint.wrench_error)
    # a harder bolt comes with the nut of its class
    if any(nmm < most for name, nmm in limits.items() if name not in {"yield", "nut-proof"}):
        return None
    extra = joint.prevailing_nmm
    return joint.yield_mpa * (most - extra) / (limits["yield"] - extra)
