"""`fastkit torque`."""

from collections.abc import Callable, Iterator
from typing import Any

import click

from fastkit.answers.torque import TorqueAnswer, document, torque, windowless
from fastkit.answers.torque_answer import MAKER_ALONE
from fastkit.answers.torque_read import read_line
from fastkit.cli.helped import Command
from fastkit.cli.output import (
    answering,
    bold,
    danger_lines,
    emit,
    missing,
    trouble_line,
    unread_words,
    wrap,
)
from fastkit.cli.torque_screen import lines
from fastkit.errors import Misuse
from fastkit.notation.units import angle_deg, force_n, length_mm, percent, torque_nmm


def _mu(text: str) -> float | tuple[float, float]:
    ends = text.split("..") if ".." in text else [text]
    try:
        values = [float(end) for end in ends]
    except ValueError as error:
        raise Misuse(f"cannot read mu {text[:40]!r}: expected X or X..Y such as 0.1") from error
    if len(values) > 2:
        raise Misuse(f"cannot read mu {text[:40]!r}: expected X or X..Y such as 0.1..0.14")
    return values[0] if len(values) == 1 else (values[0], values[1])


def _two(text: str, sign: str, expected: str) -> tuple[str, str]:
    """Two parts of an option; the second empty where it was left out."""
    first, found, second = text.partition(sign)
    if not first.strip() or (found and not second.strip()):
        raise Misuse(f"cannot read {text[:40]!r}: expected {expected}")
    return first, second


def _gears(text: str) -> tuple[float, float]:
    ratio, efficiency = _two(text, ":", "RATIO or RATIO:PCT such as 5:90")
    try:
        return float(ratio), percent(efficiency or "100")
    except ValueError as error:
        raise Misuse(
            f"cannot read {text[:40]!r}: expected RATIO or RATIO:PCT such as 5:90"
        ) from error


def _bar(text: str) -> tuple[float, float]:
    length, diameter = _two(text.replace("×", "x"), "x", "LENGTHxDIAMETER such as 250x13")
    if not diameter:
        raise Misuse(f"cannot read {text[:40]!r}: expected LENGTHxDIAMETER such as 250x13")
    return length_mm(length), length_mm(diameter)


def _celsius(text: str) -> float:
    word = text.strip().upper().replace("°", "").replace("−", "-")
    try:
        if word.endswith("F"):
            return (float(word[:-1]) - 32) / 1.8
        return float(word.removesuffix("C"))
    except ValueError as error:
        raise Misuse(
            f"cannot read {text[:40]!r}: expected a temperature such as 120, 120C or 250F"
        ) from error


def _temperatures(text: str) -> tuple[float, float]:
    body, bolt = _two(text, "/", "BODY or BODY/BOLT such as 120/20")
    return _celsius(body), _celsius(bolt or body)


def _nm(text: str) -> float:
    return torque_nmm(text) / 1000


def _read(
    reader: Callable[[str], Any],
) -> Callable[[click.Context, click.Parameter, str | None], Any]:
    """A reader of `notation.units` as what click calls for an option."""

    def callback(_: click.Context, __: click.Parameter, text: str | None) -> Any:
        return None if text is None else reader(text)

    return callback


# option, the argument of `torque` that it gives, what stands for its value, its reader, its help
OPTIONS: tuple[tuple[str, str, str, Callable[[str], Any], str], ...] = (
    (
        *("--friction", "friction", "CONDITION", str),
        "How the thread is: dry, oiled, class-b (0.08 to 0.16, if left out) …",
    ),
    (
        *("--mu", "mu", "X[..Y]", _mu),
        "Friction coefficient in place of that: 0.12, 0.1..0.14.",
    ),
    ("--mu-head", "mu_head", "X[..Y]", _mu, "The same under the head alone."),
    (
        *("--head", "head", "HEAD", str),
        "Head: hexagon, socket, flange, countersunk, a standard.",
    ),
    ("--into", "into", "MATERIAL", str, "What holds the thread, or a nut such as nut-8."),
    ("--engage", "engage_mm", "MM", length_mm, "Length of thread that carries."),
    (
        *("--clamp", "clamp_n", "N", force_n),
        "Clamping force the joint needs; else 40 % of the table's.",
    ),
    (
        *("--utilisation", "utilisation_pct", "PCT", percent),
        "How near to yield it may be stretched; else 90 %.",
    ),
    (
        *("--wrench-error", "wrench_error_pct", "PCT", percent),
        "What the wrench may be off, ±; else 4 %.",
    ),
    ("--prevailing", "prevailing_nm", "NM", _nm, "What a locking nut takes just to run."),
    (
        *("--adapter", "adapter_mm", "MM", length_mm),
        "Length of a crow foot or other adapter on the wrench.",
    ),
    (
        *("--wrench-length", "wrench_length_mm", "MM", length_mm),
        "The wrench itself, middle of its grip to its square.",
    ),
    (
        *("--adapter-angle", "adapter_angle_deg", "DEG", angle_deg),
        "The adapter's angle off the line of the handle.",
    ),
    ("--drive", "drive", "ID", str, "Recess or head that must carry the torque, such as T40."),
    (
        *("--set", "set_nm", "TORQUE", _nm),
        "A setting to be judged: what it clamps, how near to yield.",
    ),
    (
        *("--angle", "angle_deg", "DEG", angle_deg),
        "Turned on so far from snug, in place of a torque alone.",
    ),
    ("--grip", "grip_mm", "MM", length_mm, "Thickness that is clamped, head to nut or thread."),
    ("--maker", "maker_nm", "TORQUE", _nm, "The maker's value, which goes first."),
    (
        *("--multiplier", "multiplier", "RATIO[:PCT]", _gears),
        "Torque multiplier: its ratio, its efficiency in %.",
    ),
    (
        *("--extension", "extension_mm", "LxD", _bar),
        "Extension bar, length by diameter in mm: how far it twists.",
    ),
    (
        *("--heat", "heat_c", "C[/C]", _temperatures),
        "Warm in service: the body, or body/bolt, in °C or with F.",
    ),
    (
        *("--press", "press_mm", "MM", length_mm),
        "A stud or pin pressed in: how much thicker than its hole; with --heat.",
    ),
    (
        *("--locker", "locker", "STRENGTH", str),
        "Threadlocker on the thread: low, medium, high.",
    ),
)


