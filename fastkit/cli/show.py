"""`fastkit show`."""

import click

from fastkit.answers.show import show
from fastkit.cli.helped import Command
from fastkit.cli.output import WIDE, answering, asked, emit
from fastkit.cli.show_screen import lines

EMPTY = {"id": None, "title": None, "source": None, "locator": None, "checked": None}


@click.command(cls=Command)
@click.argument("id", metavar="ID", nargs=-1, required=True)
@click.option("--json", "as_json", is_flag=True, help="Print one JSON document.")
def command(id: tuple[str, ...], as_json: bool) -> None:
    """
    Show one entry, each value with its source; what is longer than a screen whole by --wide.

    ID is an entry's id as `find` prints it: thread:M8x1.25, drive:T20, method:weld-nut; or words
    that name one without doubt: m8 fine, m8 8.8, left hand drill.
    """
    with answering(as_json, EMPTY):
        answer = show(" ".join(id))
    emit(answer.document, as_json, lambda columns: lines(answer, columns, asked(WIDE)))
