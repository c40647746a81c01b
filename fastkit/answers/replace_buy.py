"""Lines to buy by: the screw, its washers, its nut, as standards designate them."""

from collections.abc import Iterable

from fastkit.answers.replace_parts import Joint, Rows
from fastkit.answers.replace_words import drive_in_line
from fastkit.hardware.candidates import Candidate
from fastkit.notation.units import figures
from fastkit.records.replacement import Lock
from fastkit.records.thread import Thread
from fastkit.records.washer import Washer

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
TOOTHED = "DIN 6797"
TOOTHED_MM = 0.12  # diameters: thickness of a toothed washer (DIN 6797: 0.7 mm at M6)
WEDGE = 1.25  # a pair of wedge-locking washers by the plain one (practice)
NUT_MM = 0.8  # diameters: height of a nut where none is held (practice)


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


def standard_of(thread: Thread, way: Candidate) -> str:
    """The standard of a head on this thread, coarse or fine."""
    fine = thread.series in {"fine", "UNF"}
    return way.offer.fine if fine and way.offer.fine else way.offer.standard


def screw_line(rows: Rows, made: str, way: Candidate, length_mm: float | None) -> str:
    """The screw: name, standard, thread and length, class, drive, finish."""
    grade = way.grade
    if way.offer.load_factor < 1:  # reduced loadability: 010.9, A2-070
        head, _, tail = grade.rpartition("-")
        grade = f"{head}-0{tail}" if head else f"0{grade}"
    if grade.startswith("SAE-"):
        grade = f"SAE J429 grade {grade.removeprefix('SAE-')}"
    sold = f" × {length_words(rows, length_mm)}" if length_mm else ""
    title = way.offer.title[0].upper() + way.offer.title[1:]
    drive = drive_in_line(way.drive.id, way.drive.system)
    coat = "stainless" if way.make.finish == "passivated" else way.make.words
    return f"{title} {made} – {size_words(rows.facts.thread)}{sold} – {grade}, {drive}, {coat}"


def washers(
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
    if joint.body is not None and joint.body.id == "plastic":
        found.append(f"brass insert {size} for plastic")
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


def nut_of(rows: Rows, thread: Thread, lock: Lock) -> tuple[str, float]:
    """Standard of the nut that a lock calls for, and its height [mm]."""
    if thread.family != "M":
        head = rows.facts.heads.get(INCH_NUT)
        return INCH_NUT, (head.head_height_mm if head else None) or NUT_MM * thread.nominal_mm
    standard = NUTS.get(lock.id, "ISO 4032")
    head = rows.facts.heads.get(standard)
    height = (head.head_height_mm if head else None) or NUT_MM * thread.nominal_mm
    return standard, height


def nut_line(rows: Rows, thread: Thread, way: Candidate, standard: str) -> str:
    """The nut: name, standard, thread, class that pairs with the bolt, finish."""
    classes = [pair.grade for pair in rows.pairs if pair.mate == way.grade]
    sort = (classes[0] if classes else "nut-8").removeprefix("nut-")
    named = FINE_NUTS.get(standard, standard) if thread.series == "fine" else standard
    sort = sort.replace("SAE-", "SAE J995 grade ")
    words = _coat(way)
    return f"{NUT_WORDS[standard]} {named} – {size_words(thread)} – {sort}, {words}"
