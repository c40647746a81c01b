"""What the user has tried and looked up: noted, listed, taken back, found again."""

import json
from typing import Any, NamedTuple

from fastkit.answers import options as situations
from fastkit.answers.kept import filled, recall
from fastkit.answers.understand import understand
from fastkit.errors import Misuse, NotHeld
from fastkit.notation.units import torque_nmm
from fastkit.reference.lookup import nearest
from fastkit.reference.store import connect
from fastkit.shopbook.rows import Attempt, Kept, KeptJob, Maker, Undone
from fastkit.shopbook.store import read, writing
from fastkit.shopbook.text import now, plain

OUTCOMES = ("ok", "nothing", "worse", "broke")
DECIDES = ("damage", "seized")  # what an attempt counts for
LARGEST_NM = 100_000.0


class Noted(NamedTuple):
    """One note as it was kept or taken back, and what was said about the own file."""

    note: Attempt | Maker
    said: tuple[str, ...]


class Notes(NamedTuple):
    """All notes, in the order of writing."""

    attempts: tuple[Attempt, ...]
    torques: tuple[Maker, ...]
    kept: tuple[str, ...]  # names of kept situations
    jobs: tuple[str, ...]  # names of kept jobs
    said: tuple[str, ...]


def note_attempt(method: str, outcome: str, again: str | None = None, **options: Any) -> Noted:
    """
    Keep what came of an attempt.

    Args:
        method: Slug or trade name of a method.
        outcome: ok, nothing, worse, broke.
        again: Name of the kept situation it belongs to.
        options: The situation, as `extract` takes it; where damage and seizure are not among them
            the attempt counts for no odds.

    Raises:
        Misuse: When method, outcome or an option is not valid.
        NotHeld: When nothing is kept under the name.
        Broken: When the own file cannot be written.
    """
    store = connect()
    try:
        tried = situations.fields(store, {"tried": (method,)})["tried"][0]
    except Misuse as error:
        raise Misuse(f"no method {method[:60]!r}; or torque, list, undo", error.nearest) from error
    if outcome not in OUTCOMES:
        raise Misuse(
            f"{outcome[:40]!r}: expected one of {', '.join(OUTCOMES)}", nearest(outcome, OUTCOMES)
        )
    said, words = filled(options), ""
    if again is not None:
        recalled = recall(again, "", said, store=store)
        words, given = recalled.words, recalled.options
    else:
        given = said
    damage = seized = ""
    if given or words:
        told = understand(store, words, given)
        known = told.said if again is None else DECIDES
        damage, seized = (getattr(told.situation, n) if n in known else "" for n in DECIDES)
    kept = "" if again is None else " ".join(again.split())
    with writing() as pen:
        row = pen.add(Attempt(0, now(), tried, outcome, damage, seized, kept, json.dumps(said)))
        return Noted(row, pen.said)


def note_torque(machine: str, place: str, value: str, read_in: str) -> Noted:
    """
    Keep a torque that a maker prints: machine and place in the user's words, and where it was read.

    Raises:
        Misuse: When the value is no torque or a word cannot be kept.
        Broken: When the own file cannot be written.
    """
    nm = torque_nmm(value) / 1000
    if not 0 < nm <= LARGEST_NM:
        raise Misuse(f"torque {value[:40]!r}: expected above 0 and up to {LARGEST_NM:g} N·m")
    kept = Maker(
        0,
        now(),
        plain(machine, "machine"),
        plain(place, "place"),
        nm,
        plain(value, "torque"),
        plain(read_in, "where it was read"),
    )
    with writing() as pen:
        return Noted(pen.add(kept), pen.said)


def undo() -> Noted:
    """
    Take the latest note back.

    Raises:
        NotHeld: When there is none.
        Broken: When the own file cannot be written.
    """
    held = read()
    if not held.of(Attempt) and not held.of(Maker):
        raise NotHeld("there is no note to take back")
    with writing() as pen:
        now_held = pen.held()
        rows: list[Attempt | Maker] = [*now_held.of(Attempt), *now_held.of(Maker)]
        if not rows:
            raise NotHeld("there is no note to take back")
        latest = max(rows, key=lambda row: row.id)
        pen.add(Undone(0, now(), latest.id))
        return Noted(latest, pen.said)


def notes() -> Notes:
    """
    Return all notes that were not taken back.

    Raises:
        Broken: When the own file cannot be read.
    """
    held = read()
    return Notes(
        tuple(held.of(Attempt)),
        tuple(held.of(Maker)),
        tuple(dict.fromkeys(row.name for row in held.of(Kept))),
        tuple(dict.fromkeys(row.name for row in held.of(KeptJob))),
        (held.trouble,) if held.trouble else (),
    )


def noted_torque(machine: str, place: str) -> Maker | None:
    """
    Return the latest maker's torque noted for a machine and one of its places; None without one.

    Raises:
        Broken: When the own file cannot be read.
    """
    wanted = (machine.casefold(), place.casefold())
    rows = [row for row in read().of(Maker) if _named(row) == wanted]
    return rows[-1] if rows else None


def _named(row: Maker) -> tuple[str, str]:
    return row.machine.casefold(), row.place.casefold()


def makers_torque(words: str) -> Maker:
    """
    Return the latest maker's torque whose machine and place hold all the words.

    Raises:
        NotHeld: When no note does; the nearest are named.
        Misuse: When several places do.
        Broken: When the own file cannot be read.
    """
    held = read()
    rows = held.of(Maker)
    wanted = words.casefold().split()
    named = {f"{row.machine}, {row.place}": row for row in rows}  # the latest of each
    found = {
        name: row
        for name, row in named.items()
        if all(word.strip(",") in name.casefold() for word in wanted)
    }
    if not wanted or not found:
        raise NotHeld(
            f"no maker's torque is noted for {words[:60]!r}: fastkit note torque …",
            nearest(words[:60], sorted(named)),
        )
    if len(found) > 1:
        raise Misuse(f"{words[:60]!r} fits {len(found)} places; expected one", tuple(found)[:3])
    return next(iter(found.values()))
