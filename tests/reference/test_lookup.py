"""Rows as records."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from fastkit.errors import NotHeld
from fastkit.records.grade import GradeRow
from fastkit.records.thread import Thread
from fastkit.reference.lookup import get, keys, many, nearest, one, resembling


def test_records_come_whole(store):
    thread = one(store, Thread, id="M8x1.25")

    assert (8.0, 1.25, None) == (thread.nominal_mm, thread.pitch_mm, thread.tpi)


def test_none_is_a_value_to_look_for(store):
    assert {"M", "BA", "ST", "plug"} == {row.family for row in many(store, Thread, tpi=None)}


def test_rows_keep_the_order_of_the_data(store):
    sizes = [row.size_from_mm for row in many(store, GradeRow, grade="8.8")]

    assert sizes == sorted(sizes) and len(sizes) > 1


def test_what_is_not_there(store):
    assert one(store, Thread, id="M8x1.26") is None
    with pytest.raises(NotHeld) as refusal:
        get(store, Thread, "M8x1.3")
    assert refusal.value.nearest[0].startswith("M8x1")


def test_a_column_must_exist(store):
    with pytest.raises(ValueError, match="thread has no column colour"):
        many(store, Thread, colour="red")


@pytest.mark.parametrize(
    ("word", "choices", "first"),
    [
        ("T21", ["T100", "T25", "T20", "E20"], "T20"),
        ("hex-13.5mm", ["hex-14mm", "AF-13mm", "hex-1/2in"], "hex-14mm"),
        ("hex-9/16in", ["hex-14mm", "hex-1/2in", "hex-5/8in"], "hex-1/2in"),
        ("8.7", ["8.8", "10.9", "A2-70"], "8.8"),
        ("zinc", ["zinc-dry", "dry", "waxed"], "zinc-dry"),
        ("1-1/0in", ["hex-1in", "T1"], "hex-1in"),
    ],
)
def test_nearest_goes_by_form_and_number(word, choices, first):
    assert first == nearest(word, choices)[0]


@given(st.text(max_size=40))
def test_nearest_takes_any_word(word):
    choices = ["M8x1.25", "T20", "8.8", "hex-5/32in", "oiled"]

    assert nearest(word, choices, 5) == nearest(word, choices[::-1], 5)


def test_keys_are_those_of_the_table(store):
    assert "M8x1.25" in keys(store, Thread)


@pytest.mark.parametrize(("word", "named"), [("galvanik", True), ("washr", True), ("qqqq", False)])
def test_a_choice_is_named_where_the_word_is_like_it(word, named):
    """A slip of the pen is; letters that have nothing in common are not."""
    choices = ("galvanised", "washers")

    assert bool(resembling(word, choices)) == named
