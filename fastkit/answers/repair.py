"""How is this thread made good: every way compared, the pick with its reasons, and when not."""

import sqlite3
from typing import Any, NamedTuple

from fastkit.answers import facts as rows
from fastkit.answers import repair_given as given
from fastkit.answers.critical import critical as what_hangs
from fastkit.answers.repair_words import (
    BODY_CAUTIONS,
    CAUTIONS,
    CHASE_OR_CUT,
    SHOP,
    barred_words,
    basis,
    limited_words,
    opens_words,
)
from fastkit.errors import NotHeld
from fastkit.hardware.repair import edge_needed_mm, weigh
from fastkit.hardware.repair_case import Barred, Case, Facts, Option, Strength
from fastkit.hardware.sizes import is_taper
from fastkit.notation.entry import entry_id
from fastkit.records.bench import Bench, BenchNumber
from fastkit.records.hardware import HardwareDim
from fastkit.records.head import Head
from fastkit.records.material import Material
from fastkit.records.repair import InsertBody, Repair, RepairText
from fastkit.records.thread import ClearanceHole, FormDrill, Insert, TapDrill, Thread
from fastkit.reference.lookup import keys, many, one
from fastkit.reference.store import connect

FORMED_PCT, FORMING_P = 65.0, 0.5  # share of thread that is formed; diameter less 0.5 P else
LIGHT = ("plastic", "sheet")
LARGER_UP_TO = 1.6  # the next size is at most this times the old one
STANDARD_HEADS = ("ISO 4017", "ASME B18.2.1", "ASME B18.3 cap")


class RepairOption(NamedTuple):
    """One way, with strength, holes, room, time; the keys of the JSON document."""

    rank: int
    method: str
    title: str
    verdict: str  # pick, good, weaker, unknown
    thread_n: float | None
    strength_n: float | None
    share_pct: float | None
    limited_by: str
    drill_mm: float | None
    drill_name: str | None
    drill_checked: str | None
    tap: str | None
    outer_mm: float | None
    length_mm: float | None
    wall_needed_mm: float
    wall_left_mm: float | None
    edge_needed_mm: float
    above_mm: float
    minutes: tuple[float, float]
    reversible: str
    heat_max_c: float | None
    keeps_screw: bool
    needs: str
    why: str
    steps: tuple[str, ...]
    cautions: tuple[str, ...]
    checked: str


class RuledOut(NamedTuple):
    """A way that is out here, why, by how much, and what would open it."""

    method: str
    because: str
    short_by: dict[str, Any] | None
    opens_it: str | None


class RepairAnswer(NamedTuple):
    """The comparison; fields are the keys of the JSON document."""

    thread: str
    situation: dict[str, Any]
    before: Strength
    options: tuple[RepairOption, ...]
    ruled_out: tuple[RuledOut, ...]
    machine_shop: str | None
    chase_or_cut: str | None
    cautions: tuple[str, ...]
    assumed: tuple[dict[str, Any], ...]
    shear_mpa: float | None  # of the body, with its standing
    shear_checked: str
    basis: tuple[str, ...]

    def document(self) -> dict[str, Any]:
        """Return the JSON document."""
        return {
            **self._asdict(),
            "before": self.before._asdict(),
            "options": [option._asdict() for option in self.options],
            "ruled_out": [out._asdict() for out in self.ruled_out],
            "cautions": list(self.cautions),
            "assumed": list(self.assumed),
            "basis": list(self.basis),
        }


