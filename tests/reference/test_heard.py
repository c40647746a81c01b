"""What is spoken, run together or misspelt, put as it is written; what is none of these, left."""

import pytest

from fastkit.reference import aliases
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
        ("half inch drive ratchet", "driving-square-12.5mm ratchet"),
        ("3/8 square drive", "driving-square-10mm"),
        ("1 inch drive socket", "driving-square-25mm socket"),
        ("twelve point 12mm", "12pt-12mm"),
        ("b8m class 2 stud", "a193-b8m-2 stud"),
        ("nut for a 10.9 bolt", "nut-10"),
        ("7075 t6", "7075-t6"),
        ("1.2 mm screw", "1.2 mm screw"),
        ("12.7 mm screw", "1/2 in screw"),
    ],
)
def test_spoken_is_put_as_written(said, written):
    assert written == heard(said)


@pytest.mark.parametrize(
    "text",
    [
        *("1/64 drill", "m8 fine 30 long", "3/32 hex key", "10 33", "inch bolt", "m8x1.25"),
        *("8 32 mm", "two pin holes", "pipe wrench", "inconel", "0.71 inch hexagon"),
        *("m8 1.25 in alloy", "8 mm 1.3", "45 degree flare", "m12 fine"),
        *("1/4 drive bit", "1 drive", "12 point socket 12 mm", "nut for 11.9 bolts"),
        *("half inch 36 mm", "quarter turn", "half dog point", "one way screw"),
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


@pytest.mark.parametrize(
    ("said", "written"),
    [
        ("linksgewinde bohrer", "left-hand thread drill"),
        ("big washer m8", "iso 7093 washer m8"),
        ("kaputtwort", "kaputtwort"),
    ],
)
def test_sayings_are_put_as_the_file_has_them(store, said, written):
    assert written == aliases.written(store, said)


@pytest.mark.parametrize(
    ("said", "closed"),
    [
        ("brass m6 bolt", "m6 brass bolt"),
        ("triple square m8 bit", "triple square m8 bit"),
        ("qwertz m6 uiop", "qwertz m6 uiop"),
    ],
)
def test_a_size_that_parts_a_name_goes_before_it(store, said, closed):
    assert closed == aliases.closed_up(store, said)


def test_a_word_run_together_with_a_size_is_cut_off(store):
    assert "m16 structural" == parted(store, "m16structural")
    assert "m16qwertz" == parted(store, "m16qwertz")


@pytest.mark.parametrize(
    ("said", "written"),
    [
        ("2mm x 0.4 screwdriver", "slot 2x0.4 screwdriver"),
        ("ph no1", "ph1"),
        ("2 pz", "pz2"),
        ("40 t", "t40"),
        ("forty eight mil coarse", "48mm coarse"),
        ("whitworth bolt 3/8", "3/8 whitworth bolt"),
        ("m8 and m10 bolt fine", "m8 and m10 bolt fine"),
        ("plug thread 8mm spark", "8mm spark plug thread"),
        ("iso7090 washer", "iso 7090 washer"),
    ],
)
def test_hurried_writing_is_put_as_written(said, written):
    assert written == heard(said)
