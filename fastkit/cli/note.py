"""`fastkit note`."""

from collections.abc import Iterator
from typing import Any

import click

from fastkit.answers.notes import (
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
@click.argument("what")
@click.argument("words", nargs=-1)
@click.option("--again", metavar="NAME", help="The kept situation that the attempt belongs to.")
@click.option("--json", "as_json", is_flag=True, help="Print one JSON document.")
def command(
    what: str, words: tuple[str, ...], again: str | None, as_json: bool, **options: Any
) -> None:
    """
    Keep what you have tried and looked up, in your own file.

    WHAT is a method with how it went (ok, nothing, worse, broke), and the situation as options or
    --again NAME; or torque MACHINE PLACE VALUE WHERE-READ; or list; or undo, the latest note.
    """
    said = any(value not in (None, False, ()) for value in options.values()) or again is not None
    if said and what in ("torque", "list", "undo"):
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
            _so_many(what, words, 4, "MACHINE PLACE VALUE WHERE-READ")
            answer = note_torque(*words)
        else:
            _how_it_went(what, words)
            answer = note_attempt(what, words[0], again, **options)
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


def _how_it_went(what: str, words: tuple[str, ...]) -> None:
    """Refuse all but one word; what is one too many is told from what is missing."""
    if not words:
        raise Misuse(f"{what[:40]}: expected how it went behind it: {', '.join(OUTCOMES)}")
    if len(words) > 1:
        more = " ".join(words[1:])[:60]
        raise Misuse(
            f"{more!r} is too much: expected {what[:40]} and {', '.join(OUTCOMES)}; what it was "
            "done to as options, such as --thread M8 --damage worn, or --again NAME"
        )


def _lines(what: str, answer: Noted | Notes, columns: int) -> Iterator[str]:
    if isinstance(answer, Noted):
        done = "taken back" if what == "undo" else "noted"
        yield from wrap(f"{done}: number {answer.note.id}, {told(answer.note)}", columns)
        if what not in ("undo", "torque") and not getattr(answer.note, "damage", "x"):
            yield from wrap("It counts for no odds: damage and seizure were not said.", columns)
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
    state = f", {row.damage}, {row.seized}" if row.damage else ""
    kept = f", {row.kept}" if row.kept else ""
    return f"{row.method}: {row.outcome}{state}{kept} ({day})"
