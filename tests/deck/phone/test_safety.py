"""What the page warns of, as it stands on a telephone: danger, afterwards, the maker alone."""

import pytest

from fastkit.answers import grid_stuck
from fastkit.deck.phone import page as page_of
from tests.deck.phone.conftest import telephone

PLACE = ("rusted", "above-80", "beside-15")
NAMES = ("seizure", "above", "beside", "near", "size")
MIXES = (
    *(
        (damage, *PLACE, near, "M8")
        for damage in ("tube-nut-rounded",)
        for near in ("clear", "fuel")
    ),
    *(("snapped-flush", *PLACE, near, "M8") for near in ("clear", "fuel")),
)


def begun(texts):
    """Sentences as they stand alone."""
    return [text[0].upper() + text[1:] for text in texts]


KINDS = {"tube-nut-rounded": "nut", "snapped-flush": "no-head"}


@pytest.fixture(scope="module")
def plans(store):
    """Plans beside nothing and beside what burns."""
    return grid_stuck.pack(store, {picks: grid_stuck.cell(store, picks) for picks in MIXES})


@pytest.fixture(scope="module")
def careful(browser, held, few, store, plans, tmp_path_factory):
    """A page that holds them, open on a telephone."""
    html = page_of({**held, "stuck": plans}, few, store)
    with telephone(browser, html, tmp_path_factory.mktemp("careful")) as tab:
        yield tab


@pytest.mark.parametrize("picks", MIXES, ids="+".join)
def test_danger_stands_before_the_first_move_and_after_at_its_end(careful, plans, picks):
    """Both unfolded and whole; neither where there is nothing to be told."""
    given = "&".join(f"{name}={pick}" for name, pick in zip(NAMES, picks[1:], strict=True))
    page = careful.open(f"#stuck?kind={KINDS[picks[0]]}&damage={picks[0]}&{given}")
    page.locator(".answer").wait_for()
    plan = grid_stuck.read(plans, picks)
    danger, after = page.locator(".danger"), page.locator(".after")

    assert (danger.count() == 1) == (picks[4] == "fuel")
    assert (after.count() == 1) == (picks[0] == "tube-nut-rounded" or picks[4] == "fuel")
    if plan["dangers"]:
        assert danger.is_visible()
        assert "DANGER" in danger.inner_text()
        assert danger.locator("li").all_inner_texts() == begun(plan["dangers"])
        first = page.locator(".move.first").bounding_box()
        assert danger.bounding_box()["y"] < first["y"]
    if plan["afterwards"]:
        assert after.is_visible()
        assert "AFTER" in after.inner_text()
        assert after.locator("li").all_inner_texts() == begun(plan["afterwards"])
        assert after.bounding_box()["y"] > page.locator(".move").last.bounding_box()["y"]


def test_what_no_plan_is_made_for_stands_by_the_first_question(tab, held):
    page = tab.open("#stuck")
    named = held["stuck"]["hands_off"]
    page.get_by_text(named["title"]).click()
    said = page.locator("#stuck-answer").inner_text()

    for name, because, instead in named["rows"]:
        assert name in said and because in said and instead in said
    page.get_by_role("link", name="No head left, or a stud", exact=True).click()
    page.get_by_role("heading", name="What is wrong with it?").wait_for()
    assert 0 == page.get_by_text(named["title"]).count()


@pytest.mark.parametrize("key", ["brakes", "lifting", "people"])
def test_what_a_life_hangs_on_gets_no_window(tab, held, key):
    """Chosen, the window goes and the maker's value stands instead; chosen off, it is back."""
    row = next(row for row in held["torque"]["hangs"] if row["id"] == key)
    page = tab.open("#torque/M8x1.25/8.8/class-b")
    page.locator("#torque-answer .window").wait_for()
    page.select_option("#torque-hangs", key)
    page.locator("#torque-answer .stop").wait_for()
    said = page.locator("#torque-answer").inner_text()

    assert "maker's value alone" in said
    assert begun([row["because"]])[0] in said and row["instead"] in said
    assert 0 == page.locator("#torque-answer .window").count()
    assert "N·m" not in said
    assert page.url.endswith(f"/{key}")
    page.select_option("#torque-hangs", "")
    page.locator("#torque-answer .window").wait_for()


def test_a_torque_on_the_page_asks_what_hangs_on_it(tab):
    page = tab.open("#torque/M8x1.25/8.8/class-b")

    assert "What hangs on it" in page.locator(".fields").inner_text()
    assert "" == page.locator("#torque-hangs").input_value()
