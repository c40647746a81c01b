"""What someone wrote and the record that is meant."""

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from fastkit.errors import FastkitError, Misuse, NotHeld
from fastkit.records.drive import Drive
from fastkit.records.friction import Friction
from fastkit.records.grade import Grade
from fastkit.records.thread import Thread
from fastkit.reference import resolve
from fastkit.reference.lookup import keys


@pytest.mark.parametrize(
    ("text", "id_"),
    [
        ("M8x1.25", "M8x1.25"),
        ("thread:M8x1", "M8x1"),
        ("THREAD:m8x1", "M8x1"),
        ("m8", "M8x1.25"),
        ("M8 bolt", "M8x1.25"),
        ("m10 fine", "M10x1.25"),
        ("1/4", "1/4-20-UNC"),
        ("8mm", "M8x1.25"),
        ("1/4-20", "1/4-20-UNC"),
        ("1/4-28", "1/4-28-UNF"),
        ("3/8 fine", "3/8-24-UNF"),
        ("#10", "#10-24-UNC"),
        ("10-32", "#10-32-UNF"),
        ("quarter twenty", "1/4-20-UNC"),
    ],
)
def test_threads(store, text, id_):
    assert id_ == resolve.thread(store, text).id


@pytest.mark.parametrize(
    ("text", "id_"),
    [
        ("8.8", "8.8"),
        ("grade:10.9", "10.9"),
        ("class 12.9", "12.9"),
        ("a2-70", "A2-70"),
        ("A4 80", "A4-80"),
        ("grade 5", "SAE-5"),
        ("SAE 8", "SAE-8"),
    ],
)
def test_grades(store, text, id_):
    assert id_ == resolve.grade(store, text).id


@pytest.mark.parametrize(
    ("text", "id_"),
    [
        ("T20", "T20"),
        ("drive:hex-5mm", "hex-5mm"),
        ("torx 25", "T25"),
        ("5 mm hex socket", "hex-5mm"),
        ("5mm allen key", "hex-5mm"),
        ("13mm hex head", "AF-13mm"),
        ("phillips 2", "PH2"),
        ("9/16 wrench", "AF-9/16in"),
    ],
)
def test_drives(store, text, id_):
    assert id_ == resolve.drive(store, text).id


@pytest.mark.parametrize(
    ("text", "id_"),
    [
        ("oiled", "oiled"),
        ("friction:dry", "dry"),
        ("Class B", "class-b"),
        ("anti seize", "anti-seize"),
    ],
)
def test_frictions(store, text, id_):
    assert id_ == resolve.friction(store, text).id


def test_every_key_names_its_own_row(store):
    for find, record in (
        (resolve.thread, Thread),
        (resolve.grade, Grade),
        (resolve.drive, Drive),
        (resolve.friction, Friction),
    ):
        for key in keys(store, record):
            assert key == find(store, key).id
            assert key == find(store, f"{record.TABLE}:{key}").id


@pytest.mark.parametrize(
    ("find", "text", "near"),
    [
        (resolve.thread, "M8x1.1", "M8x1"),
        (resolve.thread, "M99", "M64"),
        (resolve.grade, "14.9", "12.9"),
        (resolve.grade, "SAE 3", "SAE-2"),
        (resolve.drive, "T21", "T20"),
    ],
)
def test_well_formed_but_not_held(store, find, text, near):
    with pytest.raises(NotHeld) as refusal:
        find(store, text)
    assert refusal.value.nearest[0].startswith(near)


@pytest.mark.parametrize("find", [resolve.thread, resolve.grade, resolve.drive, resolve.friction])
@pytest.mark.parametrize("text", ["", "nan", "bananas", "M8 8.8 T20", "-1", "\x1b[31m", "x" * 5000])
def test_not_understood(store, find, text):
    with pytest.raises(Misuse, match="expected"):
        find(store, text)


def test_one_of_several_grades_must_be_said(store):
    with pytest.raises(Misuse) as refusal:
        resolve.grade(store, "A2")
    assert "A2-70" in refusal.value.nearest


@settings(suppress_health_check=[HealthCheck.function_scoped_fixture])
@given(text=st.text(max_size=60))
def test_any_text_is_a_record_or_a_refusal(store, text):
    for find in (resolve.thread, resolve.grade, resolve.drive, resolve.friction):
        try:
            assert find(store, text).id
        except FastkitError as refusal:
            assert refusal.status in {1, 2}
