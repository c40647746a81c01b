"""`fastkit find`."""

from collections.abc import Iterator, Sequence

import click

from fastkit.answers.find import FindAnswer, Kind, find, kinds
from fastkit.cli.helped import Command
from fastkit.cli.output import bold, clean, danger_lines, emit, wrap
from fastkit.errors import NotHeld

EMPTY: dict[str, object] = {"query": "", "read_as": "", "hits": [], "dangers": []}


@click.command(cls=Command)
@click.argument("words", nargs=-1)
@click.option("--limit", type=int, default=10, show_default=True, help="Most hits to show.")
@click.option("--kind", help="Only entries of this kind: thread, drive, grade, torque, method …")
@click.option("--json", "as_json", is_flag=True, help="Print one JSON document.")
def command(words: tuple[str, ...], limit: int, kind: str | None, as_json: bool) -> None:
    """
    Find anything by a few words: a designation, a trade name, a misspelt name.

    WORDS are as you would say them: m8 8.8 torque, 3/8 fine, penetrating oil. Without any, the
    map of what there is.
    """
    if not words and kind is None:
        there = kinds()
        emit(
            {**EMPTY, "kinds": [row._asdict() for row in there]}, as_json, lambda c: _map(there, c)
        )
        return
    answer = find(" ".join(words), limit, kind)
    if answer.hits or answer.dangers or as_json:
        emit(_document(answer), as_json, lambda columns: _lines(answer, columns))
    if not answer.hits:
        raise NotHeld(answer.reason or "nothing found", answer.nearest)


def _document(answer: FindAnswer) -> dict[str, object]:
    document: dict[str, object] = {
        "query": answer.query,
        "read_as": answer.read_as,
        "hits": [hit._asdict() for hit in answer.hits],
        "dangers": list(answer.dangers),
    }
    if not answer.hits:
        document |= {"reason": answer.reason, "nearest": list(answer.nearest)}
    return document


def _map(there: Sequence[Kind], columns: int) -> Iterator[str]:
    wide = max(len(row.kind) for row in there)
    for row in there:
        yield from wrap(row.example, columns, f"{row.kind:<{wide}} {row.entries:5}  as ")
    yield ""
    yield from wrap('Say what you look for: fastkit find "what drill for m6 tap".', columns)


def _lines(answer: FindAnswer, columns: int) -> Iterator[str]:
    yield from wrap(answer.read_as, columns, "read as ")
    yield from danger_lines(answer.dangers, columns)
    if not answer.hits:
        return
    wide = min(max(len(hit.id) for hit in answer.hits), columns // 2)
    for hit in answer.hits:
        name = clean(hit.id).ljust(wide)
        if len(name) > wide:
            yield bold(name)
            name = " " * wide
        first, *rest = wrap(hit.title, columns - wide - 2)
        yield f"{bold(name)}  {first}"
        yield from (" " * (wide + 2) + line for line in rest)
    yield ""
    yield from wrap(f"fastkit show {answer.hits[0].id} shows the first one whole.", columns)
    if answer.see:
        import shlex

        asked = shlex.quote(clean(answer.query.strip()))
        yield from wrap(f"fastkit {answer.see} {asked} plans what to do first.", columns)
