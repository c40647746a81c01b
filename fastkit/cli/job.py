"""`fastkit job`."""

from pathlib import Path

import click

from fastkit.answers.job import document, job
from fastkit.answers.job_kept import recall, save, text_of
from fastkit.cli.helped import Command
from fastkit.cli.output import emit, trouble_line
from fastkit.errors import Misuse


@click.command(cls=Command)
@click.argument("file", required=False, metavar="[FILE]")
@click.option("--example", is_flag=True, help="Print a job file to begin with.")
@click.option("--as-read", is_flag=True, help="Print the file as it was understood, as a job file.")
@click.option("--save", "name", metavar="NAME", help="Keep the job under a name.")
@click.option("--again", metavar="NAME", help="A kept job in place of a file.")
@click.option("--json", "as_json", is_flag=True, help="Print one JSON document.")
def command(
    file: str | None,
    example: bool,
    as_read: bool,
    name: str | None,
    again: str | None,
    as_json: bool,
) -> None:
    """
    A whole job on one sheet: apart, loose, what to buy, together, how tight, what to check.

    FILE is TOML: what comes off, what holds it, what will not move. Begin with
    fastkit job --example > pump.toml
    """
    if sum((file is not None, example, again is not None)) != 1:
        raise Misuse("expected one of a job file, --again NAME, --example")
    if example:
        from fastkit.answers.job_file import EXAMPLE

        if as_read or as_json or name is not None:
            raise Misuse("--example stands alone")
        click.echo(EXAMPLE.read_text("utf-8"), nl=False)
        return
    text, said = (text_of(Path(file)), ()) if file is not None else recall(again or "")
    answer = job(text)
    if name is not None:
        said += save(name, text)
    for line in dict.fromkeys(said):
        click.echo(trouble_line(line), err=True)
    if as_read:
        from fastkit.answers.job_file import written_job

        click.echo(written_job(answer.job), nl=False)
        return

    def render(columns: int) -> list[str]:
        from fastkit.cli.job_screen import sheet

        return list(sheet(answer, columns))

    emit(document(answer), as_json, render)
