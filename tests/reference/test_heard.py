"""What is spoken, run together or misspelt, put as it is written; what is none of these, left."""

import pytest

from fastkit.reference.heard import heard
from fastkit.reference.said import by_other_name, weighed
from fastkit.reference.spelling import mended, parted


@pytest.mark.parametrize(
    ("said", "written"),
    [
        ("seven mil socket", "7mm socket"),
        ("one and a half inch bsp", "1-1/2 in bsp"),
        ("no. 8 32 screw", "#8-32 screw"),
        ("m10 fine x 1.25", "m10x1.25"),
        ("12 newton metres", "12 torque"),
        ("pipe thread bspt 1/2", "bspt 1/2"),
    ],
)
def test_spoken_is_put_as_written(said, written):
    assert written == heard(said)


@pytest.mark.parametrize(
    "text",
    [
        *("1/64 drill", "m8 fine 30 long", "3/32 hex key", "10 33", "inch bolt", "m8x1.25"),
        *("8 32 mm", "two pin holes", "pipe wrench", "inconel"),
    ],
)
def test_what_is_no_such_saying_is_left(text):
    assert text == heard(text)


def test_words_run_together_are_cut_where_both_are_known(store):
    assert "flange nut" == parted(store, "flangenut")
    assert "qwertzuiop washer" == parted(store, "qwertzuiop washer")


def test_a_word_all_but_known_is_read_as_it(store):
    assert "titanium thread" == mended(store, "titanuim therad")
    assert "qwertzuiop" == mended(store, "qwertzuiop")


def test_another_name_counts_in_any_order_and_only_whole():
    said = weighed("need m8 washers, plain ones")
    whole = by_other_name(["plain washer m8"], said)

    assert whole > 70
    assert by_other_name(["plain washer m8"], weighed("plain washer m8")) > whole
    assert 0.0 == by_other_name(["plain washer m10"], said)
    assert 0.0 == by_other_name(["washer"], said)
