"""What a screen names as coming later says what it asks for: once, and not only as a first move."""

import tomllib
from pathlib import Path

import pytest

from fastkit.answers.extract import extract
from fastkit.answers.extract_answer import ExtractAnswer
from fastkit.cli.extract_screen import NARROW, WIDE, Told, screen

METHODS = Path(__file__).parents[2] / "data" / "methods.toml"

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
    later = [answer.plan[0].if_it_fails]
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


@pytest.mark.parametrize(
    ("words", "said"),
    [
        # what oil was put on is dry before it glows, and nobody with a pacemaker is near
        (
            "M6 5 mm hex socket just won't turn, rusted solid, in steel, 25 mm above, no welder",
            ("oil wiped off", "no pacemaker near"),
        ),
        (
            "M10 bolt snapped off 8 mm proud, red threadlocker, brass, 90 mm above, plastic cover "
            "touching",
            ("no pacemaker near",),
        ),
        # an arc is struck on dry metal; oil comes after
        (
            "5/16 bolt snapped, left hand thread, flush, galled stainless, in steel, lying under "
            "it, wet with releasing oil",
            ("welded dry", "battery off, units unplugged"),
        ),
        # a strut holds something up
        (
            "1/2-13 bolt socket slips on it, galled stainless, 90 mm above, gas strut touching, "
            "tried heat, have left hand drill bits",
            ("never opened; prop what it holds",),
        ),
        ("3/8 nut spins, can't swing, gas strut touching, tyre 100 mm", ("never opened; prop",)),
        # what is let out is known, also where making dead is only named
        (
            "1/4-20 5/32 hex socket just spins, blue threadlock, in plastic, coolant hose 5 mm, "
            "weight on it, line still charged, have a rotary tool",
            ("know what is in it", "refrigerant: never vented"),
        ),
        (
            "fuel line tube nut 16 mm rounded, blue threadlock, in magnesium casing, fuel line "
            "50 mm, spring loaded, holds the engine up",
            ("pressure let out, caught, both ends capped",),
        ),
        # what is moved last stays whole
        (
            "M4 torx T20 key broke off in it, galled stainless, in alu, 25 mm above, brake hose "
            "touching, blind hole, have a rotary tool",
            ("brake line neither bent nor stretched",),
        ),
        # a drill or a blow beside fuel
        (
            "M6 snapped, left hand thread, flush, green threadlocker, in plastic, fuel tank "
            "300 mm, carburettor 20 mm",
            ("fuel pressure off",),
        ),
        # solvent vapour and the clamp's spark
        (
            "M10 bolt snapped flush, rusted solid, into cast iron, 60mm above, battery 200 mm "
            "away, soaked in brake cleaner, air tools",
            ("aired until nothing smells",),
        ),
        # its own socket, whatever is done with it
        (
            "M8 flange bolt E10 won't budge, not rusted, in plastic, two fingers of room, brake "
            "hose touching, sprayed it with penetrating oil, on the bench",
            ("its own external hexalobular socket",),
        ),
    ],
)
def test_what_a_later_step_needs_stands_on_the_screen(words, said):
    """The one caution that a step cannot do without, though the step is only named."""
    text = shown(extract(words), WIDE)

    for part in said:
        assert part in text, part


def test_oil_is_never_asked_for_at_an_arc():
    """What galls is welded dry."""
    words = "M8 bolt snapped flush, galled stainless, in steel, have a welder"
    for step in extract(words).plan:
        if step.method in ("weld-nut", "flame-heat", "induction-heat", "iron-heat"):
            assert not any("oil in the thread first" in text for text in step.cautions)


def test_nothing_is_unscrewed_from_a_wheel_by_its_stud():
    """The stud is pressed in; the assembly is the wheel."""
    words = "wheel nut M12 head's gone round, not rusted, 30 degrees of swing"
    methods = {step.method for step in extract(words).plan}

    assert not methods & {"stud-grip", "drop-assembly"}


@pytest.mark.parametrize(
    ("words", "said"),
    [
        # a blade or lever has the brake hose to bear against
        (
            "M6 bolt 10mm head just spins, in alu, brake hose touching",
            "nothing levered against line or hose",
        ),
        # a saw in a nut that is wet with solvent
        (
            "M8 nut 13mm rounded, rusted solid, soaked in brake cleaner, have an oscillating tool",
            "aired until nothing smells",
        ),
        # what is not to be vented and what is let down are told apart
        ("M8 bolt 13 mm rusted in a line still charged", "all else cooled, shut off"),
        # refrigerant that has seen a flame
        (
            "M8 bolt 13mm rusted, AC line 60mm, tried heat with a torch",
            "a heated refrigerant line",
        ),
    ],
)
def test_what_a_sceptic_asked_for_stands_on_the_screen(words, said):
    """Each with what would hurt beside it."""
    assert said in shown(extract(words), WIDE)


def test_no_blow_lands_on_a_hard_tool():
    """Blows beside a broken bit land on the rim, and nobody stands near."""
    answer = extract("M8 T40 bit snapped off inside, seized, in steel")
    blows = [step for step in answer.plan if step.method == "shock-tap"]

    assert all("never on the broken tool" in " ".join(step.cautions) for step in blows)
    assert blows


# what a later move is warned of in its own steps, by method: the worst of it goes along
VITAL = {
    "cut-shank": "prop it",
    "taper-split": "flies apart",
    "drop-assembly": "nobody under it",
    "pick-out-broken-key": "nobody else near",
    "weld-nut": "fire watch",
    "induction-heat": "fire watch",
    "split-nut": "joint unloaded first",
}


def test_the_worst_of_a_move_goes_along_with_its_name():
    """Wherever a move is only named, what would hurt most is said with it, two lines at most."""
    answer = extract("M8 bolt 13 mm rusted")
    for method, words in VITAL.items():
        told = Told(answer._replace(plan=())).only(method, ())
        assert words in told, method
    lines = tomllib.loads(METHODS.read_text(encoding="utf-8"))["method"]
    for row in lines:
        said = " ".join((*row["steps"], *row["cautions"])).lower()
        assert len(row.get("vital", ())) <= 2, row["id"]
        assert all(text in said for text in row.get("vital", ())), row["id"]


@pytest.mark.parametrize(
    ("words", "least"),
    [
        ("M8 bolt 13 mm stuck rusty, airbag 100 mm", 15),
        ("fuel pipe union 14 mm stuck", 15),
        ("M8 bolt 13 mm stuck rusty, battery 100 mm", 15),
        ("exhaust nut M8 stuck, engine still hot", 15),
    ],
)
def test_making_safe_takes_as_long_as_it_says(words, least):
    """Ten minutes' wait is no six minutes, alone or in all."""
    answer = extract(words)
    safe = next(step for step in answer.plan if step.method == "isolate")

    assert safe.minutes >= least
    assert answer.expected_minutes >= least


def test_making_safe_waits_only_for_what_asks_for_it():
    """Hydraulic pressure let out is let out at once."""
    answer = extract("hydraulic hose fitting 19 mm stuck under pressure")
    safe = next(step for step in answer.plan if step.method == "isolate")

    assert safe.minutes == 6
