"""The rows that a plan rests on, fetched for one situation, and what a drive says of a thread."""

import sqlite3
from math import log
from typing import Any

from fastkit.extraction.facts import Facts
from fastkit.extraction.gates import is_unstruck
from fastkit.extraction.situation import TUBE_NUT, Situation
from fastkit.records.bench import Bench, BenchNumber
from fastkit.records.drilling import DrillOut
from fastkit.records.drive import Drive, DriveTorque
from fastkit.records.grade import GradePair, GradeRow
from fastkit.records.hazard import Clearance, Neighbour
from fastkit.records.head import Head
from fastkit.records.material import Conductivity, Material
from fastkit.records.method import (
    BondEffect,
    HeatSource,
    Method,
    MethodHazard,
    RoomGain,
    StubGrip,
    ToolVeto,
    Variant,
    VariantHazard,
    Veto,
)
from fastkit.records.part import Part
from fastkit.records.seizure import DriveState, Seizure
from fastkit.records.stuff import Expansion
from fastkit.records.thread import ClearanceHole, Thread
from fastkit.records.tightening import PrevailingTorque
from fastkit.reference.lookup import get, many, one, usual

# The standard that a drive is likeliest to stand for; common practice.
LIKELY = (
    *("ISO 4762", "ISO 4014", "ISO 14579", "ISO 7045", "ISO 1207", "EN 1662", "EN 1665"),
    *("ASME B18.3 cap", "ASME B18.2.1", "ISO 14583", "ISO 7380-1", "ISO 10642", "ISO 4026"),
)
LIKELY_NUT = ("ISO 4032", "ISO 4161", "EN 1661", "ASME B18.2.2", "DIN 934")
NUTS = ("nut", TUBE_NUT)
PLAIN_NUT, HARD_NUT = "5, 6 and 8", "05, 10 and 12"  # classes of ISO 2320
HARD_MPA = 1000.0  # a bolt of 10.9 and up takes a nut of 10 and up: ISO 898-2
SYSTEM_OF_SCREW = "hex-socket"


def gather(store: sqlite3.Connection, situation: Situation) -> Facts:
    """
    Return the rows for a situation whose thread and grade are known.

    A method named as lacking counts as a tool of its own that all its variants need.

    Raises:
        NotHeld: When the data lacks a row that the situation names.
    """
    assert situation.thread is not None and situation.grade is not None
    thread = get(store, Thread, situation.thread)
    drives = tuple(many(store, Drive))
    drive = next((row for row in drives if row.id == situation.drive), None)
    bench = Bench(many(store, BenchNumber))
    across = (drive and drive.across_flats_mm) or 0.0
    other = {"captive" if situation.kind == TUBE_NUT else "fitting"}  # which turns along
    if is_unstruck(situation):
        other.add("struck")
    variants = tuple(
        row._replace(tool=row.method) if row.method in situation.lack else row
        for row in many(store, Variant)
        if across <= bench.get("opens", row.id) and row.fits not in other
    )
    row = strength(store, situation.grade, thread.nominal_mm)
    return Facts(
        thread,
        row,
        drive,
        tuple(many(store, DriveTorque, drive=situation.drive)) if drive else (),
        head_of(store, situation.kind, situation.drive, thread.size),
        one(store, ClearanceHole, size=thread.size),
        drives,
        tuple(many(store, Material)),
        tuple(many(store, Seizure)),
        tuple(many(store, DriveState)),
        tuple(many(store, Method)),
        variants,
        tuple(many(store, MethodHazard)),
        tuple(many(store, BondEffect)),
        tuple(many(store, Veto)),
        tuple(many(store, StubGrip)),
        tuple(many(store, RoomGain)),
        tuple(many(store, Neighbour)),
        tuple(many(store, Clearance)),
        tuple(many(store, HeatSource)),
        tuple(many(store, Conductivity)),
        tuple(many(store, Expansion)),
        tuple(many(store, DrillOut, thread=thread.id)),
        bench,
        drag(store, thread, row) if situation.prevailing else None,
        variant_hazards=tuple(many(store, VariantHazard)),
        tool_vetoes=tuple(many(store, ToolVeto)),
        part=one(store, Part, id=situation.part) if situation.part else None,
    )


