"""`fastkit stock`."""

from typing import Any

import click

from fastkit.answers.note_read import stocked
from fastkit.answers.shelf import Shelf, add_stock, amount_of
from fastkit.cli.helped import Command
from fastkit.cli.shelf import LIST, tend


@click.command(cls=Command)
@click.argument("action", default=LIST)
@click.argument("words", nargs=-1)
@click.option("--force", is_flag=True, help="Let `export` write over a file.")
@click.option("--json", "as_json", is_flag=True, help="Print one JSON document.")
def command(action: str, words: tuple[str, ...], force: bool, as_json: bool) -> None:
    """
    What lies in the drawers, in your own file.

    ACTION is add WHAT [AMOUNT [PLACE…]] (or add 12 m8x20 8.8 drawer 3), remove NUMBER [AMOUNT],
    list [WORDS…], export FILE or import FILE; a FILE ends in .toml or .csv. Alone it lists, and
    WORDS alone look for what they name: stock m8x20.
    """

    def add(*words: str) -> Shelf:
        what, amount, place = stocked(words)
        return add_stock(what, amount_of(amount), place)

    tend("stock", action, words, force, as_json, add, _tell)


def _tell(row: Any) -> str:
    return f"{row.amount} × {row.what}" + (f", {row.place}" if row.place else "")
