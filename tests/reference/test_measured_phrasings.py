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

Eleven more files are all tuned on, one after the other, each scored before any change for it:
phrasings_tuning3.csv and phrasings_tuning4.csv, written as the first 300 (172 of 208, 164 of 172),
phrasings_tuning5.csv and phrasings_tuning7.csv as the second (111 of 130, 62 of 75),
phrasings_tuning6.csv as both (89 of 102), and phrasings_tuning8.csv as the second, kinds of many
entries oftener (94 of 120). phrasings_tuning9.csv and phrasings_tuning10.csv were written together,
as a mechanic, a farmer, a cyclist, an electrician, a student, an engineer, one of another tongue,
one of an inch country, a sailor and a plumber would type: 99 of 123 stood first (107 within three);
after what was changed for those, 104 of 122 of the other file (114 within three). Then
phrasings_tuning11.csv, as the second: 109 of 125 (119 within three). The search as it was before
these three had 99, 94 and 105 first. Last came phrasings_tuning12.csv, written as the ninth, and
phrasings_tuning13.csv, as the first 300: 65 of 70 and 61 of 66 first, 67 and 62 within three,
before any change for them. After all of them the held-out halves were scored once more: 137 and
144 of 150 stand first, 145 and 147 within three, below the aim of 95 and 99 of 100.

phrasings_tuning14.csv and phrasings_tuning15.csv were written in one go, as with greasy hands on a
phone (tool against method against thing, a length that may be a thread or a spanner, purposes,
letters said one by one, vowels left out, codes off a head or a packet), and parted by chance before
search was run on either: 101 and 107 of 127 stood first, 111 and 113 within three. After what was
changed for the fourteenth alone the fifteenth had 113 first and 119 within three; then it was tuned
on too. phrasings_tuning16.csv, with fewer slips in it, came last: 76 of 83 first, 80 within three
before any change for it, where the search as it was before these three had 75 and 80. Of the
held-out halves 138 and 144 of 150 then stood first, 146 and 147 within three.

phrasings_tuning17.csv and phrasings_holdout3.csv were written together (purposes, tool against
method, symptoms, sizes run on, denials) and parted before any was run: 102 of 123 and 107 of 124
stood first, 111 and 116 within three. phrasings_tuning18.csv came after the first changes for the
seventeenth: 146 of 172 first, 157 within three; phrasings_parts.csv names parts that were no
entries then: none of 31. Only the totals of the third held-out file were looked at, four times; at
the end 112 stood first and 121 within three.

phrasings_tuning19.csv and phrasings_holdout4.csv were written in one go, from the list of kinds and
titles, and parted by chance before any was run: tool against method, sizes in words, signs left out
or wrong, spoken units, names of either side of the ocean: 83 of 89 and 82 of 88 stood first, 85 and
85 within three. phrasings_tuning21.csv and phrasings_holdout5.csv were made likewise an hour later,
where the first pair had few: what for, what has happened to a part, a length run on to a size,
denials: 38 and 38 of 50 first, 47 and 45 within three. After the first changes for the two open
ones came phrasings_tuning23.csv, of the same kind: 76 of 88 first, 81 within three. Then every rule
and weight was switched off by itself over all that is open, and what cost nothing left out, unless
another promise hangs on it. Of the held-out files only totals were looked at, three times: after
the first changes 139, 144, 114, 82 and 38 stood first (146, 147, 121, 87 and 46 within three), at
the end 139, 143, 115, 82 and 38 (146, 147, 120, 87 and 46).

phrasings_tuning24.csv begins at the entry again: one for each of 252 drawn by chance, a kind as
often as in the open sets, with a habit drawn beside it (purpose, symptom, which do I use, what size
for, misspelt, half a designation, mixed units, spoken, run together, names of either side): 220
stood first, 237 within three. phrasings_tuning25.csv begins at 124 situations, a day in ten trades,
and was written after five thousand other names had been added to the data without it: 108 stood
first, 116 within three, and 104 and 111 without those names. One line of it lacked a right entry
that the first run showed (the spanner of a Whitworth size); it counts as missed there.
phrasings_tuning26.csv, 56 as typed at a counter, came after what was changed for those two: 47
stood first, 54 within three, and 45 and 53 with the search as it was before the twenty-fourth.
Only the totals of the held-out files were looked at, twice: both times 140, 141, 116, 83 and 42
stood first (146, 147, 123, 86 and 47 within three), below the aim of 95 and 99 of 100. Parts that
became entries after that cost the third something, which was not counted anew.

