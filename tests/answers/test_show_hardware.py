"""Entries of nuts, set screws, washers, rings and rarer drives, shown whole."""

import pytest

from fastkit.answers.extract import extract
from fastkit.answers.show import show
from fastkit.reference import resolve


def test_nut_class_has_the_rows_of_a_grade(store):
    """A nut's rows have the names of a bolt's, without a tensile strength."""
    shown = show("grade:nut-8", store=store).document
    assert len(shown["rows"]) == 5
    for row in shown["rows"]:
        assert {"size_range", "tensile_min_mpa", "yield_min_mpa", "proof_mpa"} <= row.keys()
        assert row["tensile_min_mpa"] is None and row["proof_mpa"] >= 800
    assert [row["mate"] for row in shown["goes_with"]] == ["8.8"]
    assert {row["variant"] for row in shown["mark_strokes"]} == {"face", "clock"}


def test_set_screw_has_hardness_and_no_strength(store):
    """ISO 898-5: 45H is 450 to 560 HV, hard enough to be spoilt by plating."""
    shown = show("grade:45H", store=store).document
    assert shown["rows"] == []
    assert shown["hardness"][0]["low"] == 450
    assert shown["limits"][0]["embrittlement"] == "risk"


def test_grade_5_is_three_strokes(store):
    """Three lines a third of a turn apart."""
    shown = show("grade:SAE-5", store=store).document
    assert [row["shape"] for row in shown["mark_strokes"]] == ["line"] * 3


def test_washer_and_ring(store):
    """ISO 7089 M8: 8.4 x 16 x 1.6; DIN 471 for 20 mm sits in a groove of 19 mm."""
    washer = show("washer:ISO-7089-M8", store=store).document
    sides = (washer["inner_mm"], washer["outer_mm"], washer["thickness_mm"])
    assert sides == (8.4, 16, 1.6)
    ring = show("hardware:DIN-471-20", store=store).document["dimensions"]
    assert {row["dimension"]: row["value_mm"] for row in ring}["groove_diameter"] == 19


@pytest.mark.parametrize(
    ("typed", "meant"),
    [
        ("security torx t27", "T27-tamper"),
        ("tr20", "T20-tamper"),
        ("t27", "T27"),
        ("5mm security hex", "hex-5mm-tamper"),
        ("xzn m8", "triple-square-M8"),
        ("pentalobe p5", "five-lobe-P5"),
        ("snake eye 8", "spanner-8"),
        ("12 point flange 13mm", "12pt-13mm"),
    ],
)
def test_rarer_drives_as_people_type_them(store, typed, meant):
    """Trade words lead to the drive."""
    assert resolve.drive(store, typed).id == meant


@pytest.mark.parametrize("grade", ["nut-8", "45H"])
def test_a_plan_for_what_has_no_tensile_strength(store, grade):
    """A nut or a set screw counts as the bolt beside it."""
    assert extract("rusted", grade=grade, thread="M8", store=store).plan


def test_six_point_socket_is_out_on_twelve_points(store):
    """Another six corners stand in its way."""
    answer = extract("12 point flange 13mm rounded", store=store)
    assert "six-point-socket" not in {move.method for move in answer.plan}
