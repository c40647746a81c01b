"""What a screen names as coming later says what it asks for: once, and not only as a first move."""

import pytest

from fastkit.answers.extract import ExtractAnswer, extract
from fastkit.cli.extract_screen import NARROW, WIDE, screen

# beside what wants something of a later step: fuel, a loom, a bearing, brake fluid
BESIDE = (
    "M8 bolt 13 mm head stuck rusty, fuel line 30 mm, no torch no welder, tried long bar",
    "M6 bolt 10mm head worn, rusted solid, fuel line 20 mm",
    "M10 bolt snapped flush, seized, fuel line 40 mm, no welder",
    "M6 T30 stripped, rusted, brake hose 20 mm off, no welder",
    "clutch pipe union stuck, red threadlocker, two fingers of room, fuel line 50 mm",
    "exhaust stud M8 snapped off 8 mm proud, rusty, wiring 20 mm, bearing 30 mm",
    "bleed screw seized",
    "M8 stud broken off below the surface, cast iron, carburettor 40 mm, no welder",
)


def shown(answer: ExtractAnswer, columns: int) -> str:
    """The first screen as one line of words."""
    return " ".join(" ".join(screen(answer, columns)).split())


@pytest.mark.parametrize("columns", [WIDE, NARROW])
@pytest.mark.parametrize("words", BESIDE)
def test_what_comes_next_says_what_it_asks_for(words, columns):
    """The way on after a failure, and the turn that treatments lead to, with their conditions."""
    answer = extract(words)
    first, text = answer.plan[0], shown(answer, columns)
    asked = set(first.later)
    if answer.leads_to:
        asked |= set(answer.leads_to.conditions)
    if answer.last:
        asked |= set(answer.last.conditions)
    for condition in asked:
        assert text.count(condition) == 1, condition


@pytest.mark.parametrize("words", BESIDE)
def test_blades_drills_and_fire_say_their_guard(words):
    """Whatever gives off chips or flame, named last or first: eyes and fire watch are said."""
    answer = extract(words)
    text = shown(answer, WIDE).lower()
    later = [answer.plan[0].method, answer.plan[0].if_it_fails]
    later += [turned.method for turned in (answer.leads_to, answer.last) if turned]
    for method in later:
        for guard in answer.guards.get(method, ()):
            assert guard in text, (method, guard)


def test_what_is_asked_for_only_after_the_failure_is_said():
    """A way that stands in the plan as well may ask for more once the first has failed."""
    answer = extract("M8 nut 13mm rusted, long bar at hand")
    first, *rest = answer.plan
    assert first.if_it_fails in {step.method for step in rest}
    asked = first._replace(later=(*first.later, "a sleeve over the stub"))

    assert "a sleeve over the stub" in shown(answer._replace(plan=(asked, *rest)), WIDE)


@pytest.mark.parametrize(
    ("words", "said"),
    [
        (BESIDE[0], ("air-driven or brushless tool", "depth stop on the drill")),
        (BESIDE[3], ("depth stop on the drill",)),
        (BESIDE[4], ("pump and pressure off",)),
        (BESIDE[5], ("battery off, loom tied back", "bearing masked")),
        (BESIDE[6], ("it twists like rubber",)),
    ],
)
def test_a_later_step_says_what_the_thing_beside_it_asks_for(words, said):
    """A drill by fuel throws no sparks; a bleed screw is felt for twisting: whoever comes later."""
    text = shown(extract(words), WIDE)

    assert [] == [condition for condition in said if condition not in text]
