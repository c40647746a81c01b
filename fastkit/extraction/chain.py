"""
The chain that carries the torque of one attempt, and which link gives first.

What merely slips or tires (arm, jaw, slot, weld, drill, a drive already gone: `gives` nothing) is
taken at its median:
the same tool slips again at the same torque. What breaks or wears (drive, shank, thread,
extractor) is lognormal about its median; as the torque rises these compete: of the chance that is
lost in a step of torque, each takes its share of the fall in ln S, exact in the limit of small
steps.
"""

from collections.abc import Sequence
from math import erf, log, pi, sqrt
from typing import NamedTuple

from fastkit.extraction.facts import Facts
from fastkit.extraction.resistance import HEADLESS, Body
from fastkit.extraction.situation import Situation
from fastkit.joint.breaking import breaking_torque
from fastkit.mechanics.bond import flank_bond_torque
from fastkit.mechanics.strength import blade_torque
from fastkit.records.method import Method, Variant
from fastkit.records.seizure import DriveState

# Workshop judgement, common practice with no published source.
SLOT_WIDTH_SHARE = 0.7  # slot length that the blade covers, of the head's diameter
SLOT_BLADE_D = 0.2  # blade thickness in thread diameters: 1.6 mm at M8
WELD_THROAT_D = 0.2  # throat of a plug weld in a nut, in thread diameters
WELD_SHEAR_MPA = 180.0  # mild-steel filler in shear on a dirty, unpreheated part
EXTRACTOR_CORE = {"spiral-extractor": 0.5, "straight-extractor": 0.6}  # of the root diameter
EXTRACTOR_SHEAR_MPA = 700.0  # hard tool steel at the shear stress where it snaps
DRILL_GRAB_MPA = 0.14  # torque when a drill grabs, by its diameter squared: N·m per mm^2
DRILL_SHARE = 0.6  # drill diameter of the thread's
PUSH_GAIN = {"cross-h": 0.5, "cross-z": 0.35, "slot": 0.35, "square": 0.15}
PUSH_GAIN_OTHER = 0.1  # of the drive's capacity, that a hard axial push decides
FILLED_SHARE = 0.5  # capacity of a recess still filled with paint, dirt or rust
DRIVE_SHARE_OF_SHANK = 1.2  # a sound drive without a printed proof torque outlasts its shank
OUTER_HEXAGON_SHARE = 3.0  # a sound outer hexagon against its shank
THREAD_SPREAD, SHANK_SPREAD, ARM_SPREAD = 0.15, 0.08, 0.2
GRIP_SPREAD = 0.3
ROUND_HEAD_HOLD_MPA = 0.12  # socket hammered over a tall round head: N·m per mm^2 of its diameter
DEFAULT_SHEAR_MPA = 150.0


class Link(NamedTuple):
    """One link: what it is, its median capacity [N·mm], sigma of ln, what happens when it gives."""

    part: str
    capacity: float
    spread: float
    gives: str  # nothing, drive, shank, thread, extractor


def shank_torque(situation: Situation, facts: Facts) -> float:
    """Return what the shank carries, N·mm, less what rust has taken of its polar section."""
    whole = breaking_torque(facts.thread, facts.strength)
    return whole * (1 - situation.wasted_pct / 100) ** 1.5


def links(
    method: Method,
    variant: Variant | None,
    damage: str,
    situation: Situation,
    facts: Facts,
    size: Body,
    shank: float,
) -> tuple[Link, ...]:
    """Return the chain that an attempt loads, in the order hand to thread; `shank` in N·mm."""
    chain = []
    if variant and variant.torque_nm is not None:
        chain.append(Link("arm", variant.torque_nm * 1000, ARM_SPREAD, "nothing"))
    chain.append(_grip(method, variant, damage, situation, facts, size, shank))
    deepest = damage == "snapped-below"  # a stub that breaks deeper is where it was
    chain.append(Link("shank", shank, SHANK_SPREAD, "nothing" if deepest else "shank"))
    material = next(row for row in facts.materials if row.id == situation.into)
    shear = material.shear_strength_mpa or DEFAULT_SHEAR_MPA
    strip = flank_bond_torque(shear, size.d2, size.engaged)
    chain.append(Link("thread", strip, THREAD_SPREAD, "thread"))
    return tuple(chain)


