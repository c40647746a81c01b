"""Every way of making a ruined thread good, compared: strength, wall, room, time; and the pick."""

from math import pi
from typing import NamedTuple

from fastkit.hardware.repair_case import (
    Barred,
    Case,
    Facts,
    Option,
    Short,
    Strength,
    Weighed,
)
from fastkit.hardware.repair_strength import outer_thread, scaled, strength, weakest
from fastkit.records.repair import Repair
from fastkit.records.thread import Thread

BRITTLE_WALL = 1.4  # a brittle body wants more metal beside a hole; judgement
LENGTHS_D = (1.0, 1.5, 2.0)  # lengths in which inserts lie in every drawer
UNDER_FACE_P = 1.0  # a wire insert stands under the face: hole as long as the insert and a pitch
ENOUGH = 0.97  # of the strength before: rounding, not weakness
LARGEST_LENGTH_D = 2.0  # a longer screw thread carries no more evenly
UNKNOWN_BACK_MIN = 45.0  # not to know whether a hand gets behind: mostly none does; judgement
WEAKER_MIN = 400.0  # what being weaker than before is worth, in minutes, for the order; judgement


class Cut(NamedTuple):
    """The thread that a repair cuts into the body."""

    outer_mm: float
    pitch_mm: float
    drill_mm: float | None
    drill_name: str | None
    tap: str
    largest_hole_mm: float  # a wider hole leaves it too little thread
    checked: str | None  # standing of the drill


def weigh(case: Case, facts: Facts) -> Weighed:
    """
    Weigh every repair.

    Returns:
        The options best first: what is made for the part that sits there, those as strong as
        before, then by the minutes that work, kit, skill and risk are worth.
    """
    before = strength(facts, facts.thread, facts.screw, case.engage_mm)
    found = [_weigh(case, facts, repair, before) for repair in facts.repairs]
    options = [one for one in found if isinstance(one, Option)]
    made_for = facts.sealed[1].first if facts.sealed else None
    ranked = sorted(
        options, key=lambda one: (one.repair.id != made_for, one.cost_min, one.repair.id)
    )
    barred = tuple(one for one in found if isinstance(one, Barred))
    return Weighed(before, tuple(ranked), barred, _shop(case, ranked))


def _only_behind(options: list[Option]) -> bool:
    """Whether nothing is left whose strength is known beside a nut behind it."""
    return all(option.repair.how == "far-side" for option in options)


def _shop(case: Case, options: list[Option]) -> str | None:
    """Why a machine shop is the right place; None: the bench will do."""
    if case.hole == "cracked":
        return "cracked"
    if case.critical and _only_behind(options):
        return "critical"
    if not any(option.repair.how != "bond" for option in options):
        return "none-left"
    return None if any(option.enough for option in options) else "weaker"


# what nobody may trust where a life hangs on it, whatever it computes to
NEVER_CRITICAL = (
    *("bonded-stud", "thread-forming-screw", "weld-up", "rivet-nut", "clip-nut"),
    *("larger-tapping-screw", "heat-set-insert", "next-size-plastic"),
)


def _weigh(case: Case, facts: Facts, repair: Repair, before: Strength) -> Option | Barred:
    """The option, or why it is out; where a life hangs on it also for being weaker."""
    if case.critical and repair.id in NEVER_CRITICAL:
        return Barred(repair.id, ("critical", (case.critical,)), None)
    if repair.how == "insert" and facts.sealed and facts.sealed[1].critical:
        return Barred(repair.id, ("port", ()), None)
    found = _weighed(case, facts, repair, before)
    if case.critical and isinstance(found, Option) and _gives_less(found):
        return Barred(repair.id, ("critical_weaker", (case.critical,)), None)
    return found


def _gives_less(option: Option) -> bool:
    """Whether the joint, or its thread by itself, holds less than before."""
    return not option.enough or (option.share is not None and option.share < ENOUGH)


