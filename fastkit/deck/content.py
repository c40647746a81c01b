"""The deck's cards in their order, and the choice of some of them."""

import re
import sqlite3
from collections.abc import Sequence

from fastkit.deck import (
    cards_deck,
    cards_emergency,
    cards_gauge,
    cards_size,
    cards_start,
    cards_torque,
)
from fastkit.deck.card import Card
from fastkit.errors import NotHeld

FAMILY_WORDS = {
    "start": "first start index before",
    "emergency": "emergency extract stuck seized broken damage",
    "torque": "torque tighten tightening window",
    "size": "size sizes wrench drill tap clearance",
    "gauge": "gauge gauges silhouette scale identify which",
    "deck": "deck about",
}


def deck(store: sqlite3.Connection) -> list[Card]:
    """All cards, numbered, the index first."""
    body = [
        *cards_start.cards(store),
        *cards_emergency.cards(store),
        *cards_torque.cards(store),
        *cards_size.cards(store),
        *cards_gauge.cards(store),
        cards_deck.verify(),
    ]
    body.append(cards_deck.sources(store, body))
    numbered = [card._replace(number=n) for n, card in enumerate(body, 2)]
    return [cards_deck.index(numbered)._replace(number=1), *numbered]


def choose(cards: Sequence[Card], wanted: Sequence[str]) -> list[Card]:
    """
    The cards that any of the wishes names: an id, an entry id, a number, or words of the card.

    Raises:
        NotHeld: A wish that names no card; `nearest` holds ids that share letters with it.
    """
    chosen: dict[str, Card] = {}
    for wish in wanted:
        found = [card for card in cards if names(card, wish)]
        if not found:
            close = sorted(cards, key=lambda c: -_shared(c.id, wish))[:3]
            raise NotHeld(
                f"no card answers to {wish[:60]!r}, expected a card's id, entry or words",
                tuple(c.id for c in close),
            )
        chosen.update((card.id, card) for card in found)
    return [card for card in cards if card.id in chosen]


def names(card: Card, wish: str) -> bool:
    """Whether a wish means a card: by id, number, entry, or all its words."""
    low = wish.strip().lower()
    if low in (card.id, str(card.number), *(e.lower() for e in card.entries)):
        return True
    words = re.findall(r"[\w.#/-]+", low)
    bag = f"{card.id.replace('-', ' ')} {card.title} {card.question} {FAMILY_WORDS[card.family]}"
    held = set(re.findall(r"[\w.#/-]+", bag.lower()))
    return bool(words) and all(w in held or any(h.startswith(w) for h in held) for w in words)


def _shared(id: str, wish: str) -> int:
    """How many letter pairs an id and a wish share."""
    pairs = {wish[k : k + 2].lower() for k in range(len(wish) - 1)}
    return sum(id[k : k + 2] in pairs for k in range(len(id) - 1))
