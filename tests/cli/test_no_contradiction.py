"""No two lines of a screen deny each other: every kind of fastener beside every kind of thing."""

from functools import cache
from itertools import product

import pytest

from fastkit.answers.extract import extract
from fastkit.answers.extract_answer import ExtractAnswer
from fastkit.cli.extract_screen import WIDE, screen

WHEEL = "wheel nut M12 rusted"
LOBES = "M8 flange bolt E10 rusted"
FASTENERS = (
    *("M8 bolt 13 mm head rounded, rusted", "M6 T30 stripped, seized", LOBES, WHEEL),
    *("u bolt nut M14 rusted solid", "M8 stud snapped flush, rusted", "strut nut 21 mm seized"),
    *("brake line nut 11 mm rounded, rusted", "M10 nut 17 mm rounded, painted over"),
)
BESIDE = (
    *("fuel hose touching", "brake pipe 10 mm", "brake hose touching", "AC line 15 mm"),
    *("gas strut touching", "hydraulic hose touching", "plastic cover touching", "tyre 100 mm"),
)
LOADS = ("", "weight on it", "spring loaded", "on a jack")
CASES = [
    f"{fastener}, {thing}{', ' * bool(load)}{load}"
    for number, (fastener, thing) in enumerate(product(FASTENERS, BESIDE))
    for load in [LOADS[number % 3 + number % 2]]
]
FREES = ("turn", "part")
# a line that says the one and a line that says the other cannot both be obeyed
NEVER_BOTH = (
    ("wheel on the ground", "set stands under it first"),
    ("wheel on the ground", "vehicle on stands"),
    ("wheel on the ground", "wheel off"),
    ("gas strut, damper", "vent it to nothing"),
    ("what it holds propped", "hose tied back, shut off"),
    ("licensed hands recover", "vent it to nothing"),
    ("external hexalobular socket", "six points"),
    ("external hexalobular socket", "ring wrench"),
)


@cache
def answer_to(words: str) -> ExtractAnswer:
    """The plan for a line of words."""
    return extract(words)


def shown(words: str) -> str:
    """The first screen as one line of words in small letters."""
    return " ".join(" ".join(screen(answer_to(words), WIDE)).split()).lower()


@pytest.mark.parametrize("words", CASES)
def test_no_line_denies_another(words):
    """What is to be left on its wheels is not lifted, what is never opened is not vented."""
    text = shown(words)

    assert [] == [(one, other) for one, other in NEVER_BOTH if one in text and other in text]


@pytest.mark.parametrize("words", CASES)
def test_the_last_way_frees_it(words):
    """The rule for stopping names a turn or a parting, and no other than what comes next."""
    answer = answer_to(words)
    kinds = {step.method: step.kind for step in answer.plan}
    first = next(step for step in answer.plan if step.kind != "gate")

    if answer.last is None:
        assert "last way" not in shown(words)
        return
    assert kinds.get(answer.last.method, "turn") in FREES
    if first.kind in FREES and kinds.get(first.if_it_fails) in FREES:
        assert answer.last.method != first.method or first.if_it_fails == first.method


@pytest.mark.parametrize("words", [words for words in CASES if "AC line" in words])
def test_gas_beside_blows_drills_and_blades_is_told_of(words):
    """Where what is planned may reach it, whoever reads on knows that nothing of it is opened."""
    answer = answer_to(words)
    reached = [
        condition for step in answer.plan[:3] for condition in step.conditions
        if "refrigerant line" in condition
    ]  # fmt: skip

    if reached:
        assert "recovered by a licensed person" in " ".join(answer.dangers)
