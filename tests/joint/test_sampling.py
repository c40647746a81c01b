"""
Twin of the window: joints drawn at random, by formulas written out anew.

Nothing here comes from the room that computes the window but its answer. Friction is taken as a
bell whose two standard deviations are the ends of the range, the wrench's error likewise, strength
as anything from its guaranteed least to a sixth above. Both ends of the window are taken at two
such extremes at once, so that at least 97 of 100 joints must keep each promise.
"""

import random
from math import cos, pi, radians, sqrt

import pytest

from fastkit.answers.torque import torque

SHARE = 0.97
DRAWS = 4000
JOINTS = [
    ("M8", "8.8", {}),
    ("M10x1", "10.9", {"head": "socket"}),
    ("M12", "12.9", {"friction": "class-c", "clamp_n": 20_000}),
    ("M8", "8.8", {"head": "countersunk"}),
    ("M10", "10.9", {"into": "aluminium", "engage_mm": 15, "clamp_n": 8000}),
    ("M8", "A2-70", {"mu": (0.10, 0.14), "mu_head": (0.08, 0.10)}),
    ("3/8-16", "SAE-5", {"prevailing_nm": 2}),
    ("M6", "8.8", {"head": "socket", "utilisation_pct": 70, "wrench_error_pct": 10}),
]


def bell(draw, low, high):
    """A value whose two standard deviations are the ends."""
    return max(draw.gauss((low + high) / 2, (high - low) / 4), 0.005)


def preload(row, answer, setting_nm, mu, mu_head, error, cone, prevailing):
    """Clamp by the sum of helix, flanks and bearing ring [N]."""
    helix = row["pitch_mm"] / 6.283185
    flanks = row["pitch_diameter_mm"] * mu / (2 * cos(radians(30)))
    ring = (answer.bearing_diameter_mm + answer.hole_mm) / 4 * mu_head / cone
    return (setting_nm * (1 + error) - prevailing) * 1000 / (helix + flanks + ring)


@pytest.mark.parametrize(("thread", "grade", "options"), JOINTS)
@pytest.mark.parametrize("where", [0.0, 0.5, 1.0])
def test_promises_hold_for_nearly_every_joint(store, thread, grade, options, where):
    """Enough clamp; yield, strip and every other limit kept; at both ends and in the middle."""
    draw = random.Random(f"{thread} {grade} {where}")
    answer = torque(thread, grade, **options, store=store)
    assert not answer.empty
    columns = ("nominal_mm", "pitch_mm", "pitch_diameter_mm", "stress_area_mm2")
    held_row = store.execute(
        f"SELECT {', '.join(columns)} FROM thread WHERE id = ?", (answer.thread,)
    ).fetchone()
    row = dict(zip(columns, held_row, strict=True))
    least = store.execute(
        "SELECT min(yield_min_mpa) FROM grade_row WHERE grade = ? AND size_from_mm <= ? + 1e-6"
        " AND size_to_mm >= ? - 1e-6",
        (answer.grade, row["nominal_mm"], row["nominal_mm"]),
    ).fetchone()[0]
    setting = answer.torque_min_nm + where * (answer.torque_max_nm - answer.torque_min_nm)
    cone = sqrt(0.5) if options.get("head") == "countersunk" else 1.0
    held = {limit["name"]: limit["preload_n"] for limit in answer.limits}
    d_s = sqrt(4 * row["stress_area_mm2"] / pi)
    enough = kept = 0
    for _ in range(DRAWS):
        mu = bell(draw, answer.mu_min, answer.mu_max)
        under = mu
        if "mu_head" in options:
            under = bell(draw, answer.mu_head_min, answer.mu_head_max)
        error = draw.gauss(0.0, answer.wrench_error_pct / 200)
        force = preload(
            row, answer, setting, mu, under, error, cone, options.get("prevailing_nm", 0)
        )
        enough += force >= answer.preload_min_n * 0.999
        twist = force * (
            row["pitch_mm"] / 6.283185 + row["pitch_diameter_mm"] * mu / (2 * cos(radians(30)))
        )
        stress = sqrt((force / row["stress_area_mm2"]) ** 2 + 3 * (12 * twist / (pi * d_s**3)) ** 2)
        allowed = answer.utilisation_pct / 100 * least * draw.uniform(1.0, 7 / 6)
        kept += stress <= allowed * 1.001 and all(
            force <= most * 1.001 for name, most in held.items() if name not in {"yield", "drive"}
        )

    assert enough >= SHARE * DRAWS
    assert kept >= SHARE * DRAWS
