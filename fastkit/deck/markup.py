"""
Cards as HTML: whole sheets for the printer, and each face by itself for a page.

`fragments(cards, data_version)` gives every card as two pieces of HTML, its front and its back,
without a place on a sheet; `fragment_css()` is the style of what stands in them. The only module
that loads Jinja2.
"""

import re
from collections.abc import Sequence
from functools import cache
from pathlib import Path
from typing import Any, NamedTuple

from fastkit.deck.card import MARKS, Card, clean, counted, shortened
from fastkit.deck.drawings import line, ruler, scale_bar, svg
from fastkit.deck.sheet import PAPERS, SIZES, grid, impose
from fastkit.notation.tied import TIE, tied

PRODUCER = "fastkit cards"
"""What marks a PDF as made here; only such a file is ever overwritten unasked."""

LAST = re.compile(r"(.{30,}) (\S{1,6})$")
HEAD_MM, FOOT_MM = 13.4, 8.4
FAMILIES = ("start", "emergency", "loosen", "torque", "gauge", "replace", "repair", "deck")
HERE = Path(__file__).parent
FONTS = HERE / "fonts"


class Fragment(NamedTuple):
    """One card as HTML: a section of class `face front`, another of class `face back`."""

    id: str
    number: int
    family: str
    title: str
    question: str
    front: str
    back: str


@cache
def _environment() -> Any:
    """Templates that escape all text and know no undefined name."""
    from jinja2 import Environment, FileSystemLoader, StrictUndefined

    env = Environment(
        loader=FileSystemLoader([HERE / "templates", HERE / "phone"]),
        autoescape=True,
        undefined=StrictUndefined,
        trim_blocks=True,
        finalize=_plain,
    )
    env.filters["mm"] = lambda value: f"{value:.4f}mm"
    env.filters["shortened"] = shortened
    env.filters["counted"] = counted
    env.globals["marks"] = MARKS
    return env


def _plain(value: Any) -> Any:
    """Whatever a template prints, without control or bidirectional characters, well broken."""
    return _tied(clean(value, 600)) if type(value) is str else value


def _tied(text: str) -> str:
    """The text with a blank that does not break before a unit and before a short last word."""
    return LAST.sub(rf"\1{TIE}\2", tied(text))


def _style(name: str, points: float, air: float = 1.0, **context: Any) -> Any:
    """A style sheet: `s` is a length that grows with the card, `air` the space between lines."""
    from markupsafe import Markup

    return Markup(
        _environment()
        .get_template(name)
        .render(points=points, air=air, s=lambda value: f"{value * points:.4f}mm", **context)
    )


def fragments(cards: Sequence[Card], data_version: str) -> list[Fragment]:
    """
    Each card's faces as HTML that stands alone, all text escaped, drawings as inline SVG in mm.

    Args:
        cards: The cards in order.
        data_version: Printed on each face.
    """
    face = _environment().get_template("card.html.j2").module.face
    return [
        Fragment(
            c.id,
            c.number,
            c.family,
            c.title,
            c.question,
            str(face(c, False, data_version)),
            str(face(c, True, data_version)),
        )
        for c in cards
    ]


def fragment_css() -> str:
    """The style of the blocks within a face; sizes in rem, of which one is a point on a card."""
    return str(_style("blocks.css.j2", 1.0))


def phone_page(**given: Any) -> str:
    """The page for a telephone as one HTML document, all text escaped but what is markup here."""
    return str(_environment().get_template("page.html.j2").render(**given))


def html(
    cards: Sequence[Card],
    data_version: str,
    size: str = "sleeve",
    paper: str = "a4",
    duplex: str = "long",
    mono: bool = False,
) -> str:
    """
    The sheets as one HTML document, all text escaped.

    Args:
        cards: The cards in order.
        data_version: Printed on each card.
        size: A key of sheet.SIZES.
        paper: A key of sheet.PAPERS.
        duplex: long, short or none.
        mono: Black only.
    """
    card_mm, paper_mm = SIZES[size], PAPERS[paper]
    g = grid(size, paper)
    points = card_mm[0] / SIZES["sleeve"][0]
    air = card_mm[1] / SIZES["sleeve"][1] / points  # a card that is taller, not only larger
    style = {
        "card": card_mm,
        "paper": paper_mm,
        "head": HEAD_MM * points,
        "foot": FOOT_MM * points,
    }
    return str(
        _environment()
        .get_template("deck.html.j2")
        .render(
            cards=cards,
            sheets=impose(len(cards), size, paper, duplex),
            css=_style("deck.css.j2", points, air, **style) + _style("blocks.css.j2", points, air),
            mono=mono,
            title="fastkit pocket cards",
            description="Pocket cards for fasteners, true to scale",
            producer=PRODUCER,
            data_version=data_version,
            tabs={f: (0.12 + 0.098 * k) * card_mm[0] for k, f in enumerate(FAMILIES)},
            ruler=ruler(int(card_mm[1] - (HEAD_MM + 4) * points) // 10 * 10),
            bar=scale_bar(50, upright=True),
            bar_left=g.left_mm / 2 - 1.8,
            bar_top=paper_mm[1] / 2 - 25,
            corner=_corner([(0.0, 0.0), (5.0, 5.0)]),
            corner_back=_corner([(0.0, 5.0), (5.0, 0.0)]),
        )
    )


def _corner(ends: list[tuple[float, float]]) -> str:
    """The mark along which a corner is cut off."""
    title = "Cut this corner: it tells which way is up"
    return svg(5, 5, title, line(ends, 0.2, "0.8 0.6"))
