"""A write is killed before each call that the store makes, one after the other."""

import os
import shutil
import subprocess
import sys
from pathlib import Path

import pytest

from fastkit.shopbook import place, rows, store
from fastkit.shopbook.rows import SINCE, Attempt

ROOT = Path(__file__).parents[2]
KILLER = [sys.executable, str(Path(__file__).with_name("killer.py"))]


def note(*methods):
    with store.writing() as pen:
        for method in methods:
            pen.add(Attempt(0, "2026-01-01T00:00:00Z", method, "ok", "worn", "rusted", "", "{}"))


def as_usual():
    note("a", "b")


def as_older():
    with pytest.MonkeyPatch.context() as patch:
        patch.setattr(store, "MIGRATIONS", rows.MIGRATIONS[:1])
        patch.setattr(store, "TABLES", {k: n for k, n in rows.TABLES.items() if k not in SINCE})
        as_usual()


def damaged():
    as_usual()
    raw = place.file().read_bytes()
    place.file().write_bytes(bytes(50) + raw[50:])


def beside(home, tmp_path, monkeypatch):
    """The rows of each file beside the own one, read as if it were the own one."""
    monkeypatch.setenv("FASTKIT_HOME", str(tmp_path / "beside"))
    place.folder().mkdir(exist_ok=True)
    for file in home.glob("shopbook.[vd]*-*.db"):
        shutil.copy(file, place.file())
        yield store.read().rows


@pytest.mark.parametrize("before", [None, as_usual, as_older, damaged])
def test_killed_before_every_call(before, tmp_path, monkeypatch):
    """The making of a file, a write, a migration, a mending: each done whole or not at all."""
    start, homes = tmp_path / "start", tmp_path / "homes"
    monkeypatch.setenv("FASTKIT_HOME", str(start))
    homes.mkdir()
    if before:
        before()
    as_it_was = store.read()
    kept = [row.method for row in as_it_was.of(Attempt)]
    done = subprocess.run(
        [*KILLER, str(start), str(homes)],
        env={**os.environ, "PYTHONPATH": str(ROOT)},
        capture_output=True,
        text=True,
        check=True,
    )
    told = [int(line) for line in done.stdout.split()]
    assert len(told) > 40 and 2 == told[-1] and 0 == told[0]
    for call, how in enumerate(told, 1):
        home = homes / f"{call}"
        monkeypatch.setenv("FASTKIT_HOME", str(home))
        held = store.read()
        methods = [row.method for row in held.of(Attempt)]

        assert methods in ([[*kept, "new"]] if how else [[*kept, "new"], kept]), call
        assert None is held.trouble or (before is damaged and not how)
        note("next")
        assert [*methods, "next"] == [row.method for row in store.read().of(Attempt)]
        if before in (as_older, damaged):  # as it was, whole, under some name beside
            assert as_it_was.rows in list(beside(home, tmp_path, monkeypatch))
