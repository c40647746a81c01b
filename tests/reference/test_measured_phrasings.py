"""
How many of 600 phrasings have the right entry first, and within the first three.

Written in one go as hurried people type at a counter or under a machine (trade and regional words,
misspellings, half designations, wrong separators, spoken inches, run-together words, questions),
from the list of kinds and ids alone, before search was read and before any was run. Ids joined
by | are equally right. Odd lines became phrasings_tuning.csv, even lines phrasings_holdout.csv;
search and aliases may be changed for the first, never for the second. Before any change 103 of the
150 tuned on and 99 of the 150 held out stood first, 112 and 123 within three.

The second 300, phrasings_tuning2.csv and phrasings_holdout2.csv, begin at the entry: a kind was
drawn by chance (thread, drive and the like oftener), then a family within it, then an entry, then a
habit of writing (question, nickname, misspelt, run together, other word order, American, British,
German, spoken, half a designation); the phrasing was written with the title in sight and no search
run, and the halves were drawn by chance. Before any change 108 of the 150 tuned on and 121 of the
150 held out stood first, 119 and 129 within three.
"""

import csv
import sqlite3
from pathlib import Path

import pytest

from fastkit.reference.search import search

FILES = (
    *("phrasings_tuning.csv", "phrasings_holdout.csv"),
    *("phrasings_tuning2.csv", "phrasings_holdout2.csv"),
)


def phrasings(name: str) -> list[tuple[str, set[str]]]:
    with Path(__file__).with_name(name).open(encoding="utf-8", newline="") as file:
        return [(row["words"], set(row["first"].split("|"))) for row in csv.DictReader(file)]


def places(store: sqlite3.Connection, name: str) -> dict[str, int]:
    """The place of the first right entry for each phrasing, from 0; 99 if not found."""
    found = {}
    for words, right in phrasings(name):
        ids = [hit.id for hit in search(store, words).hits]
        found[words] = next((n for n, key in enumerate(ids) if key in right), 99)
    return found


@pytest.mark.parametrize("name", FILES)
def test_each_phrasing_is_new_and_names_entries_that_are_held(store, name):
    held = {key for (key,) in store.execute("SELECT id FROM entry")}
    rows = phrasings(name)

    assert 150 == len({words for words, _ in rows})
    assert set().union(*(right for _, right in rows)) <= held


KNOWN = {
    "twelve point 10mm": "also a socket of 10 mm for hexagons, which stands first",
    "copper grease": "a friction as well, which `torque` takes it for and which stands first",
    "rattle gun": "the way of working with it stands before the tool",
}


def test_what_was_tuned_on_stands_first_but_for_the_known(store):
    missed = {words for words, place in places(store, "phrasings_tuning.csv").items() if place}

    assert set(KNOWN) == missed


def test_what_was_held_out_keeps_its_measured_share(store):
    found = places(store, "phrasings_holdout.csv").values()

    assert 125 <= sum(place == 0 for place in found)
    assert 140 <= sum(place < 3 for place in found)
