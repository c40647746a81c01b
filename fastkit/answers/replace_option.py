"""One option made whole: length, washers, nut, lock, paste, torque and the line to buy by."""

import sqlite3
from collections.abc import Iterable
from typing import Any, NamedTuple

from fastkit.answers import replace_buy as buy
from fastkit.answers.replace_parts import Joint, Rows
from fastkit.answers.replace_torque import Setting, running, setting
from fastkit.answers.replace_words import PASTES, pair_words, sentence
from fastkit.hardware import length, locking
from fastkit.hardware.candidates import WEAKER, Candidate, fits_in
from fastkit.hardware.old import Old
from fastkit.hardware.reason import Reason
from fastkit.hardware.room import Turn
from fastkit.records.replacement import Lock

LEFT, LEFT_WORDS = "left-hand", ", LEFT-HAND THREAD"
UNKNOWN_D = 1.5  # diameters of engagement where no rule is held (practice)
TRADES = frozenset(
    (
        *("weaker", "stronger", "reduced_load", "drive_cams_out", "coat_goes_first"),
        *("bit_not_listed", "to_order"),
    )
)
Numbers = dict[str, Any]


class Option(NamedTuple):
    """
    One replacement. `line` is what to ask for at the counter.

    `length_mm` is None for a nut. The torque keys are None where no window can be given, and
    `torque_reason` says why. `strength_pct` compares the load at yield with the old part's.
    `trades` says what is given up, `notes` what to mind.
    """

    rank: int
    line: str
    standard: str
    title: str
    form: str
    thread: str
    length_mm: float | None
    grade: str
    make: str
    finish: str
    drive: str | None
    system: str | None
    head_diameter_mm: float | None
    head_height_mm: float | None
    washers: tuple[str, ...]
    nut: str | None
    nut_line: str | None
    locking: str
    locking_words: str
    again: str
    lubricant: str
    lubricant_words: str
    friction: str
    torque_min_nm: float | None
    torque_nm: float | None
    torque_max_nm: float | None
    torque_reason: str | None
    running_torque_max_nm: float | None
    limited_by: str | None
    weakest_part: str | None
    strength_pct: float | None
    exact_mm: float | None
    engaged_mm: float | None
    needed_mm: float | None
    protrudes_mm: float | None
    tool: str | None
    margins: Numbers
    galvanic: Numbers | None
    galvanic_words: str
    insulate: bool
    trades: tuple[str, ...]
    notes: tuple[str, ...]
    in_stock: str | None = None


class Fitted(NamedTuple):
    """Length and engagement wanted, where the grip was said; else the old one's length, if that."""

    chosen: length.Chosen | None
    wanted_mm: float | None
    as_old_mm: float | None = None

    @property
    def length_mm(self) -> float | None:
        """The length to buy."""
        return self.chosen.length_mm if self.chosen else self.as_old_mm


def option(
    store: sqlite3.Connection, rows: Rows, joint: Joint, way: Candidate, rank: int
) -> Option | Reason:
    """Make a candidate whole; the reason where no length, lock, tool or torque serves it."""
    thread, asked = rows.facts.thread, joint.asked
    insulate = way.galvanic.insulate and not joint.conducts
    lock = _lock(rows, joint, way, insulate)
    if isinstance(lock, Reason):
        return lock
    on = locking.on_thread(
        way.make, lock, asked.body, asked.place, joint.conducts, bool(asked.old.safety)
    )
    washers, over = buy.washers(rows, joint, way, lock, insulate)
    nut, nut_mm = buy.nut_of(rows, thread, lock) if joint.body is None else (None, 0.0)
    fitted = _length(rows, joint, way, over, nut_mm)
    if isinstance(fitted, Reason):
        return fitted
    chosen = fitted.chosen
    tight = setting(store, rows, joint, way, on.friction, chosen.engaged_mm if chosen else None)
    if isinstance(tight, Reason):
        return tight
    turn = _turn(way, tight)
    if isinstance(turn, Reason):
        return turn
    drag = running(store, thread, lock)
    hand = LEFT_WORDS if LEFT in asked.place.flags else ""
    notes, trades = _told(joint, way, fitted, tight, insulate, drag)
    return Option(
        rank=rank,
        line=buy.screw_line(rows, buy.standard_of(thread, way), way, fitted.length_mm) + hand,
        standard=buy.standard_of(thread, way),
        title=way.offer.title,
        form=way.offer.form,
        thread=thread.id,
        length_mm=fitted.length_mm,
        grade=way.grade,
        make=way.make.id,
        finish=way.make.finish,
        drive=way.drive.id,
        system=way.drive.system,
        head_diameter_mm=way.head.head_diameter_mm,
        head_height_mm=way.head.head_height_mm,
        washers=washers,
        nut=nut,
        nut_line=None if nut is None else buy.nut_line(rows, thread, way, nut) + hand,
        locking=lock.id,
        locking_words=lock.title,
        again=lock.again,
        lubricant=on.lubricant,
        lubricant_words=PASTES[on.lubricant],
        friction=on.friction,
        torque_min_nm=tight.least_nm,
        torque_nm=tight.set_nm,
        torque_max_nm=tight.most_nm,
        torque_reason=tight.reason,
        running_torque_max_nm=drag,
        limited_by=tight.limited_by,
        weakest_part=tight.weakest_part,
        strength_pct=way.strength * 100,
        exact_mm=chosen.exact_mm if chosen else None,
        engaged_mm=chosen.engaged_mm if chosen else None,
        needed_mm=fitted.wanted_mm,
        protrudes_mm=chosen.protrudes_mm if chosen else None,
        tool=turn.variant.title,
        margins=turn.margins._asdict(),
        galvanic=way.galvanic._asdict(),
        galvanic_words=pair_words(way.galvanic, way.make.words),
        insulate=insulate,
        trades=tuple(map(sentence, trades)),
        notes=tuple(map(sentence, notes)),
    )


