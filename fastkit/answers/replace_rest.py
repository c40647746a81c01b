"""Beside the options: nuts, what the user has, what to take where the shop has none."""

import sqlite3
from collections.abc import Iterable
from math import inf

from fastkit.answers.replace_buy import (
    FINE_NUTS,
    INCH_NUT,
    NUT_WORDS,
    length_words,
    size_words,
)
from fastkit.answers.replace_option import LEFT, LEFT_WORDS, Option
from fastkit.answers.replace_parts import Joint, Rows
from fastkit.answers.replace_torque import running
from fastkit.answers.replace_words import PASTES
from fastkit.hardware import length
from fastkit.hardware.locking import on_thread
from fastkit.hardware.old import Old
from fastkit.notation.designation import parse
from fastkit.notation.units import figures, show_nm
from fastkit.records.replacement import Lock, Make
from fastkit.records.thread import ClearanceHole, Thread
from fastkit.records.tightening import PrevailingTorque
from fastkit.reference.aliases import first_meant
from fastkit.reference.lookup import many, one, usual
from fastkit.shopbook.rows import Stocked

ZINCED = frozenset(("zinc-plated", "zinc-flake", "zinc-nickel", "hot-dip"))


def prevailing_words(store: sqlite3.Connection, thread: Thread, old: Old) -> tuple[str, ...]:
    """What a used self-locking nut must still drag."""
    if old.kind != "lock-nut" and "lock-nut" not in old.had:
        return ()
    rows = many(store, PrevailingTorque, thread=thread.id)
    row = next((row for row in rows if row.nut_class != "04"), None)
    if row is None:
        return ("Its prevailing torque is in no table held for this thread: take a new one.",)
    return (
        f"Prevailing torque coming off, by class {row.nut_class}: at least "
        f"{show_nm(1000 * row.first_off_min_nm)} the first time, "
        f"{show_nm(1000 * row.fifth_off_min_nm)} the fifth; less, or it runs on by hand: new.",
    )


def nuts(store: sqlite3.Connection, rows: Rows, joint: Joint) -> tuple[Option, ...]:
    """Nuts in place of a nut: the self-locking ones that stand the heat, or the plain one."""
    thread, asked = rows.facts.thread, joint.asked
    wanted = joint.wants_lock
    locks = {lock.id: lock for lock in rows.locks}
    order = [("nut-nylon", "ISO 7040"), ("nut-metal", "ISO 7719")]
    if not wanted or thread.family != "M":  # no self-locking inch nut is held
        order = [("preload", "ISO 4032" if thread.family == "M" else INCH_NUT)]
    makes = {make.id: make for make in rows.facts.makes}
    stainless = asked.old.finish == "passivated"
    ids = ("a4", "a2") if stainless else ("zinc", "flake", "a4")
    found: list[Option] = []
    for lock_id, standard in order:
        lock = locks[lock_id]
        if joint.degc is not None and lock.to_degc is not None and joint.degc > lock.to_degc:
            continue
        for make_id in ids:
            make = makes[make_id]
            if make.serves < asked.level or ("chlorine" in asked.place.flags and make_id == "a2"):
                continue
            if (joint.degc or 0.0) > (make.use_max_degc or inf):
                continue
            sort = {"a2": "A2-70", "a4": "A4-80"}.get(make_id) or _class_of(rows, asked.grade)
            paste = on_thread(
                make, lock, asked.body, asked.place, safety=bool(asked.old.safety)
            ).lubricant
            one_nut = _nut(store, rows, standard, sort, make, paste, lock, len(found))
            if LEFT in asked.place.flags:
                line = one_nut.line + LEFT_WORDS
                one_nut = one_nut._replace(line=line, nut_line=line)
            found.append(one_nut)
            break
    return tuple(found)


def _long(rows: Rows, way: Option) -> str:
    """Its own length: without a washer under it, it is shorter."""
    return "" if way.length_mm is None else f", × {length_words(rows, way.length_mm)}"


def _class_of(rows: Rows, grade: str) -> str:
    """The class of nut that pairs with a bolt; 8 for those below it."""
    pair = next((row.grade for row in rows.pairs if row.mate == grade), "nut-8")
    return pair.removeprefix("nut-").replace("SAE-", "SAE J995 grade ")


