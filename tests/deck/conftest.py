"""One deck, laid out and printed once, for all tests that look at it."""

import io
import sqlite3
from collections.abc import Iterator

import pdfplumber
import pytest

from fastkit.deck import content, pdf
from fastkit.deck.card import Card

MM = 25.4 / 72


@pytest.fixture(scope="session")
def cards(store: sqlite3.Connection) -> list[Card]:
    """The whole deck from the data as it stands."""
    return content.deck(store)


@pytest.fixture(scope="session")
def printed(cards: list[Card]) -> bytes:
    """The deck on A4, sleeve size, turned about the long edge."""
    return pdf.pdf_bytes(cards, "0123456789ab")


@pytest.fixture(scope="session")
def opened(printed: bytes) -> Iterator[pdfplumber.PDF]:
    """The printed deck for measuring."""
    with pdfplumber.open(io.BytesIO(printed)) as document:
        yield document
