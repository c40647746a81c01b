"""The compiled file: the same bytes every time, checked, searchable, and no row lost on the way."""

import shutil
import sqlite3
import subprocess
import sys
from collections.abc import Iterator
from contextlib import closing
from math import pi
from pathlib import Path
from resource import RUSAGE_CHILDREN, getrusage

import pytest

from fastkit.compiler.build import KEYS, compile_database, data_version, gather
from fastkit.records.source import Phrase
from fastkit.records.thread import Thread
from fastkit.reference.lookup import many
from tests.compiler.small import spoil, write_small

DATA = Path(__file__).parents[2] / "data"


@pytest.fixture
def small(tmp_path: Path) -> Iterator[sqlite3.Connection]:
    """A writable connection to the compiled small data folder."""
    compile_database(write_small(tmp_path / "data"), tmp_path / "out.db")
    with closing(sqlite3.connect(tmp_path / "out.db")) as connection:
        connection.execute("PRAGMA foreign_keys = ON")
        yield connection


def test_same_data_same_bytes(database: Path, tmp_path: Path) -> None:
    """A second compilation gives the same file, byte by byte."""
    compile_database(DATA, tmp_path / "out.db")

    assert database.read_bytes() == (tmp_path / "out.db").read_bytes()


def test_same_bytes_from_another_process(database: Path, tmp_path: Path) -> None:
    """Nor do folder, hash seed, clock zone or language of another process show in the file."""
    copied = tmp_path / "other place" / "data"
    shutil.copytree(DATA, copied)
    strange = {"PYTHONHASHSEED": "4", "TZ": "Pacific/Apia", "LC_ALL": "C", "PATH": ""}
    line = [sys.executable, "-m", "fastkit.compiler", str(copied), str(tmp_path / "out.db")]
    subprocess.run(line, check=True, cwd=DATA.parent, env=strange, capture_output=True)

    assert database.read_bytes() == (tmp_path / "out.db").read_bytes()


def test_compiled_in_less_than_five_seconds(tmp_path: Path) -> None:
    """Of the processor's time, whatever else the machine does, and untraced: in a process."""
    before = getrusage(RUSAGE_CHILDREN)
    subprocess.run(
        [sys.executable, "-m", "fastkit.compiler", str(DATA), str(tmp_path / "out.db")],
        cwd=DATA.parent,
        stdout=subprocess.DEVNULL,
        check=True,
    )
    after = getrusage(RUSAGE_CHILDREN)

    assert after.ru_utime + after.ru_stime - before.ru_utime - before.ru_stime < 5


def test_version_follows_the_data_only(tmp_path: Path) -> None:
    """One changed digit changes the data version; the README does not."""
    folder = write_small(tmp_path / "data")
    before = data_version(folder)
    (folder / "README.md").write_text("grammar", "utf-8")
    assert before == data_version(folder)
    spoil(folder, "tap_drills.csv", "6.8", "6.9")
    assert before != data_version(folder)
    assert 12 == len(before)


def test_meta_tells_version_and_rows(tmp_path: Path) -> None:
    """The file itself says which data it was made from, and how many rows it holds."""
    folder = write_small(tmp_path / "data")
    rows = compile_database(folder, tmp_path / "out.db")
    with closing(sqlite3.connect(tmp_path / "out.db")) as connection:
        meta = dict(connection.execute("SELECT key, value FROM meta"))
        held = sum(
            connection.execute(f"SELECT count(*) FROM {table}").fetchone()[0] for table in KEYS
        )
    assert {"schema_version": "1", "data_version": data_version(folder), "rows": str(rows)} == meta
    assert held == rows


def test_every_row_of_the_data_comes_back(store: sqlite3.Connection) -> None:
    """What the compiler gathered is what the database gives, for every record and every field."""
    tables, _ = gather(DATA)
    for table, (record, key) in KEYS.items():
        wanted = {tuple(row[name] for name in record._fields) for row in tables.get(table, ())}
        names = ", ".join(f'"{name}"' for name in record._fields)
        held = [tuple(row) for row in store.execute(f"SELECT {names} FROM {table}")]
        assert len(held) == len(tables.get(table, ())), table
        assert wanted == set(held), table
        assert (
            []
            == store.execute(
                f"SELECT 1 FROM {table} GROUP BY {', '.join(key)} HAVING count(*) > 1"
            ).fetchall()
        )


def test_every_record_loads(store: sqlite3.Connection) -> None:
    """Each table's columns are its record's fields, in their order."""
    for table, (record, _) in KEYS.items():
        columns = [row[1] for row in store.execute(f"PRAGMA table_info({table})")]
        assert list(record._fields) == columns, table


def test_the_file_is_sound(store: sqlite3.Connection) -> None:
    """SQLite finds no fault, no dangling reference; the journal is a plain one."""
    assert "ok" == store.execute("PRAGMA integrity_check").fetchone()[0]
    assert [] == store.execute("PRAGMA foreign_key_check").fetchall()
    assert "delete" == store.execute("PRAGMA journal_mode").fetchone()[0]
    assert 0 == store.execute("PRAGMA freelist_count").fetchone()[0]


