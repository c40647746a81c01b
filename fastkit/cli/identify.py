"""`fastkit identify`."""

from collections.abc import Iterator
from functools import partial
from typing import Any

import click

from fastkit.answers.identified import Identified
from fastkit.answers.identify_say import next_reading, reading_words, trap_words
from fastkit.answers.identify_words import readings, what_of
from fastkit.cli.helped import Command
from fastkit.cli.output import answering, bold, emit, wrap
from fastkit.errors import Misuse
from fastkit.notation.units import length_mm

EMPTY: dict[str, Any] = {
    **{"readings": {}, "candidates": [], "tied": [], "separates": None, "danger": []},
    **{"assumed": [], "notes": []},
}
SHOWN, LIST_FROM = 6, 0.01
SAFETY = (
    "The maker's specification governs. Brakes, steering, restraint, fuel, pressure: where two are "
    "possible, take neither to be right until it is known."
)
OPTIONS: dict[str, tuple[str, ...]] = {
    "thread": (
        *("major_mm", "minor_mm", "pitch_mm", "tpi", "over_ten_mm", "internal", "taper"),
        *("worn", "error_mm", "as_named"),
    ),
    "drive": ("across_mm", "lobes", "external", "error_mm"),
    "head": ("diameter_mm", "height_mm", "flats_mm", "form", "error_mm"),
    "grade": (),
}


def screen(what: str, answer: Identified, why: bool, columns: int) -> Iterator[str]:
    """Yield the likeliest first, what to read next, what it is mixed up with."""
    shown = [one for one in answer.candidates if one.probability >= LIST_FROM][:SHOWN]
    shown = shown or list(answer.candidates[:1])
    wide = max(len(one.id.partition(":")[2]) for one in shown)
    for number, one in enumerate(shown):
        name = one.id.partition(":")[2]
        share = f"{100 * one.probability:3.0f} %"
        line = f"  {name:<{wide}} {share}  "
        yield from wrap(_beside(one, why), columns, bold(line) if not number else line, " " * 6)
    further = next_reading(answer)
    if further:
        how, tells = further
        yield from wrap(f"{how}{': ' + tells if tells else ''}", columns, "Next: ", "  ")
    for trap in answer.danger:
        yield from wrap(trap_words(trap), columns, "Careful: ", "  ")
    for note in answer.notes:
        yield from wrap(note, columns, "", "  ")
    read = ", ".join(reading_words(answer))
    yield from wrap(f"{read}.", columns, "Read: ", "  ")
    if what == "thread":
        yield from wrap(
            "Odds: how common each is and how a worn class shifts it is workshop judgement; limits "
            "of size are the standards'.",
            columns,
        )
    yield from wrap(SAFETY, columns)


def _beside(one: Any, why: bool) -> str:
    title = one.title.partition(", ")[2] or ""
    parts = [title] if title else []
    if one.also:
        parts.append("also " + ", ".join(name.partition(":")[2] for name in one.also[:3]))
    if one.used_for:
        parts.append("tube nuts: " + ", ".join(n.partition(":")[2] for n in one.used_for[:3]))
    if why and one.offsets:
        offs = (
            f"{name.replace('_mm', '').replace('_', ' ')} {value:+.2f}"
            for name, value in one.offsets.items()
        )
        parts.append("from the middle of its limits: " + ", ".join(offs))
    if why and one.limits:
        parts.append(f"limits: {one.limits}")
    return "; ".join(parts)


# options that help explains at once
FIRST = (
    "major",
    "pitch",
    "tpi",
    "over_ten",
    "internal",
    "across",
    "lobes",
    "diameter",
    "flats",
    "why",
)


@click.command(cls=Command, first=FIRST)
@click.argument("what", metavar="thread|drive|grade|head")
@click.argument("words", nargs=-1)
@click.option("--major", "major_mm", metavar="MM", help="Bolt: diameter over the crests.")
@click.option("--minor", "minor_mm", metavar="MM", help="Hole or nut: diameter between the crests.")
@click.option("--pitch", "pitch_mm", metavar="MM", help="Thread: crest to crest.")
@click.option("--tpi", type=float, help="Thread: crests counted over an inch.")
@click.option("--over-ten", "over_ten_mm", metavar="MM", help="Thread: length of ten pitches.")
@click.option("--internal", is_flag=True, help="The thread is in a hole or a nut.")
@click.option("--taper/--parallel", default=None, help="Thread: whether it grows along its length.")
@click.option("--worn", is_flag=True, help="Thread: rust or use has taken from its crests.")
@click.option(
    "--is", "as_named", metavar="THREAD", help="Known already: which others it is mixed up with."
)
@click.option(
    "--across", "across_mm", metavar="MM", help="Drive: size over its points, flats or wings."
)
@click.option("--lobes", type=int, help="Drive: lobes, corners or arms counted.")
@click.option("--external/--recess", default=None, help="Drive: the tool goes over it, or into it.")
@click.option(
    "--diameter", "diameter_mm", metavar="MM", help="Head: diameter, or over its corners."
)
@click.option("--height", "height_mm", metavar="MM", help="Head: its height.")
@click.option("--flats", "flats_mm", metavar="MM", help="Head: across the flats.")
@click.option("--form", help="Head: hexagon, socket, pan, countersunk and so on.")
@click.option("--caliper-error", "error_mm", metavar="MM", help="How far a reading may be off.")
@click.option("--why", is_flag=True, help="How far each reading lies from each candidate.")
@click.option("--json", "as_json", is_flag=True, help="Print one JSON document.")
def command(what: str, words: tuple[str, ...], why: bool, as_json: bool, **options: Any) -> None:
    """
    What is this: a thread, a drive, a head or a grade, from readings and marks.

    Words do as well as options: thread 7.85 x 1.25, thread hole 6.75 18 tpi, drive 5.05 6 lobes,
    grade three lines, head 13 flats 5.3 high.
    """
    what, words = what_of((what, *words))
    given = {
        name: value
        for name, value in options.items()
        if value is not None and (value is not False or name in PAIRS)
    }
    stray = [name for name in given if name not in OPTIONS[what]]
    if stray:
        names = ", ".join(f"--{_flag(name)}" for name in stray)
        raise Misuse(f"{names} does not belong to identify {what}; see identify --help")
    read = {
        name: length_mm(value) if name.endswith("_mm") else value for name, value in given.items()
    }
    with answering(as_json, EMPTY):
        answer = _ask(what, words, read)
    emit(answer.document(), as_json, partial(screen, what, answer, why))


def _ask(what: str, words: tuple[str, ...], read: dict[str, Any]) -> Identified:
    """Load what this question needs, and ask it."""
    if what == "thread":
        from fastkit.answers.identify import identify_thread

        return identify_thread(**{**readings(what, words), **read})
    from fastkit.answers.identify_parts import identify_drive, identify_grade, identify_head

    if what == "grade":
        return identify_grade(" ".join(words))
    ask = identify_drive if what == "drive" else identify_head
    return ask(**{**readings(what, words), **read})


PAIRS = ("taper", "external")
FLAG_NAMES = {"error_mm": "caliper-error", "as_named": "is"}


def _flag(name: str) -> str:
    return FLAG_NAMES.get(name, name.removesuffix("_mm").replace("_", "-"))
