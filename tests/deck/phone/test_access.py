"""WCAG 2.2 AA on every view: by rule, by keyboard, in small, in large, in both lights, on paper."""

import pytest
from axe_playwright_python.sync_playwright import Axe

PLAN = (
    "#stuck?kind=no-head&damage=snapped-flush&seizure=rusted&above=above-80&beside=beside-15"
    "&near=clear&size=M8"
)
VIEWS = {
    "stuck": "#stuck",
    "question": "#stuck?kind=no-head&damage=snapped-flush",
    "outside": "#stuck?kind=no-head&damage=snapped-flush&outside=seizure",
    "plan": PLAN,
    "torque": "#torque",
    "empty window": "#torque/M4x0.7/4.6/class-e",
    "no window": "#torque/G1%2F4",
    "find": "#find",
    "found": "#find/m8",
    "not found": "#find/zzzqqq",
    "entry": "#entry/method%3Aweld-nut",
    "torque entry": "#entry/torque%3AM8x1.25%408.8",
    "cards": "#cards",
    "card": "#card/recess-stripped",
    "card of tables": "#card/torque-8.8",
    "card of gauges": "#card/gauge-pitch",
}
TAGS = ["wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "wcag22aa", "best-practice"]
OPTIONS = {"runOnly": {"type": "tag", "values": TAGS}, "rules": {"target-size": {"enabled": True}}}
# an inline link in a line of text may be smaller; all else must take a gloved thumb
TARGETS = "a:visible, button:visible, select:visible, input:visible, summary:visible"
LEAST = 44  # CSS px


@pytest.mark.parametrize("scheme", ["light", "dark"])
@pytest.mark.parametrize("view", VIEWS)
def test_no_rule_is_broken(tab, view, scheme):
    tab.page.emulate_media(color_scheme=scheme)
    page = tab.open(VIEWS[view])
    for summary in page.locator("summary:visible").all()[:3]:
        summary.click()
    found = Axe().run(page, options=OPTIONS)

    assert [] == [(v["id"], v["nodes"][0]["html"]) for v in found.response["violations"]]


@pytest.mark.parametrize("view", VIEWS)
def test_targets_take_a_thumb(tab, view):
    page = tab.open(VIEWS[view])
    small = page.locator(TARGETS).evaluate_all(
        "(all, least) => all.map((e) => [e.outerHTML.slice(0, 80), e.getBoundingClientRect()])"
        ".filter(([, b]) => b.height < least || b.width < least).map(([html]) => html)",
        LEAST,
    )

    assert [] == [html for html in small if "skip" not in html]


@pytest.mark.parametrize(("width", "height"), [(320, 640), (360, 740), (740, 360), (1024, 768)])
@pytest.mark.parametrize("large", [1, 2])
def test_nothing_runs_out_of_the_screen(tab, width, height, large):
    """Also with text of twice the size: lines break, only tables of figures are moved sideways."""
    tab.page.set_viewport_size({"width": width, "height": height})
    for hash_ in VIEWS.values():
        page = tab.open(hash_)
        page.evaluate(f"document.documentElement.style.fontSize = '{100 * large}%'")
        assert 0 >= page.evaluate("document.documentElement.scrollWidth - innerWidth"), hash_
    page.evaluate("document.documentElement.style.fontSize = ''")


def test_by_keyboard_from_question_to_question(tab):
    """Tab reaches the first option past skip link, views and lights; focus is seen and follows."""
    page = tab.open("#stuck", afresh=True)
    reached = []
    for _ in range(8):
        page.keyboard.press("Tab")
        reached.append(page.evaluate("document.activeElement.textContent"))
        drawn = page.evaluate("getComputedStyle(document.activeElement).outlineStyle")
        assert "solid" == drawn, reached
    assert [
        "Skip to the contents",
        "Stuck",
        "Torque",
        "Find",
        "Cards",
        "Bright",
        "Dark",
    ] == reached[:7]
    page.keyboard.press("Enter")
    page.get_by_role("heading", name="What is wrong with it?").wait_for()

    assert "What is wrong with it?" == page.evaluate("document.activeElement.textContent")


def test_the_skip_link_leads_to_the_contents(tab):
    page = tab.open("#torque", afresh=True)
    page.keyboard.press("Tab")
    page.keyboard.press("Enter")

    assert "main" == page.evaluate("document.activeElement.id")
    assert page.url.endswith("#torque")


def test_focus_is_never_under_the_bar(tab):
    """On a telephone the views lie along the lower edge: what has the focus stands above them."""
    page = tab.open("#cards")
    for _ in range(30):
        page.keyboard.press("Tab")
        hidden = page.evaluate(
            "(() => { const e = document.activeElement; const b = e.getBoundingClientRect();"
            " return e !== document.body && !e.closest('nav') && b.top < innerHeight && b.bottom >"
            " document.querySelector('nav').getBoundingClientRect().top + 1; })()"
        )
        assert not hidden, page.evaluate("document.activeElement.outerHTML")


def test_results_are_said_aloud(tab):
    page = tab.open("#torque")

    assert "polite" == page.locator("#torque-answer").get_attribute("aria-live")
    assert "status" == page.locator("#find-status").get_attribute("role")


@pytest.mark.parametrize("view", ["plan", "torque", "card"])
def test_printed_is_the_open_thing_alone(tab, view):
    """Black on white whatever the light, without bars and buttons."""
    tab.page.emulate_media(media="print", color_scheme="dark")
    page = tab.open(VIEWS[view])

    assert not page.locator("nav").is_visible() and not page.locator(".looks").is_visible()
    assert not page.locator(".step-links").first.is_visible()
    assert "rgb(255, 255, 255)" == page.evaluate("getComputedStyle(document.body).backgroundColor")
    assert "rgb(0, 0, 0)" == page.evaluate("getComputedStyle(document.body).color")
    assert 1 == page.locator(".view:visible").count()
