"""
How many phrasings have the right entry first, and within the first three.

Ids joined by | are equally right. Search and data may be changed for what is tuned on, never for
what is held out.

The first 300 were written in one go as hurried people type at a counter or under a machine (trade
and regional words, misspellings, half designations, wrong separators, spoken inches, run-together
words, questions), from the list of kinds and ids alone, before search was read and before any was
run; odd lines are tuned on, even lines held out. Before any change 103 of the 150 tuned on and 99
of the 150 held out stood first, 112 and 123 within three.

The second 300 (phrasings_tuning2.csv, phrasings_holdout2.csv) begin at the entry: a kind was drawn
by chance (thread, drive and the like oftener), then a family within it, then an entry, then a habit
of writing (question, nickname, misspelt, run together, other word order, American, British, German,
spoken, half a designation); the phrasing was written with the title in sight and no search run, and
the halves were drawn by chance. Before any change 108 of the 150 tuned on and 121 of the 150 held
out stood first, 119 and 129 within three.

Six more files are all tuned on, one after the other, each scored before any change for it:
phrasings_tuning3.csv and phrasings_tuning4.csv, written as the first 300 (172 of 208, 164 of 172),
phrasings_tuning5.csv and phrasings_tuning7.csv as the second (111 of 130, 62 of 75),
phrasings_tuning6.csv as both (89 of 102), and phrasings_tuning8.csv as the second, kinds of many
entries oftener (94 of 120). After all of them the held-out halves were scored once more: 136 and
142 of 150 stand first, 144 and 146 within three, below the aim of 95 and 99 of 100.
"""

import csv
import sqlite3
from pathlib import Path

import pytest

from fastkit.reference.search import search

TUNED = (
    "phrasings_tuning.csv",
    *(f"phrasings_tuning{n}.csv" for n in (2, 3, 4, 5, 6, 7, 8)),
)
HELD_OUT = {"phrasings_holdout.csv": (136, 144), "phrasings_holdout2.csv": (142, 146)}


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


@pytest.mark.parametrize("name", [*TUNED, *HELD_OUT])
def test_each_phrasing_is_new_and_names_entries_that_are_held(store, name):
    held = {key for (key,) in store.execute("SELECT id FROM entry")}
    rows = phrasings(name)

    assert len(rows) == len({words for words, _ in rows})
    assert set().union(*(right for _, right in rows)) <= held


# each stands within three
KNOWN = {
    "cutting disc on a little rotary tool": "the slot that is cut with it stands before the tool",
    "copper washer on steel rust?": "how the two slip on one another ties with how they corrode",
    "316 stainless": "a class of bolts as well, which `torque` takes it for and which stands first",
    "plumbers hemp and white paste": "the paste stands before the hemp",
    "embeding loss rz bellow 10": "bellow is a word of its own",
    "impact wrench 1/2": "a wrench of 1/2 in stands before it",
    "class a friction waxed bolts": "what is waxed stands before the class of it",
    "linsenkopf torx m8": "the button head stands before the pan head",
    "rz<10 embedding": "a sign of less is not read",
    "silver cast aluminium": "the commoner aluminium stands before the cast one",
    "1/2 whitworth bolt head across flats": "a wrench of 1/2 in stands before the bolt",
    "strain gauged bolt accuracy": "the gauge stands before the bolt that carries it",
    "no 2 sheet metal screw type ab pan": "the thread of that number stands before the screw",
    "2 inch 8tpi bolt broken": "the coarse thread of 2 in stands before the one of 8 per inch",
    "embedding rz forty to one sixty": "numbers from a hundred are not read when spoken",
}
NOT_READ = {
    "1.5 inch narrow washer": "sizes of inch washers are not read in tenths",
    "m5 nut across flats": "flats are words of a rivet nut's flat head as well",
    "m27x2 b seven torque": "numbers of a class are not read when spoken",
    "which standard covers brass bolts iso 8839": "what the standard is about stands before it",
    "sixty sixty one aluminium": "numbers from a hundred are not read when spoken",
}


@pytest.mark.parametrize("name", TUNED)
def test_what_was_tuned_on_stands_first_but_for_the_known(store, name):
    found = places(store, name)
    missed = {words for words, place in found.items() if place}

    assert missed <= KNOWN.keys() | NOT_READ.keys()
    assert {words for words in missed if found[words] > 2} <= NOT_READ.keys()


@pytest.mark.parametrize("name", HELD_OUT)
def test_what_was_held_out_keeps_its_measured_share(store, name):
    found = places(store, name).values()
    first, three = HELD_OUT[name]

    assert first <= sum(place == 0 for place in found)
    assert three <= sum(place < 3 for place in found)
