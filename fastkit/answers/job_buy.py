"""What a job asks one to buy: fasteners with spares, what goes with them, seals."""

import sqlite3
from collections.abc import Collection, Mapping, Sequence
from typing import NamedTuple

from fastkit.answers.job_rows import Fastener, Job
from fastkit.answers.replace import ReplaceAnswer, replace
from fastkit.answers.replace_option import Option
from fastkit.errors import NotHeld
from fastkit.notation.units import torque_nmm
from fastkit.records.job import Spare
from fastkit.records.thread import Thread
from fastkit.reference.lookup import get, many

STUCK = "what would not move is not used again"


class Buy(NamedTuple):
    """One line of the list: how many, spares among them, what it is called, and what it is for."""

    pieces: int
    spares: int
    line: str
    for_: str
    why: str


class Renewal(NamedTuple):
    """A row that is renewed: why, what goes in, or in words where nothing can be named."""

    row: Fastener
    why: str
    option: Option | None
    otherwise: str  # words in place of an option, or empty
    not_understood: tuple[str, ...]


def renewals(
    job: Job, left_hand: Collection[str], store: sqlite3.Connection
) -> Mapping[str, Renewal]:
    """
    Return the rows that are renewed, by name: as the file says, else by the rules of reuse.

    Raises:
        Misuse: When a row's words, sizes and material do not fit together.
    """
    found = {}
    known: dict[Fastener, tuple[ReplaceAnswer | None, str]] = {}  # rows alike but for their names
    for row in job.fasteners:
        if row.renew is False:
            continue
        alike = row._replace(name="", holds="", pieces=1, stuck=0, state="", shape="", size="")
        if alike not in known:
            known[alike] = _replaced(row, job, row.name in left_hand, store)
        answer, refusal = known[alike]
        why = _why(row, answer)
        if why:
            option = answer.options[0] if answer and answer.options else None
            words = answer.reason if answer else refusal
            left_over = answer.not_understood if answer else ()
            found[row.name] = Renewal(row, why, option, "" if option else words or "", left_over)
    return found


def shopping(
    job: Job, renewed: Mapping[str, Renewal], store: sqlite3.Connection
) -> tuple[Buy, ...]:
    """Return what is bought for a job: rows that are renewed and what goes with them, seals."""
    spares = many(store, Spare)
    found = [line for item in renewed.values() for line in _lines(item, store, spares)]
    sealed = [part for part in job.parts if part.seal]
    return (*found, *(Buy(1, 0, part.seal, part.name, "seals are renewed") for part in sealed))


def _replaced(
    row: Fastener, job: Job, left_hand: bool, store: sqlite3.Connection
) -> tuple[ReplaceAnswer | None, str]:
    """Return what goes back in place of a row, or why that cannot be said."""
    try:
        answer = replace(
            row.thread,
            was=", ".join(filter(None, ("left-hand" if left_hand else "", row.was, row.grade))),
            into=row.into or None,
            grip_mm=row.grip_mm,
            place=job.place,
            torque_known_nm=torque_nmm(row.maker) / 1000 if row.maker else None,
            store=store,
        )
    except NotHeld as refusal:
        return None, str(refusal)
    return answer, ""


def _why(row: Fastener, answer: ReplaceAnswer | None) -> str:
    """Return why a row is renewed; empty where it is not."""
    if row.renew:
        return "as the job file says"
    if row.stuck:
        return STUCK
    if answer and answer.reuse.verdict == "renew":
        return answer.reuse.because[0] if answer.reuse.because else "not used again"
    return ""


def _lines(item: Renewal, store: sqlite3.Connection, spares: Sequence[Spare]) -> list[Buy]:
    row, option = item.row, item.option
    diameter = get(store, Thread, row.thread).nominal_mm
    every = next((s.for_every for s in spares if diameter <= s.up_to_mm), spares[-1].for_every)
    more = -(-row.pieces // every)
    count = row.pieces + more
    if option is None:
        hand = "left-hand" if row.left_hand else ""
        told = (row.thread, hand, row.was, row.grade and f"class {row.grade}")
        words = ", ".join(filter(None, told))
        why = f"{item.why}; {item.otherwise}" if item.otherwise else item.why
        return [Buy(count, more, words, row.name, why)]
    nut = (option.nut_line,) if option.nut_line and option.nut_line != option.line else ()
    with_ = (*option.washers, *nut)
    return [
        Buy(count, more, option.line, row.name, item.why),
        *(Buy(count, more, line, row.name, "goes with it") for line in with_),
    ]