def _with_options(command: Callable[..., None]) -> Callable[..., None]:
    """The command with every option that takes a value."""
    for flag, name, metavar, reader, told in reversed(OPTIONS):
        callback = _read(reader)
        command = click.option(flag, name, metavar=metavar, callback=callback, help=told)(command)
    return command


# options that help explains at once
FIRST = (
    "friction",
    "head",
    "into",
    "engage_mm",
    "clamp_n",
    "maker_nm",
    "place",
    "why",
)


def _ask(ctx: click.Context, thread: str = "", grade: str = "", **given: Any) -> TorqueAnswer:
    """Ask, once thread and grade were said; what gets no window needs no grade."""
    critical = given.get("critical")
    if not thread and critical is None:
        raise missing(ctx, "thread")
    if not grade and not windowless(
        thread, "", given.get("head"), given.get("into"), critical=critical
    ):
        raise missing(ctx, "grade")
    return torque(thread, grade, **given)


@click.command(cls=Command, first=FIRST)
@click.argument("thread")
@click.argument("grade", required=False, default="")
@click.argument("words", nargs=-1)
@_with_options
@click.option(
    "--place",
    metavar="WORDS",
    help="The maker's value out of your notes: words of machine and place.",
)
@click.option("--reused", is_flag=True, help="The fastener has been tightened before.")
@click.option("--broken", is_flag=True, help="What gets the rest out once it has broken.")
@click.option("--why", is_flag=True, help="Walk through the steps with numbers and sources.")
@click.option("--json", "as_json", is_flag=True, help="Print one JSON document.")
@click.pass_context
def command(
    ctx: click.Context,
    /,
    thread: str,
    grade: str,
    words: tuple[str, ...],
    place: str | None,
    as_json: bool,
    **options: Any,
) -> None:
    """
    How tight: the window of settings that clamp enough and overload nothing.

    THREAD and GRADE as written on the fastener or in the trade: M8 8.8, 3/8-16 SAE-5. WORDS say
    the rest as you would, all in any order: oiled, into aluminium, 12 mm engaged, is 25 Nm ok,
    wheel nut. Options win over words.
    """
    noted = None
    given = {
        name: value for name, value in options.items() if value is not None and value is not False
    }
    empty = {
        **document(TorqueAnswer(thread[:60], grade[:60])),
        "not_understood": [],
        "dangers": [],
    }
    with answering(as_json, empty):
        given = {**read_line((thread, grade, *words)), **given}
        unread, warned = given.pop("not_understood", ()), given.pop("dangers", ())
        if place is not None:
            if "maker_nm" in given:
                raise Misuse("--maker and --place: expected one of them")
            from fastkit.answers.notes import makers_torque

            noted = makers_torque(place)
            given["maker_nm"] = noted.torque_nm
        answer = _ask(ctx, **given)
    found = document(answer)
    if noted is not None:
        found["noted"] = noted._asdict()

    def said(columns: int) -> Iterator[str]:
        if answer.critical:
            yield from wrap(MAKER_ALONE.format(answer.critical), columns, bold("Stop: "), "  ")
        yield from danger_lines(warned, columns)
        yield from unread_words(unread, columns)
        if noted is not None:
            whence = f"{noted.machine}, {noted.place}: {noted.written}, read in {noted.read_in}"
            yield from map(bold, wrap(f"Your note: {whence} ({noted.at[:10]}).", columns))
        yield from lines(answer, columns)

    emit(found, as_json, said, unread if as_json else None, warned if as_json else ())
    if answer.empty or answer.published:
        click.echo(trouble_line(answer.reason or ""), err=True)
        ctx.exit(1)