def repair(
    thread: str | None = None,
    *,
    part: str | None = None,
    into: str | None = None,
    depth_mm: float | None = None,
    hole: str = "stripped",
    wall_mm: float | None = None,
    edge_mm: float | None = None,
    engage_mm: float | None = None,
    grade: str | None = None,
    above_mm: float | None = None,
    far_side: str = "unknown",
    hot_c: float | None = None,
    critical: str | None = None,
    store: sqlite3.Connection | None = None,
) -> RepairAnswer:
    """
    Return every way of making a ruined thread good, the best first.

    Args:
        thread: Designation or id of the thread that was there; usual of the part if left out.
        part: What sat in it; a drain-plug, spark-plug, sender … must seal.
        into: Material of the body; usual of the part, else aluminium, where threads go most.
        depth_mm: Depth of the hole, or thickness of the sheet [mm].
        hole: Stripped, cracked, damaged (ridges still stand), or oversize:MM with its diameter.
        wall_mm: Least metal outside the old thread [mm].
        edge_mm: Middle of the hole to the nearest edge [mm].
        engage_mm: Length of thread that the screw used [mm].
        grade: Property class or grade of the screw.
        above_mm: Free room over the hole [mm].
        far_side: Reachable, blind or unknown.
        hot_c: Highest temperature in service [°C].
        critical: What hangs on it: brakes, lifting, people …, an id of criticals.csv.
        store: Open reference; the package's own if left out.

    Raises:
        Misuse: When a value is not valid or out of its range.
        NotHeld: When the thread is not in the data, cannot be repaired in these ways, or holds
            what no repair may hold.
        Broken: When the reference cannot be read.
    """
    store = store or connect()
    hung = what_hangs(store, critical) if critical is not None else None
    if hung is not None and hung.mended == "renewed":
        raise NotHeld(f"no repair here: {hung.because}; instead: {hung.instead}")
    row, sealed = given.sealed_part(store, part, thread)
    _parallel(row)
    body = given.material(store, into or (sealed and sealed[0].body) or given.USUAL_BODY)
    kind, oversize = given.hole(hole, row)
    given.checked(
        {
            "depth": depth_mm,
            "engage": engage_mm,
            "wall": wall_mm,
            "edge": edge_mm,
            "above": above_mm,
            "hot": hot_c,
        }
    )
    given.one_of(far_side, given.FAR_SIDES, "no far side {}")
    if sealed and critical is None:
        critical = sealed[1].critical
    assumed = [] if into else [dict[str, Any](what="into", value=body.id)]
    if thread is None:
        assumed.insert(0, {"what": "thread", "value": row.id})
    usual = sealed[1].engage_mm if sealed else None
    bench = Bench(many(store, BenchNumber))
    depth, engage = given.depths(row, body, bench, depth_mm, engage_mm, usual, assumed)
    class_ = given.grade(store, row, body, grade, assumed)
    wall = _least_wall(row, wall_mm, edge_mm)
    if wall is None:
        assumed.append({"what": "wall_mm", "value": None})
    if far_side == "unknown" and not sealed:
        assumed.append({"what": "far_side", "value": far_side})
    case = Case(kind, oversize, depth, engage, wall, above_mm, far_side, hot_c, critical)
    held = _facts(store, row, body, class_)._replace(sealed=sealed)
    weighed = weigh(case, held)
    if not weighed.options and not sealed:
        raise NotHeld(f"no repair of {row.id} fits here: {SHOP[weighed.shop or 'none-left']}")
    texts = many(store, RepairText)
    return RepairAnswer(
        entry_id("thread", row.id),
        _situation(case, held, class_),
        weighed.before,
        tuple(_option(n, option, row, texts) for n, option in enumerate(weighed.options, 1)),
        tuple(map(_ruled, weighed.barred)),
        SHOP[weighed.shop] if weighed.shop else None,
        None if body.id in LIGHT or kind == "cracked" else CHASE_OR_CUT,
        _cautions(held),
        tuple(assumed),
        *(body.shear_strength_mpa, body.checked, basis(case, held, weighed.before)),
    )


def _parallel(thread: Thread) -> None:
    """Refuse what is mended in other ways."""
    if is_taper(thread) or thread.family in ("ST", "PG", "R"):
        raise NotHeld(
            f"{thread.id} is a taper, pipe or tapping thread: it is chased, cut a size larger or "
            "the part renewed; expected a parallel screw thread",
            ("M8", "1/4-20"),
        )


def _least_wall(thread: Thread, wall_mm: float | None, edge_mm: float | None) -> float | None:
    """Least metal outside the old thread, as measured or as the edge leaves it [mm]."""
    left = None if edge_mm is None else max(edge_mm - thread.nominal_mm / 2, 0.0)
    return min((wall for wall in (wall_mm, left) if wall is not None), default=None)


def _situation(case: Case, held: Facts, grade: str) -> dict[str, Any]:
    """What was understood, under the options' own names."""
    return {
        **{"into": held.material.id, "hole": case.hole, "oversize_mm": case.oversize_mm},
        **{"depth_mm": case.depth_mm, "engage_mm": case.engage_mm, "wall_mm": case.wall_mm},
        **{"above_mm": case.above_mm, "hot_c": case.hot_c, "far_side": case.far_side},
        **{"critical": case.critical, "grade": entry_id("grade", grade)},
        "part": held.sealed[0].id if held.sealed else None,
    }


