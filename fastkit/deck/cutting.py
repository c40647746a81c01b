"""What comes off a card whose contents do not fit: rows and words, never a caution."""

from typing import NamedTuple

from fastkit.deck.card import Block, Card, Cell, Figures, Steps, Table, Text, clean

ROW_MM = {"big": 5.8, "head": 4.2}
"""About the height of a row by its largest look; 3 of any other [mm]."""


class Spill(NamedTuple):
    """Something that leaves its box: card, side, header, body or footer, how far, its words."""

    card: str
    back: bool
    place: str
    mm: float
    words: str


def shortened_by(card: Card, spill: Spill) -> Card:
    """
    The card with a little less where it spilled; the card itself where nothing may come off.

    Args:
        card: The card.
        spill: Where and by how much.
    """
    if spill.place == "body":
        face = card.back if spill.back else card.front
        less = _less(face, spill, card.title)
        return card._replace(back=less) if spill.back else card._replace(front=less)
    if spill.place == "footer":
        return card._replace(entries=card.entries[:1], sources=card.sources[:1])
    if spill.back and card.back_title:
        return card._replace(back_title=_fewer(card.back_title))
    return card._replace(title=_fewer(card.title), question=_fewer(card.question))


def _fewer(words: str) -> str:
    """The same words, one sixth shorter."""
    return clean(words, max(len(words) * 5 // 6, 1)) if len(words) > 1 else words


def _less(face: tuple[Block, ...], spill: Spill, title: str) -> tuple[Block, ...]:
    """A face without its last rows, last steps, or the end of its longest text."""
    tables = [n for n, b in enumerate(face) if isinstance(b, Table) and len(b.rows) > 1]
    if tables:
        n = max(tables, key=lambda k: len(getattr(face[k], "rows", ())))
        return _with(face, n, _fewer_rows(face[n], spill, title))
    steps = [n for n, b in enumerate(face) if isinstance(b, Steps) and len(b.items) > 1]
    if steps:
        block = face[steps[-1]]
        assert isinstance(block, Steps)
        stop = block.items[-1].tag == "STOP"  # the sign to stop at is kept
        kept = (*block.items[:-2], block.items[-1]) if stop else block.items[:-1]
        return _with(face, steps[-1], block._replace(items=kept))
    texts = [n for n, b in enumerate(face) if isinstance(b, Text) and len(b.text) > 8]
    if texts:
        n = max(texts, key=lambda k: len(getattr(face[k], "text", "")))
        return _with(face, n, Text(_fewer(getattr(face[n], "text", "")), "small"))
    cells = [n for n, b in enumerate(face) if isinstance(b, Table)]
    if cells:
        return _with(face, cells[0], _smaller(face[cells[0]]))
    figures = [n for n, b in enumerate(face) if isinstance(b, Figures) and len(b.items) > 1]
    if figures:
        block = face[figures[-1]]
        assert isinstance(block, Figures)
        return _with(face, figures[-1], block._replace(items=block.items[:-1]))
    return face


def _with(face: tuple[Block, ...], place: int, block: Block) -> tuple[Block, ...]:
    """A face with one block put in place of another."""
    return (*face[:place], block, *face[place + 1 :])


def _fewer_rows(block: Block, spill: Spill, title: str) -> Table:
    """A table without the rows that are too much, and a line that says where they are."""
    assert isinstance(block, Table)
    said = f"more: fastkit find {block.more or title.lower()}"
    rows = block.rows
    if rows[-1][0].text.startswith("more: "):
        rows = rows[:-1]
    tall = max(ROW_MM.get(c.look, 3.0) for row in rows for c in row)
    off = max(1, int(spill.mm / tall))
    kept = rows[: max(1, len(rows) - off)]
    return block._replace(rows=(*kept, (Cell(said, "fine"),)))


def _smaller(block: Block) -> Table:
    """A table of one row in small type, its words shorter."""
    assert isinstance(block, Table)
    rows = tuple(
        tuple(c._replace(text=_fewer(c.text), look="fine") for c in row) for row in block.rows
    )
    return block._replace(rows=rows)