def _grip(
    method: Method,
    variant: Variant | None,
    damage: str,
    situation: Situation,
    facts: Facts,
    size: Body,
    shank: float,
) -> Link:
    """Return the link that holds the fastener."""
    across = size.d3 if damage in HEADLESS else size.head
    if method.grip == "flats" and round_head(facts):
        torque = ROUND_HEAD_HOLD_MPA * 1000 * size.head**2
        return Link("rim", torque, GRIP_SPREAD, "nothing")
    if method.grip in ("drive", "bite", "flats"):
        return _drive(method, variant, damage, situation, facts, shank)
    if method.grip == "extractor":
        core = EXTRACTOR_CORE.get(method.id, 0.5) * size.d3
        torque = pi / 16 * core**3 * EXTRACTOR_SHEAR_MPA
        return Link("extractor", torque, GRIP_SPREAD, "extractor")
    if method.grip == "slot":
        width = SLOT_WIDTH_SHARE * across
        return Link("slot", blade_torque(width, SLOT_BLADE_D * size.d), GRIP_SPREAD, "nothing")
    if method.grip == "weld":
        area = pi * size.d * WELD_THROAT_D * size.d
        return Link("weld", area * WELD_SHEAR_MPA * size.d / 2, GRIP_SPREAD, "nothing")
    if method.grip == "drill":
        torque = DRILL_GRAB_MPA * 1000 * (DRILL_SHARE * size.d) ** 2
        return Link("drill", torque, GRIP_SPREAD, "nothing")
    if method.grip is None or method.hold is None:
        raise ValueError(f"method {method.id}: a turn needs a grip with a formula or a hold")
    headless = damage in HEADLESS or situation.kind == "stud" or method.grip == "far-side"
    held = size.d if headless else size.head
    return Link(method.grip, method.hold * 1000 * held**2, GRIP_SPREAD, "nothing")


def drive_state(damage: str, facts: Facts) -> DriveState:
    """Return what a damage state leaves of the fastener's drive."""
    system = facts.drive.system if facts.drive else "any"
    rows = {row.system: row for row in facts.drive_states if row.damage == damage}
    return rows.get(system) or rows["any"]


def round_head(facts: Facts) -> bool:
    """Say whether the head is round outside and tall enough for a socket to be driven over it."""
    return facts.head is not None and facts.head.form in ("socket", "cheese")


def _drive(
    method: Method,
    variant: Variant | None,
    damage: str,
    situation: Situation,
    facts: Facts,
    shank: float,
) -> Link:
    """Return the drive interface: proof torque x damage x engagement x axial push."""
    system = facts.drive.system if facts.drive else "any"
    outer = facts.drive.external if facts.drive else 0
    proofs = [row.proof_torque_nm * 1000 for row in facts.drive_torques]
    if outer or not proofs:
        sound = (OUTER_HEXAGON_SHARE if outer else DRIVE_SHARE_OF_SHANK) * shank
    else:
        sound = max(proofs)
    state = drive_state(damage, facts)
    share = state.share
    share += (1 - share) * method.restores
    gain = PUSH_GAIN.get(system, PUSH_GAIN_OTHER)
    push = variant.push if variant else 0.0
    share *= 1 - gain + gain * push
    if situation.recess == "filled":
        share *= FILLED_SHARE
    part = "flats" if outer else "recess"
    gone = damage in ("stripped", "rounded")  # it slips again as it slipped before
    return Link(part, share * sound, state.spread, "nothing" if gone else "drive")


def median(chain: Sequence[Link]) -> float:
    """Return the capacity of the weakest link, N·mm."""
    return min(link.capacity for link in chain)


def weakest(chain: Sequence[Link]) -> Link:
    """Return the link with the lowest median capacity."""
    return min(chain, key=lambda link: link.capacity)


def first_to_give(chain: Sequence[Link], torques: Sequence[float]) -> list[tuple[float, ...]]:
    """
    Return, for each torque in rising order, each link's chance to have given first by then.

    The sum over the links is the chance that the chain has given at all; steps between the
    torques are at most an eighth of a decade wide.
    """
    start = min(median(chain), torques[0]) / 4
    shares = [0.0] * len(chain)
    logs = [(log(link.capacity), 1 / (link.spread * sqrt(2))) for link in chain]

    def falls(torque: float) -> list[float]:
        at = log(torque)
        return [max(1e-12, 0.5 - 0.5 * erf((at - middle) * scale)) for middle, scale in logs]

    before, result = [1.0] * len(chain), []
    whole, at = 1.0, start
    for torque in torques:
        steps = max(1, round(8 * log(torque / at) / 2.3)) if torque > at else 1
        ratio = (torque / at) ** (1 / steps)
        for step in range(1, steps + 1):
            now = falls(at * ratio**step if step < steps else torque)
            left = 1.0
            for survival in now:
                left *= survival
            lost = whole - left
            if lost > 1e-12:
                drops = [log(b / n) for b, n in zip(before, now, strict=True)]
                total = sum(drops)
                for index, drop in enumerate(drops):
                    shares[index] += lost * drop / total
            before, whole = now, left
        at = torque
        result.append(tuple(shares))
    return result