phrasings_tuning27.csv and phrasings_holdout6.csv, 225 lines each, were written in one go from the
list of kinds and titles, of every kind and in six tongues, and parted by chance before search was
run on either: 205 and 206 stood first, 219 and 220 within three. Then it was asked what another
ranking would do, by two means that need no held-out line. One, tests/bench/unnamed.py, leaves out
each other name that makes up most of a line when that line is asked: 2972 of 3160 open lines stood
first, 3080 within three, as of the held-out ones. The other asks each of the sets 18 to 26 of the
data as they lay before it was tuned on, and the twenty-seventh: 942 of 1056 and 1007. Rare words
weighed more, how much of a name was said, words side by side, what a title, a purpose or a name
holds, the place in the data, a chance for each kind and for each word of a kind, fitted on four
parts of five and asked of the fifth, changed -16 to +5 first and -1 to +9 within three; nine
weights a step up or down, -12 to 0 first. So the weights stay. What helped was what had
not been read, or not been held against the right entry: a size
that stands in another entry's key beside the words for it (`tamper t25`), driving
squares, pitches apart from their thread, twelve points, classes of
nuts and of B8M, tempers: 3027 and 3122 by the one means, 951 and 1014 by the other. Of the held-out
files only totals were looked at, twice: first 141, 143, 115, 82, 42 and 207 stood first (147, 148,
123, 85, 47 and 220 within three), then the same but 83 and 86 of the fourth. That is 93.2 and 98.0
of 100 in the first five, below the aim of 95 and 99.
"""

import csv
import sqlite3
from pathlib import Path

import pytest

from fastkit.reference.search import search

TUNED = (
    "phrasings_tuning.csv",
    *(f"phrasings_tuning{n}.csv" for n in (*range(2, 20), 21, *range(23, 28))),
    "phrasings_parts.csv",
)
HELD_OUT = {
    "phrasings_holdout.csv": (141, 147),
    "phrasings_holdout2.csv": (143, 148),
    "phrasings_holdout3.csv": (115, 123),
    "phrasings_holdout4.csv": (83, 86),
    "phrasings_holdout5.csv": (42, 47),
    "phrasings_holdout6.csv": (207, 220),
}


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
    "which torx in m8 button head": "a button head stands before the one that has such a recess",
    "torx size for m6 button": "a button head stands before the one that has such a recess",
    "clean threads before threadlock": "what is cleaned for stands before the cleaning",
    "prevaling torqe nylon m12 nut": "the nut stands before its running torque",
    "how deep must threads go in ally": "aluminium of any kind stands before one kind",
    "316 stainless": "a class of bolts as well, which `torque` takes it for and which stands first",
    "plumbers hemp and white paste": "the paste stands before the hemp",
    "linsenkopf torx m8": "the button head stands before the pan head",
    "rz<10 embedding": "a sign of less is not read",
    "plain black steel galvanic": "the nut factor of plain black steel stands before it",
    "strain gauged bolt accuracy": "the gauge stands before the bolt that carries it",
    "preset torque screwdriver no scale": "preset is said of the one that is fixed",
    "no 2 sheet metal screw type ab pan": "the thread of that number stands before the screw",
    "m6 bolt 8mm or 10mm spanner": "the first of two sizes stands before the second",
    "hit it with the hammer impact driver": "the tool stands before what is done with it",
    "how far must a bolt screw into aluminium": "how tight it may be stands before how deep",
    "unterlegscheibe m16 gross": "a word before the size and one behind it are not taken together",
    "#12 sheet metal screw thread": "the metric name of the same screw stands before the inch one",
    "an 8 flare nut": "the dash size is not read",
    "uncast silicon aluminium vs cadmium galvanic": "the commoner aluminium stands before it",
    "mil prf 10924": "what the standard is about stands before it",
    "m30 hv structural bolt set": "a set bolt stands before the set of bolt and nut",
    "adjustable click wrench without a scale": "the one with a scale stands before it",
    "1/2 whit nut spanner": "the spanner stands before the nut that it fits",
    "yellow zinc plated": "how such a coat rubs stands before the coat",
    "how hot to break red threadlock": "the flame stands before what it breaks",
    "3/8 ratchet and bits": "the ratchet for bits stands before it",
    "m14x1.25 plug thread repair": "the plug's thread stands before its repair",
    "threadlocked small screw in laptop": "the locker for small screws stands before it",
    "m16 cup point allen grub": "the table of such screws' keys stands before the one by its point",
    "tinned part on cast ally": "aluminium of any kind stands before the cast one",
    "gold contacts on cad plate": "the coat stands before its pair with gold",
    "airbag right behind the screw": "what is done from behind stands before the neighbour",
    "stainless bolts stuck in ally mast": "galled stands before the pair of metals",
    "bspp or bspt quarter inch": "the second of two series is not read",
    "kitchen cabinet screw spins in chipboard": "the screw stands before what is done with it",
    "drill size m4 tap steel": "a rivet nut's hole in a steel sheet stands before it",
    "galvanised bolt with lube k": "the coat stands before how it turns when lubricated",
    "hydrogen embrittlement zinc plating 12.9": "the class stands before what embrittles it",
    "m14 1.5 sump plug torque": "the ring of a sump plug stands before the plug",
    "torque m10 into aluminium head stud": "the stud stands before its torque",
    "no access behind panel nut": "the panel stands before the way out",
    "nut wont come off stud turns with it": "seized stands before what is held",
    "bit keeps camming out push harder": "a better bit stands before the harder push",
    "e-circlip for 5 groove": "the ring for a shaft of that size stands before it",
    "threadlocker for a nut that is already on": "the usual one stands before the one that creeps",
    "bolt is rusted solid": "rusted stands before seized",
    "nut runner thread 3/8-24 drill letter": "the torque of such a nut stands before the thread",
    "clean off oil before locker alcohol": "drying off stands before what it is done with",
    "what lubricant for stainless threads": "how it rubs stands before what is put on",
    "will brake cleaner catch fire": "what burns stands before the cleaner",
    "engagement steel 8.8 tapped c45": "the steel stands before how deep it is tapped",
    "galling of stainless nut": "what stops galling stands before what is galled",
    "file flats on a round bolt": "the file stands before what is done with it",
}
NOT_READ = {
    "flat point grub": "the screws with that point stand before the point",
    "flare spanner for brake pipe nut": "the nut is found, not the spanner that is for it",
    "does copper slip change torque": "the paste is found, not what it does to a torque",
    "nine sixteenths": "a bare size in inches is read as a thread",
    "din912-8": "a size run on to the number of a standard is a part of it",
    "3/4 structural bolt a325": "a size in inches stands before the class beside it",
    "6mm slot screwdriver": "a width that no blade has is not rounded",
    "strip thread in ally head 10mm": "10 mm is read as a width, not as a thread",
    "m20 stainless nut a4-80": "the tightening of such a bolt stands before the class of the nut",
    "lug nut swollen": "nothing says swollen",
    "hose burst when i loosened it": "nothing says burst",
    "does paint affect torque": "the paint is found, not what it does to a torque",
    "m12x50hex": "hex is said of the socket too",
    "gg on gg slip friction": "gg is no word of the friction between castings",
    "7/16 sheetmetal screw 10 threads per inch": "its threads per inch are not put to the size",
    "fuel line an inch from where i need the torch": "the inch is read as the size of a tube",
    "100 mm long m12 8.8 half thread": "the torque of the class is found, not the bolt",
    "spark plug torque no gauge": "a torque of other plugs stands before the part",
    "torque wrench with no scale preset": "preset is said of the one that is adjusted",
    "nylon screw strength": "the plastics stand before the class of screws",
    "#8 sheet metal screw pan": "the number is read as the thread, the head is not found",
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
