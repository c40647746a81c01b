"""Names that a line may say, as the data write them."""

import csv
from pathlib import Path

import pytest

from fastkit.notation.names import blank, keys, named, plain, spread, words_said

DATA = Path(__file__).parents[2] / "data"
NAMES = "lifting eye; eye bolt + lifting; swing not arm gate; scaffold; but scaffold board"


@pytest.mark.parametrize(
    ("line", "said"),
    [
        ("m16 lifting eyes seized", ["lifting eye"]),
        ("eye of the lifting bolt", []),
        ("lifting gear, m16 eye bolt", ["eye bolt + lifting"]),
        ("swings m10 bolt", ["swing"]),
        ("swing bolt m10 of an arm", []),
        ("farms swing bolt m10", ["swing"]),
        ("scaffold boards m8 bolt", []),
        ("scaffold board on the scaffold", ["scaffold"]),
        ("scaffolder m8", []),
    ],
)
def test_a_name_is_read_or_means_something_else(line, said):
    assert [name for name, _ in named(line, NAMES)] == said


def test_the_words_and_places_of_what_is_said():
    line = "lifting gear, m16 eye bolts"
    assert words_said(line, NAMES) == {"lifting", "eye", "bolts"}
    [(_, places)] = named(line, NAMES)
    assert [[line[slice(*span)] for span in part] for part in places] == [
        ["eye bolts"],
        ["lifting"],
    ]


def test_plain_names_are_those_that_stand_as_written():
    assert plain(NAMES) == ["lifting eye", "swing not arm gate", "scaffold"]


@pytest.mark.parametrize(
    ("line", "said"),
    [
        ("bolt, 12 m up", ["# (m|ft) up"]),
        ("bolt, 40ft up", ["# (m|ft) up"]),
        ("bolt 12 mm up", []),
        ("m10 up there", []),
        ("on the ladder", ["(on|up) (a|the) ladder"]),
        ("on the ladder rack", []),
        ("behind the ladder", []),
    ],
)
def test_one_word_or_the_other_and_a_number(line, said):
    names = "# (m|ft) up; (on|up) (a|the) ladder; but (on|up) (a|the) ladder (rack|frame)"
    assert [name for name, _ in named(line, names)] == said


def test_what_is_said_is_taken_out_of_a_line():
    assert (
        blank("M10 Bolt, 12 m up the mast", "# (m|ft) up").split() == "M10 Bolt, the mast".split()
    )


def test_every_name_of_the_data_is_found_by_a_word_of_its_own():
    """A row is looked at only where one of its keys stands in the line."""
    for file in ("hands_off.csv", "danger_words.csv", "criticals.csv"):
        with (DATA / file).open(encoding="utf-8", newline="") as rows:
            for row in csv.DictReader(rows):
                for name in row["words"].split("; "):
                    assert not {"+", "(", "#"} & set(name.partition(" not ")[2]), (file, name)
                    for line in spread(name.partition(" not ")[0]) if "but " not in name else ():
                        words = {*line.replace("+", " ").replace("#", "3").split()}
                        assert words & keys(row["words"]), (file, name)