def _weighed(case: Case, facts: Facts, repair: Repair, before: Strength) -> Option | Barred:
    body, d = facts.material.id, facts.thread.nominal_mm
    if case.hole not in repair.holes.split():
        return Barred(repair.id, ("not_this_hole", (case.hole,)), None)
    if body not in repair.bodies.split():
        return Barred(repair.id, ("not_this_body", (facts.material.title,)), None)
    if repair.how == "far-side" and case.far_side == "blind":
        return Barred(repair.id, ("blind", ()), None)
    if facts.sealed and repair.how in ("far-side", "bond"):
        return Barred(repair.id, ("must_seal", (facts.sealed[0].title,)), None)
    if facts.sealed and repair.how == "larger" and facts.sealed[1].larger == "no":
        return Barred(repair.id, ("one_size", (facts.sealed[0].title,)), None)
    if repair.id == "rivet-nut" and facts.rivet_mm is None:
        return Barred(repair.id, ("no_size", (facts.thread.id,)), None)
    if repair.heat_max_c is not None and (case.hot_c or 0.0) > repair.heat_max_c:
        short = Short("heat", (case.hot_c or 0.0) - repair.heat_max_c, "degC")
        return Barred(repair.id, ("too_hot", (repair.heat_max_c,)), short)
    if case.above_mm is not None and case.above_mm < repair.above_mm:
        short = Short("above_mm", repair.above_mm - case.above_mm, "mm")
        return Barred(repair.id, ("too_short_above", (repair.above_mm, case.above_mm)), short)
    cut = _cut(facts, repair)
    if cut is None and (repair.how in ("insert", "larger")):
        return Barred(repair.id, ("no_size", (facts.thread.id,)), None)
    if cut and case.oversize_mm and case.oversize_mm > cut.largest_hole_mm:
        short = Short("hole_mm", case.oversize_mm - cut.largest_hole_mm, "mm")
        return Barred(repair.id, ("hole_too_wide", (cut.largest_hole_mm, case.oversize_mm)), short)
    needed = repair.wall_d * d * (BRITTLE_WALL if facts.material.brittle else 1.0)
    grows = (cut.outer_mm - d) / 2 if cut else 0.0
    left = None if case.wall_mm is None else case.wall_mm - grows
    if left is not None and repair.wall_d and left < needed:
        return Barred(
            *(repair.id, ("wall_too_thin", (needed + grows, case.wall_mm or 0.0))),
            Short("wall_mm", needed - left, "mm"),
        )
    length = _length(case, facts, repair, cut)
    shortest = repair.length_min_d * d
    if repair.how not in ("far-side", "apart") and length < shortest:
        room = _room(case, facts, repair)
        short = Short("depth_mm", shortest - room, "mm")
        return Barred(repair.id, ("too_shallow", (shortest, max(room, 0.0))), short)
    return _option(case, facts, repair, before, cut, length, needed + grows, left)


def _option(
    case: Case,
    facts: Facts,
    repair: Repair,
    before: Strength,
    cut: Cut | None,
    length: float,
    wall_needed: float,
    wall_left: float | None,
) -> Option:
    after = _after(case, facts, repair, before, cut, length)
    share = None
    if before.thread_n and after.thread_n is not None:
        share = after.thread_n / before.thread_n
    elif before.strength_n and after.strength_n is not None:
        share = after.strength_n / before.strength_n
    enough = after.strength_n is None or after.strength_n >= ENOUGH * (before.strength_n or 0.0)
    cost = (repair.minutes_min + repair.minutes_max) / 2 + repair.trouble_min
    if repair.how == "far-side" and case.far_side == "unknown":
        cost += UNKNOWN_BACK_MIN
    if not enough and after.strength_n is not None and before.strength_n:
        cost += WEAKER_MIN * (1 - after.strength_n / before.strength_n) + WEAKER_MIN
    drill, name, tap = (cut.drill_mm, cut.drill_name, cut.tap) if cut else (None, None, None)
    if repair.how == "far-side":
        drill = facts.clearance_mm
    elif repair.id == "rivet-nut":
        drill = facts.rivet_mm
    elif repair.id == "thread-forming-screw":
        drill, tap = facts.forming_mm, None
    if drill and case.oversize_mm and case.oversize_mm >= drill and repair.how != "same":
        drill, name = None, None  # the hole is there already
    checked = cut.checked if cut else None
    carries = repair.how not in ("far-side", "apart")
    return Option(
        *(repair, after, share, enough, drill, name, tap, cut.outer_mm if cut else None),
        *(length if carries else None, wall_needed, wall_left, cost, checked),
    )


