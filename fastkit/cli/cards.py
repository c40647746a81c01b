"""`fastkit cards`."""

import sys
from collections.abc import Iterator, Sequence
from pathlib import Path
from typing import TYPE_CHECKING, Any

import click

from fastkit.cli.helped import Command
from fastkit.cli.output import PLAIN, WIDE, answering, asked, clean, emit, wrap
from fastkit.errors import Misuse

if TYPE_CHECKING:
    from sqlite3 import Connection

    from fastkit.deck.card import Card

OUT = Path("cards_out/fastkit-cards.pdf")
PAGE = "fastkit-page.html"
BAR = 16
# options that help explains at once
FIRST = (
    "wanted",
    "listing",
    "out",
    "job",
    "page",
    "paper",
    "duplex",
)


@click.command(cls=Command, first=FIRST)
@click.option(
    "--only",
    "wanted",
    multiple=True,
    metavar="WORDS|IDS",
    help="Only cards that these words, a card's id or an entry id name; repeatable.",
)
@click.option("--list", "listing", is_flag=True, help="Say which cards there are; draw nothing.")
@click.option(
    "--size",
    type=click.Choice(["sleeve", "3x5"]),
    default="sleeve",
    show_default=True,
    help="63.5 x 88.9 mm, or 3 x 5 in.",
)
@click.option(
    "--paper",
    type=click.Choice(["a4", "letter"]),
    default="a4",
    show_default=True,
    help="Sheet to print on.",
)
@click.option(
    "--duplex",
    type=click.Choice(["long", "short", "none"]),
    default="long",
    show_default=True,
    help="Edge about which the printer turns the sheet.",
)
@click.option("--mono", is_flag=True, help="Black only.")
@click.option(
    "--out",
    type=click.Path(path_type=Path),
    metavar="FILE",
    help=f"File to write [default: {OUT.name} or {PAGE} in cards_out, else here].",
)
@click.option("--force", is_flag=True, help="Write over a file that fastkit did not make.")
@click.option("--for", "job", metavar="JOBFILE", help="A job's own cards, from its file.")
@click.option(
    "--page",
    is_flag=True,
    help="One page for a phone without a network, in place of sheets; nothing of your own file.",
)
@click.option("--json", "as_json", is_flag=True, help="Print one JSON document.")
def command(
    wanted: tuple[str, ...],
    listing: bool,
    size: str,
    paper: str,
    duplex: str,
    mono: bool,
    out: Path | None,
    force: bool,
    job: str | None,
    page: bool,
    as_json: bool,
) -> None:
    """Pocket cards as a PDF, true to scale: emergencies, torque, sizes, gauges."""
    if page and job:
        raise Misuse("--page holds nothing of your own; expected it without --for")
    if job and wanted:
        raise Misuse("--for makes a job's own cards; expected it without --only")
    from fastkit.answers.cards import opened

    store = opened()
    usual = OUT.with_name(PAGE) if page else OUT
    path = out or (usual if usual.parent.is_dir() else Path(usual.name))
    if not listing:
        from fastkit.deck.target import check_target, write

        check_target(path, force)  # asked first: what follows takes a while
        click.echo("cards: asking the data …", err=True)
    with answering(as_json, {"cards": []}):
        cards = _made(store, wanted, job, own=not page)
    _progress("")
    document: dict[str, Any] = {
        "cards": [{"id": c.id, "title": c.title, "entries": list(c.entries)} for c in cards]
    }
    if listing:
        emit(document, as_json, lambda columns: _listed(cards, columns))
        return
    if page:
        from fastkit.cli.cards_page import page_bytes, written

        data = page_bytes(store, cards)
        write(path, data, force)
        document |= {"file": str(path), "bytes": len(data)}
        emit(document, as_json, lambda columns: written(path, len(cards), len(data), columns))
        return
    data = _sheets(store, cards, size, paper, duplex, mono)
    write(path, data, force)
    told = {"file": str(path), "size": size, "paper": paper, "duplex": duplex, "bytes": len(data)}
    emit(document | told, as_json, lambda columns: _written(path, len(cards), duplex, columns))


def _sheets(
    store: "Connection", cards: "list[Card]", size: str, paper: str, duplex: str, mono: bool
) -> bytes:
    """The sheets as a PDF, with how far the drawing is."""
    from fastkit.answers.cards import data_version
    from fastkit.deck.pdf import pdf_bytes
    from fastkit.deck.sheet import impose

    click.echo(f"cards: drawing {len(cards)} of them …", err=True)
    sides = len(impose(len(cards), size, paper, duplex))
    data = pdf_bytes(
        cards,
        data_version(store),
        lambda said: click.echo(f"cards: {said}", err=True),
        lambda side: _progress(bar(side, sides)),
        size=size,
        paper=paper,
        duplex=duplex,
        mono=mono,
    )
    _progress("")
    return data


def _made(store: "Connection", wanted: tuple[str, ...], job: str | None, own: bool) -> "list[Card]":
    """The cards of the deck, or of a job."""
    if job is None:
        from fastkit.deck.content import deck

        return deck(store, wanted, _progress, own)
    from fastkit.answers import job as jobs
    from fastkit.answers.job_kept import text_of
    from fastkit.deck.cards_job import job_cards

    return job_cards(jobs.job(text_of(Path(job)), store=store))


def bar(done: int, of: int) -> str:
    """
    How much is drawn, as a bar of sixteen.

    Args:
        done: Sides laid out.
        of: All sides, > 0.
    """
    full = BAR * done // of
    return f"[{'#' * full}{'.' * (BAR - full)}] side {done} of {of}"


def _progress(what: str) -> None:
    """Where a person watches, one line that changes, empty at last; a pipe was told enough."""
    if sys.stderr.isatty():
        click.echo(f"\r\x1b[K{what and 'cards: '}{what}", err=True, nl=False)


def _listed(cards: "Sequence[Card]", columns: int) -> Iterator[str]:
    """Numbers and titles down the columns; if wide a line each with id and question."""
    if asked(WIDE):
        for card in cards:
            yield from wrap(
                f"{card.title}: {card.question}", columns, f"{card.number:3}  {card.id:<27}"
            )
        return
    cells = [f"{card.number:3} {clean(card.title)}" for card in cards]
    for beside in (1,) if asked(PLAIN) else (3, 2, 1):
        rows = -(-len(cells) // beside)
        wide = [max(map(len, cells[at : at + rows])) + 1 for at in range(0, len(cells), rows)]
        if sum(wide) <= columns + 1:
            break
    if beside > 1:
        for row in range(rows):
            line = zip(cells[row::rows], wide, strict=False)
            yield "".join(cell.ljust(room) for cell, room in line).rstrip()
    else:
        for card in cards:
            yield from wrap(card.title, columns, f"{card.number:3} ")
    yield from wrap("Ids and questions: fastkit cards --list --wide", columns)


def _written(path: Path, cards: int, duplex: str, columns: int) -> Iterator[str]:
    yield from wrap(f"{path}: {cards} cards", columns)
    how = {
        "long": "both sides, turned about the long edge",
        "short": "both sides, turned about the short edge",
        "none": "one side; put fronts and backs together in a sleeve",
    }[duplex]
    yield from wrap(f"Print at 100 %, not fitted to the page, {how}.", columns)
    yield from wrap("Measure the 50 mm bar in the margin before you trust a gauge.", columns)
