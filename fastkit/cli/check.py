"""`fastkit check`."""

from collections.abc import Iterator

import click

from fastkit.answers.check import CheckAnswer, check
from fastkit.cli.output import emit, trouble_line


@click.command()
@click.option("--json", "as_json", is_flag=True, help="Print one JSON document.")
@click.pass_context
def command(ctx: click.Context, as_json: bool) -> None:
    """Is this installation sound: file, links, age, and how far its rows are checked."""
    answer = check()
    for problem in answer.problems:
        click.echo(trouble_line(problem), err=True)
    if not answer.ok:
        ctx.exit(3)
    emit(answer._asdict(), as_json, lambda columns: _lines(answer))


def _lines(answer: CheckAnswer) -> Iterator[str]:
    yield f"fastkit {answer.version}, data {answer.data_version}, {answer.rows} rows: sound"
    yield ""
    total = sum(answer.checked.values())
    yield f"hand-kept rows      {total:6}"
    for state, count in answer.checked.items():
        yield f"  {state:<18}{count:6}  {100 * count / max(total, 1):5.1f} %"