def test_tables_are_strict(store: sqlite3.Connection) -> None:
    """Every table of rows is STRICT."""
    loose = store.execute(
        "SELECT name FROM pragma_table_list WHERE type = 'table' AND schema = 'main'"
        " AND NOT strict AND name NOT LIKE 'sqlite%'"
    ).fetchall()
    assert [] == loose


@pytest.mark.parametrize(
    "statement",
    [
        "UPDATE thread SET nominal_mm = -8",
        "UPDATE thread SET family = 'W'",
        "UPDATE thread SET source = 'hearsay'",
        "UPDATE thread SET nominal_mm = 'eight'",
        "UPDATE thread SET locator = ''",
        "UPDATE friction SET mu_max = 1.6",
        "DELETE FROM source",
        "INSERT INTO tap_drill VALUES ('M99', 9, NULL, NULL, 'book', '-', 'copied')",
    ],
)
def test_the_database_guards_itself(small: sqlite3.Connection, statement: str) -> None:
    """Whoever edits the file by hand meets the same bounds and references."""
    with pytest.raises(sqlite3.IntegrityError):
        small.execute(statement)


def test_thread_dimensions_are_computed(small: sqlite3.Connection) -> None:
    """d2 = d - 3/4 H and so on, worked out by hand for M8 x 1.25 and 1/4-20."""
    rows = {row[0]: Thread(*row) for row in small.execute("SELECT * FROM thread")}
    metric, inch = rows["M8x1.25"], rows["1/4-20-UNC"]
    assert metric.pitch_diameter_mm == pytest.approx(8 - 0.649519 * 1.25, abs=1e-5)
    assert metric.minor_mm == pytest.approx(8 - 1.082532 * 1.25, abs=1e-5)
    assert metric.root_mm == pytest.approx(8 - 1.226869 * 1.25, abs=1e-5)
    assert metric.stress_area_mm2 == pytest.approx(pi / 4 * (8 - 0.938194 * 1.25) ** 2, abs=1e-3)
    assert 6.35 == inch.nominal_mm
    assert 1.27 == inch.pitch_mm
    assert inch.stress_area_mm2 == pytest.approx(pi / 4 * (6.35 - 0.9743 * 1.27) ** 2, abs=1e-6)


def test_a_drive_takes_form_and_symmetry_from_its_system(small: sqlite3.Connection) -> None:
    """They are kept once, with the system."""
    assert (1, 60.0) == small.execute("SELECT external, symmetry_deg FROM drive").fetchone()


def test_an_alias_finds_its_entry(small: sqlite3.Connection) -> None:
    """The words of an alias stand in the search table beside id and title."""
    found = small.execute("SELECT entry FROM search WHERE search MATCH 'spanner'").fetchall()
    assert [("drive:AF-13mm",)] == found


def test_a_purpose_finds_its_entry(store: sqlite3.Connection) -> None:
    """What an entry is for stands in a column of its own, beside what it is called."""
    found = store.execute("SELECT entry FROM search WHERE search MATCH 'serves:casting'")
    assert ("method:warm-host",) in found.fetchall()


def test_a_system_s_alias_finds_its_sizes(store: sqlite3.Connection) -> None:
    """A trade name of a drive system leads to every size of it."""
    found = {row[0] for row in store.execute("SELECT entry FROM search WHERE search MATCH 'torx'")}
    assert {"system:hexalobular", "drive:T20", "drive:T55"} <= found


def test_the_vocabulary_is_there(store: sqlite3.Connection) -> None:
    """Each distinct word stands once, for a misspelt one to be compared with."""
    words = [row[0] for row in store.execute("SELECT term FROM search_word")]
    assert len(set(words)) == len(words)
    assert "torx" in words


def test_the_phrases_of_a_text_are_found_by_their_first_words(store: sqlite3.Connection) -> None:
    """Every phrase begins with one word that counts, and each word of them stands once."""
    phrases = many(store, Phrase)
    starts = store.execute(
        "SELECT phrase.words, word FROM phrase_start JOIN phrase ON phrase.rowid = phrase"
    ).fetchall()
    words = [row[0] for row in store.execute("SELECT word FROM phrase_word")]

    assert len(phrases) == len(starts)
    assert ("the head is gone", "head") in starts or ("head gone", "head") in starts
    assert all(word == Phrase(said, *"?????").key[0] for said, word in starts)
    assert {word for phrase in phrases for word in phrase.words.split()} == set(words)
    assert len(words) == len(set(words))


def test_views_answer(store: sqlite3.Connection) -> None:
    """The views for other SQLite tools join what belongs together."""
    row = store.execute(
        "SELECT nominal_in, tap_drill_mm, clearance_medium_mm FROM thread_view WHERE id = 'M8x1.25'"
    ).fetchone()
    assert (0.315, 6.8, 9.0) == tuple(row)
    store.execute("SELECT torque_lbft, friction_title FROM torque_view").fetchall()
