"""Where numbers come from, and the tables written out."""

import csv
import sqlite3

from fastkit.answers.check import check
from fastkit.answers.sources import export, sources
from fastkit.compiler.build import KEYS, RULES, schema
from fastkit.compiler.spec import columns
from fastkit.compiler.tables import SPECS


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


def test_the_export_is_the_tables_row_for_row(store, tmp_path):
    """Read back through the schema, with its bounds and references, the rows are the same."""
    files = {file.stem: file for file in export(tmp_path / "out", store=store)}
    fresh = sqlite3.connect(":memory:")
    fresh.executescript(schema())
    fresh.execute("PRAGMA foreign_keys = ON")
    fresh.execute("PRAGMA defer_foreign_keys = ON")
    fresh.execute("BEGIN")
    fresh.execute("PRAGMA defer_foreign_keys = ON")
    fresh.executemany("INSERT INTO entry VALUES (?, ?, ?)", store.execute("SELECT * FROM entry"))
    for table, file in files.items():
        with file.open(encoding="utf-8", newline="") as stream:
            header, *lines = csv.reader(stream)
        types = [column.type for column in columns(KEYS[table][0], RULES[table])]
        assert header == [column.name for column in columns(KEYS[table][0], RULES[table])]
        fresh.executemany(
            f"INSERT INTO {table} VALUES ({', '.join('?' * len(header))})",
            [
                [of(cell) if cell else None for of, cell in zip(types, cells, strict=True)]
                for cells in lines
            ],
        )
    fresh.commit()

    assert [] == fresh.execute("PRAGMA foreign_key_check").fetchall()
    for table in files:
        question = f"SELECT * FROM {table} ORDER BY rowid"
        assert store.execute(question).fetchall() == fresh.execute(question).fetchall()


def test_every_kept_table_is_exported(store, tmp_path):
    """One file for each file of the data, and no other but the computed ones."""
    files = {file.stem for file in export(tmp_path, store=store)}

    assert {spec.record.TABLE for spec in SPECS} <= files


def test_written_twice_is_written_the_same(store, tmp_path):
    first = [file.read_bytes() for file in export(tmp_path, store=store)]

    assert first == [file.read_bytes() for file in export(tmp_path, store=store)]
