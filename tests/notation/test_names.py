"""Names that a line may say, as the data write them."""

import pytest

from fastkit.notation.names import named, plain, words_said

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
