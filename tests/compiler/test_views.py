"""The views that people open with any SQLite tool, and the example that README types."""

import re
import sqlite3
from pathlib import Path

import pytest

README = (Path(__file__).parents[2] / "README.md").read_text("utf-8")
DATA_README = (Path(__file__).parents[2] / "data" / "README.md").read_text("utf-8")
# $ sqlite3 FILE "select …", and what it prints: one row a line, cells between bars
TYPED = re.compile(r'^\$ sqlite3 \S+ "(select [^"]+)"\n(.*?)^```$', re.MULTILINE | re.DOTALL)


def views(store: sqlite3.Connection) -> list[str]:
    """Names of the views in the file."""
    return [row[0] for row in store.execute("SELECT name FROM sqlite_schema WHERE type = 'view'")]


def test_every_view_is_documented_and_answers(store: sqlite3.Connection) -> None:
    """data/README.md names each view, and each gives rows."""
    assert {"thread_view", "torque_view", "head_view", "drive_view", "grade_view"} <= set(
        views(store)
    )
    for view in views(store):
        assert f"`{view}`" in DATA_README
        assert store.execute(f"SELECT count(*) FROM {view}").fetchone()[0], view


@pytest.mark.parametrize(
    ("view", "table"),
    [
        *(("thread_view", "thread"), ("torque_view", "torque")),
        *(("head_view", "head"), ("drive_view", "drive")),
    ],
)
def test_a_view_loses_and_doubles_no_row(store: sqlite3.Connection, view: str, table: str) -> None:
    """A view about the rows of a table has each of them once."""
    counts = [store.execute(f"SELECT count(*) FROM {name}").fetchone() for name in (view, table)]
    assert counts[0] == counts[1]


def test_every_grade_stands_in_its_view(store: sqlite3.Connection) -> None:
    """A grade without a row of strengths stands there once."""
    assert [] == store.execute("SELECT id FROM grade EXCEPT SELECT id FROM grade_view").fetchall()
    rows = store.execute(
        "SELECT (SELECT count(*) FROM grade_row) + (SELECT count(*) FROM nut_row),"
        " count(*) FILTER (WHERE size_range IS NOT NULL) FROM grade_view"
    ).fetchone()
    assert rows[0] == rows[1]


def test_units_of_the_views(store: sqlite3.Connection) -> None:
    """An inch, a pound-foot and a ksi are what they are elsewhere."""
    assert (0.5118, 107.0, 64.5) == store.execute(
        "SELECT across_flats_in, socket_nm, open_wrench_nm FROM drive_view WHERE id = 'AF-13mm'"
    ).fetchone()
    assert ("4 mm", "Hexagon socket", 5.0) == store.execute(
        "SELECT drive_size, drive_system, nominal_mm FROM head_view WHERE id = 'ISO-4762-M5'"
    ).fetchone()
    proof = store.execute("SELECT proof_ksi FROM grade_view WHERE id = 'SAE-8'").fetchall()
    assert [(pytest.approx(120, abs=0.1),)] == proof


def test_the_example_that_readme_types(store: sqlite3.Connection) -> None:
    """The question after `sqlite3 FILE` prints what stands below it."""
    examples = TYPED.findall(README)
    assert examples
    for question, printed in examples:
        rows = store.execute(question).fetchall()
        assert printed.splitlines() == ["|".join(map(str, row)) for row in rows]
