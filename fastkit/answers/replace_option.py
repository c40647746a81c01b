"""One option made whole: length, washers, nut, lock, paste, torque and the line to buy by."""

import sqlite3
from collections.abc import Iterable
from typing import Any, NamedTuple

from fastkit.answers.replace_parts import Rows
from fastkit.answers.replace_words import PASTES, drive_in_line, pair_words, sentence
from fastkit.answers.torque import TorqueAnswer, torque
from fastkit.hardware import length, locking
from fastkit.hardware.candidates import WEAKER, Asked, Candidate, fits_in
from fastkit.hardware.reason import Reason
from fastkit.joint.window import settable
from fastkit.notation.units import figures
from fastkit.records.material import Material
from fastkit.records.replacement import Lock
from fastkit.records.thread import Thread
from fastkit.records.tightening import PrevailingTorque
from fastkit.records.washer import Washer
from fastkit.reference.lookup import one

NUTS = {"preload": "ISO 4032", "nut-nylon": "ISO 7040", "nut-metal": "ISO 7719"}
FINE_NUTS = {"ISO 4032": "ISO 8673", "ISO 7040": "ISO 10512", "ISO 7719": "ISO 10513"}
INCH_NUT = "ASME B18.2.2"
NUT_WORDS = {
    "ISO 4032": "hexagon nut",
    "ISO 7040": "nut with polyamide ring",
    "ISO 7719": "all-metal prevailing torque nut",
    INCH_NUT: "hexagon nut",
}
HARD = frozenset(("10.9", "12.9", "SAE-8", "A574"))
UNKNOWN_D = 1.5  # diameters of engagement where no rule is held (practice)
TOOTHED = "DIN 6797"
TOOTHED_MM = 0.12  # diameters: thickness of a toothed washer (DIN 6797: 0.7 mm at M6)
WEDGE = 1.25  # a pair of wedge-locking washers by the plain one (practice)
NUT_MM = 0.8  # diameters: height of a nut where none is held (practice)
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


class Joint(NamedTuple):
    """What is asked of every option alike."""

    asked: Asked
    body: Material | None  # None: a nut
    grip_mm: float | None
    depth_mm: float | None
    wants_lock: bool
    conducts: bool
    known_nm: float | None
    before: TorqueAnswer | None  # the old part at the known torque
    degc: float | None
    thin_sheet: bool
    ground_nm: tuple[float, float] | None = None  # range for a ground bolt of this size