def _cautions(held: Facts) -> tuple[str, ...]:
    return (
        *((held.sealed[1].caution,) if held.sealed else ()),
        *((BODY_CAUTIONS[held.material.id],) if held.material.id in BODY_CAUTIONS else ()),
        *CAUTIONS,
    )


def _facts(store: sqlite3.Connection, thread: Thread, body: Material, grade: str) -> Facts:
    larger = _larger(store, thread)
    size = thread.size.removesuffix("W")
    drills = many(store, TapDrill, thread=thread.id)
    more = many(store, TapDrill, thread=larger.id) if larger else []
    hole = one(store, ClearanceHole, size=thread.size)
    return Facts(
        *(thread, rows.strength(store, grade, thread.nominal_mm), body),
        *(tuple(many(store, Repair)), one(store, Insert, id=thread.id.removeprefix("plug-"))),
        *(tuple(many(store, InsertBody, size=size)), larger),
        rows.strength(store, grade, larger.nominal_mm) if larger else None,
        *(drills[0] if drills else None, more[0] if more else None),
        *(_forming(store, larger), _rivet(store, thread.size)),
        *(hole.medium_mm if hole else None, body.shear_strength_mpa),
    )


def _forming(store: sqlite3.Connection, larger: Thread | None) -> float | None:
    """Hole for forming the next size, at the thread share usual for screws."""
    drills = many(store, FormDrill, thread=larger.id) if larger else []
    if larger is None or not drills:
        return None if larger is None else larger.nominal_mm - FORMING_P * larger.pitch_mm
    return min(drills, key=lambda row: abs(row.thread_pct - FORMED_PCT)).drill_mm


def _rivet(store: sqlite3.Connection, size: str) -> float | None:
    row = one(store, HardwareDim, hardware=f"rivet-nut-{size}", dimension="hole")
    return (row.value_mm or row.low_mm) if row else None


def _larger(store: sqlite3.Connection, thread: Thread) -> Thread | None:
    """The next size of the same series that shops have; of a fine one that repair kits know."""
    stocked = {row.size for name in STANDARD_HEADS for row in many(store, Head, standard=name)}
    inserts = set(keys(store, Insert)) if thread.series == "fine" else None
    found = [
        row
        for row in many(store, Thread, series=thread.series)
        if thread.nominal_mm < row.nominal_mm <= LARGER_UP_TO * thread.nominal_mm
        and (row.size in stocked or thread.family in ("BS", "BA"))
        and (inserts is None or row.id in inserts)
    ]
    if thread.family == "plug" or not found:
        return None
    return min(found, key=lambda row: (row.nominal_mm, abs(row.pitch_mm - thread.pitch_mm)))


def _option(number: int, option: Option, thread: Thread, texts: list[RepairText]) -> RepairOption:
    way, after = option.repair, option.after
    said = {
        part: tuple(t.text for t in texts if t.repair == way.id and t.part == part)
        for part in ("step", "caution")
    }
    verdict = "pick" if number == 1 else "good" if option.enough else "weaker"
    if after.strength_n is None and number > 1:
        verdict = "unknown"
    left = option.wall_left_mm
    return RepairOption(
        rank=number,
        method=way.id,
        title=way.title,
        verdict=verdict,
        thread_n=after.thread_n,
        strength_n=after.strength_n,
        share_pct=None if option.share is None else round(100 * option.share, 1),
        limited_by=limited_words(after.limited_by),
        drill_mm=option.drill_mm,
        drill_name=option.drill_name,
        drill_checked=option.drill_checked,
        tap=option.tap,
        outer_mm=option.outer_mm,
        length_mm=option.length_mm,
        wall_needed_mm=round(option.wall_needed_mm, 2),
        wall_left_mm=None if left is None else round(left, 2),
        edge_needed_mm=round(edge_needed_mm(thread, option.wall_needed_mm), 2),
        above_mm=way.above_mm,
        minutes=(way.minutes_min, way.minutes_max),
        reversible=way.reversible,
        heat_max_c=way.heat_max_c,
        keeps_screw=bool(way.keeps_screw),
        needs=way.needs,
        why=way.why,
        steps=said["step"],
        cautions=said["caution"],
        checked=way.checked,
    )


def _ruled(barred: Barred) -> RuledOut:
    short = barred.short_by
    return RuledOut(
        barred.method,
        barred_words(barred),
        short and {**short._asdict(), "amount": round(short.amount, 2)},
        opens_words(barred),
    )
