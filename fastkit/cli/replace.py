"""`fastkit replace`."""

import click

from fastkit.answers.replace import document, replace
from fastkit.answers.replace_read import read_line
from fastkit.cli.helped import Command
from fastkit.cli.output import answering, emit, missing
from fastkit.cli.replace_screen import lines
from fastkit.errors import NotHeld
from fastkit.notation.units import angle_deg, length_mm, torque_nmm

EMPTY: dict[str, object] = {
    "thread": None,
    "line": None,
    "options": [],
    "reuse": None,
    "ground": None,
}


@click.command(cls=Command)
@click.argument("thread")
@click.argument("words", nargs=-1)
@click.option("--was", metavar="WORDS", default="", help="The old one: head, class, finish, state.")
@click.option("--into", metavar="MATERIAL", help="Body with the thread, or nut; else steel.")
@click.option("--clamped", metavar="MATERIAL", help="The part it clamps; else as the body.")
@click.option("--grip", metavar="MM", help="Thickness of what it clamps, for the length.")
@click.option("--depth", metavar="MM", help="Depth of thread in the body, thickness of a sheet.")
@click.option("--place", metavar="WORDS", default="", help="Where: outdoors, salt, 200 °C …")
@click.option("--torque-known", metavar="TORQUE", help="Torque known for the old one.")
@click.option("--above", metavar="MM", help="Free height over the old head.")
@click.option("--beside", metavar="MM", help="Free room beside the old head.")
@click.option("--swing", metavar="DEG", help="Free arc for a handle.")
@click.option("--ground", is_flag=True, help="Current goes through it: how the joint is made.")
@click.option("--lack", multiple=True, metavar="WORD", help="What the shop has none of.")
@click.option(
    "--why", is_flag=True, help="The others whole, substitutes, what not and why, sources."
)
@click.option("--json", "as_json", is_flag=True, help="Print one JSON document.")
@click.pass_context
def command(
    ctx: click.Context,
    /,
    thread: str,
    words: tuple[str, ...],
    was: str,
    into: str | None,
    clamped: str | None,
    grip: str | None,
    depth: str | None,
    place: str,
    torque_known: str | None,
    above: str | None,
    beside: str | None,
    swing: str | None,
    ground: bool,
    lack: tuple[str, ...],
    why: bool,
    as_json: bool,
) -> None:
    """
    What goes back in place of a fastener, with the line to buy by.

    THREAD as M6, M12x1.5 or 3/8-16. WORDS say what it was and what it sits in, as --was and
    --into, in any order: rusty m6 pan head 16 long into alu.
    """
    named, old, body = read_line((thread, *words))
    if not named:
        raise missing(ctx, "thread")
    with answering(as_json, EMPTY):
        answer = replace(
            named,
            was=f"{was} {old}".strip(),
            into=into or body,
            clamped=clamped,
            grip_mm=_mm(grip),
            depth_mm=_mm(depth),
            place=place,
            torque_known_nm=None if torque_known is None else torque_nmm(torque_known) / 1000,
            above_mm=_mm(above),
            beside_mm=_mm(beside),
            swing_deg=None if swing is None else angle_deg(swing),
            ground=ground,
            lack=lack,
        )
    emit(document(answer), as_json, lambda columns: lines(answer, columns, why))
    if answer.line is None and answer.ground is None:
        raise NotHeld(f"{answer.reason}; instead: {answer.way}")


def _mm(text: str | None) -> float | None:
    return None if text is None else length_mm(text)
