"""
What a hundred times the rows cost a search, in process.

Run by hand: `python -m tests.bench.search [TIMES]`. Beside the package's own file stands one with
made-up entries: each entry again under other numbers and with three made-up words, so that the
rows grow a hundredfold and the words that are spelt grow too. Aim: at most 2.
"""

import random
import shutil
import sqlite3
import string
import sys
import tempfile
from contextlib import closing
from pathlib import Path
from statistics import median
from time import process_time

from fastkit.notation.entry import key_start, letter_pairs, sound
from fastkit.reference.search import search
from fastkit.reference.spelling import _alike, slip
from fastkit.reference.store import BUILT, connect

QUESTIONS = (
    *("m8", "quarter twenty", "m8 8.8 torque", "what drill for m6 tap", "hexalobullar 30"),
    *("stainless", "torque m8 stainless", "grub screw", "pentrating oil", "rounded nut", "T20"),
    *("wire insert m8", "spanner 13", "left hand thread", "qwertzuiop", "loctight", "flange nut"),
    *("galvanic aluminium stainless", "brake tube nut", "stripped hex socket", "screww extracter"),
)
ROUNDS = 5


def grown(path: Path, times: int) -> None:
    """Put made-up entries beside the real ones."""
    dice = random.Random(3)
    words = ["".join(dice.choices(string.ascii_lowercase, k=7)) for _ in range(40_000)]
    with closing(sqlite3.connect(path)) as db:
        db.execute("PRAGMA foreign_keys=OFF")
        columns = "entry, kind, title, words, serves"
        rows = db.execute(f"SELECT {columns} FROM search").fetchall()
        for copy in range(1, times):
            made = [
                (f"{entry}~{copy}", kind, f"{title} {' '.join(dice.choices(words, k=3))}", *said)
                for entry, kind, title, *said in rows
            ]
            entries = [row[:3] for row in made]
            db.executemany("INSERT INTO entry (id, kind, title) VALUES (?, ?, ?)", entries)
            db.executemany(f"INSERT INTO search ({columns}) VALUES (?, ?, ?, ?, ?)", made)
        db.commit()
        db.execute("INSERT INTO search (search) VALUES ('optimize')")
        db.execute("CREATE VIRTUAL TABLE temp.words USING fts5vocab(main, search, row)")
        db.execute("DELETE FROM search_word")
        db.execute("DELETE FROM search_pair")
        held = db.execute("SELECT term, doc FROM temp.words").fetchall()
        sounds = ((term, doc, sound(term)) for term, doc in held)
        db.executemany("INSERT INTO search_word VALUES (?, ?, ?)", sounds)
        spelt = [row[0] for row in db.execute("SELECT term FROM search_word")]
        pairs = ((pair, word) for word in spelt for pair in letter_pairs(word))
        db.executemany("INSERT INTO search_pair VALUES (?, ?)", pairs)
        db.execute("DELETE FROM search_key")
        found = db.execute("SELECT rowid, words FROM search").fetchall()
        keys = ((key_start(said), place) for place, said in found)
        db.executemany("INSERT INTO search_key VALUES (?, ?)", keys)
        db.commit()


def seconds(store: sqlite3.Connection, question: str) -> float:
    """The shortest of some rounds, of the processor: others work on the machine too."""
    taken = []
    for _ in range(ROUNDS):
        _alike.cache_clear()
        slip.cache_clear()
        begun = process_time()
        search(store, question)
        taken.append(process_time() - begun)
    return min(taken)


def main(times: int) -> None:
    """Print the ratio of each question and their median."""
    with tempfile.TemporaryDirectory() as folder:
        large = Path(folder) / "large.db"
        shutil.copy(BUILT, large)
        grown(large, times)
        small_store, large_store = connect(), connect(large)
        ratios, all_small, all_large = [], 0.0, 0.0
        for question in QUESTIONS:
            small, large_s = seconds(small_store, question), seconds(large_store, question)
            ratios.append(large_s / small)
            all_small, all_large = all_small + small, all_large + large_s
            both = f"{1000 * small:6.1f} ms {1000 * large_s:7.1f} ms"
            print(f"{question:30} {both} {ratios[-1]:6.2f} x")
        print(
            f"{times} x the rows: all together {all_large / all_small:.2f} x, "
            f"median {median(ratios):.2f} x, worst {max(ratios):.2f} x"
        )


if __name__ == "__main__":
    main(int(sys.argv[1]) if len(sys.argv) > 1 else 100)
