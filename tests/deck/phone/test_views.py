"""Stuck, torque and cards as a thumb goes through them, and the way back."""

import pytest

from fastkit.answers import grid_stuck, grid_torque

PICKS = ("snapped-flush", "seized", "above-80", "beside-15", "soft", "M8")
TORQUES = (
    ("M8x1.25", "8.8", "class-b"),
    ("M8x1.25", "10.9", "dry"),
    ("3/8-16-UNC", "SAE-5", "oiled"),
    ("M6x1", "A2-70", "stainless-dry"),
    ("M10x1.25", "12.9", "anti-seize"),
    ("M4x0.7", "4.6", "class-e"),
)


def chosen(page, held):
    """Answer all questions by touching the option of each class."""
    titles = [
        next(each["title"] for each in axis["classes"] if each["id"] == pick)
        for axis, pick in zip(held["stuck"]["axes"], PICKS, strict=True)
    ]
    for title in ("No head left, or a stud", *titles):
        page.get_by_role("link", name=title, exact=True).click()
        page.locator(".asked", has_text=title).wait_for()


def test_seven_touches_lead_to_a_plan(tab, held):
    """Each answer is a link; the plan says all that the packed one holds."""
    page = tab.open("#stuck")
    chosen(page, held)
    plan = grid_stuck.read(held["stuck"], PICKS)
    first = plan["moves"][0]
    page.get_by_role("heading", name="What to do first").wait_for()
    said = page.locator("#stuck-answer").inner_text()

    assert first["title"] == page.locator(".move.first h3").inner_text()
    titles = page.locator(".move h3").all_inner_texts()
    assert [move["title"] for move in plan["moves"]] == titles
    for words in (*first["steps"], *first["cautions"], *plan["stop_when"], plan["why"]):
        assert words in said
    for part in (first["chance"], first["minutes"], plan["chance"], plan["minutes"]):
        assert part in said
    assert held["stuck"]["governs"] in said


# numbers with their units that a line's end stands between, as the page lies
PARTED = r"""() => {
  const found = [];
  const texts = document.createTreeWalker(document.querySelector("#main"), NodeFilter.SHOW_TEXT);
  while (texts.nextNode()) {
    const node = texts.currentNode;
    for (const match of node.data.matchAll(/\d (?:(?:mm|in|g|N·m|lb·ft|lbf|kN|min|°C)\b|%)/gu)) {
      const range = document.createRange();
      range.setStart(node, match.index);
      range.setEnd(node, match.index + match[0].length);
      if (new Set([...range.getClientRects()].map(({ top }) => Math.round(top / 9))).size > 1)
        found.push(match[0]);
    }
  }
  return found;
}"""


@pytest.mark.parametrize("place", ["#stuck", "#torque", "#entry/thread%3AM8x1.25"])
def test_no_line_parts_a_number_from_its_unit(tab, held, place):
    """On no width of a telephone."""
    page = tab.open(place)
    if place == "#stuck":
        chosen(page, held)
    page.locator("dd:visible, .move:visible").first.wait_for()
    parted = {}
    for width in range(300, 440, 10):
        page.set_viewport_size({"width": width, "height": 740})
        parted[width] = page.evaluate(PARTED)

    assert {} == {width: found for width, found in parted.items() if found}


def test_the_plan_says_what_corner_it_stands_for(tab, held):
    page = tab.open("#stuck")
    chosen(page, held)
    said = page.locator(".corner").inner_text()

    for axis, pick in zip(held["stuck"]["axes"], PICKS, strict=True):
        corner = next(each["corner"] for each in axis["classes"] if each["id"] == pick)
        assert corner in said


def test_what_is_ruled_out_is_said_with_its_reason(tab, held):
    page = tab.open("#stuck")
    chosen(page, held)
    plan = grid_stuck.read(held["stuck"], PICKS)
    page.get_by_text(f"Ruled out: {len(plan['ruled_out'])}").click()
    said = page.locator(".ruled").inner_text()

    for out in plan["ruled_out"]:
        assert f"{out['title']}: {out['because']}" in said
        assert out["opens_it"] in said


def test_back_goes_question_by_question(tab, held):
    page = tab.open("#stuck")
    chosen(page, held)
    page.get_by_role("heading", name="What to do first").wait_for()
    for axis in reversed(held["stuck"]["axes"]):
        page.go_back()
        page.get_by_role("heading", name=axis["title"]).wait_for()
    page.go_back()
    page.get_by_role("heading", name="What is it?").wait_for()
    page.go_forward()
    page.get_by_role("heading", name="What is wrong with it?").wait_for()


