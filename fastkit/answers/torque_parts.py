"""The records that a torque answer stands on, fetched once."""

import sqlite3
from math import isfinite
from typing import NamedTuple

from fastkit.errors import Misuse, NotHeld
from fastkit.joint.choice import FAMILY_OF, STANDARDS, TABLED, fits, head_of, strength_at
from fastkit.joint.seat import Seat, seat
from fastkit.joint.strip import SIXTY
from fastkit.records.drive import Drive, DriveTorque
from fastkit.records.friction import Friction
from fastkit.records.grade import Grade, GradePair, GradeRow, NutRow
from fastkit.records.head import Head
from fastkit.records.material import Material
from fastkit.records.set_screw import SetScrewTorque
from fastkit.records.thread import ClearanceHole, Thread
from fastkit.records.washer import Washer
from fastkit.reference import resolve
from fastkit.reference.aliases import readable
from fastkit.reference.lookup import many, nearest, one

REUSED_MU = 1.25  # practice: threads and seats that have run before rub up to a quarter more
Text = str | float

Triple = tuple[float, float, float]  # friction: least, middle, greatest


class Parts(NamedTuple):
    """Everything fetched; `missing` says what keeps a window from being computed."""

    thread: Thread
    grade: Grade
    strength: GradeRow
    friction: Friction | None  # None: mu was given
    mu: Triple
    mu_head: Triple | None  # None: as in the thread
    table_mu: float
    head: Head | None
    hole: ClearanceHole | None
    seat: Seat | None
    default_seat: Seat | None
    material: Material | None
    washer: Washer | None  # between head and body, where the pressure on the body is looked at
    engage_mm: float | None
    nut: NutRow | None  # proof stress of the nut, where one is held
    drive: Drive | None
    drive_torque: DriveTorque | None
    missing: str | None
    reused: bool
    assumed: tuple[tuple[str, Text], ...]
    notes: tuple[str, ...]


def gather(
    store: sqlite3.Connection,
    thread_text: str,
    grade_text: str,
    friction_text: str,
    mu: float | tuple[float, float] | None,
    head_text: str | None,
    into: str | None,
    engage_mm: float | None,
    drive_text: str | None,
    reused: bool,
    mu_head: float | tuple[float, float] | None = None,
) -> Parts:
    """
    Fetch the records of one answer.

    Raises:
        NotHeld: When the data does not hold thread or grade, or not together.
        Misuse: When a word or value is not valid.
    """
    thread = resolve.thread(store, thread_text)
    grade = resolve.grade(store, grade_text)
    strength = _strength(store, thread, grade)
    condition = resolve.friction(store, friction_text) if mu is None else None
    frictions = _mu(mu, condition)
    under = None if mu_head is None else _mu(mu_head, None, "mu-head")
    assumed: list[tuple[str, Text]] = []
    notes: list[str] = []
    table_mu = frictions[1]
    if reused:
        frictions, under = _again(frictions), under and _again(under)
        notes.append(
            "Used before: friction taken up to a quarter higher. Torque-to-yield bolts, crimped or "
            "nylon nuts and anything stretched, necked or rusted are renewed."
        )
    heads = many(store, Head, size=thread.size)
    hole = one(store, ClearanceHole, size=thread.size)
    chosen = _head(store, heads, head_text, thread)
    usual = head_of(heads, "hexagon")
    material, engage, nut = _body(store, into, engage_mm, thread, grade, assumed, notes)
    drive, carried = _driven(store, drive_text, chosen, head_text is not None, assumed, notes)
    ring = _seat(store, chosen, hole)
    washer = _washer(store, material, chosen, thread, assumed)
    missing = None
    if hole is None:
        missing = f"no clearance hole is held for {thread.size}"
    elif ring is None:
        missing = f"no {head_text or 'hexagon'} head with a bearing face is held for {thread.size}"
    return Parts(
        thread,
        grade,
        strength,
        condition,
        frictions,
        under,
        table_mu,
        chosen,
        hole,
        ring,
        _seat(store, usual, hole),
        material,
        washer,
        engage,
        nut,
        drive,
        carried,
        missing,
        reused,
        tuple(assumed),
        tuple(notes),
    )