def option(
    store: sqlite3.Connection, rows: Rows, joint: Joint, one_way: Candidate, rank: int
) -> Option | Reason:
    """Make a candidate whole; the reason where no length or no lock serves it."""
    thread, asked = rows.facts.thread, joint.asked
    flat = one_way.offer.form != "countersunk"
    insulate = one_way.galvanic.insulate and not joint.conducts
    lock = locking.choose(
        rows.locks,
        joint.wants_lock and not joint.conducts,
        "nut" if joint.body is None else "tapped",
        asked.body,
        thread.nominal_mm,
        joint.degc,
        flat and one_way.offer.form != "flange",
        insulate,
    )
    if lock is None:
        return Reason("no_lock")
    on = locking.on_thread(one_way.make, lock, asked.body, asked.place, joint.conducts)
    washers, over = _washers(rows, joint, one_way, lock, insulate)
    nut, nut_mm = _nut(rows, thread, lock) if joint.body is None else (None, 0.0)
    chosen, wanted, reason = _length(rows, joint, one_way, over, nut_mm)
    if reason is not None:
        return reason
    answer = _torque(store, rows, joint, one_way, on.friction, chosen)
    if answer.empty:
        return Reason("empty_window")
    setting, told = _setting(joint, answer)
    notes, trades = _told(joint, one_way, chosen, wanted, answer, insulate)
    running = _running(store, thread, lock)
    if running is not None:
        notes.append(sentence(Reason("add_running", (running,))))
    turn = next(
        (t for t in one_way.room.turns if (t.variant.torque_nm or 1e9) >= (setting or 0.0)),
        one_way.room.turns[-1],
    )
    made = _named(thread, one_way)
    margins = turn.margins._asdict()
    return Option(
        rank,
        _line(rows, made, one_way, chosen),
        made,
        one_way.offer.title,
        one_way.offer.form,
        thread.id,
        chosen.length_mm if chosen else None,
        one_way.grade,
        one_way.make.id,
        one_way.make.finish,
        one_way.drive.id,
        one_way.drive.system,
        one_way.head.head_diameter_mm,
        one_way.head.head_height_mm,
        washers,
        nut,
        None if nut is None else _nut_line(rows, thread, one_way, nut),
        lock.id,
        lock.title,
        lock.again,
        on.lubricant,
        PASTES[on.lubricant],
        on.friction,
        answer.torque_min_nm,
        setting,
        answer.torque_max_nm,
        answer.reason,
        running,
        answer.limited_by,
        answer.weakest_part,
        one_way.strength * 100,
        chosen.exact_mm if chosen else None,
        chosen.engaged_mm if chosen else None,
        wanted,
        chosen.protrudes_mm if chosen else None,
        turn.variant.title,
        margins,
        one_way.galvanic._asdict(),
        pair_words(one_way.galvanic, one_way.make.words, one_way.galvanic.body.replace("-", " ")),
        insulate,
        tuple(trades),
        (*notes, *told),
    )


def _named(thread: Thread, way: Candidate) -> str:
    fine = thread.series in {"fine", "UNF"}
    return way.offer.fine if fine and way.offer.fine else way.offer.standard


def size_words(thread: Thread) -> str:
    """The thread as standards designate it: M8, M8 × 1, 3/8-16 UNC."""
    if thread.family == "M":
        fine = "" if thread.series == "coarse" else f" × {figures(thread.pitch_mm)}"
        return f"{thread.size}{fine}"
    return thread.id.replace("-UN", " UN")


def length_words(rows: Rows, length_mm: float) -> str:
    """A length as it is sold: `25`, of an inch screw `1-1/2 in`."""
    if rows.facts.thread.family == "M":
        return figures(length_mm)
    row = next(row for row in rows.inches if abs(row.length_mm - length_mm) < 1e-6)
    return f"{row.id.removesuffix('in')} in"


def _line(rows: Rows, made: str, way: Candidate, chosen: length.Chosen | None) -> str:
    grade = way.grade
    if way.offer.load_factor < 1:  # reduced loadability: 010.9, A2-070
        head, _, tail = grade.rpartition("-")
        grade = f"{head}-0{tail}" if head else f"0{grade}"
    if grade.startswith("SAE-"):
        grade = f"SAE J429 grade {grade.removeprefix('SAE-')}"
    sold = f" × {length_words(rows, chosen.length_mm)}" if chosen else ""
    title = way.offer.title[0].upper() + way.offer.title[1:]
    drive = drive_in_line(way.drive.id, way.drive.system)
    coat = "stainless" if way.make.finish == "passivated" else way.make.words
    return f"{title} {made} – {size_words(rows.facts.thread)}{sold} – {grade}, {drive}, {coat}"


