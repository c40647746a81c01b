"""Drives and heads read with a caliper: the true one first, or among those left over."""

from random import Random

import pytest

from fastkit.answers.identify_parts import identify_drive, identify_grade, identify_head
from fastkit.hardware.marks import read_marks
from fastkit.records.drive import Drive
from fastkit.records.grade import Grade, MarkStroke
from fastkit.records.head import Head
from fastkit.reference.lookup import many

ERROR = 0.05
LOBES = {"hexalobular": 6, "hex-socket": 6, "hexagon": 6, "external-hexalobular": 6, "square": 4}


def true_size(drive, chance):
    """A drive as made: hexagons under their nominal width, sockets a few hundredths over."""
    if drive.system == "hexagon":
        return chance.uniform(drive.across_flats_min_mm or 0.98 * drive.across_flats_mm,
                              drive.across_flats_mm)  # fmt: skip
    if drive.across_flats_mm:
        return drive.across_flats_mm + chance.uniform(0.02, 0.08)
    return drive.across_points_mm + chance.uniform(-0.02, 0.02)


def test_drives(store):
    """Nine in ten first by width, count and side; nearly all first or not told apart."""
    chance = Random(5)
    rows = [
        row
        for row in many(store, Drive)
        if row.system in LOBES and (row.across_flats_mm or row.across_points_mm or 0) >= 1.2
    ]
    first = left = 0
    for row in rows:
        read = true_size(row, chance) + chance.uniform(-ERROR, ERROR)
        answer = identify_drive(
            read, LOBES[row.system], external=bool(row.external), store=store, error_mm=ERROR
        )
        name = f"drive:{row.id}"
        first += answer.candidates[0].id == name
        left += name in (answer.candidates[0].id, *answer.tied)
    assert len(rows) > 150
    assert left >= 0.97 * len(rows)
    assert first >= 0.6 * len(rows), first / len(rows)


def test_heads(store):
    """By diameter and height; standards that share a head are told apart by nothing."""
    chance = Random(6)
    rows = [row for row in many(store, Head) if row.head_diameter_mm and row.head_height_mm]
    left = 0
    for row in rows[::3]:
        diameter = row.head_diameter_mm - chance.uniform(0, 0.15)
        height = row.head_height_mm - chance.uniform(0, 0.12)
        answer = identify_head(
            diameter + chance.uniform(-ERROR, ERROR),
            height + chance.uniform(-ERROR, ERROR),
            store=store,
        )
        left += f"head:{row.id}" in answer.tied
    assert left >= 0.97 * len(rows[::3])


def test_every_mark_of_the_data_is_read(store):
    """What stands on a head, typed as it stands there, names its grade."""
    grades = {row.id: row for row in many(store, Grade)}
    texts = {}
    for stroke in many(store, MarkStroke):
        if stroke.shape == "text" and stroke.variant in ("head", "face"):
            texts[stroke.grade] = stroke.text
    for grade, text in texts.items():
        nut = "nut " if grades[grade].product == "nut" else ""
        answer = identify_grade(f"{nut}{text}", store=store)
        found = [one.id for one in answer.candidates]
        assert f"grade:{grade}" in found, (grade, text, found)


@pytest.mark.parametrize(
    ("words", "lines", "hour", "nut", "unmarked"),
    [
        ("three radial lines", 3, None, False, False),
        ("3 dashes", 3, None, False, False),
        ("six lines on the head", 6, None, False, False),
        ("no lines", 0, None, False, True),
        ("no mark", None, None, False, True),
        ("unmarked nut", None, None, True, True),
        ("nut dot at 12 bar at 8 o'clock", None, 8, True, False),
        ("nut, bar at ten o'clock", None, 10, True, False),
        ("8.8", None, None, False, False),
    ],
)
def test_marks_are_read(words, lines, hour, nut, unmarked):
    """Counts, hours and the absence of both."""
    said = read_marks(words)
    assert (lines, hour, nut, unmarked) == (said.lines, said.hour, said.nut, said.unmarked)


def test_nothing_weaker_is_hidden(store):
    """An unmarked head comes with the advice to take the weakest, a shared mark too."""
    assert any("weakest" in note for note in identify_grade("unmarked", store=store).notes)
    assert any("weakest" in note for note in identify_grade("3 lines", store=store).notes)
