"""The measurement that would change most: said only where it is true of the whole plan."""

import pytest

from fastkit.answers.extract import extract

OPTION = {"above_mm": "above", "beside_mm": "beside", "swing_deg": "swing"}
SAID = (
    "M8 stud snapped 6 mm proud of cast iron, seized",
    "6 mm hex socket rounded out, M8, rusted",
    "17 mm nut seized, M10",
    "PH2 M5 stripped",
    "11 mm tube nut rusted",
    "M8 bolt 13 mm hex nut spinning",
    "T30 stripped M6 rusted",
    "M10 17 mm hex rusted",
)


@pytest.mark.parametrize("words", SAID)
def test_below_it_the_first_move_is_what_it_says(words):
    """A millimetre or degree below, the first move is the one named, and another than now."""
    answer = extract(words)
    measure = answer.measure_next
    if measure is None:
        return
    option = OPTION[measure.axis]
    below = extract(words, **{option: str(measure.below - 1)})
    at = extract(words, **{option: str(measure.below)})

    assert measure.first_becomes != answer.plan[0].method
    assert below.plan[0].method == measure.first_becomes
    assert at.plan[0].method == answer.plan[0].method


def test_it_is_said_for_most():
    """Where nothing of the room was named, a measurement mostly matters."""
    assert sum(extract(words).measure_next is not None for words in SAID) >= len(SAID) / 2
