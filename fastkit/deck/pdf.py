"""Cards to PDF bytes and to a file; the only module that loads WeasyPrint."""

import logging
import os
import re
from collections.abc import Callable, Iterator, Sequence
from contextlib import contextmanager, redirect_stdout
from io import StringIO
from typing import Any

from fastkit.deck.card import Card
from fastkit.deck.cutting import Spill, shortened_by
from fastkit.deck.markup import HERE, html
from fastkit.errors import Broken

MOST_CUTS = 60
"""Rounds of cutting and measuring before a card is given up."""

PANGO_COMMAND = (
    "apt-get install libpango-1.0-0 libpangoft2-1.0-0 libharfbuzz-subset0"
    " (Fedora: dnf install pango; macOS: brew install pango; Windows: pacman -S"
    " mingw-w64-x86_64-pango)"
)


def weasyprint() -> Any:
    """WeasyPrint, or errors.Broken naming the command that installs what it needs."""
    try:
        with redirect_stdout(StringIO()):  # where it prints at length what is said below
            import weasyprint as module
    except OSError as trouble:
        name = str(trouble).split("'")[1] if "'" in str(trouble) else "Pango"
        raise Broken(f"drawing PDFs needs {name}; install it with: {PANGO_COMMAND}") from trouble
    except ImportError as trouble:
        raise Broken(
            f"drawing PDFs needs {trouble.name}; install it with: pip install weasyprint jinja2"
        ) from trouble
    return module


@contextmanager
def _fixed_date() -> Iterator[None]:
    """SOURCE_DATE_EPOCH set while fonts are subset, so that equal input gives equal bytes."""
    before = os.environ.get("SOURCE_DATE_EPOCH")
    os.environ["SOURCE_DATE_EPOCH"] = "0"
    try:
        yield
    finally:
        if before is None:
            del os.environ["SOURCE_DATE_EPOCH"]
        else:
            os.environ["SOURCE_DATE_EPOCH"] = before


def _fetcher(wp: Any) -> Any:
    """A fetcher that knows the two bundled fonts and refuses everything else."""
    from weasyprint.urls import FatalURLFetchingError, URLFetcherResponse

    def fetch(url: str, *_: Any, **__: Any) -> Any:
        if url in ("font:400", "font:700"):
            font = HERE / "fonts" / f"hyperlegible-{url[5:]}.woff2"
            return URLFetcherResponse(url, font.read_bytes(), {"Content-Type": "font/woff2"})
        raise FatalURLFetchingError(f"a card asked for {url}; cards fetch nothing")

    return fetch


class _Sides(logging.Handler):
    """Hears WeasyPrint's own progress and tells the number of each page that is laid out."""

    def __init__(self, told: Callable[[int], None]) -> None:
        super().__init__(logging.INFO)
        self.told = told

    def emit(self, record: logging.LogRecord) -> None:
        """Tell the page of a record that names one."""
        page = re.search(r"Page (\d+)$", record.getMessage())
        if page:
            self.told(int(page[1]))


@contextmanager
def _told(side: Callable[[int], None] | None) -> Iterator[None]:
    """While it lasts `side` hears of each page that is laid out."""
    if side is None:
        yield
        return
    logger, hears = logging.getLogger("weasyprint.progress"), _Sides(side)
    level = logger.level
    logger.setLevel(logging.INFO)
    logger.addHandler(hears)
    try:
        yield
    finally:
        logger.removeHandler(hears)
        logger.setLevel(level)


def layout(markup: str, side: Callable[[int], None] | None = None) -> Any:
    """
    The laid-out document, fetching nothing but the bundled font.

    Args:
        markup: Sheets as `markup.html` gives them.
        side: Hears the number of each side of paper in its turn.
    """
    wp = weasyprint()
    with _told(side):
        return wp.HTML(string=markup, url_fetcher=_fetcher(wp)).render(
            pdf_variant="pdf/ua-1",
            pdf_identifier=b"fastkit",
            custom_metadata=False,
        )


def spills(document: Any) -> list[Spill]:
    """What leaves its header, body or footer, read off the layout."""
    found: dict[tuple[str, bool, str], Spill] = {}
    for page in document.pages:
        card, back = "", False
        for box in page._page_box.descendants(placeholders=True):
            if box.element is None or not hasattr(box, "width"):
                continue
            if box.element.get("data-card"):
                card = box.element.get("data-card")
                back = "back" in box.element.get("class").split()
            place = (box.element.get("class") or box.element_tag).split()[-1]
            if box.element_tag not in ("header", "footer") and place != "body":
                continue
            low, right = box.content_box_y() + box.height, box.content_box_x() + box.width
            for inner in box.descendants(placeholders=True):
                if inner is box or not hasattr(inner, "width"):
                    continue
                over = max(
                    inner.position_y + inner.margin_height() - low,
                    inner.position_x + inner.margin_width() - right,
                )
                if over > 0.5:  # a hundredth of an inch and less is rounding
                    words = str(getattr(inner, "text", inner.element_tag))[:30]
                    spill = Spill(card, back, place, over / 96 * 25.4, words)
                    worst = found.get(spill[:3])
                    found[spill[:3]] = max(worst or spill, spill, key=lambda s: s.mm)
    return list(found.values())


def fitted(
    cards: Sequence[Card],
    data_version: str,
    told: Callable[[str], None],
    side: Callable[[int], None] | None = None,
    **options: Any,
) -> tuple[list[Card], Any]:
    """
    The cards, cut where their words do not fit, and their layout.

    Args:
        cards: The cards in order.
        data_version: Printed on each card.
        told: Hears of each card that is cut.
        side: Hears the number of each side that is laid out.
        options: As for `markup.html`.

    Raises:
        Broken: A card that does not fit however much is cut off.
    """
    held = list(cards)
    document = layout(html(held, data_version, **options), side)
    spilled = {(s.card, s.back, s.place): s for s in spills(document)}
    if not spilled:
        return held, document
    for n, card in enumerate(held):
        mine = [s for s in spilled.values() if s.card == card.id]
        if mine:
            held[n] = _cut(card, mine, lambda c: spills(layout(html([c], data_version, **options))))
            told(f"cut to fit: {card.id} ({max(s.mm for s in mine):.1f} mm too much)")
    return held, layout(html(held, data_version, **options))


def _cut(card: Card, spilled: list[Spill], measured: Callable[[Card], list[Spill]]) -> Card:
    """A card with as much taken off as it takes."""
    for _ in range(MOST_CUTS):
        for spill in spilled:
            less = shortened_by(card, spill)
            if less == card:
                raise Broken(f"{card.id} does not fit its card: {spill.words!r} is too much")
            card = less
        spilled = measured(card)
        if not spilled:
            return card
    raise Broken(f"{card.id} does not fit its card: {spilled[0].words!r} is too much")


def pdf_bytes(
    cards: Sequence[Card],
    data_version: str,
    told: Callable[[str], None] = lambda _: None,
    side: Callable[[int], None] | None = None,
    **options: Any,
) -> bytes:
    """
    The deck as PDF: tagged, fonts embedded, same bytes for the same input.

    Args:
        cards: The cards in order.
        data_version: Printed on each card.
        told: Hears of each card that had to be cut to fit.
        side: Hears the number of each side of paper that is laid out.
        options: As for `markup.html`.

    Raises:
        Broken: Pango is missing, or a card does not fit however much is cut off.
    """
    with _fixed_date():
        _, document = fitted(cards, data_version, told, side, **options)
        data: bytes = document.write_pdf(
            pdf_variant="pdf/ua-1", pdf_identifier=b"fastkit", pdf_tags=True
        )
    return data