def _nut(
    store: sqlite3.Connection,
    rows: Rows,
    standard: str,
    sort: str,
    make: Make,
    paste: str,
    lock: Lock,
    count: int,
) -> Option:
    thread = rows.facts.thread
    named = FINE_NUTS.get(standard, standard) if thread.series == "fine" else standard
    head = rows.facts.heads.get(standard)
    line = f"{NUT_WORDS[standard][0].upper()}{NUT_WORDS[standard][1:]} {named} – "
    return Option(
        rank=count + 1,
        line=f"{line}{size_words(thread)} – {sort}, {make.words}",
        standard=named,
        title=NUT_WORDS[standard],
        form="nut",
        thread=thread.id,
        length_mm=None,
        grade=sort,
        make=make.id,
        finish=make.finish,
        drive=head.drive if head else None,
        system="hexagon",
        head_diameter_mm=head.head_diameter_mm if head else None,
        head_height_mm=head.head_height_mm if head else None,
        washers=(),
        nut=standard,
        nut_line=f"{line}{size_words(thread)} – {sort}, {make.words}",
        locking=lock.id,
        locking_words=lock.title,
        again=lock.again,
        lubricant=paste,
        lubricant_words=PASTES[paste],
        friction="class-b",
        torque_min_nm=None,
        torque_nm=None,
        torque_max_nm=None,
        torque_reason="the bolt's own torque, plus the running torque of the nut",
        running_torque_max_nm=running(store, thread, lock),
        limited_by=None,
        weakest_part=None,
        strength_pct=None,
        exact_mm=None,
        engaged_mm=None,
        needed_mm=None,
        protrudes_mm=None,
        tool=None,
        margins={},
        galvanic=None,
        galvanic_words="",
        insulate=False,
        trades=(),
        notes=("class at least that of the bolt it goes on; two pitches of bolt beyond it",),
    )


def from_stock(
    store: sqlite3.Connection, options: list[Option], stock: Iterable[Stocked], thread: Thread
) -> tuple[Option, ...]:
    """The options with those first that lie in the user's drawers, which is said."""
    held = []
    for row in stock:
        parts = parse(row.what, first_meant(store, row.what))
        sizes = {part.key for part in parts if part.kind == "thread"}
        if sizes & {thread.id, thread.size, _bare(thread)}:
            held.append((row, parts))
    marked = []
    for option in options:
        match = next((row for row, parts in held if _is(option, parts)), None)
        where = None
        if match is not None:
            place = f", {match.place}" if match.place else ""
            where = f"{match.amount} × {match.what}{place}"
        marked.append(option._replace(in_stock=where))
    marked.sort(key=lambda option: (option.in_stock is None, option.rank))
    return tuple(option._replace(rank=rank) for rank, option in enumerate(marked, 1))


def _bare(thread: Thread) -> str:
    return thread.id.rpartition("-UN")[0] or thread.id


def _is(option: Option, parts: Iterable[object]) -> bool:
    """Whether what lies in a drawer is an option: length, class, and what else it says, agree."""
    said: dict[str, str] = {}
    for part in parts:
        said.setdefault(getattr(part, "kind", ""), getattr(part, "key", ""))
    long = said.get("length", "")
    mm = float(long.removesuffix("mm")) if long.endswith("mm") else None
    if mm is None or option.length_mm is None or abs(mm - option.length_mm) > 1e-6:
        return False
    if said.get("grade") != option.grade:
        return False
    return said.get("drive") in {None, option.drive}


def substitutes(
    store: sqlite3.Connection,
    rows: Rows,
    joint: Joint,
    options: tuple[Option, ...],
    lack: tuple[str, ...],
) -> tuple[str, ...]:
    """What to take where the shop has none of the first option, each with its condition."""
    if not options or options[0].form == "nut" or joint.asked.safety:
        return ()
    first, thread = options[0], rows.facts.thread
    found = []
    if first.length_mm is not None:
        found.append(_longer(rows, joint, first))
    other = next((o for o in options[1:] if o.grade != first.grade), None)
    if other is not None:
        found.append(f"Other class: option {other.rank}, {other.grade}, at its own torque.")
    same = next((o for o in options[1:] if (o.grade, o.make) == (first.grade, first.make)), None)
    if same is not None:
        found.append(f"Other head: {same.title} {same.standard}, same class{_long(rows, same)}.")
    if thread.family == "M":
        found.insert(0 if "metric" in lack else len(found), _inch(store, thread, joint))
    return tuple(found)


def _longer(rows: Rows, joint: Joint, first: Option) -> str:
    assert first.length_mm is not None
    made = length.made(rows.lengths, rows.inches, (), first.standard, rows.facts.thread.size)
    longer = [row for row in made if row.length_mm > first.length_mm and not row.avoid]
    if not longer:
        return "No longer one is made: a shorter clamped part or a stud with nut."
    row = min(longer, key=lambda one_: one_.length_mm)
    extra = row.length_mm - first.length_mm
    bare = ", cut end touched up with zinc paint" if first.finish in ZINCED else ""
    room = "stands out further" if joint.body is None else "only if the hole is as much deeper"
    return (
        f"Longer: × {length_words(rows, row.length_mm)} with {figures(extra)} mm of plain washers "
        f"under the head, or cut to length (nut run on first, end chamfered{bare}); else {room}."
    )


def _inch(store: sqlite3.Connection, thread: Thread, joint: Joint) -> str:
    name = usual(store, "inch-for", thread.size)
    if name is None:
        return "Inch for metric: none that is near enough."
    into = f"Inch {name} never into a hole tapped {thread.size}: it starts, then strips or jams"
    hole = one(store, ClearanceHole, size=thread.size)
    if joint.body is not None or hole is None:
        return f"{into}; the thread would have to be made new (repair)."
    return (
        f"Inch: {name} with its own nut and washers through the {figures(hole.medium_mm)} mm hole, "
        f"grade 5 for 8.8; {into[0].lower()}{into[1:]}, and never with a metric nut."
    )
