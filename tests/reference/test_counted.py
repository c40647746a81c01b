"""Numbers as they are said: inches in parts, classes, hundreds, pitches."""

import pytest

from fastkit.records.thread import Thread
from fastkit.reference.counted import GAUGES, number
from fastkit.reference.heard import heard
from fastkit.reference.lookup import many
from fastkit.reference.said import denied


@pytest.mark.parametrize(
    ("said", "written"),
    [
        ("1.25 inch washer", "1-1/4 inch washer"),
        ("0.5 in socket", "1/2 in socket"),
        ("1.5-12 unf", "1-1/2-12 unf"),
        ("12.7 mm socket", "1/2 in socket"),
        ("inch and an eighth socket", "1-1/8 in socket"),
        ("1 and 1/8 spanner", "1-1/8 spanner"),
        ("five sixteenths allen", "5/16 allen"),
        ("2 1/2 mm key", "2.5 mm key"),
        ("half inch 13 tap", "1/2-13 tap"),
        ("2 inch 8 tpi", "2-8"),
    ],
)
def test_inches_are_put_in_parts(said, written):
    assert written == heard(said)


@pytest.mark.parametrize(
    ("said", "written"),
    [
        ("ten nine bolt", "10.9 bolt"),
        ("eight point eight", "8.8"),
        ("a four eighty", "a4 80"),
        ("b seven stud", "b7 stud"),
        ("grade five", "grade 5"),
        ("number ten washer", "number 10 washer"),
        ("three sixteen stainless", "316 stainless"),
        ("three oh four", "304"),
        ("sixty sixty one", "6061"),
        ("four hundred", "400"),
        ("ten thirty two", "#10-32"),
        ("torx thirty", "torx 30"),
    ],
)
def test_classes_and_hundreds_are_put_in_figures(said, written):
    assert written == heard(said)


@pytest.mark.parametrize(
    ("said", "written"),
    [
        ("8mm 1.25 pitch", "m8x1.25"),
        ("8mm by 1.25", "m8x1.25"),
        ("m12x1 . 5", "m12x1.5"),
        ("sealing ring 14", "sealing ring 14mm"),
        ("taper pipe 1/2", "bspt 1/2"),
        ("m8 by one and a quarter", "m8x1.25"),
        ("1 1/16 extra fine", "1 1/16 unef"),
    ],
)
def test_pitches_go_with_their_size(said, written):
    assert written == heard(said)


def test_numbered_sizes_are_the_threads_that_are_held(store):
    """Code knows which pair is a thread without asking the file; it may know no other."""
    threads = [t for t in many(store, Thread, family="UN") if t.size.startswith("#")]
    held: dict[str, set[str]] = {}
    for thread in threads:
        held.setdefault(thread.size[1:], set()).add(f"{thread.tpi:g}")

    assert held == {size: set(pitches.split()) for size, pitches in GAUGES.items()}


def test_a_number_in_words_or_figures():
    assert (48, 12, 30) == (number("forty-eight"), number("12"), number("thirty"))


def test_what_is_denied_is_the_word_after():
    assert {"split"} == denied("m8 washer not a split one")
    assert frozenset() == denied("no. 8 screw")
