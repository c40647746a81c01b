"""Where each card goes on the paper: imposition, cut marks, duplex registration."""

from typing import NamedTuple

SIZES = {"sleeve": (63.5, 88.9), "3x5": (76.2, 127.0)}  # mm
PAPERS = {"a4": (210.0, 297.0), "letter": (215.9, 279.4)}  # mm
DUPLEX = ("long", "short", "none")
MARK_GAP_MM, MARK_MM = 0.8, 4.0
"""A cut mark starts this far outside the outermost card and is at most this long."""


class Place(NamedTuple):
    """A cell on a sheet: index of its card, left and top edge in mm, turned upside down or not."""

    card: int
    left_mm: float
    top_mm: float
    turned: bool


class Mark(NamedTuple):
    """A cut mark: left, top, length in mm; upright or lying."""

    left_mm: float
    top_mm: float
    length_mm: float
    upright: bool


class Sheet(NamedTuple):
    """One side of one sheet of paper."""

    back: bool
    places: tuple[Place, ...]
    marks: tuple[Mark, ...]


class Grid(NamedTuple):
    """How many cards of one size stand on one paper, and where the first begins."""

    columns: int
    rows: int
    left_mm: float
    top_mm: float
    card_mm: tuple[float, float]
    paper_mm: tuple[float, float]


def grid(size: str, paper: str) -> Grid:
    """
    The block of cards, centred, so that a sheet turned over covers itself.

    Args:
        size: A key of SIZES.
        paper: A key of PAPERS.
    """
    (w, h), (pw, ph) = SIZES[size], PAPERS[paper]
    columns, rows = int((pw - 10) // w), int((ph - 10) // h)
    return Grid(columns, rows, (pw - columns * w) / 2, (ph - rows * h) / 2, (w, h), (pw, ph))


def marks(g: Grid) -> tuple[Mark, ...]:
    """Marks in the sheet's margin on every cut line, none of them on a card."""
    (w, h), (pw, ph) = g.card_mm, g.paper_mm
    out = []
    for edge, span, cuts, start, step, upright in (
        (g.top_mm, ph, g.columns, g.left_mm, w, True),
        (g.left_mm, pw, g.rows, g.top_mm, h, False),
    ):
        length = min(MARK_MM, edge - MARK_GAP_MM - 0.5)
        for k in range(cuts + 1):
            at = start + k * step
            for begin in (edge - MARK_GAP_MM - length, span - edge + MARK_GAP_MM):
                out.append(
                    Mark(at, begin, length, True) if upright else Mark(begin, at, length, False)
                )
    return tuple(out)


def impose(count: int, size: str, paper: str, duplex: str) -> tuple[Sheet, ...]:
    """
    Sheets in printing order: a front, its back, the next front and so on.

    A back lands behind its own front when the sheet is turned about its long edge (columns run the
    other way) or its short edge (rows run the other way and each back stands on its head, so that
    a card is always turned like a page of a book). Without duplex the backs lie in the order of
    the fronts, to be put back to back in a sleeve.

    Args:
        count: Number of cards.
        size: A key of SIZES.
        paper: A key of PAPERS.
        duplex: long, short or none.
    """
    g = grid(size, paper)
    cut = marks(g)
    sheets = []
    for first in range(0, count, g.columns * g.rows):
        cards = range(first, min(count, first + g.columns * g.rows))
        for back in (False, True):
            places = []
            for card in cards:
                row, column = divmod(card - first, g.columns)
                if back and duplex == "long":
                    column = g.columns - 1 - column
                if back and duplex == "short":
                    row = g.rows - 1 - row
                places.append(
                    Place(
                        card,
                        g.left_mm + column * g.card_mm[0],
                        g.top_mm + row * g.card_mm[1],
                        back and duplex == "short",
                    )
                )
            sheets.append(Sheet(back, tuple(places), cut))
    return tuple(sheets)
