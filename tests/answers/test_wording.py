"""Every code that the planner can emit has one sentence, with its values in both unit systems."""

import ast
import re
from pathlib import Path

import pytest

from fastkit.answers.wording import DUE, SENTENCES, sentence, show_chance, show_minutes
from fastkit.extraction.gates import MADE_SAFE
from fastkit.extraction.result import Reason

PLANNER = Path(__file__).parents[2] / "fastkit" / "extraction"
NAMES = {"method:weld-nut": "Weld a nut on", "tool:welder": "welder"}
# a value of each kind for each code, as the planner gives them
VALUES = {
    "too_short_above": (120.0, 90.0),
    "too_narrow_beside": (12.0, 8.0),
    "swing_too_small": (30.0, 12.0),
    "side_too_small": (40.0, 15.0),
    "pocket_too_narrow": (24.0, 20.0),
    "neighbour": ("brake-fluid", "flame", 20.0, 150.0, "the hose scorches and bursts later"),
    "veto": ("loaded", "the part flies off"),
    "no_tool": ("welder",),
    "no_power": ("air",),
    "no_heat": (),
    "cannot_free": ("it turns already",),
    "too_weak": ("drill", 7.0, 6.0, 11.0, 27.0),
    "stub_too_short": (8.0, 5.0),
    "stub_too_deep": (40.0, 60.0),
    "longer_tool": (20.0,),
    "preparation_first": ("weld-nut",),
    "more_room": ("above", 30.0, "mm"),
    "more_distance": ("rubber", 80.0),
    "method_first": ("weld-nut",),
    "tool": ("welder",),
    "rule": ("take the load off",),
    "fits_with": ("short bit", "above_mm", 12.0),
    "weakest": ("recess", 6.0, 4.0, 9.0, 19.0),
    "near_fit": ("hex-1/4in", 0.35, "hammered"),
    "chance_time": (0.42, 4.0),
    "time": (4.0,),
    "own_tries": ("7", "9"),
    "treats": ("soak-penetrant", 9.0, 6.0),
    "keeps_open": ("the thread",),
    "due_first": ("load_spring",),
    "after_failures": ("weld-nut",),
    "after_failures_moved": ("weld-nut", "bench"),
    "shank_yields": (),
    "heat_limit": ("a dull glow is too hot",),
    "holds_more": (),
    "cheaper_to_stop": (90.0,),
    "cheaper_at_dealer": (90.0,),
    "nothing_frees": (),
}


def emitted() -> set[str]:
    """Codes that the planner's source writes into a Reason, or keeps in a table of codes."""
    found = set()
    for path in PLANNER.glob("*.py"):
        for node in ast.walk(ast.parse(path.read_text("utf-8"))):
            if (
                isinstance(node, ast.Call)
                and isinstance(node.func, ast.Name)
                and node.func.id == "Reason"
                and node.args
                and isinstance(node.args[0], ast.Constant)
            ):
                found.add(node.args[0].value)
    return found


def due() -> set[str]:
    """Causes of moves that are due first: strings such as load_spring in the planner's source."""
    text = "".join(path.read_text("utf-8") for path in PLANNER.glob("*.py"))
    gates = (PLANNER / "gates.py").read_text("utf-8")
    return (
        set(re.findall(r'"due_first", \("(\w+)"', text))
        | set(re.findall(r'\("[a-z-]+", "([a-z]+_[a-z]+)"\)', gates))
        | {f"beside_{thing}" for thing in MADE_SAFE}
    )


def test_every_code_of_the_planner_has_a_sentence():
    """An unknown code would be a KeyError on somebody's screen."""
    assert emitted() <= SENTENCES.keys()
    assert due() <= DUE.keys()


def test_the_examples_here_walk_all_codes():
    """A code added to the table needs an example too."""
    assert VALUES.keys() == SENTENCES.keys()


@pytest.mark.parametrize("code", VALUES)
def test_sentence_uses_every_value_it_should(code):
    """No place is left open, no value is missing, no trade nickname or slug is printed."""
    told = sentence(Reason(code, VALUES[code]), NAMES)

    assert told and "{" not in told
    assert "weld-nut" not in told


def test_unknown_code_raises():
    """A misspelt code is found by a test, not shown."""
    with pytest.raises(KeyError):
        sentence(Reason("no_such_code"), {})


def test_missing_value_raises():
    """So is a value that the planner forgot."""
    with pytest.raises(IndexError):
        sentence(Reason("too_short_above", (120.0,)), {})


@pytest.mark.parametrize(
    ("code", "expected"),
    [
        ("too_short_above", "needs 120 mm (4.72 in) above the head, 90 mm (3.54 in) is free"),
        ("swing_too_small", "needs 30° of swing, 12° is free"),
        ("no_tool", "lacks welder"),
        ("more_room", "30 mm (1.18 in) more above the head"),
        ("method_first", "first: weld a nut on"),
        (
            "weakest",
            "needs about 9 N·m (6.6 lb·ft) (4 to 19); can carry 6 N·m (4.4 lb·ft) (the recess)",
        ),
        (
            "neighbour",
            "brake fluid at 20 mm (0.79 in): keep flame 150 mm (5.91 in) off; "
            "the hose scorches and bursts later",
        ),
        ("fits_with", "short bit, to spare 12 mm (0.47 in) above"),
        ("due_first", "due first: a spring is held back"),
        ("cheaper_to_stop", "With 90 min more to go it is cheaper to hand it on."),
        ("after_failures", "Last way: weld a nut on. That failed too: stop."),
        (
            "after_failures_moved",
            "Last way: bench, only then weld a nut on. That failed too: stop.",
        ),
    ],
)
def test_sentences_as_they_stand(code, expected):
    """Both unit systems, plain words."""
    assert expected == sentence(Reason(code, VALUES[code]), NAMES)


@pytest.mark.parametrize(
    ("share", "shown"),
    [(0.0, "0 %"), (1.0, "100 %"), (0.001, "1 %"), (0.999, "99 %"), (0.455, "46 %")],
)
def test_chances_are_never_rounded_to_certainty(share, shown):
    """0 and 100 % are kept for what is certain."""
    assert shown == show_chance(share)


@pytest.mark.parametrize(
    ("minutes", "shown"),
    [(0.3, "1 min"), (59.6, "60 min"), (119.0, "119 min"), (120.0, "2 h"), (134.0, "2 h 15 min")],
)
def test_minutes_as_people_say_them(minutes, shown):
    """Hours from two on, to five minutes."""
    assert shown == show_minutes(minutes)
