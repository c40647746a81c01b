"""`fastkit note`."""

from collections.abc import Iterator
from typing import Any

import click

from fastkit.answers.kept import filled
from fastkit.answers.note_read import attempt, makers_value
from fastkit.answers.notes import (
    DECIDES,
    OUTCOMES,
    Noted,
    Notes,
    note_attempt,
    note_torque,
    notes,
    undo,
)
from fastkit.answers.options import NAMES
from fastkit.cli.extract import command as extract
from fastkit.cli.helped import Command
from fastkit.cli.output import answering, emit, trouble_line, wrap
from fastkit.errors import Misuse
from fastkit.notation.units import show_nm

SITUATION = [param for param in extract.params if param.name in NAMES and param.name != "tried"]
EMPTY: dict[str, Any] = {"noted": None, "attempts": [], "torques": [], "kept": [], "jobs": []}
# options that help explains at once
FIRST = (
    "thread",
    "drive",
    "damage",
    "seized",
    "into",
    "again",
)


@click.command(cls=Command, first=FIRST, params=SITUATION)
@click.argument("what", default="list")
@click.argument("words", nargs=-1)
@click.option("--again", metavar="NAME", help="The kept situation that the attempt belongs to.")
@click.option("--json", "as_json", is_flag=True, help="Print one JSON document.")
def command(
    what: str, words: tuple[str, ...], again: str | None, as_json: bool, **options: Any
) -> None:
    """
    Keep what you have tried and looked up, in your own file.

    WHAT is a method with how it went (ok, nothing, worse, broke), and the situation as options or
    --again NAME, or all in words: left hand drill worked, m8 snapped flush, rusted; or torque
    MACHINE PLACE VALUE WHERE-READ; or list, as it does alone; or undo, the latest note.
    """
    if (filled(options) or again is not None) and what in ("torque", "list", "undo"):
        raise Misuse(f"{what}: expected no options of a situation")
    with answering(as_json, EMPTY):
        answer: Noted | Notes
        if what == "list":
            _so_many(what, words, 0, "nothing behind it")
            answer = notes()
        elif what == "undo":
            _so_many(what, words, 0, "nothing behind it")
            answer = undo()
        elif what == "torque":
            answer = note_torque(*makers_value(words))
        elif len(words) == 1 and words[0] in OUTCOMES:
            answer = note_attempt(what, words[0], again, **options)
        else:
            method, outcome, state = attempt(" ".join((what, *words)))
            answer = note_attempt(method, outcome, again, **{**state, **filled(options)})
    for line in answer.said:
        click.echo(trouble_line(line), err=True)
    if isinstance(answer, Notes):
        document = {
            **EMPTY,
            "attempts": [row._asdict() for row in answer.attempts],
            "torques": [row._asdict() for row in answer.torques],
            "kept": list(answer.kept),
            "jobs": list(answer.jobs),
        }
    else:
        document = {**EMPTY, "noted": answer.note._asdict()}
    emit(document, as_json, lambda columns: _lines(what, answer, columns))


def _so_many(what: str, words: tuple[str, ...], count: int, expected: str) -> None:
    if len(words) != count:
        raise Misuse(f"{what}: {len(words)} words behind it; expected {expected}")


def _lines(what: str, answer: Noted | Notes, columns: int) -> Iterator[str]:
    if isinstance(answer, Noted):
        done = "taken back" if what == "undo" else "noted"
        yield from wrap(f"{done}: number {answer.note.id}, {told(answer.note)}", columns)
        missing = [name for name in DECIDES if getattr(answer.note, name, "x") == ""]
        if what != "undo" and missing:
            said = " and ".join(missing).replace("seized", "how it is seized")
            yield from wrap(f"It counts for no odds: nobody said {said}.", columns)
        return
    rows: list[Any] = [*answer.attempts, *answer.torques]
    for row in sorted(rows, key=lambda row: row.id):
        yield from wrap(told(row), columns, f"{row.id:4}  ")
    if answer.kept:
        yield from wrap(f"kept situations: {', '.join(answer.kept)}", columns)
    if answer.jobs:
        yield from wrap(f"kept jobs: {', '.join(answer.jobs)}", columns)
    if not answer.attempts and not answer.torques:
        yield "no note yet"


def told(row: Any) -> str:
    """One note in a line."""
    day = row.at[:10]
    if hasattr(row, "machine"):
        value = show_nm(row.torque_nm * 1000)
        return f"{row.machine}, {row.place}: {value}, read in {row.read_in} ({day})"
    state = "".join(f", {said}" for said in (row.damage, row.seized) if said)
    kept = f", {row.kept}" if row.kept else ""
    return f"{row.method}: {row.outcome}{state}{kept} ({day})"
