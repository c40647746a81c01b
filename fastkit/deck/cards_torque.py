"""Torque cards."""

import sqlite3

from fastkit.deck.card import Card


def cards(store: sqlite3.Connection) -> list[Card]:
    """All torque cards."""
    return []