def test_an_answer_can_be_changed_alone(tab, held):
    page = tab.open("#stuck")
    chosen(page, held)
    page.locator(".asked", has_text="What holds it?").get_by_text("change").click()
    page.get_by_role("heading", name="What holds it?").wait_for()
    page.get_by_role("link", name="Threadlocker", exact=True).click()
    page.get_by_role("heading", name="What to do first").wait_for()

    assert "high-strength threadlocker" in page.locator(".corner").inner_text()


@pytest.mark.parametrize("at", range(6))
def test_what_lies_in_no_class_gets_no_plan(tab, held, at):
    """No class is stretched to what it does not stand for: the command line is named instead."""
    axes = held["stuck"]["axes"]
    given = "&".join(f"{a['id']}={p}" for a, p in zip(axes[:at], PICKS[:at], strict=True))
    page = tab.open(f"#stuck?kind=no-head&{given}")
    page.get_by_role("link", name=axes[at]["outside"]["title"], exact=True).click()
    page.get_by_role("alert").get_by_text(axes[at]["outside"]["says"]).wait_for()

    assert 0 == page.locator(".move").count()


@pytest.mark.parametrize(("thread", "grade", "friction"), TORQUES)
def test_a_window_is_the_packed_one(tab, held, thread, grade, friction):
    page = tab.open("#torque")
    page.select_option("#torque-thread", thread)
    page.select_option("#torque-class", grade)
    page.select_option("#torque-friction", friction)
    row = grid_torque.read(held["torque"], thread, grade, friction)
    page.wait_for_function(
        "(words) => document.title && location.hash.includes(words)", arg=friction
    )
    said = page.locator("#torque-answer").inner_text()

    assert row["twists_off"] in said and held["torque"]["caution"] in said
    assert row["low"] in said and row["high"] in said
    if row["set"]:
        assert row["set"] == page.locator("#torque-answer .numeral").inner_text()
        assert row["clamp"] in said and row["limit"] in said
    else:
        assert "No window" == page.locator("#torque-answer .numeral").inner_text()
        assert all(way in said for way in row["opens_it"])


def test_a_thread_without_a_window_says_what_goes_instead(tab, held):
    other = held["torque"]["others"][0]
    page = tab.open("#torque")
    page.select_option("#torque-thread", other["id"])
    page.locator(".numeral", has_text="No window").wait_for()
    said = page.locator("#torque-answer").inner_text()

    assert other["reason"] in said
    assert all(words in said for words in other["instead"])
    assert page.locator("#torque-class").is_disabled()


def test_a_torque_that_was_found_opens_its_window(tab):
    page = tab.open("#find/m8%208.8%20torque")
    page.locator(".hits a").first.click()
    page.get_by_role("link", name="At another friction").click()
    page.locator("#view-torque").wait_for()

    assert "M8x1.25" == page.locator("#torque-thread").input_value()
    assert "8.8" == page.locator("#torque-class").input_value()


def test_cards_open_one_at_a_time(tab, few):
    page = tab.open("#cards")
    assert len(few) == page.locator(".index a").count()
    page.locator(".index a", has_text="Recess stripped").click()
    page.get_by_role("heading", name="Recess stripped", exact=True).wait_for()
    assert 1 == page.locator("article.card:visible").count()
    page.get_by_role("link", name="Next card").click()
    page.locator("article.card:visible", has_text="Bit stuck in it").wait_for()
    page.go_back()
    page.go_back()
    page.get_by_role("heading", name="Cards").wait_for()
    assert 0 == page.locator("article.card:visible").count()


@pytest.mark.parametrize("width", [360, 1280])
def test_the_questions_of_the_list_stand_in_one_column(tab, width):
    """Under the titles on a telephone, beside them where there is room, never both."""
    tab.page.set_viewport_size({"width": width, "height": 740})
    page = tab.open("#cards")
    left = "(all) => all.map((one) => Math.round(one.getBoundingClientRect().left))"
    titles, asked = (set(page.locator(f".index {o}").evaluate_all(left)) for o in ("b", ".asks"))

    assert 1 == len(titles) == len(asked)
    assert (titles == asked) == (width == 360)


def test_light_is_chosen_and_kept_in_the_address_alone(tab):
    """Pressed again, the reader's own setting holds; nothing is stored."""
    page = tab.open("#torque")
    ground = "getComputedStyle(document.body).backgroundColor"
    bright = page.evaluate(ground)
    page.get_by_role("button", name="Dark").click()
    assert bright != page.evaluate(ground)
    assert page.url.endswith("look=dark")
    page.get_by_role("link", name="Cards", exact=True).click()
    page.get_by_role("heading", name="Cards").wait_for()
    assert page.url.endswith("#cards?look=dark")
    page.get_by_role("button", name="Dark").click()
    assert bright == page.evaluate(ground)
    assert page.url.endswith("#cards")
    assert "#cards" == page.locator("#main").get_attribute("data-shows")
    assert 0 == page.evaluate("document.cookie.length")
