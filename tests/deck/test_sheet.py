"""Imposition: cards on the paper, marks off the cards, backs behind their fronts."""

from itertools import product

import pytest

from fastkit.deck import sheet

CASES = list(product(sheet.SIZES, sheet.PAPERS, sheet.DUPLEX))


@pytest.mark.parametrize(
    ("size", "paper", "cards"),
    [
        ("sleeve", "a4", 9),
        ("sleeve", "letter", 9),
        ("3x5", "a4", 4),
        ("3x5", "letter", 4),
    ],
)
def test_cards_a_sheet(size, paper, cards):
    """3 by 3 of 63.5 x 88.9 mm and 2 by 2 of 3 x 5 in fit both papers."""
    first = sheet.impose(20, size, paper, "long")[0]

    assert cards == len(first.places)


def test_sizes_are_those_of_sleeves_and_papers():
    """Trade sizes of card sleeves and index cards; ISO 216 and ANSI Y14.1 sheets."""
    inch = 25.4

    assert sheet.SIZES == {"sleeve": (63.5, 88.9), "3x5": pytest.approx((3 * inch, 5 * inch))}
    assert sheet.PAPERS["a4"] == (210, 297)
    assert sheet.PAPERS["letter"] == pytest.approx((8.5 * inch, 11 * inch))


@pytest.mark.parametrize(("size", "paper", "duplex"), CASES)
def test_cards_lie_on_the_paper_and_apart(size, paper, duplex):
    """No card leaves the paper or covers another."""
    (w, h), (pw, ph) = sheet.SIZES[size], sheet.PAPERS[paper]
    for side in sheet.impose(23, size, paper, duplex):
        corners = [(p.left_mm, p.top_mm) for p in side.places]
        assert all(x >= 4 and y >= 4 and x + w <= pw - 4 and y + h <= ph - 4 for x, y in corners)
        for k, (x, y) in enumerate(corners):
            assert all(abs(x - u) >= w - 1e-6 or abs(y - v) >= h - 1e-6 for u, v in corners[:k])


@pytest.mark.parametrize(("size", "paper"), list(product(sheet.SIZES, sheet.PAPERS)))
def test_cut_marks_stay_off_the_cards(size, paper):
    """Every mark ends before the outermost card edge and lies on the paper."""
    g = sheet.grid(size, paper)
    right, bottom = g.left_mm + g.columns * g.card_mm[0], g.top_mm + g.rows * g.card_mm[1]
    for m in sheet.marks(g):
        begin = m.top_mm if m.upright else m.left_mm
        low, high = (g.top_mm, bottom) if m.upright else (g.left_mm, right)
        assert begin >= 0 and begin + m.length_mm <= g.paper_mm[1 if m.upright else 0]
        assert begin + m.length_mm < low or begin > high


@pytest.mark.parametrize(("size", "paper", "duplex"), [c for c in CASES if c[2] != "none"])
@pytest.mark.parametrize("count", [1, 5, 9, 22])
def test_backs_land_behind_their_fronts(size, paper, duplex, count):
    """The sheet turned about its long or short edge puts each back on its own front."""
    (w, h), (pw, ph) = sheet.SIZES[size], sheet.PAPERS[paper]
    sheets = sheet.impose(count, size, paper, duplex)
    for front, back in zip(sheets[::2], sheets[1::2], strict=True):
        turned = {
            p.card: (pw - p.left_mm - w, p.top_mm)
            if duplex == "long"
            else (p.left_mm, ph - p.top_mm - h)
            for p in back.places
        }
        assert not front.back and back.back
        for p in front.places:
            assert turned[p.card] == pytest.approx((p.left_mm, p.top_mm))
        assert all(p.turned == (duplex == "short") for p in back.places)
