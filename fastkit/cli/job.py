"""`fastkit job`."""

from pathlib import Path

import click

from fastkit.answers.job import document, job_at
from fastkit.cli.output import emit
from fastkit.errors import Misuse


@click.command()
@click.argument("file", required=False, metavar="[FILE]", type=click.Path(path_type=Path))
@click.option("--example", is_flag=True, help="Print a job file to begin with.")
@click.option("--as-read", is_flag=True, help="Print the file as it was understood, as a job file.")
@click.option("--json", "as_json", is_flag=True, help="Print one JSON document.")
def command(file: Path | None, example: bool, as_read: bool, as_json: bool) -> None:
    """
    A whole job on one sheet: apart, loose, what to buy, together, how tight, what to check.

    FILE is TOML: what comes off, what holds it, what will not move. Begin with
    fastkit job --example > pump.toml
    """
    if sum((file is not None, example)) != 1 or (as_read and example) or (example and as_json):
        raise Misuse("expected a job file, or --example alone")
    if file is None:
        from fastkit.answers.job_file import EXAMPLE

        click.echo(EXAMPLE.read_text("utf-8"), nl=False)
        return
    answer = job_at(file)
    if as_read:
        from fastkit.answers.job_file import written_job

        click.echo(written_job(answer.job), nl=False)
        return

    def render(columns: int) -> list[str]:
        from fastkit.cli.job_screen import sheet

        return list(sheet(answer, columns))

    emit(document(answer), as_json, render)
