"""Searches as people type them, each with the entry that must stand first."""

import csv
from pathlib import Path

import pytest

from fastkit.reference.search import search


def phrasings(name):
    with Path(__file__).with_name(name).open(encoding="utf-8", newline="") as file:
        return [(row["words"], row["first"]) for row in csv.DictReader(file)]


FILES = (
    "phrasings.csv",
    "phrasings_2.csv",
    "phrasings_3.csv",
    "phrasings_threads.csv",
    "phrasings_around.csv",
    "phrasings_trade.csv",
)
PHRASINGS = [phrasing for name in FILES for phrasing in phrasings(name)]


@pytest.mark.parametrize(("words", "first"), PHRASINGS)
def test_the_right_entry_stands_first(store, words, first):
    found = search(store, words)

    assert first == found.hits[0].id
