"""`fastkit tools`."""

from typing import Any

import click

from fastkit.answers.shelf import Shelf, add_tool, tool_of
from fastkit.cli.helped import Command
from fastkit.cli.shelf import LIST, tend
from fastkit.notation.units import angle_deg, figures, length_mm, show_mm


def _mm(_: click.Context, __: click.Parameter, text: str | None) -> float | None:
    return None if text is None else length_mm(text)


def _deg(_: click.Context, __: click.Parameter, text: str | None) -> float | None:
    return None if text is None else angle_deg(text)


@click.command(cls=Command)
@click.argument("action", default=LIST)
@click.argument("words", nargs=-1)
@click.option("--above", metavar="MM", callback=_mm, help="Measured: height needed over the head.")
@click.option("--beside", metavar="MM", callback=_mm, help="Measured: room needed beside it.")
@click.option("--swing", metavar="DEG", callback=_deg, help="Measured: arc to the next bite.")
@click.option("--note", default="", metavar="WORDS", help="Anything else about it.")
@click.option("--force", is_flag=True, help="Let `export` write over a file.")
@click.option("--json", "as_json", is_flag=True, help="Print one JSON document.")
def command(
    action: str,
    words: tuple[str, ...],
    above: float | None,
    beside: float | None,
    swing: float | None,
    note: str,
    force: bool,
    as_json: bool,
) -> None:
    """
    The tools at hand, with the room they take as you measured it, in your own file.

    ACTION is add TOOL [SIZES…], remove NUMBER, list [WORDS…], export FILE or import FILE; a FILE
    ends in .toml or .csv. Alone it lists, and WORDS alone look for what they name: tools ratchet.
    """

    def add(*words: str) -> Shelf:
        tool, size = tool_of(words)
        return add_tool(
            tool,
            size,
            above_mm=above,
            beside_mm=beside,
            swing_deg=swing,
            note=note,
        )

    tend("tools", action, words, force, as_json, add, _tell)


def _tell(row: Any) -> str:
    said = [f"{row.tool} {row.size}".strip()]
    if row.above_mm is not None:
        said.append(f"{show_mm(row.above_mm)} above")
    if row.beside_mm is not None:
        said.append(f"{show_mm(row.beside_mm)} beside")
    if row.swing_deg is not None:
        said.append(f"{figures(row.swing_deg)}° of swing")
    return ", ".join([*said, row.note] if row.note else said)