def proof_torque(
    store: sqlite3.Connection, thread_text: str, grade_text: str
) -> SetScrewTorque | None:
    """Proof torque of a set screw of that size; None where the standard prints none."""
    size = resolve.thread(store, thread_text).size
    grade = grade_text.strip().upper().removeprefix("GRADE:")
    return one(store, SetScrewTorque, size=size, grade=grade)


def _strength(store: sqlite3.Connection, thread: Thread, grade: Grade) -> GradeRow:
    """The grade's strength at the thread's size."""
    if fits(grade, thread):
        found = strength_at(many(store, GradeRow, grade=grade.id), thread)
        if found is not None:
            return found
    held = [
        other
        for other in many(store, Grade)
        if fits(other, thread) and strength_at(many(store, GradeRow, grade=other.id), thread)
    ]
    if not fits(grade, thread):  # the thread's own grades first
        own = [other for other in held if other.system in FAMILY_OF]
        held = [other for other in own if other.id in TABLED] or own or held
    raise NotHeld(
        f"{grade.system} does not list {grade.id} for {thread.id}",
        nearest(grade.id, [other.id for other in held]),
    )


def others_at(store: sqlite3.Connection, parts: Parts) -> tuple[GradeRow, ...]:
    """The other classes of the same standard at the thread's size."""
    found = (
        strength_at(many(store, GradeRow, grade=other.id), parts.thread)
        for other in many(store, Grade, system=parts.grade.system, product=parts.grade.product)
    )
    return tuple(row for row in found if row is not None)


def _again(frictions: Triple) -> Triple:
    """Least, middle and greatest friction of what has been tightened before."""
    least, _, greatest = frictions
    most = min(greatest * REUSED_MU, 1.0)
    return least, (least + most) / 2, most


def _mu(
    mu: float | tuple[float, float] | None, condition: Friction | None, name: str = "mu"
) -> Triple:
    if condition is not None:
        return condition.mu_min, condition.mu_mid, condition.mu_max
    low, high = mu if isinstance(mu, tuple) else (mu or 0.0, mu or 0.0)
    if not (isfinite(low) and isfinite(high) and 0.01 <= low <= high <= 1.0):
        shown = f"{low:g}..{high:g}" if isinstance(mu, tuple) else f"{low:g}"
        raise Misuse(f"{name} must be 0.01 to 1, the lower first; got {shown}")
    return low, (low + high) / 2, high


def _plain(text: str) -> str:
    return "".join(c for c in text.lower() if c.isalnum())


def _head(
    store: sqlite3.Connection, heads: list[Head], text: str | None, thread: Thread
) -> Head | None:
    """The head that was named; the hexagon where none was."""
    if text is None:
        return head_of(heads, "hexagon")
    word = text.strip().lower().removeprefix("head:")
    if word in STANDARDS:
        return head_of(heads, word)
    plain = _plain(word)
    for head in heads:
        if plain in {_plain(head.id), _plain(head.standard)}:
            return head
    every = many(store, Head)
    standards = list(dict.fromkeys(head.standard for head in every))
    known = {_plain(head.id) for head in every} | {_plain(name) for name in standards}
    if plain in known:
        held = sorted({head.standard for head in heads})
        raise NotHeld(f"no {text.strip()[:40]} head is held for {thread.size}", tuple(held[:4]))
    raise Misuse(
        f"unknown head {text.strip()[:40]!r}; expected {', '.join(STANDARDS)} or a standard",
        nearest(word, [*STANDARDS, *standards], 2),
    )