def strength(store: sqlite3.Connection, grade: str, nominal_mm: float) -> GradeRow:
    """
    Return a grade's row for a size [mm]; outside its ranges the nearest one.

    A nut or a set screw, whose standard states no tensile strength, counts as its mate.
    """
    rows = many(store, GradeRow, grade=grade)
    if not rows and (pair := one(store, GradePair, grade=grade)):
        rows = many(store, GradeRow, grade=pair.mate)

    def off(row: GradeRow) -> float:
        return max(row.size_from_mm - nominal_mm, nominal_mm - row.size_to_mm, 0.0)

    return min(rows, key=off)


def drag(store: sqlite3.Connection, thread: Thread, strength: GradeRow) -> PrevailingTorque:
    """Return the prevailing torque of a nut for a bolt; of a size not listed, the nearest's."""
    hard = strength.tensile_min_mpa >= HARD_MPA

    def off(row: PrevailingTorque) -> tuple[bool, float, bool]:
        size = float(row.thread.removeprefix("M").partition("x")[0])
        listed = row.nut_class == (HARD_NUT if hard else PLAIN_NUT)
        return not listed, abs(size - thread.nominal_mm), row.thread != thread.id

    return min(many(store, PrevailingTorque), key=off)


def head_of(store: sqlite3.Connection, kind: str, drive: str | None, size: str) -> Head | None:
    """Return the likeliest head of a drive on a thread size; None where no standard has it."""
    if drive is None:
        return None
    return _likeliest(many(store, Head, drive=drive, size=size), kind)


def size_from_drive(
    store: sqlite3.Connection, kind: str, drive: Drive, standard: str | None = None
) -> str | None:
    """
    Return the thread size (`M8`, of a tube nut `M10x1`) that a drive is likeliest to mean.

    `standard` is that of the head, where it is known.
    """
    if standard and (head := one(store, Head, drive=drive.id, standard=standard)):
        return head.size
    if kind == TUBE_NUT:
        return usual(store, "thread-of-tube-nut", drive.id)
    likely = usual(store, "thread-of-drive", drive.id)
    likely = likely or usual(store, "thread-of-system", drive.system)
    if likely:
        return likely
    if drive.system == "triple-square":  # named by the thread that it came on
        return drive.size
    # a pin in the recess, a second hexagon or the other cross changes nothing of the head
    plain = drive.id.removesuffix("-tamper").replace("12pt-", "AF-").replace("PZ", "PH")
    drive = one(store, Drive, id=plain) or drive
    found = _likeliest(many(store, Head, drive=drive.id), kind)
    if found:
        return found.size
    # no standard head has it: the head of the same system whose drive is nearest in size
    inch = drive.id.endswith("in")
    rows = {
        row.id: row
        for row in many(store, Drive, system=drive.system)
        if row.id.endswith("in") == inch
    }
    ranked = [
        (abs(log(_across(rows[head.drive]) / _across(drive))), head)
        for head in many(store, Head)
        if head.drive in rows and _across(rows[head.drive]) and _across(drive)
    ]
    if not ranked:
        return None
    least = min(off for off, _ in ranked)
    near = _likeliest([head for off, head in ranked if off == least], kind)
    return near.size if near else None


def drive_from_size(
    store: sqlite3.Connection, kind: str, size: str, system: str | None
) -> str | None:
    """Return the drive that a fastener of this kind and thread size is likeliest to have."""
    if kind in ("stud", TUBE_NUT):
        return None
    wanted = system or ("hexagon" if kind in ("bolt", "nut") else SYSTEM_OF_SCREW)
    systems = {row.id: row.system for row in many(store, Drive)}
    rows = [row for row in many(store, Head, size=size) if systems.get(row.drive or "") == wanted]
    found = _likeliest(rows, kind)
    own = f"{system}-{size}"  # a triple square is named by its thread
    return found.drive if found else own if own in systems else None


def _likeliest(rows: list[Head], kind: str) -> Head | None:
    """Return the head of the likeliest standard; of several sizes of it the middle one."""
    order = LIKELY_NUT if kind in NUTS else LIKELY
    rows = [row for row in rows if (row.form == "nut") == (kind in NUTS)] or rows

    def rank(row: Head) -> int:
        return order.index(row.standard) if row.standard in order else len(order)

    best = min(map(rank, rows), default=0)
    rows = [row for row in rows if rank(row) == best]
    return rows[len(rows) // 2] if rows else None


def _across(drive: Any) -> float:
    return float(drive.across_flats_mm or drive.across_points_mm or drive.wing_mm or 0.0)
