"""What is no ordinary screw: why it has no options, what is bought for it, what is done."""

import re
import sqlite3

from fastkit.answers.refused import SET_SCREW, TO_YIELD, WHEEL
from fastkit.answers.replace_buy import NUT_MM, size_words
from fastkit.answers.replace_parts import Joint, Rows
from fastkit.hardware import length
from fastkit.notation.entry import drive_words
from fastkit.notation.units import figures, show_nm
from fastkit.records.set_screw import SetScrewTorque
from fastkit.reference.lookup import one

WAYS = {  # by kind: why it has no options, and what to do instead
    "to-yield": (
        TO_YIELD.reason,
        f"{TO_YIELD.way}; the maker's part, a whole set; measure nothing but the length limit",
    ),
    "wheel": (
        "seat form (cone, ball, flat), length and class belong to the wheel",
        f"the vehicle or wheel maker's part for that wheel; {WHEEL.way}",
    ),
    "banjo": (
        "a banjo bolt is drilled: its holes and length belong to the fitting",
        "the maker's part, two new sealing rings",
    ),
    "set-screw": (
        SET_SCREW.reason,
        "length so that it sits below flush, point as the old one's (cup where nobody knows)",
    ),
    "stud": (
        "a stud's end thread, length and class belong to its hole",
        "a sound stud stays in; a new one is turned in by two nuts locked on it, its short end to "
        "the bottom, never by pliers on its thread",
    ),
    "drain-plug": (
        "a plug seals on its ring: thread, flange and ring belong together",
        "the same thread and flange, set to the maker's value",
    ),
    "own-part": (
        "it seals, senses or meters by its own form: no screw stands in for it",
        "the part by its maker's number, thread, reach and seat as the old one's, with a new ring "
        "where it has one",
    ),
    "hose-clamp": (
        "a hose clamp is renewed whole: its screw is made for its band",
        "a clamp for the hose's outside diameter over its fitting, middle of its range, stainless "
        "where it is wet",
    ),
    "castle-nut": (
        "a castle nut is held by a pin through its bolt's own hole",
        "the same nut and size of pin, the pin new; to the maker's value, then on to the next "
        "slot, never back; the pin's ends bent over bolt and nut",
    ),
}
# Set screws by their point; studs by what their metal end is made for (DIN 835 from memory).
POINTS = {"flat": "ISO 4026", "cone": "ISO 4027", "dog": "ISO 4028", "cup": "ISO 4029"}
STUDS = {"steel": "DIN 938", "cast-iron": "DIN 939", "aluminium": "DIN 835"}
SET_CLASS, STAINLESS_SET = "45H", "A2-21H"
OIL_TO_DEGC = 120.0  # above it zinc plate is given up (finish_limits.csv)


STAINLESS_THERE = (
    "stainless is never put there: A2-70 yields at 450 MPa, weaker than 8.8 at 640 and 10.9 at "
    "940, rubs otherwise and galls",
    "the maker's part number, in the maker's class and finish",
)
OTHER_THERE = (
    "another class than the maker's is never put there: a softer one yields, a harder one cracks",
    STAINLESS_THERE[1],
)
# what is wanted in place of the old one, not what that was
WANTED = re.compile(
    r"\b(?:with|using|use|want|wanted) (?:an? )?(?:new )?"
    r"(?:(stainless|inox|a[24]\b\S*)|\d{1,2}\.\d\b|grade \d|titanium|brass)",
    re.IGNORECASE,
)
TOO_HOT_DEGC = 300.0  # above it no class held is offered


def ring_line(rows: Rows, kind: str) -> str:
    """The sealing ring of a plug, or the two of a banjo bolt, as they are bought."""
    count = "2 × " if kind == "banjo" else ""
    ring = next((row for row in rows.washers if row.standard == "DIN 7603"), None)
    if ring is None:
        return f"{count}sealing ring of the old one's size, new"
    return (
        f"{count}sealing ring DIN 7603 A {figures(ring.inner_mm)} × {figures(ring.outer_mm)} × "
        f"{figures(ring.thickness_mm)}, copper"
    )


def bought(store: sqlite3.Connection, rows: Rows, joint: Joint) -> str | None:
    """The line to buy by of a kind that has no options; None where it is the maker's part."""
    kind = joint.asked.old.kind
    if kind in {"drain-plug", "banjo"}:
        return ring_line(rows, kind)
    if rows.facts.thread.family != "M" or joint.asked.safety or is_too_hot(joint.degc):
        return None
    if kind == "set-screw":
        return _set_screw(store, rows, joint)
    return _stud(rows, joint) if kind == "stud" else None


def is_too_hot(degc: float | None) -> bool:
    """Whether it gets hotter than any class held is for [degC]."""
    return (degc or 0.0) > TOO_HOT_DEGC


def _set_screw(store: sqlite3.Connection, rows: Rows, joint: Joint) -> str:
    old, thread = joint.asked.old, rows.facts.thread
    point = old.point or "cup"
    head = rows.facts.heads.get(POINTS["flat"])
    long = f" × {figures(old.length_mm)}" if old.length_mm else ", as long as the old one"
    stainless = old.finish == "passivated" or joint.asked.level >= 3
    sort = STAINLESS_SET if stainless else SET_CLASS
    drive = f", {drive_words(head.drive)}" if head and head.drive else ""
    proof = one(store, SetScrewTorque, size=thread.size, grade=SET_CLASS)
    most = ""
    if proof is not None and not stainless:
        most = f"; set to at most {show_nm(1000 * proof.proof_torque_nm)}"
    size = f"{size_words(thread)}{long}"
    return f"Set screw, {point} point {POINTS[point]} – {size} – {sort}{drive}{most}"


def _stud(rows: Rows, joint: Joint) -> str | None:
    """A stud whose metal end suits the body, its free end through to a nut."""
    thread, asked = rows.facts.thread, joint.asked
    standard = STUDS.get(asked.body) if joint.body is not None else None
    if standard is None or thread.series != "coarse":
        return None
    nut = rows.facts.heads.get("ISO 4032")
    nut_mm = (nut.head_height_mm if nut else None) or NUT_MM * thread.nominal_mm
    sold = ", as long as the old one"
    if joint.grip_mm is not None:
        made = length.made(rows.lengths, rows.inches, (), standard, thread.size)
        chosen = length.through(made, thread, joint.grip_mm + asked.washer_mm, nut_mm)
        sold = f" × {figures(chosen.length_mm)}" if chosen else sold
    hot = (joint.degc or 0.0) > OIL_TO_DEGC
    coat = "plain" if hot else "zinc plated" if asked.level < 3 else "zinc flake coated (ISO 10683)"
    return f"Stud {standard} – {size_words(thread)}{sold} – {asked.grade}, {coat}"