def _washers(
    rows: Rows, joint: Joint, way: Candidate, lock: Lock, insulate: bool
) -> tuple[tuple[str, ...], float]:
    """Washers to buy, and what they add between head and thread [mm]."""
    if way.offer.form == "countersunk":
        return (), 0.0
    size = rows.facts.thread.size
    plain = plain_washer(rows.washers)
    thick = plain.thickness_mm if plain else 0.0
    found: list[str] = []
    over = thick
    if joint.conducts:
        found.append(f"toothed washer {TOOTHED} – {size.removeprefix('M')}, {_coat(way)}")
        over = TOOTHED_MM * rows.facts.thread.nominal_mm
    elif way.galvanic.body == "magnesium" and joint.asked.level >= 2:
        found.append(f"aluminium washer (5000 or 6000 series) for {size}")
    elif lock.id == "wedge-washers":
        found.append(f"pair of wedge-locking washers for {size}")
        over = WEDGE * thick
    elif plain is not None and way.offer.form != "flange" and way.offer.standard != "ISO 7380-2":
        found.append(f"washer {_washer(plain, way)}")
    else:
        over = 0.0
    if joint.body is None and plain is not None:
        over += thick
        if found and found[-1].startswith("washer"):
            found[-1] = f"2 {found[-1].replace('washer', 'washers', 1)}"
        else:
            found.append(f"washer {_washer(plain, way)}, under the nut")
    if insulate and way.galvanic.body != "magnesium":
        found.append(f"insulating sleeve and washer for {size}")
    return tuple(found), over


def _washer(plain: Washer, way: Candidate) -> str:
    """A plain washer as it is bought: standard, size, hardness or steel, finish."""
    size = plain.size.removeprefix("M")
    if plain.standard.startswith("ASME"):
        return f"{plain.standard} narrow – {size} in, {_coat(way)}"
    of = "300 HV" if way.grade in HARD or way.make.id == "b7" else "200 HV"
    if way.make.finish == "passivated":
        of = way.grade.partition("-")[0]
    return f"{plain.standard} – {size} – {of}, {_coat(way)}"


def _coat(way: Candidate) -> str:
    if way.make.finish == "passivated":
        return "stainless"
    return "plain" if way.make.id == "b7" else way.make.words


def plain_washer(washers: Iterable[Washer]) -> Washer | None:
    """The plain washer of a size: ISO 7089, of an inch size the plain one of its standard."""
    held = {row.standard: row for row in washers}
    return held.get("ISO 7089") or held.get("ASME B18.21.1 plain")


def _nut(rows: Rows, thread: Thread, lock: Lock) -> tuple[str, float]:
    if thread.family != "M":
        head = rows.facts.heads.get(INCH_NUT)
        return INCH_NUT, (head.head_height_mm if head else None) or NUT_MM * thread.nominal_mm
    standard = NUTS.get(lock.id, "ISO 4032")
    head = rows.facts.heads.get(standard)
    height = (head.head_height_mm if head else None) or NUT_MM * thread.nominal_mm
    return standard, height


def _nut_line(rows: Rows, thread: Thread, way: Candidate, standard: str) -> str:
    classes = [pair.grade for pair in rows.pairs if pair.mate == way.grade]
    sort = (classes[0] if classes else "nut-8").removeprefix("nut-")
    named = FINE_NUTS.get(standard, standard) if thread.series == "fine" else standard
    sort = sort.replace("SAE-", "SAE J995 grade ")
    words = _coat(way)
    return f"{NUT_WORDS[standard]} {named} – {size_words(thread)} – {sort}, {words}"


def _length(
    rows: Rows, joint: Joint, way: Candidate, over: float, nut_mm: float
) -> tuple[length.Chosen | None, float | None, Reason | None]:
    """Length and engagement wanted; neither where the grip was not said."""
    thread = rows.facts.thread
    shear = joint.body.shear_strength_mpa if joint.body else None
    wanted = least = None
    if joint.body is not None:
        need = length.need(thread, way.row, joint.body.id, shear, rows.engagements)
        wanted = need.need_mm or UNKNOWN_D * thread.nominal_mm
        least = need.least_mm or wanted
    if joint.grip_mm is None:
        return None, wanted, None
    over += joint.grip_mm
    made = length.made(rows.lengths, rows.inches, rows.ranges, way.offer.standard, thread.size)
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
    if chosen is None:
        return None, wanted, Reason("no_length", (over,))
    return chosen, wanted, None


