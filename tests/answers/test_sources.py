"""Where numbers come from, and the tables written out."""

import csv

from fastkit.answers.check import check
from fastkit.answers.sources import export, sources


def test_every_hand_kept_row_is_counted_once(store, database):
    found = sources(store=store)

    assert sum(source.rows for source in found) == sum(check(database).checked.values())
    assert abs(sum(source.share for source in found) - 1) < 1e-9


def test_the_largest_come_first(store):
    rows = [source.rows for source in sources(store=store)]

    assert rows == sorted(rows, reverse=True)


def test_tables_come_out_as_they_went_in(store, tmp_path, root):
    """A column kept by hand is the same after the way through the compiler and out again."""
    files = {file.stem: file for file in export(tmp_path / "a" / "b", store=store)}

    with files["grade_row"].open(encoding="utf-8", newline="") as file:
        out = [
            (row["grade"], float(row["tensile_min_mpa"]), row["source"])
            for row in csv.DictReader(file)
        ]
    with (root / "data" / "grade_rows.csv").open(encoding="utf-8", newline="") as file:
        kept = [
            (row["grade"], float(row["tensile_min_mpa"]), row["source"])
            for row in csv.DictReader(file)
        ]
    assert sorted(kept) == sorted(out)
    assert {"thread", "drive", "grade", "torque", "method", "source", "friction"} <= files.keys()


def test_written_twice_is_written_the_same(store, tmp_path):
    first = [file.read_bytes() for file in export(tmp_path, store=store)]

    assert first == [file.read_bytes() for file in export(tmp_path, store=store)]
