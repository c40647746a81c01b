"""Only the phrases that a text may hold are fetched, and it is read as with all of them."""

import tomllib
from pathlib import Path

import pytest

from fastkit.answers import facts
from fastkit.answers import understand as answers
from fastkit.errors import NotHeld
from fastkit.extraction.vocabulary import vocabulary
from fastkit.extraction.words import read
from fastkit.records.drive import Drive, DriveSystem
from fastkit.records.part import Part
from fastkit.records.source import Phrase
from fastkit.reference.aliases import first_meant, readable
from fastkit.reference.lookup import get, many
from fastkit.reference.phrases import of_parts

WORDS = Path(__file__).parents[1] / "extraction" / "words"
SENTENCES = [
    case if isinstance(case, str) else case["words"]
    for path in sorted(WORDS.glob("*.toml"))
    for cases in tomllib.loads(path.read_text("utf-8")).values()
    for case in cases
]


def test_a_text_is_read_as_with_every_phrase(store):
    """Slips of the keyboard, little words and phrases of little words alone included."""
    held = many(store, Phrase)
    every = vocabulary((*held, *of_parts(held, many(store, Part))))
    for words in (*SENTENCES, "or from it", "there is an M8 also", 'M8, 3/8" hex, its head rusted'):
        plain = readable(words)
        whole = read(plain, every, first_meant(store, plain))
        assert whole == answers._read(store, words), words


def test_a_sentence_fetches_few_of_them(store):
    """A tenth at most: the rest begin with words that it does not hold."""
    seen: list[str] = []
    store.set_trace_callback(seen.append)
    try:
        answers._read(
            store, "6 mm hex socket rounded out, M8 into cast iron, rusted, hose 20 mm off"
        )
    finally:
        store.set_trace_callback(None)
    (asked,) = [sql for sql in seen if 'FROM "phrase"' in sql or "FROM phrase " in sql]

    assert len(store.execute(asked).fetchall()) * 10 < len(many(store, Phrase))


@pytest.mark.parametrize(
    ("words", "thread"),
    [
        ("bolt with a 17 mm head, rusted", "M10x1.5"),
        ("rounded 19 mm bolt", "M12x1.75"),
        ("22 mm bolt seized", "M14x2"),
        ("13 mm bolt seized", "M8x1.25"),
        ("15 mm flanged bolt seized", "M10x1.5"),
    ],
)
def test_old_heads_are_of_the_size_that_had_them(words, thread, store):
    """On older machines M10, M12 and M14 have 17, 19 and 22 mm; common practice, from memory."""
    assert answers.understand(store, words).situation.thread == thread


def test_a_drive_named_without_its_size_is_of_its_own_system(store):
    """Whatever system is named, something of it is assumed: never a recess on an outer drive."""
    for row in many(store, DriveSystem):
        if row.id == "driving-square":  # of wrenches
            continue
        found = answers.usual(store, "size-of-system", row.id) or facts.drive_from_size(
            store, "screw", "M6", row.id
        )

        assert found, row.id
        assert get(store, Drive, found).system == row.id


@pytest.mark.parametrize(
    ("words", "thread"),
    [("PZ2 screw stripped", "M4x0.7"), ("PZ3 screw stripped", "M6x1"), ("PH2 screw", "M4x0.7")],
)
def test_both_cross_recesses_come_on_the_same_threads(words, thread, store):
    """ISO 7045 gives either type of cross recess under one number for a size of thread."""
    assert answers.understand(store, words).situation.thread == thread


@pytest.mark.parametrize(
    "words", ["bolt 17.5 head rusted", "nut 99 rusted", "m8 bolt rusted, drill size 6.8 mm"]
)
def test_a_size_that_was_only_guessed_and_is_none_is_left_unread(words, store):
    """It is told as not read; the rest of the sentence still is."""
    found = answers.understand(store, words)

    assert found.situation.seized == "rusted"
    assert found.not_understood


def test_a_size_that_was_named_and_is_none_is_refused(store):
    """The drive was said outright: nothing else is put in its place."""
    with pytest.raises(NotHeld, match="T33"):
        answers.understand(store, "T33 screw rusted")
