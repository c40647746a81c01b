"""`fastkit check`."""

from collections.abc import Iterator, Sequence

import click

from fastkit.answers.check import (
    CheckAnswer,
    MemoryRow,
    Shares,
    check,
    memory_rows,
    shares,
)
from fastkit.cli.helped import Command
from fastkit.cli.output import PLAIN, asked, emit, trouble_line, wrap

TABLE = 57  # columns that the table of shares wants; else, and for a voice, it is said in words
SHARES = (("recomputed or compared", ("formula", "outside")), ("from memory", ("memory",)))


@click.command(cls=Command)
@click.option("--memory", is_flag=True, help="List the rows that no publication confirms yet.")
@click.option("--json", "as_json", is_flag=True, help="Print one JSON document.")
@click.pass_context
def command(ctx: click.Context, memory: bool, as_json: bool) -> None:
    """Is this installation sound: file, links, age, and how far its rows are checked."""
    answer = check()
    for problem in answer.problems:
        click.echo(trouble_line(problem), err=True)
    if not answer.ok:
        ctx.exit(3)
    document = {**answer._asdict(), "own": answer.own and answer.own._asdict()}
    recalled = memory_rows() if memory else ()
    if memory:
        document["memory"] = [row._asdict() for row in recalled]
    emit(document, as_json, lambda columns: _lines(answer, recalled, columns))


def _lines(answer: CheckAnswer, recalled: Sequence[MemoryRow], columns: int) -> Iterator[str]:
    held = f"data {answer.data_version}, {answer.rows} rows"
    yield from wrap(f"fastkit {answer.version}, {held}: sound", columns, rest="  ")
    own = f"{answer.own.path}, {answer.own.entries} entries: sound" if answer.own else "none yet"
    yield from wrap(f"your own file: {own}", columns)
    yield from _share_lines(shares(), columns)
    if recalled:
        yield ""
        yield "from memory:"
    for row in recalled:
        where = "" if row.locator == "-" else f", {row.locator}"
        yield from wrap(f"{row.key} ({row.source}{where})", columns, f"  {row.table}: ")


def _share_lines(found: Shares, columns: int) -> Iterator[str]:
    total = sum(found.published.values())
    yield from wrap(
        f"rows kept by hand: {total} published facts, {found.judgement} of workshop judgement, "
        f"{found.words} words and errata",
        columns,
        rest="  ",
    )
    told = (f"{state} {count}" for state, count in found.published.items())
    counted = f"{sum(found.numbers.values())} with a number"
    yield from wrap(f"published facts: {', '.join(told)}; {counted}", columns, rest="  ")
    in_words = columns < TABLE or asked(PLAIN)
    if not in_words:
        yield f"{'share of published':<24}numbers    facts    and judgement"
    for said, states in SHARES:
        shares_ = (found.share_of_numbers, found.share, found.share_of_all)
        numbers, facts, all_ = (f"{100 * share(*states):5.1f} %" for share in shares_)
        if in_words:
            line = f"{said}: {numbers} of published numbers, {facts} of published facts, "
            yield from wrap(f"{line}{all_} with judgement counted", columns, rest="  ")
        else:
            yield f"  {said:<22}{numbers}  {facts}  {all_}"
