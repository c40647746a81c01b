"""Torque cards: each face is reckoned for the surface that it names, and says whose value goes."""

import pytest

from fastkit.deck.cards_torque import CARDS

SAYS = {
    "oiled": ("oiled", "greased"),
    "dry": ("dry",),
    "stainless-paste": ("stainless", "paste"),
    "stainless-oiled": ("stainless", "oil"),
}
FACES = [(plan.id, face) for plan in CARDS for face in (plan.front, plan.back)]


@pytest.mark.parametrize(("card", "face"), FACES, ids=[f"{c}-{f.friction}" for c, f in FACES])
def test_a_face_names_the_surface_it_is_reckoned_for(card, face):
    """Dry is never said of an oiled value, nor oiled of a dry one, which tears the bolt."""
    said = face.surface.lower()

    assert any(word in said for word in SAYS[face.friction])
    assert ("dry" in said) == (face.friction == "dry")
    assert ("paste" in said) == (face.friction == "stainless-paste")


@pytest.mark.parametrize("plan", CARDS, ids=lambda plan: plan.id)
def test_each_card_puts_the_maker_first(plan):
    assert "maker's value" in plan.note.lower()
