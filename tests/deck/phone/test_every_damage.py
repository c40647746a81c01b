"""The plan of every damage that the page asks for, as it stands on a telephone."""

import pytest

from fastkit.answers import grid_stuck
from fastkit.answers.grid_classes import DAMAGE, KINDS
from fastkit.deck.phone import page as page_of
from tests.deck.phone.conftest import telephone

PLACE = ("above-80", "beside-15", "soft", "M8")
NAMES = ("seizure", "above", "beside", "near", "size")
DAMAGES = [each.id for each in DAMAGE.classes]
SEIZURES = ("seized", "glued")
WIDE = """() => [...document.querySelectorAll('#main *')].filter(
    (one) => one.getBoundingClientRect().right > document.documentElement.clientWidth + 0.5,
).map((one) => one.textContent)"""


@pytest.fixture(scope="module")
def plans(store):
    """A plan of every damage, at two seizures in one place."""
    planner = grid_stuck.Planner(store)
    mixes = [(damage, seizure, *PLACE) for damage in DAMAGES for seizure in SEIZURES]
    return grid_stuck.pack(store, {picks: planner.cell(picks) for picks in mixes})


@pytest.fixture(scope="module")
def every(browser, held, few, store, plans, tmp_path_factory):
    """A page that holds them, open on a telephone."""
    html = page_of({**held, "stuck": plans}, few, store)
    with telephone(browser, html, tmp_path_factory.mktemp("every")) as tab:
        yield tab


@pytest.fixture(params=["light", "dark"])
def look(request, every):
    every.page.emulate_media(media="screen", color_scheme=request.param)
    return every


def opened(tab, damage, seizure):
    kind = next(kind.id for kind in KINDS if damage in kind.damages)
    given = "&".join(f"{n}={p}" for n, p in zip(NAMES, (seizure, *PLACE), strict=True))
    page = tab.open(f"#stuck?kind={kind}&damage={damage}&{given}")
    page.locator(".answer").wait_for()
    return page


@pytest.mark.parametrize("damage", DAMAGES)
@pytest.mark.parametrize("seizure", SEIZURES)
def test_it_stands_whole_on_the_screen(look, plans, damage, seizure):
    """Nothing runs off the side, folded or not; steps, cautions and STOP are those of the plan."""
    page = opened(look, damage, seizure)
    page.evaluate("document.querySelectorAll('details').forEach((one) => { one.open = true; })")
    plan = grid_stuck.read(plans, (damage, seizure, *PLACE))
    said = page.locator("#stuck-answer").inner_text()

    assert [] == page.evaluate(WIDE)
    assert [move["title"] for move in plan["moves"]] == page.locator(".move h3").all_inner_texts()
    for move in plan["moves"]:
        assert all(words in said for words in (*move["steps"], *move["cautions"]))
    assert all(words in said for words in plan["stop_when"])
    for out in plan["ruled_out"]:
        assert f"{out['title']}: {out['because']}" in said


@pytest.mark.parametrize("damage", DAMAGES)
@pytest.mark.parametrize("seizure", SEIZURES)
def test_it_says_what_a_reader_understands(every, plans, damage, seizure):
    """
    No word of our own, no share for what gets nothing out, and a way on where nothing is left.

    What the size of the thread is taken as is said once.
    """
    page = opened(every, damage, seizure)
    said = page.locator("#stuck-answer").inner_text()
    why = page.locator("#stuck-answer p", has_text="If it fails").inner_text()
    first = grid_stuck.read(plans, (damage, seizure, *PLACE))["moves"][0]

    assert "last-resort" not in said
    assert why[0].isupper() or why[0].isdigit()
    assert "If it fails: stop." not in why
    if first["chance"] == "weakens the bond":
        assert "%" not in why
    corner = page.locator(".corner").inner_text()
    assert ("M8" in corner) == ("M10x1" not in corner)
