"""
The layout of every card: what stands on it in which order, in its box, apart, large enough.

Run `python -m tests.deck.test_layout` to write the snapshot anew.
"""

from pathlib import Path

import pytest

from fastkit.answers.cards import opened
from fastkit.deck import content, pdf

SNAPSHOT = Path(__file__).parent / "layout.txt"
MM = 25.4 / 96


@pytest.fixture(scope="module")
def document(cards):
    """The deck laid out, for reading its boxes."""
    return pdf.layout(pdf.html(cards, "0123456789ab"))


def faces(document):
    """Card, side, and the boxes of header, body and footer of each face."""
    for page in document.pages:
        for box in page._page_box.descendants(placeholders=True):
            if box.element is None or not hasattr(box, "width"):
                continue
            card = box.element.get("data-card")
            if card:
                yield card, "back" in box.element.get("class").split(), parts(box)


def parts(card):
    """Header, body and footer of a face by name."""
    found = {}
    for box in card.descendants(placeholders=True):
        if box.element is None or not hasattr(box, "width"):
            continue
        name = (box.element.get("class") or box.element_tag).split()[-1]
        if (name == "body" or box.element_tag in ("header", "footer")) and name not in found:
            found[name] = box
    return found


def blocks(body):
    """Boxes of a body's blocks, first level only."""
    return [
        box
        for box in body.all_children()
        if box.element is not None and "block" in (box.element.get("class") or "").split()
    ]


def kind(box):
    """What a block is: drawing, table, steps, text, caution, figures."""
    words = box.element.get("class").split()
    return words[1] if len(words) > 1 else box.element_tag


def snapshot(document):
    """Kinds of blocks on each face, in order, a line a face."""
    lines = []
    for card, back, found in faces(document):
        if "body" in found:
            said = " ".join(kind(b) for b in blocks(found["body"]))
            lines.append(f"{card} {'back' if back else 'front'}: {said}")
    return "\n".join(sorted(lines)) + "\n"


def test_layout_is_as_it_was(document):
    """The same blocks on each face; write the file anew after looking at the cards."""
    assert SNAPSHOT.read_text("utf-8") == snapshot(document)


def test_blocks_stand_in_their_box_and_apart(document):
    """Header, body and footer do not meet; blocks follow each other downwards within the body."""
    seen = 0
    for card, _, found in faces(document):
        if "header" not in found:
            continue  # the outline to lay a card on
        head, body, foot = (found[name] for name in ("header", "body", "footer"))
        assert head.position_y + head.margin_height() <= body.position_y + 0.5, card
        assert body.position_y + body.margin_height() <= foot.position_y + 0.5, card
        low = body.content_box_y()
        for box in blocks(body):
            assert box.position_y >= low - 0.5, card
            low = box.position_y + box.margin_height()
        assert low <= body.content_box_y() + body.height + 0.5, card
        seen += 1
    assert seen >= 2 * 54 - 1


def test_most_cards_leave_room_to_grow(document):
    """At least four faces in five keep 2 mm free, so that a longer word does not cut a row."""
    free = [
        (b.content_box_y() + b.height - (last.position_y + last.margin_height())) * MM
        for _, _, found in faces(document)
        for b in (found.get("body"),)
        if b is not None and blocks(b)
        for last in (blocks(b)[-1],)
    ]
    assert sum(mm >= 2 for mm in free) >= 0.8 * len(free)


def main() -> None:
    """Write the snapshot of the deck as the data stands."""
    cards = content.deck(opened(), own=False)
    SNAPSHOT.write_text(snapshot(pdf.layout(pdf.html(cards, "0123456789ab"))), "utf-8")


if __name__ == "__main__":
    main()
