"""The compiled file: opened read-only wherever it lies, and never silently out of date."""

import os
import shutil
import sqlite3

import pytest

from fastkit.compiler.build import data_version
from fastkit.errors import Broken
from fastkit.reference import store as files


@pytest.mark.parametrize("name", ["a b.db", "a#b.db", "a?b.db", "a%20b.db", "ä.db", "a'b.db"])
def test_any_path_opens(database, tmp_path, name):
    """A file URI breaks on signs that a path may hold, unless they are escaped."""
    path = tmp_path / name
    shutil.copy(database, path)

    connection = files.connect(path)

    assert files.meta(connection)["data_version"]
    connection.close()


def test_nothing_can_be_written(store):
    with pytest.raises(sqlite3.OperationalError, match="readonly"):
        store.execute("DELETE FROM thread")


def test_a_read_only_folder_does(database, tmp_path):
    folder = tmp_path / "sealed"
    folder.mkdir()
    shutil.copy(database, folder / "reference.db")
    (folder / "reference.db").chmod(0o400)
    folder.chmod(0o500)
    try:
        files.connect(folder / "reference.db").close()
    finally:
        folder.chmod(0o700)


def test_a_missing_file_is_named_with_the_way_to_make_it(tmp_path):
    with pytest.raises(
        Broken, match=r"reference\.db is missing: run `python -m fastkit\.compiler`"
    ):
        files.connect(tmp_path / "reference.db")


def test_without_a_checkout_it_is_installed_again(tmp_path, monkeypatch):
    monkeypatch.setattr(files, "CHECKOUT", tmp_path / "data")

    with pytest.raises(Broken, match="install fastkit again"):
        files.connect(tmp_path / "reference.db")
    assert files.stale(tmp_path / "reference.db") is None
    assert files.differs(tmp_path / "reference.db") is None


@pytest.mark.parametrize(
    "content", [b"", b"not a database at all", b"SQLite format 3\0" + b"\xff" * 4096]
)
def test_another_file_is_refused(tmp_path, content):
    path = tmp_path / "reference.db"
    path.write_bytes(content)

    with pytest.raises(Broken, match="cannot read the data file"):
        files.connect(path)


def test_a_question_that_fails_is_a_refusal(store):
    with pytest.raises(Broken, match="no such table"):
        files.query(store, "SELECT * FROM nowhere")


def test_both_sides_reckon_the_same_version(root):
    """The reader may not import the compiler, so each has its own few lines."""
    assert data_version(root / "data") == files.version_of(root / "data")


def test_age_and_contents_decide(database, tmp_path, monkeypatch, root):
    """A newer file of the same contents is no difference; a changed one is, once it is newer."""
    folder, path = tmp_path / "data", tmp_path / "reference.db"
    shutil.copytree(root / "data", folder)
    shutil.copy(database, path)
    monkeypatch.setattr(files, "CHECKOUT", folder)
    future = path.stat().st_mtime + 100

    os.utime(folder / "threads.csv", (future, future))
    assert files.stale(path) is None

    with (folder / "threads.csv").open("a", encoding="utf-8") as file:
        file.write("\n")
    os.utime(folder / "threads.csv", (future, future))
    warning = files.stale(path)
    assert warning is not None and "python -m fastkit.compiler" in warning
    assert warning == files.differs(path)

    os.utime(path, (future + 100, future + 100))
    assert files.stale(path) is None
    assert files.differs(path) is not None
