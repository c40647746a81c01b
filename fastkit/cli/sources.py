"""`fastkit sources`."""

from collections.abc import Iterator, Sequence
from pathlib import Path

import click

from fastkit.answers.sources import SourceCount, export, sources
from fastkit.cli.helped import Command
from fastkit.cli.output import WIDE, asked, clean, emit, wrap

MOST = 15  # sources that one screen shows: those that most rows stand on


@click.command(cls=Command)
@click.option(
    "--export",
    "folder",
    metavar="DIR",
    type=click.Path(file_okay=False, path_type=Path),
    help="Write every table as CSV into this folder, with its source columns.",
)
@click.option("--json", "as_json", is_flag=True, help="Print one JSON document.")
def command(folder: Path | None, as_json: bool) -> None:
    """Where the numbers come from: each source with the rows that stand on it."""
    found = sources()
    files = export(folder) if folder else ()
    document: dict[str, object] = {"sources": [source._asdict() for source in found]}
    if folder:
        document["exported"] = [str(file) for file in files]
    emit(document, as_json, lambda columns: _lines(found, folder, files, columns, asked(WIDE)))


def _lines(
    found: Sequence[SourceCount],
    folder: Path | None,
    files: Sequence[Path],
    columns: int,
    whole: bool,
) -> Iterator[str]:
    if folder:
        yield f"{len(files)} tables written to {clean(str(folder))}"
        return
    yield " rows  share  source"
    shown = found if whole else found[:MOST]
    for source in shown:
        edition = "" if source.edition == "-" else f", {source.edition}"
        head = f"{source.rows:5} {100 * source.share:5.1f}%  "
        yield from wrap(f"{source.title}{edition} [{source.id}]", columns, head)
    yield ""
    if len(shown) < len(found):
        more = len(found) - len(shown)
        yield from wrap(f"{more} more: fastkit sources --wide", columns)
    yield from wrap(
        "Rows are those kept by hand; what is computed from them is not counted.", columns
    )
