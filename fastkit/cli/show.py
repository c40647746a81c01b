"""`fastkit show`."""

from collections.abc import Iterator, Mapping

import click

from fastkit.answers.show import ShowAnswer, show, sources
from fastkit.answers.show_rows import Standing, standing_of
from fastkit.answers.show_words import (
    GOVERNED,
    MAKER_GOVERNS,
    MARKS,
    UNSHOWN,
    Row,
    label,
    row_words,
    value_words,
)
from fastkit.cli.output import answering, bold, emit, wrap

EMPTY = {"id": None, "title": None, "source": None, "locator": None, "checked": None}
WORDS = {
    "formula": "by formula",
    "outside": "compared with a second copy",
    "copied": "copied",
    "memory": "from memory, not yet confirmed",
    "judgement": "workshop practice, judgement",
}


@click.command()
@click.argument("id", metavar="ID")
@click.option("--json", "as_json", is_flag=True, help="Print one JSON document.")
def command(id: str, as_json: bool) -> None:
    """
    Show one entry whole, each value with its source.

    ID is an entry's id as `find` prints it: thread:M8x1.25, drive:T20, method:weld-nut.
    """
    with answering(as_json, EMPTY):
        answer = show(id)
    emit(answer.document, as_json, lambda columns: _lines(answer, columns))


def _lines(answer: ShowAnswer, columns: int) -> Iterator[str]:
    yield bold("\n".join(wrap(answer.title, columns)))
    yield from wrap(answer.id, columns)
    numbers = {standing: n for n, (_, standing) in enumerate(sources(answer.groups), 1)}
    own = [group.rows[0] for group in answer.groups if not group.name]
    names = [name for row in own for name in row if name not in UNSHOWN and row[name] is not None]
    wide = min(max((len(label(name)) for name in names), default=0), 24) + 2
    if names:
        yield ""
    for row in own if names else ():
        yield from _values(row, numbers, columns, wide)
    for group in answer.groups:
        if group.name and group.rows:
            yield ""
            yield bold(label(group.name))
            for row in group.rows:
                yield from wrap(f"{row_words(row)}{_mark(row, numbers)}", columns, "  ", "    ")
    if numbers:
        yield ""
        yield bold("sources")
    for standing, n in numbers.items():
        title = answer.titles.get(standing.source, standing.source)
        where = "" if standing.locator == "-" else f"; {standing.locator}"
        yield from wrap(f"{title}{where} ({WORDS[standing.checked]})", columns, f"[{n}] ")
    if answer.kind in GOVERNED:
        yield ""
        yield from wrap(MAKER_GOVERNS, columns)


def _values(row: Row, numbers: Mapping[Standing, int], columns: int, wide: int) -> Iterator[str]:
    """The entry's own values, one a line; lists of sentences under their name."""
    shown = {k: v for k, v in row.items() if v is not None and k not in UNSHOWN}
    for name, value in shown.items():
        if isinstance(value, list):
            if value:
                yield ""
                yield bold(label(name))
            for n, text in enumerate(value, 1):
                yield from wrap(text, columns, f"  {n}. ")
        else:
            text = f"{value_words(name, value)}{_mark(row, numbers)}"
            yield from wrap(text, columns, label(name).ljust(wide), " " * wide)


def _mark(row: Row, numbers: Mapping[Standing, int]) -> str:
    """Number of the row's source, and a word where the value is not from a published copy."""
    standing = standing_of(row)
    if standing is None:
        return ""
    return f"  [{numbers[standing]}{MARKS.get(standing.checked, '')}]"
