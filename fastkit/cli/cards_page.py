"""The phone page of `fastkit cards --page`: worked out once, then put together."""

import sys
from collections.abc import Iterator, Sequence
from pathlib import Path
from typing import TYPE_CHECKING

import click

from fastkit.cli.output import trouble_line, wrap

if TYPE_CHECKING:
    from sqlite3 import Connection

    from fastkit.deck.card import Card

PARTS = 10  # lines of progress where nobody watches


def page_bytes(store: "Connection", cards: "Sequence[Card]") -> bytes:
    """Return the page, telling on standard error how far the plans are."""
    from fastkit.answers.grid import content
    from fastkit.deck.phone import page

    told = content(
        store, _Progress().hear, told=lambda said: click.echo(trouble_line(said), err=True)
    )
    click.echo(f"cards: putting the page together with {len(cards)} of them …", err=True)
    text: str = page(told, cards, store)
    return text.encode()


class _Progress:
    """How many plans are done: one line that changes, or a line for each tenth."""

    def __init__(self) -> None:
        self.tenth = -1

    def hear(self, done: int, of: int) -> None:
        said = f"cards: {done} of {of} plans worked out, once for this data"
        if sys.stderr.isatty():
            click.echo(f"\r\x1b[K{said}", err=True, nl=done == of)
        elif done * PARTS // of > self.tenth:
            self.tenth = done * PARTS // of
            click.echo(said, err=True)


def written(path: Path, cards: int, size: int, columns: int) -> Iterator[str]:
    """Yield what was written and how to use it."""
    yield from wrap(f"{path}: {cards} cards, {size / 1e6:.2f} MB", columns)
    yield from wrap("Copy it to the phone and open it there; it needs no network.", columns)