def _body(
    store: sqlite3.Connection,
    into: str | None,
    engage_mm: float | None,
    thread: Thread,
    grade: Grade,
    assumed: list[tuple[str, Text]],
    notes: list[str],
) -> tuple[Material | None, float | None, NutRow | None]:
    """Material and engagement of the internal thread; a nut of the matching class if not named."""
    word = readable(into or "").strip().lower().removeprefix("material:").removeprefix("grade:")
    if word.startswith("nut") or (not word and engage_mm is None):
        nut = _nut(store, word, thread, grade)
        if nut is not None and not word:
            assumed.append(("nut", nut.grade))
        if nut is None or not word:
            notes.append("Nut or body taken to be as strong as the bolt (else --into, --engage).")
        return None, None, nut
    found = one(store, Material, id=word or "steel")
    if found is None:
        held = [material.id for material in many(store, Material)]
        raise Misuse(
            f"unknown material {word[:40]!r}; expected nut-8 or the like, or one of "
            f"{', '.join(held)}",
            nearest(word, held, 1),
        )
    if into is None:
        assumed.append(("into", found.id))
    if engage_mm is None:
        assumed.append(("engage_mm", thread.nominal_mm))
    if found.shear_strength_mpa is None:
        notes.append(f"No shear strength is held for {found.title.lower()}: strip not computed.")
    elif thread.family not in SIXTY:
        notes.append(f"Limits of size of {thread.id} are not known here: strip not computed.")
    if found.bearing_limit_mpa is None:
        notes.append(f"No pressure limit is held for {found.title.lower()}: seat not computed.")
    return found, thread.nominal_mm if engage_mm is None else engage_mm, None


def _nut(store: sqlite3.Connection, word: str, thread: Thread, grade: Grade) -> NutRow | None:
    """The nut named, else the one that is paired with the bolt's class; None if not held."""
    nuts = {nut.id.lower(): nut.id for nut in many(store, Grade, product="nut")}
    named = word.replace(" ", "-")
    if named in {"", "nut"}:
        classes = [pair.grade for pair in many(store, GradePair, mate=grade.id)]
    elif named in nuts:
        classes = [nuts[named]]
    else:
        raise NotHeld(f"no nut class {named[:40]!r} is held", nearest(named, list(nuts.values())))
    d, touch = thread.nominal_mm, 1e-6
    found = [
        row
        for key in classes
        for row in many(store, NutRow, grade=key)
        if row.style != "thin" and row.size_from_mm - touch <= d <= row.size_to_mm + touch
    ]
    fitting = [row for row in found if row.series == _series(thread)] or [
        row for row in found if row.series == "any"
    ]
    if not fitting and named not in {"", "nut"}:
        raise NotHeld(f"{nuts[named]} is not held for {thread.id}")
    return min(fitting, key=lambda row: row.proof_mpa, default=None)


def _series(thread: Thread) -> str:
    return "coarse" if thread.series in {"coarse", "UNC"} else "fine"


def _washer(
    store: sqlite3.Connection,
    material: Material | None,
    head: Head | None,
    thread: Thread,
    assumed: list[tuple[str, Text]],
) -> Washer | None:
    """A hard plain washer, taken to lie under a head on the body that was named."""
    if material is None or head is None or head.form in {"flange", "countersunk"}:
        return None
    found = one(store, Washer, size=thread.size, standard="ISO 7089")
    if found is not None and material.bearing_limit_mpa is not None:
        assumed.append(("washer", f"{found.standard}, {found.outer_mm:g} mm"))
        assumed.append(("seat", material.id))
    return found


def _driven(
    store: sqlite3.Connection,
    text: str | None,
    head: Head | None,
    head_named: bool,
    assumed: list[tuple[str, Text]],
    notes: list[str],
) -> tuple[Drive | None, DriveTorque | None]:
    """The drive that was named, else the head's own; what its best tool is proved to carry."""
    drive: Drive | None = None
    if text is not None:
        drive = resolve.drive(store, text)
    elif head is not None and head.drive:
        drive = one(store, Drive, id=head.drive)
    if drive is None:
        return None, None
    held = many(store, DriveTorque, drive=drive.id)
    if not held:
        if text is not None or head_named:
            notes.append(f"No proof torque is held for {drive.id}: the drive is not a limit here.")
        return drive, None
    best = max(held, key=lambda row: row.proof_torque_nm)
    if text is None:
        assumed.append(("drive", f"{drive.id}, {best.tool}"))
    return drive, best


def _seat(store: sqlite3.Connection, head: Head | None, hole: ClearanceHole | None) -> Seat | None:
    if head is None or hole is None:
        return None
    drive = one(store, Drive, id=head.drive) if head.drive else None
    return seat(head, hole.medium_mm, drive.across_flats_mm if drive else None)
