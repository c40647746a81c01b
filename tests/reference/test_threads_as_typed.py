"""Threads of every family as people type them, each with the one that is meant."""

import csv
from pathlib import Path

import pytest

from fastkit.errors import Misuse, NotHeld
from fastkit.notation.designation import parse
from fastkit.reference import resolve

with Path(__file__).with_name("threads_as_typed.csv").open(encoding="utf-8", newline="") as file:
    TYPED = [(row["words"], row["thread"]) for row in csv.DictReader(file)]


@pytest.mark.parametrize(("words", "thread"), TYPED)
def test_the_thread_that_is_meant(store, words, thread):
    assert thread == resolve.thread(store, words).id


@pytest.mark.parametrize("family", ["G", "R", "BA", "ST", "NPT", "BS", "plug", "PG", "UN", "M"])
def test_every_id_reads_back(store, family):
    """An id is understood as typed, with its kind before it and in lower case."""
    ids = [row[0] for row in store.execute("SELECT id FROM thread WHERE family = ?", (family,))]
    assert ids
    for id_ in ids:
        for said in (id_, f"thread:{id_}", id_.lower(), f"thread:{id_.lower()}"):
            assert id_ == resolve.thread(store, said).id, said


@pytest.mark.parametrize(
    "words", ["7 bsp", "3/7 bsp", "2/4 npt", "st4.4", "no 9 self tapper", "pg 15", "m9 plug"]
)
def test_sizes_that_there_are_not(store, words):
    with pytest.raises((NotHeld, Misuse)) as refusal:
        resolve.thread(store, words)
    assert refusal.value.nearest


@pytest.mark.parametrize(
    ("line", "kinds"),
    [
        ("8 mm beside a drain plug", ["length", "word", "word", "word", "word"]),
        ("grade 8 bar", ["grade", "word"]),
        ("r clip", ["word", "word"]),
        ("st pancras", ["word", "word"]),
        ("10 minutes with a tap", ["word", "word", "word", "word", "word"]),
    ],
)
def test_other_words_are_left_alone(line, kinds):
    assert kinds == [part.kind for part in parse(line)]
