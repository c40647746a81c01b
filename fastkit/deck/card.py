"""What a card is: two faces of blocks, each block one thing to look at."""

import sqlite3
import unicodedata
from collections.abc import Callable, Iterable
from typing import Any, NamedTuple, Protocol, TypedDict

MARKS = {"m": "memory", "p": "practice"}
MEANING = {
    "m": "memory: known, not yet confirmed by reading",
    "p": "practice: workshop judgement, no published source",
}


class Drawing(NamedTuple):
    """One or more vector drawings side by side, markup made by this package only, and words."""

    svg: str
    caption: str = ""
    kind: str = "drawing"


class Figure(NamedTuple):
    """One large number: what it is, the number, its unit, the same in the other system, mark."""

    label: str
    value: str
    unit: str
    also: str = ""
    mark: str = ""


class Figures(NamedTuple):
    """Large numbers side by side."""

    items: tuple[Figure, ...]
    kind: str = "figures"


class Cell(NamedTuple):
    """
    One cell of a table; `look` is one of plain, big, head, small, fine, key.

    `of` says which number it prints: a record, its field, what it was multiplied by.
    """

    text: str
    look: str = "plain"
    mark: str = ""
    of: tuple[Any, str, float] | None = None


class Table(NamedTuple):
    """
    A table of few columns; `more` names where rows stand that a face has no room for.

    A head is a word, or a cell where the whole column has one standing.
    """

    heads: tuple[str | Cell, ...]
    rows: tuple[tuple[Cell, ...], ...]
    more: str = ""
    kind: str = "table"


class Step(NamedTuple):
    """One step: a tag (1, 2, STOP), what to do, a word on it."""

    tag: str
    title: str
    text: str = ""
    mark: str = ""


class Steps(NamedTuple):
    """Steps in order."""

    items: tuple[Step, ...]
    kind: str = "steps"


class Text(NamedTuple):
    """A few lines; `look` is one of plain, small, strong."""

    text: str
    look: str = "plain"
    kind: str = "text"


class Caution(NamedTuple):
    """What can hurt someone, set apart by stripes and a word, not by colour."""

    text: str
    kind: str = "caution"


Block = Drawing | Figures | Table | Steps | Text | Caution


class Card(NamedTuple):
    """
    One card: one question, answered on the front, completed on the back.

    `entries` are full entry ids, `sources` keys of sources, `marks` the standing of its weakest
    numbers (letters of MARKS). A bare back
    is one drawing over the whole face, with text in its middle.
    """

    id: str
    family: str
    title: str
    question: str
    entries: tuple[str, ...]
    sources: tuple[str, ...]
    front: tuple[Block, ...]
    back: tuple[Block, ...] = ()
    marks: str = ""
    number: int = 0
    back_title: str = ""
    bare_back: bool = False


class Sketch(NamedTuple):
    """A card not yet made: its names, what asks for its contents, and for cards that go on."""

    id: str
    family: str
    title: str
    question: str
    build: Callable[[sqlite3.Connection], Card]
    going_on: Callable[[sqlite3.Connection], list[Card]] = lambda _: []


def clean(text: str, limit: int) -> str:
    """
    Text that is safe to set: no control, bidirectional or unassigned characters, at most `limit`.

    Args:
        text: Anything a person or a file may have put in.
        limit: Most characters kept; a longer text ends in an ellipsis.
    """
    kept = "".join(
        " " if unicodedata.category(c)[0] in "CZ" else c for c in unicodedata.normalize("NFC", text)
    )
    words = " ".join(kept.split())
    return words if len(words) <= limit else words[: limit - 1].rstrip() + "…"


def standing(checked: str) -> str:
    """The mark of a row's standing: m for memory, p for judgement, else none."""
    return {"memory": "m", "judgement": "p"}.get(checked, "")


class Sourced(Protocol):
    """A row that says where it comes from."""

    @property
    def source(self) -> str:
        """Key of the source."""

    @property
    def checked(self) -> str:
        """Standing of the row."""


class Gathered(TypedDict):
    """What a card tells of the rows behind it."""

    entries: tuple[str, ...]
    sources: tuple[str, ...]
    marks: str


def gathered(kind: str, found: Iterable[Sourced], also: Iterable[Sourced] = ()) -> Gathered:
    """
    Entry ids, sources and marks of the rows that a card shows.

    Args:
        kind: Kind of the entries, as in thread:M8x1.25.
        found: Rows with a key, each an entry.
        also: Further rows that only lend numbers.
    """
    every = [*found, *also]
    keys = dict.fromkeys(f"{kind}:{r.id}" for r in every if hasattr(r, "id") and r not in also)
    return Gathered(
        entries=tuple(keys),
        sources=tuple(dict.fromkeys(r.source for r in every)),
        marks="".join(sorted({standing(r.checked) for r in every})),
    )


def inches(mm: float) -> str:
    """
    A length as decimal inches, for a drawing's small print: .236 in.

    Args:
        mm: Length [mm].
    """
    return f"{mm / 25.4:.3f}".removeprefix("0")


def shortened(ids: tuple[str, ...], most: int = 6, letters: int = 84) -> str:
    """
    Entry ids on one line or two: the kind said once, a long run as its first and last.

    Args:
        ids: Full entry ids.
        most: Keys of a kind that are all said.
        letters: Length above which fewer are said, and what still does not fit is counted.
    """
    kinds: dict[str, list[str]] = {}
    for entry in ids:
        kind, _, key = entry.partition(":")
        kinds.setdefault(kind, []).append(key)
    for limit in (most, 2, 1):
        said = [
            f"{kind}:{keys[0]} … {keys[-1]} ({len(keys)})"
            if len(keys) > limit
            else f"{kind}:{' '.join(keys)}"
            for kind, keys in kinds.items()
        ]
        if len(" · ".join(said)) <= letters:
            break
    return counted(said, letters)


def counted(words: Iterable[str], letters: int = 84) -> str:
    """
    Words with dots between them as far as they fit, then how many more there are.

    Args:
        words: What to say.
        letters: Most letters.
    """
    every = list(words)
    for kept in range(len(every), 0, -1):
        left = len(every) - kept
        said = " · ".join([*every[:kept], *([f"and {left} more"] if left else [])])
        if len(said) <= letters:
            return said
    return clean(" · ".join(every), letters)
