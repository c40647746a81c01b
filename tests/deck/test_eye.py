"""What an eye stumbles over on a card: columns that touch, a number parted from its unit."""

import re
from itertools import pairwise

import pytest

from fastkit.deck import content, markup, pdf
from fastkit.deck.cards_loosen import flash_points

MM = 25.4 / 96
GAP_MM = 0.8  # between what two columns say, so that no two numbers are read as one
UNITS = "mm|in|g|N·m|lb·ft|lb·in|lbf|kN|MPa|ksi|psi|bar|°C|°F|K|A|V|h|min|HV|%"


def rows_of(document):
    """Each table row of the layout: its card, and of each cell the ends of its words in mm."""
    for page in document.pages:
        card = ""
        for box in page._page_box.descendants(placeholders=True):
            if box.element is None:
                continue
            card = box.element.get("data-card") or card
            if box.element_tag == "tr" and getattr(box, "children", ()):
                cells = [words_of(cell) for cell in box.children]
                yield card, [cell for cell in cells if cell]


def words_of(cell):
    """The words of a cell with the places where they begin and end; nothing of an empty one."""
    said = [b for b in cell.descendants(placeholders=True) if getattr(b, "text", "").strip()]
    if not said:
        return None
    left = min(b.position_x for b in said) * MM
    right = max(b.position_x + b.width for b in said) * MM
    return left, right, " ".join(b.text for b in said)


@pytest.fixture(scope="module")
def document(cards):
    return pdf.layout(markup.html(cards, "0123456789ab"))


def test_no_two_columns_of_numbers_touch(document):
    touching = []
    for card, cells in rows_of(document):
        for (_, end, said), (begin, _, next_said) in pairwise(cells):
            numbers = any(map(str.isdigit, said)) and any(map(str.isdigit, next_said))
            if numbers and begin - end < GAP_MM - 0.01 and "sources" not in card:
                touching.append((card, said, next_said, round(begin - end, 2)))

    assert [] == touching


def test_a_number_and_its_unit_stay_on_one_line(cards):
    written = re.sub(r"<svg.*?</svg>|=\"[^\"]*\"", "", markup.html(cards, "0123456789ab"))

    assert [] == re.findall(rf"\d (?:{UNITS})\b", written)


def test_no_line_holds_one_short_word_alone(document):
    """The last line of a text is more than its last word where that is short."""
    alone = []
    for page in document.pages:
        for box in page._page_box.descendants(placeholders=True):
            if box.element_tag == "p" and "text" in (box.element.get("class") or ""):
                lines = [line for line in getattr(box, "children", ()) if hasattr(line, "baseline")]
                if len(lines) > 1:
                    last = words_of(lines[-1])[2]
                    alone += [last] if len(last) < 7 and " " not in last else []

    assert [] == alone


def test_what_lights_first_stands_first(store):
    faces = flash_points(store)
    degrees = [float(row[1].text) for side in (faces.front, faces.back) for row in side[0].rows]

    assert sorted(degrees) == degrees


def test_the_pictures_of_the_finder_have_room_for_their_names(store, cards):
    """A name under a picture ends before the next begins, some half a millimetre a letter."""
    names = [
        title for title in re.findall(r">([^<>]+)</text>", finder(cards)) if not title.isdigit()
    ]

    assert 14 == len(names)
    assert max(map(len, names)) <= 17


def finder(cards):
    return next(card for card in cards if card.id == "damage-finder").front[0].svg


def test_the_rows_of_the_worse_look_alikes_are_as_large_as_the_others(store):
    card = next(c for c in content.deck(store, ("look-alikes",)) if c.id == "look-alikes")
    looks = [row[0].look for row in card.back[0].rows]

    assert {"head"} == set(looks)
