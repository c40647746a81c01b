"""`fastkit near`."""

from collections.abc import Iterator
from typing import Any

import click

from fastkit.answers.near import NearAnswer, near, read_words
from fastkit.answers.wording import show_about
from fastkit.cli.helped import Command
from fastkit.cli.output import answering, emit, wrap
from fastkit.notation.units import show_nm

EMPTY: dict[str, Any] = {"size": None, "fits": []}


def screen(answer: NearAnswer, columns: int) -> Iterator[str]:
    """Yield a line for each tool: play or interference, how it goes on, what it carries."""
    if answer.head is not None:
        yield from wrap("A bare size: recess and head, each by itself.", columns)
        yield ""
    yield from _fits(answer, columns)
    if answer.head is not None:
        yield ""
        yield from _fits(answer.head, columns)
    if answer.empty:
        return
    yield from wrap(
        "A near fit carries less than the drive's own size. A bit struck with a hammer can "
        "splinter: eyes covered. How each goes on is workshop judgement.",
        columns,
    )


def _fits(answer: NearAnswer, columns: int) -> Iterator[str]:
    if not answer.fits:
        yield from wrap(f"No other tool lies near {answer.size}.", columns)
        return
    yield from wrap(f"near {answer.size}, the loosest first", columns)
    for fit in answer.ladder:
        name = fit.id.partition(":")[2]
        gap = f"{abs(fit.play_mm):.2f} mm ({abs(fit.play_mm) / 25.4:.3f} in)"
        play = f"{gap} {'play' if fit.play_mm >= 0 else 'over'}"
        holds = ""
        if fit.proof_torque_nm is not None:
            holds = f"; its own size is proved to {show_nm(1000 * fit.proof_torque_nm)}"
        if fit.holds_nm is not None:
            holds += f", in a stripped one it holds about {show_about(fit.holds_nm)}"
        yield from wrap(f"{play}; {fit.how}{holds}", columns, f"  {name:<15} ", " " * 18)


@click.command(cls=Command)
@click.argument("size", nargs=-1, required=True, metavar="SIZE")
@click.option("--json", "as_json", is_flag=True, help="Print one JSON document.")
@click.pass_context
def command(ctx: click.Context, /, size: tuple[str, ...], as_json: bool) -> None:
    """
    Which bits, keys and sockets of any system lie within hundredths of SIZE.

    SIZE is a drive as you would name it: T30, hex-5mm, AF-13mm, PH2; a bare
    size such as 5mm or 7/32in is asked of recess and head, 13mm rounded of
    the head alone.
    """
    named, outer = read_words(size)
    with answering(as_json, EMPTY):
        answer = near(named, outer=outer)
    emit(answer.document(), as_json, lambda columns: list(screen(answer, columns)))
    if answer.empty:
        ctx.exit(1)
