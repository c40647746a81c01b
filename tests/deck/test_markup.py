"""Each card as HTML by itself, for a page."""

import xml.etree.ElementTree as ET

from fastkit.deck import markup


def test_each_card_is_two_sections(cards):
    """Front and back are well-formed sections that name their card; nothing is fetched."""
    found = markup.fragments(cards, "0123456789ab")

    assert [c.id for c in cards] == [f.id for f in found]
    for fragment in found:
        for face, html in (("front", fragment.front), ("back", fragment.back)):
            tree = ET.fromstring(html)
            assert f"face {face}" == tree.get("class") and fragment.id == tree.get("data-card")
            assert {"header", "div", "footer"} <= {child.tag for child in tree}
            assert "http" not in html.replace("http://www.w3.org/2000/svg", "")


def test_style_of_fragments_is_for_what_stands_in_them():
    """Every class of a block has a rule, and no rule places a card on paper."""
    css = markup.fragment_css()

    for name in (".block", ".drawing", ".figure", ".step", ".caution", "td.big"):
        assert name in css
    assert "@page" not in css and "@font-face" not in css