def _cut(facts: Facts, repair: Repair) -> Cut | None:
    """The thread that is cut; None where nothing is, or where nothing is made for this thread."""
    thread = facts.thread
    p, drill = thread.pitch_mm, facts.drill
    if repair.id == "wire-insert":
        row = facts.insert
        if row is None:
            return None
        tap = f"{thread.id}, for wire inserts"
        largest = row.tap_major_mm - 0.75 * (row.tap_major_mm - row.hole_min_mm)
        return Cut(row.tap_major_mm, p, row.drill_mm, row.drill_name, tap, largest, row.checked)
    if repair.how == "insert":
        body = next((one for one in facts.bodies if one.kind == repair.id), None)
        if body is None:
            return None
        tap = f"{body.outer_mm:g} x {body.pitch_mm:.3g} mm, of the kit"
        largest = body.outer_mm - 0.75 * body.pitch_mm
        return Cut(body.outer_mm, body.pitch_mm, body.drill_mm, None, tap, largest, body.checked)
    if repair.how == "larger":
        return _larger(facts)
    if repair.id in ("deeper-thread", "weld-up", "chase"):
        # a weld fills the hole, the others leave it: no oversize bars them
        core, name = (drill.drill_mm, drill.drill_name) if drill else (None, None)
        checked = drill.checked if drill else None
        return Cut(thread.nominal_mm, p, core, name, thread.id, float("inf"), checked)
    return None


def _larger(facts: Facts) -> Cut | None:
    row, drill = facts.larger, facts.larger_drill
    if row is None:
        return None
    core = drill.drill_mm if drill else row.nominal_mm - row.pitch_mm
    largest = row.nominal_mm - 0.75 * row.pitch_mm
    name = drill.drill_name if drill else None
    checked = drill.checked if drill else None
    return Cut(row.nominal_mm, row.pitch_mm, core, name, row.id, largest, checked)


def _room(case: Case, facts: Facts, repair: Repair) -> float:
    """Depth that a repair finds for its thread [mm]."""
    p = facts.thread.pitch_mm
    if repair.id == "deeper-thread":
        return case.depth_mm - case.engage_mm - p
    if repair.how == "insert":
        return case.depth_mm - UNDER_FACE_P * p
    return case.depth_mm


def _length(case: Case, facts: Facts, repair: Repair, cut: Cut | None) -> float:
    """Length of thread that the repair gives [mm]; 0 where there is too little depth."""
    d, room = facts.thread.nominal_mm, _room(case, facts, repair)
    if repair.how == "same":
        return min(case.engage_mm, case.depth_mm)
    if repair.how == "insert":
        return max((share * d for share in LENGTHS_D if share * d <= room), default=0.0)
    largest = cut.outer_mm if cut else d
    return min(max(room, 0.0), LARGEST_LENGTH_D * largest)


def _after(
    case: Case,
    facts: Facts,
    repair: Repair,
    before: Strength,
    cut: Cut | None,
    length: float,
) -> Strength:
    """What holds after the repair."""
    thread, screw = facts.thread, facts.screw
    if repair.how == "far-side":
        return Strength(None, None, before.screw_n, before.screw_n, "screw")
    if repair.how == "apart":
        return Strength(None, None, before.screw_n, None, "table")
    if repair.how == "bond":
        held = (repair.bond_mpa or 0.0) * pi * thread.nominal_mm * length
        bonded = weakest(held, None, before.screw_n)
        return bonded._replace(limited_by="bond line") if held < before.screw_n else bonded
    if repair.how == "larger" and facts.larger and facts.larger_screw:
        return scaled(strength(facts, facts.larger, facts.larger_screw, length), repair.strength)
    if repair.how == "insert" and cut:
        outer = outer_thread(cut.outer_mm, cut.pitch_mm)
        return scaled(strength(facts, thread, screw, length, outer), repair.strength)
    return scaled(strength(facts, thread, screw, length), repair.strength)


def edge_needed_mm(thread: Thread, wall_needed_mm: float) -> float:
    """Distance from the middle of the hole to the edge that leaves the wall [mm]."""
    return thread.nominal_mm / 2 + wall_needed_mm