def _torque(
    store: sqlite3.Connection,
    rows: Rows,
    joint: Joint,
    way: Candidate,
    friction: str,
    chosen: length.Chosen | None,
) -> TorqueAnswer:
    """The window; with the old clamp as its lower edge where that was known and can be kept."""
    thread = rows.facts.thread
    engaged = chosen.engaged_mm if chosen and joint.body is not None else None
    before = joint.before
    clamp = before.preload_min_n if before else None
    if before and before.set:
        clamp = before.set["preload_n"][0]

    def asked(clamp_n: float | None) -> TorqueAnswer:
        return torque(
            thread.id,
            way.grade,
            friction=friction,
            head=way.offer.standard,
            into=joint.body.id if joint.body else None,
            engage_mm=engaged if joint.body else None,
            clamp_n=clamp_n,
            utilisation_pct=90.0 * way.offer.load_factor,
            drive=way.drive.id,
            store=store,
        )

    found = asked(clamp)
    return asked(None) if found.empty and clamp is not None else found


def _setting(joint: Joint, answer: TorqueAnswer) -> tuple[float | None, list[str]]:
    """What to set: as much clamp as the known torque gave on the old part, inside the window."""
    if answer.torque_nm is None:
        told = [sentence(Reason("own_torque", (answer.reason,)))] if answer.reason else []
        return None, told
    if joint.ground_nm is not None:
        return min(answer.torque_nm, max(joint.ground_nm[1], answer.torque_min_nm or 0.0)), []
    before, known = joint.before, joint.known_nm
    if known is None or before is None or not before.nut_factor or not answer.nut_factor:
        return answer.torque_nm, []
    same = known * answer.nut_factor / before.nut_factor
    if answer.torque_max_nm is not None and same > answer.torque_max_nm:
        return answer.torque_nm, [sentence(Reason("less_clamp", (known, answer.torque_nm)))]
    setting = max(settable(same * 1000) / 1000, answer.torque_min_nm or 0.0)
    told = [sentence(Reason("same_clamp", (known, setting)))]
    return setting, told


def _told(
    joint: Joint,
    way: Candidate,
    chosen: length.Chosen | None,
    wanted: float | None,
    answer: TorqueAnswer,
    insulate: bool,
) -> tuple[list[str], list[str]]:
    """Notes, and what is given up."""
    notes: list[Reason] = []
    trades = [reason for reason in way.said if reason.code in TRADES]
    notes += [reason for reason in way.said if reason.code not in TRADES]
    if insulate:
        metal = way.galvanic.body
        notes.append(Reason("aluminium_washer" if metal == "magnesium" else "isolate", (metal,)))
    if joint.body is not None and joint.body.id == "plastic":
        notes.append(Reason("plastic_insert"))
    if joint.thin_sheet:
        notes.append(Reason("thin_sheet", (joint.depth_mm or 0.0,)))
    if chosen is not None and joint.body is not None:
        if chosen.short and wanted is not None:
            trades.append(Reason("strips_first", (chosen.engaged_mm, wanted)))
        if chosen.uncommon:
            trades.append(Reason("uncommon_length", (chosen.length_mm,)))
    if answer.weakest_part:
        stronger = way.strength > 2 - WEAKER and answer.weakest_part != "shank"
        code = "breaks_instead" if stronger else "breaks_first"
        notes.append(Reason(code, (answer.weakest_part,)))
    return [sentence(reason) for reason in notes], [sentence(reason) for reason in trades]


TRADES = frozenset(
    ("weaker", "stronger", "reduced_load", "drive_cams_out", "coat_goes_first", "bit_not_listed")
)


def _running(store: sqlite3.Connection, thread: Thread, lock: Lock) -> float | None:
    """The most that a new self-locking nut may drag [N·m]; None for other locks."""
    if not lock.id.startswith("nut-"):
        return None
    row = one(store, PrevailingTorque, thread=thread.id, nut_class="5 6 8")
    row = row or one(store, PrevailingTorque, thread=thread.id)
    return row.first_on_max_nm if row else None
