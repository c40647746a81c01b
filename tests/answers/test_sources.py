"""Where numbers come from, and the tables written out."""

import csv
import sqlite3
from contextlib import closing

import pytest

from fastkit.answers.check import check
from fastkit.answers.sources import export, sources
from fastkit.compiler.build import compile_database
from fastkit.compiler.reading import BadData
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


def test_an_export_compiles_to_the_same_rows(store, tmp_path):
    """Every table and view of a database made from the exported files is that of the first."""
    export(tmp_path / "out", store=store)
    compile_database(tmp_path / "out", tmp_path / "again.db")
    with closing(sqlite3.connect(tmp_path / "again.db")) as again:
        assert [] == again.execute("PRAGMA foreign_key_check").fetchall()
        named = "SELECT name, sql FROM sqlite_schema ORDER BY name"
        assert store.execute(named).fetchall() == again.execute(named).fetchall()
        readable = "SELECT name FROM sqlite_schema WHERE type IN ('table', 'view')"
        for (name,) in store.execute(readable).fetchall():
            question = f'SELECT * FROM "{name}"'
            before, after = (list(at.execute(question)) for at in (store, again))
            if name == "meta":  # the version is that of the files
                before, after = (
                    [row for row in rows if row[0] != "data_version"] for rows in (before, after)
                )
            assert before == after, name


def test_a_fault_in_an_export_is_told_by_file_and_line(store, tmp_path):
    """What was exported is checked like what is kept: bounds, references, numbers."""
    files = {file.stem: file for file in export(tmp_path / "out", store=store)}
    text = files["washer"].read_text("utf-8")
    files["washer"].write_text(text.replace(",M2,2.2,", ",M2,2;2,", 1), "utf-8")
    with pytest.raises(BadData, match=r"washer\.csv:3: inner_mm: '2;2': expected a "):
        compile_database(tmp_path / "out", tmp_path / "again.db")

    assert not (tmp_path / "again.db").exists()


def test_every_kept_table_is_exported(store, tmp_path):
    """One file for each file of the data, and no other but the computed ones."""
    files = {file.stem for file in export(tmp_path, store=store)}

    assert {spec.record.TABLE for spec in SPECS} <= files


def test_written_twice_is_written_the_same(store, tmp_path):
    first = [file.read_bytes() for file in export(tmp_path, store=store)]

    assert first == [file.read_bytes() for file in export(tmp_path, store=store)]