def _lock(rows: Rows, joint: Joint, way: Candidate, insulate: bool) -> Lock | Reason:
    lock = locking.choose(
        rows.locks,
        joint.wants_lock and not joint.conducts,
        "nut" if joint.body is None else "tapped",
        joint.asked.body,
        rows.facts.thread.nominal_mm,
        joint.degc,
        way.offer.form not in {"countersunk", "flange"},
        insulate,
    )
    if lock is None:
        return Reason("no_lock")
    if lock.id.startswith("nut-") and not way.make.tapped:
        return Reason("no_such_nut")
    return lock


def _turn(way: Candidate, tight: Setting) -> Turn | Reason:
    """The handiest tool that gives the torque; the reason where none that fits does."""
    wanted = tight.set_nm or 0.0
    turns = way.room.turns
    for turn in turns:
        if turn.variant.torque_nm is None or turn.variant.torque_nm >= wanted:
            return turn
    strongest = max(turns, key=lambda turn: turn.variant.torque_nm or 0.0)
    if any(value is not None for value in strongest.margins):
        return Reason("tool_too_weak", (strongest.variant.torque_nm or 0.0, wanted))
    return strongest  # free all round: a longer handle will do


def _length(
    rows: Rows, joint: Joint, way: Candidate, over: float, nut_mm: float
) -> Fitted | Reason:
    """Choose a length that goes in, reaches and is made."""
    thread = rows.facts.thread
    shear = joint.body.shear_strength_mpa if joint.body else None
    wanted = least = None
    if joint.body is not None:
        need = length.need(thread, way.row, joint.body.id, shear, rows.engagements)
        wanted = need.need_mm or UNKNOWN_D * thread.nominal_mm
        least = need.least_mm or wanted
    made = length.made(rows.lengths, rows.inches, rows.ranges, way.offer.standard, thread.size)
    if joint.grip_mm is None:
        return Fitted(None, wanted, _as_old(joint.asked.old, made))
    over += joint.grip_mm
    most = fits_in(way, rows.facts, joint.asked)
    if most is not None:
        made = tuple(row for row in made if row.length_mm <= most)
    if way.offer.partial:  # the shank must end before the thread begins
        made = tuple(
            row
            for row in made
            if row.length_mm
            - length.threaded_mm(rows.threaded, row.length_mm, thread.nominal_mm, way.offer.form)
            <= over
        )
    if wanted is None or least is None:
        chosen = length.through(made, thread, over, nut_mm)
    else:
        chosen = length.tapped(made, thread, over, wanted, least, joint.depth_mm)
    return Reason("no_length", (over,)) if chosen is None else Fitted(chosen, wanted)


def _as_old(old: Old, made: Iterable[length.MadeLength]) -> float | None:
    """The old one's length, where that is made [mm]: only heads measured alike take its place."""
    found = (row.length_mm for row in made if row.length_mm == old.length_mm)
    return next(found, None)


def _told(
    joint: Joint,
    way: Candidate,
    fitted: Fitted,
    tight: Setting,
    insulate: bool,
    drag: float | None,
) -> tuple[list[Reason], list[Reason]]:
    """Notes, and what is given up."""
    chosen, metal = fitted.chosen, way.galvanic.body
    trades = [reason for reason in way.said if reason.code in TRADES]
    notes = [reason for reason in way.said if reason.code not in TRADES]
    if LEFT in joint.asked.place.flags:
        notes.insert(0, Reason("left_hand"))
    if insulate:
        notes.append(Reason("aluminium_washer" if metal == "magnesium" else "isolate", (metal,)))
    if joint.body is not None and joint.body.id == "plastic":
        notes.append(Reason("plastic_insert"))
    if joint.thin_sheet:
        notes.append(Reason("thin_sheet", (joint.depth_mm or 0.0,)))
    if chosen is None:
        notes.append(Reason("as_old" if fitted.as_old_mm else "no_grip"))
    elif joint.body is not None and chosen.short:
        trades.append(Reason("strips_first", (chosen.engaged_mm, fitted.wanted_mm or 0.0)))
    if chosen is not None and chosen.uncommon:
        trades.append(Reason("uncommon_length", (chosen.length_mm,)))
    if tight.weakest_part:
        stronger = way.strength > 2 - WEAKER and tight.weakest_part != "shank"
        notes.append(
            Reason("breaks_instead" if stronger else "breaks_first", (tight.weakest_part,))
        )
    if drag is not None:
        notes.append(Reason("add_running", (drag,)))
    return [*notes, *tight.said], trades
