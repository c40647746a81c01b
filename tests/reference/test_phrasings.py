"""Searches as people type them, each with the entry that must stand first."""

import csv
from pathlib import Path

import pytest

from fastkit.reference.search import search

with Path(__file__).with_name("phrasings.csv").open(encoding="utf-8", newline="") as file:
    PHRASINGS = [(row["words"], row["first"]) for row in csv.DictReader(file)]


@pytest.mark.parametrize(("words", "first"), PHRASINGS)
def test_the_right_entry_stands_first(store, words, first):
    found = search(store, words)

    assert first == found.hits[0].id
