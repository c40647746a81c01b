"""
The disk loses power: what was acknowledged is there, whatever it had not yet written.

Every change to the folder is taken down in order (`recorder.py`). A cut after any of them leaves
on the disk all that was synced, of each file any part of the writes after its last sync (torn at
sectors of 512 bytes), and of the names those changed up to some moment since the folder was last
synced, for file systems keep that order. SQLite syncs the folder with a new journal's first sync
(`unixSync` does where a journal has just been made).
"""

import os
import pickle
import random
import sqlite3
import subprocess
import sys
from contextlib import closing
from pathlib import Path
from typing import NamedTuple

import pytest

from fastkit.shopbook import rows, store
from fastkit.shopbook.rows import Attempt

ROOT = Path(__file__).parents[2]
RECORDER = [sys.executable, str(Path(__file__).with_name("recorder.py"))]
SECTOR = 512
WRITES = 4
WAYS = ("nothing more", "everything", "some", "some")  # of what was not synced reached the disk


class Change(NamedTuple):
    """One thing done to a file: bytes at a place, or its length."""

    offset: int
    data: bytes | None  # None: cut to that length


class Disk:
    """Files by number with what is safe and what is not yet; names, safe and not yet."""

    def __init__(self) -> None:
        self.safe: list[bytes] = []
        self.loose: list[list[Change]] = []
        self.names: dict[str, int] = {}
        self.safe_names: dict[str, int] = {}
        self.moves: list[dict[str, int]] = []
        self.handles: dict[int, int] = {}
        self.journals: set[int] = set()  # made, and not synced yet
        self.said = -1

    def do(self, op: tuple) -> None:
        getattr(self, f"do_{op[0]}")(*op[1:])

    def do_create(self, path: str) -> None:
        self.names[Path(path).name] = len(self.safe)
        if path.endswith("-journal"):
            self.journals.add(len(self.safe))
        self.safe.append(b"")
        self.loose.append([])
        self._moved()

    def do_open(self, handle: int, path: str) -> None:
        self.handles[handle] = self.names[Path(path).name]

    def do_write(self, handle: int, offset: int, data: bytes) -> None:
        self.loose[self.handles[handle]].append(Change(offset, data))

    def do_truncate(self, handle: int, size: int) -> None:
        self.loose[self.handles[handle]].append(Change(size, None))

    def do_sync(self, handle: int) -> None:
        file = self.handles[handle]
        self._synced(file)
        if file in self.journals:
            self.journals.discard(file)
            self._names_synced()

    def do_fsync(self, path: str) -> None:
        if Path(path).name in self.names:
            self._synced(self.names[Path(path).name])
        else:
            self._names_synced()

    def do_rename(self, source: str, target: str) -> None:
        self.names[Path(target).name] = self.names.pop(Path(source).name)
        self._moved()

    def do_unlink(self, path: str) -> None:
        self.names.pop(Path(path).name, None)
        self._moved()

    def do_said(self, number: int) -> None:
        self.said = number

    def _moved(self) -> None:
        self.moves.append(dict(self.names))

    def _names_synced(self) -> None:
        self.safe_names, self.moves = dict(self.names), []

    def _synced(self, file: int) -> None:
        self.safe[file] = after(self.safe[file], self.loose[file])
        self.loose[file] = []

    def left(self, way: str, chance: random.Random) -> dict[str, bytes]:
        """What the disk holds after a cut now."""
        if way == "everything":
            names = self.names
        else:
            names = chance.choice([self.safe_names, *self.moves][: 1 if way[0] == "n" else None])
        found = {}
        for name, file in names.items():
            kept = self.loose[file] if way == "everything" else []
            if way == "some":
                kept = [
                    piece for c in self.loose[file] for piece in torn(c) if chance.random() < 0.5
                ]
            found[name] = after(self.safe[file], kept)
        return found


def torn(change: Change) -> list[Change]:
    """A write in the sectors that a disk may write one without the other."""
    if change.data is None:
        return [change]
    data, pieces, at = change.data, [], change.offset
    while data:
        size = SECTOR - at % SECTOR
        pieces.append(Change(at, data[:size]))
        at, data = at + size, data[size:]
    return pieces


def after(raw: bytes, changes: list[Change]) -> bytes:
    """A file's bytes once the changes are made."""
    held = bytearray(raw)
    for offset, data in changes:
        if data is None:
            del held[offset:]
        else:
            held.extend(bytes(max(0, offset - len(held))))
            held[offset : offset + len(data)] = data
    return bytes(held)


def recorded(tmp_path: Path, version: int) -> list[tuple]:
    """What four writes do to a folder; the first makes a file of the version, 0 of this one."""
    home = tmp_path / "recorded"
    home.mkdir()
    subprocess.run(
        [*RECORDER, str(tmp_path / "log"), str(version), str(WRITES)],
        env={**os.environ, "PYTHONPATH": str(ROOT), "FASTKIT_HOME": str(home)},
        check=True,
    )
    return pickle.loads((tmp_path / "log").read_bytes())


def number_of(path: Path) -> int:
    """The version that a sound own file is of; 0 where there is none, or one that is not sound."""
    if not path.exists() or not path.stat().st_size:
        return 0
    with closing(sqlite3.connect(path)) as connection:
        if [("ok",)] != connection.execute("PRAGMA integrity_check").fetchall():
            return 0
        return int(connection.execute("PRAGMA user_version").fetchone()[0])


@pytest.mark.parametrize("version", range(len(rows.MIGRATIONS)))
def test_power_cut_at_any_moment(version, tmp_path, monkeypatch):
    """After each change of four writes, the making of the file and its migration among them."""
    log, disk, chance = recorded(tmp_path, version), Disk(), random.Random(version)
    kinds = {op[0] for op in log}
    assert {"create", "write", "sync", "truncate", "fsync", "rename", "said"} <= kinds
    cuts = 0
    for op in log:
        disk.do(op)
        for way in WAYS:
            home = tmp_path / f"cut-{cuts}"
            home.mkdir()
            cuts += 1
            for name, raw in disk.left(way, chance).items():
                (home / name).write_bytes(raw)
            monkeypatch.setenv("FASTKIT_HOME", str(home))
            held = store.read()
            kept = [row.method for row in held.of(Attempt)]

            assert None is held.trouble, (op[:2], way)
            assert kept == [f"n{n}" for n in range(len(kept))]
            assert disk.said + 1 <= len(kept) <= disk.said + 2, (op[:2], way)
            if version and number_of(home / store.file().name) == len(rows.MIGRATIONS):
                copies = home.glob(f"shopbook.version-{version}-*.db")
                assert version in map(number_of, copies), (op[:2], way)
    assert cuts > 400
    with store.writing() as pen:  # the last disk goes on
        assert "n3" == pen.held().of(Attempt)[-1].method
