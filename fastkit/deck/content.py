"""The deck's cards in their order, and the choice of some of them."""

import re
import sqlite3
from collections.abc import Callable, Sequence
from functools import cache

from fastkit.deck import (
    cards_deck,
    cards_emergency,
    cards_find,
    cards_gauge,
    cards_hardware,
    cards_ladder,
    cards_loosen,
    cards_marks,
    cards_own,
    cards_repair,
    cards_replace,
    cards_size,
    cards_start,
    cards_thread,
    cards_tighten,
    cards_torque,
    cards_units,
)
from fastkit.deck.card import Card, Sketch
from fastkit.errors import NotHeld

FAMILY_WORDS = {
    "start": "first start index before",
    "emergency": "emergency extract stuck seized broken damage",
    "torque": "torque tighten tightening window",
    "loosen": "loosen loosening stuck seized bond soak heat shock",
    "gauge": "gauge gauges silhouette scale identify which size sizes",
    "replace": "replace replacement choose new hardware",
    "repair": "repair repairing drill drills tap taps hole size sizes",
    "deck": "deck about",
}


def sketches(own: bool = True) -> list[Sketch]:
    """
    All cards in their order, none made yet; a card's number is its place, from 1.

    `own` says whether cards of the user's own file are among them.
    """
    thread = {s.id: s for s in cards_thread.SKETCHES}
    plain = (
        *cards_start.SKETCHES,
        cards_find.LEFT,
        *cards_emergency.SKETCHES,
        *cards_loosen.SKETCHES,
        *cards_ladder.SKETCHES,
        *cards_torque.SKETCHES,
        *cards_tighten.SKETCHES,
        thread["thread-diameter"],
        thread["look-alikes"],
        thread["gauge-pitch"],
        thread["pipe-threads"],
        *cards_gauge.SKETCHES,
        *(s for s in cards_size.SKETCHES if s.family == "gauge"),
        *cards_marks.SKETCHES,
        *cards_replace.SKETCHES,
        *cards_hardware.SKETCHES,
        *(s for s in cards_size.SKETCHES if s.family == "repair"),
        *cards_repair.SKETCHES,
        *(cards_own.own_sketches() if own else ()),
        *cards_own.SKETCHES,
        *cards_units.SKETCHES,
        Sketch(*cards_deck.VERIFY, cards_deck.verify),
    )
    body = [sketch._replace(build=cache(sketch.build)) for sketch in plain]

    @cache
    def named(held: sqlite3.Connection) -> list[Card]:
        return cards_deck.sources(held, [sketch.build(held) for sketch in body])

    sources = Sketch(*cards_deck.SOURCES, lambda held: named(held)[0], lambda held: named(held)[1:])

    found = cards_find.finder({sketch.id: n for n, sketch in enumerate(body, 3)})

    def index(_: sqlite3.Connection) -> Card:
        return cards_deck.index(list(enumerate([found, *body, sources], 2)))

    return [Sketch(*cards_deck.INDEX, index), found, *body, sources]


def deck(
    store: sqlite3.Connection,
    wanted: Sequence[str] = (),
    told: Callable[[str], None] = lambda _: None,
    own: bool = True,
) -> list[Card]:
    """
    The cards, numbered; only those that a wish names, where there are wishes.

    Args:
        store: Open reference.
        wanted: Ids, entry ids, numbers, or words of a card.
        told: Hears of each card that is begun, for a progress line.
        own: Whether cards of the user's own file are among them.

    Raises:
        NotHeld: A wish that names no card; `nearest` holds ids that share letters with it.
    """
    cards: dict[int, list[Card]] = {}
    every = list(enumerate(sketches(own), 1))

    def made(number: int, sketch: Sketch) -> list[Card]:
        if number not in cards:
            told(f"{number} of {len(every)}, {sketch.id}")
            found = [sketch.build(store), *sketch.going_on(store)]
            cards[number] = [c._replace(number=n) for n, c in enumerate(found, number)]
        return cards[number]

    if not wanted:
        return [card for number, sketch in every for card in made(number, sketch)]
    chosen: set[int] = set()
    for wish in wanted:
        low = wish.strip().lower()
        found = {number for number, sketch in every if low == sketch.id}
        found = found or {number for number, sketch in every if names(number, sketch, wish)}
        if ":" in wish:
            found |= {n for n, s in every if any(wish.strip() in c.entries for c in made(n, s))}
        if not found:
            close = sorted((s for _, s in every), key=lambda s: -_shared(s.id, wish))[:3]
            raise NotHeld(
                f"no card answers to {wish[:60]!r}, expected a card's id, an entry id or words",
                tuple(s.id for s in close),
            )
        chosen |= found
    return [card for number, sketch in every if number in chosen for card in made(number, sketch)]


def names(number: int, sketch: Sketch, wish: str) -> bool:
    """Whether a wish means a card: its number, or words that all begin words of it."""
    low = wish.strip().lower()
    if low.isdigit():
        return low == str(number)
    bag = f"{sketch.id} {sketch.title} {sketch.question} {FAMILY_WORDS[sketch.family]}".lower()
    held = re.findall(r"[\w.]+", bag)
    words = re.findall(r"[\w.:]+", low)
    return bool(words) and all(any(h.startswith(w) for h in held) for w in words)


def _shared(id: str, wish: str) -> int:
    """How many letter pairs an id and a wish share."""
    pairs = {wish[k : k + 2].lower() for k in range(len(wish) - 1)}
    return sum(id[k : k + 2] in pairs for k in range(len(id) - 1))
