"""What was acknowledged is there afterwards, whatever is done to the process, disk or file."""

import os
import random
import resource
import signal
import sqlite3
import subprocess
import sys
import time
from contextlib import closing
from pathlib import Path

import pytest

from fastkit.errors import Broken
from fastkit.shopbook import place, rows, store
from fastkit.shopbook.rows import SINCE, Attempt, Kept, KeptJob, Owned, Undone

ROOT = Path(__file__).parents[2]
WRITER = [sys.executable, str(Path(__file__).with_name("writer.py"))]
KILLS = 16


def start(name, count=100_000, size=2, **more):
    return subprocess.Popen(
        [*WRITER, name, str(count), str(size)],
        stdout=subprocess.PIPE,
        stderr=subprocess.PIPE,
        text=True,
        env={**os.environ, "PYTHONPATH": str(ROOT)},
        **more,
    )


def attempt(method="better-bit"):
    return Attempt(0, "2026-01-01T00:00:00Z", method, "ok", "worn", "rusted", "", "{}")


def noted():
    return [row.method for row in store.read().of(Attempt)]


def fill(count=60):
    """A file with rows of several kinds, one of them longer than a page."""
    with store.writing() as pen:
        for number in range(count):
            pen.add(attempt(f"m-{number}"))
        pen.add(Owned(0, "ratchet", "3/8 in", 40.0, None, 5.5, "ü" * 900))
        pen.add(Kept(0, "", "pump", "w" * 9000, "{}"))
    return store.read().rows


def test_killed_at_any_moment():
    """A few hundred writes, the writer killed sixteen times at moments nobody chose."""
    chance, written = random.Random(), 0
    for run in range(KILLS):
        with start(f"run{run}") as child:
            assert child.stdout is not None and child.stderr is not None
            before = chance.randrange(10, 30)
            for _ in range(before):
                child.stdout.readline()
            time.sleep(chance.uniform(0, 0.02))
            child.send_signal(signal.SIGKILL)
            rest, trouble = child.stdout.read(), child.stderr.read()  # what is buffered here, too
        kept = [name for name in noted() if name.startswith(f"run{run}-")]
        said = before + rest.count("\n")
        written += said

        assert "" == trouble
        # the last one may be kept and not said, never the other way round
        assert [f"run{run}-{number}" for number in range(len(kept))] == kept
        assert said <= len(kept) <= said + 1
    assert None is store.read().trouble
    assert written >= 200


@pytest.mark.parametrize("writers", [2, 8])
def test_several_writers_at_once(writers):
    """Each waits for the others; nobody's note is lost and no number is given twice."""
    each = 40 // writers
    children = [start(f"w{number}", each) for number in range(writers)]
    for child in children:
        said, trouble = child.communicate(timeout=60)
        assert ("", each, 0) == (trouble, said.count("\n"), child.returncode)

    assert {f"w{w}-{n}" for w in range(writers) for n in range(each)} == set(noted())
    assert len({row.id for row in store.read().rows}) == each * writers


def fills_up(child):
    """Let a writer run until its disk is full; what it said is what is there."""
    try:
        said, trouble = child.communicate(timeout=60)
    finally:
        child.kill()

    assert 0 != child.returncode
    assert "cannot write" in trouble and "nothing was kept" in trouble
    kept = noted()
    assert said.count("\n") == len(kept) > 10
    assert None is store.read().trouble


@pytest.mark.skipif(sys.platform == "win32", reason="files are limited by POSIX means")
def test_full_disk_by_a_limit_on_the_file():
    """The same where no file system can be mounted: no file may grow beyond 90 kB."""

    def small():
        signal.signal(signal.SIGXFSZ, signal.SIG_IGN)
        resource.setrlimit(resource.RLIMIT_FSIZE, (90_000, 90_000))

    fills_up(start("full", size=3000, preexec_fn=small))


def test_full_disk(tmp_path, monkeypatch):
    """A file system of 256 kB where one may be mounted, else a limit on the file again."""
    small = tmp_path / "small"
    small.mkdir()
    mount = ["mount", "-t", "tmpfs", "-o", "size=256k", "none", str(small)]
    if os.geteuid() or subprocess.run(mount, capture_output=True, check=False).returncode:
        test_full_disk_by_a_limit_on_the_file()
        return
    try:
        monkeypatch.setenv("FASTKIT_HOME", str(small))
        fills_up(start("full", size=3000))
        with pytest.raises(Broken, match="nothing was kept"), store.writing() as pen:
            for _ in range(300):
                pen.add(Kept(0, "", "pump", "w" * 9000, "{}"))
    finally:
        subprocess.run(["umount", "-l", str(small)], check=True)


def test_read_only_folder(tmp_path):
    """It is read without a right to write, and a write says that it failed."""
    before = fill()
    shut = place.folder()
    child = subprocess.run(
        [sys.executable, "-c", READ_ONLY, str(shut)],
        capture_output=True,
        text=True,
        check=True,
        env={**os.environ, "PYTHONPATH": str(ROOT)},
    )
    read, refusal = child.stdout.splitlines()

    assert str(len(before)) == read
    assert "cannot write" in refusal and "nothing was kept" in refusal
    assert before == store.read().rows


READ_ONLY = """
import os, sys
folder = sys.argv[1]
os.chmod(folder, 0o555)
for name in os.listdir(folder):
    os.chmod(os.path.join(folder, name), 0o444)
os.chmod(os.path.dirname(folder), 0o755)
from fastkit.shopbook import store
from fastkit.errors import Broken
if os.geteuid() == 0:  # root may write anywhere: be somebody else
    for above in list(__import__("pathlib").Path(folder).parents)[:-1]:
        if above.owner() == "root" and oct(above.stat().st_mode)[-1] == "0":
            os.chmod(above, 0o711)
    os.setuid(65534)
print(len(store.read().rows))
try:
    with store.writing() as pen:
        pass
except Broken as error:
    print(error)
finally:
    pass
"""


def spoil(kind, raw, chance):
    """The bytes of a file after something went wrong with the disk."""
    spoilt = bytearray(raw)
    if kind == "truncated":
        del spoilt[chance.randrange(len(raw)) :]
    elif kind == "zeroed":
        at = chance.randrange(len(raw))
        spoilt[at : at + 5000] = bytes(len(spoilt[at : at + 5000]))
    elif kind == "zeroed whole":
        spoilt = bytearray(len(raw))
    elif kind == "one bit":
        spoilt[chance.randrange(len(raw))] ^= 1 << chance.randrange(8)
    else:
        for _ in range(40):
            spoilt[chance.randrange(len(raw))] ^= 1 << chance.randrange(8)
    return bytes(spoilt)


@pytest.mark.parametrize("kind", ["truncated", "zeroed", "zeroed whole", "one bit", "many bits"])
def test_damaged_file(kind):
    """No wrong row is ever read; what is missing is said; the damaged file is kept aside."""
    before = fill()
    raw = place.file().read_bytes()
    chance = random.Random(kind)
    for _ in range(25):
        broken = spoil(kind, raw, chance)
        place.file().write_bytes(broken)
        try:
            held = store.read()
        except Broken as newer:  # the flipped bit stands in the version
            assert "newer fastkit" in str(newer) and broken == place.file().read_bytes()
            continue
        assert set(held.rows) <= set(before)
        assert held.trouble or before == held.rows

        with store.writing() as pen:
            added = pen.add(attempt("afterwards"))
        after = store.read()

        assert None is after.trouble
        assert {*held.rows, added} == set(after.rows)
        if held.trouble:
            assert "damaged" in held.trouble
            aside = sorted(place.folder().glob("shopbook.damaged-*.db"))
            assert pen.said and str(aside[0]) in pen.said[0]
            assert broken == aside[0].read_bytes() or kind != "truncated"
            for file in place.folder().glob("shopbook.damaged-*"):
                file.unlink()


def test_one_bit_costs_one_row():
    """A bit in the middle of a row's text spoils that row and no other."""
    before = fill()
    raw = place.file().read_bytes()
    at = raw.index(b"m-30")
    place.file().write_bytes(raw[:at] + b"M" + raw[at + 1 :])
    held = store.read()

    assert [row for row in before if not isinstance(row, Attempt) or row.method != "m-30"] == list(
        held.rows
    )
    assert held.trouble and "at least 1 cannot" in held.trouble


def test_newer_version_is_left_alone():
    """A file of a newer fastkit is neither read nor written nor moved."""
    fill()
    with closing(sqlite3.connect(place.file())) as connection:
        connection.execute("PRAGMA user_version=99")
    raw = place.file().read_bytes()
    with pytest.raises(Broken, match="newer fastkit"):
        store.read()
    with pytest.raises(Broken, match="newer fastkit"), store.writing():
        pass

    assert raw == place.file().read_bytes()
    assert [] == list(place.folder().glob("*damaged*"))


def written_as(version):
    """A file with rows of every kind that its version knows, as that version wrote it."""
    with pytest.MonkeyPatch.context() as patch:
        patch.setattr(store, "MIGRATIONS", rows.MIGRATIONS[:version])
        known = {kind: name for kind, name in rows.TABLES.items() if SINCE.get(kind, 1) <= version}
        patch.setattr(store, "TABLES", known)
        return fill()


@pytest.mark.parametrize("version", range(1, len(rows.MIGRATIONS)))
def test_older_version_is_brought_up_with_a_dated_copy(version):
    """From every earlier version: read as it is, then kept beside as it was, and every row."""
    before = written_as(version)
    assert before == store.read().rows
    with store.writing() as pen:
        pen.add(attempt("afterwards"))
        pen.add(KeptJob(0, "", "pump", "title = 'Pump'"))
    (copy,) = place.folder().glob(f"shopbook.version-{version}-*.db")

    assert str(copy) in pen.said[0]
    assert [*before] == list(store.read().rows[:-2])
    for path, number in ((copy, version), (place.file(), len(rows.MIGRATIONS))):
        assert 0o600 == path.stat().st_mode & 0o777
        with closing(sqlite3.connect(path)) as connection:
            assert (number,) == connection.execute("PRAGMA user_version").fetchone()
            assert ("ok",) == connection.execute("PRAGMA integrity_check").fetchone()


def test_a_failed_migration_changes_nothing(monkeypatch):
    before = fill()
    monkeypatch.setattr(store, "MIGRATIONS", (*rows.MIGRATIONS, "CREATE TABLE tool (id)"))
    with pytest.raises(Broken, match="nothing was kept"), store.writing():
        pass
    monkeypatch.setattr(store, "MIGRATIONS", rows.MIGRATIONS)

    assert before == store.read().rows


def test_clock_set_back():
    """Order is by number, not by the clock."""
    with store.writing() as pen:
        for year in ("2026", "2001", "1970"):
            pen.add(attempt()._replace(at=f"{year}-01-01T00:00:00Z"))

    assert ["2026", "2001", "1970"] == [row.at[:4] for row in store.read().of(Attempt)]


def test_settings_that_a_power_cut_needs():
    """Journal TRUNCATE with FULL syncs before and after the commit (sqlite.org, pragma)."""
    with store.writing() as pen:
        said = [
            pen.connection.execute(f"PRAGMA {name}").fetchone()[0]
            for name in ("journal_mode", "synchronous", "fullfsync", "secure_delete")
        ]

    assert ["truncate", 2, 1, 1] == said


def test_half_a_write_is_nothing():
    """What fails on the way leaves the file as it was."""
    before = fill()
    with pytest.raises(ZeroDivisionError), store.writing() as pen:
        pen.add(attempt())
        pen.drop(Owned, before[-2].id)
        1 / 0  # noqa: B018

    assert before == store.read().rows


def test_nothing_is_made_by_reading():
    """No file, no folder and no lock until something is kept; then for the user alone."""
    assert ((), None) == store.read()
    assert not place.folder().exists()
    fill(1)
    modes = {path.name: path.stat().st_mode & 0o777 for path in place.folder().iterdir()}

    assert {0o600} == set(modes.values())
    assert 0o700 == place.folder().stat().st_mode & 0o777


@pytest.mark.parametrize("what", ["folder", "pipe", "not a folder"])
def test_something_else_lies_there(what):
    """A folder or a pipe in the file's place is named, never waited for."""
    if what == "not a folder":
        place.folder().write_text("x")
    else:
        place.folder().mkdir()
        place.file().mkdir() if what == "folder" else os.mkfifo(place.file())
        with pytest.raises(Broken, match="not a file"):
            store.read()
    with pytest.raises(Broken), store.writing():
        pass


def test_undone_rows_are_left_out():
    with store.writing() as pen:
        kept, gone = pen.add(attempt("a")), pen.add(attempt("b"))
        pen.add(Undone(0, "", gone.id))

    assert [kept] == store.read().of(Attempt)


def cut_off():
    """The file and its journal as a write leaves them that dies half way to the disk."""
    before = fill()
    path, journal = place.file(), place.file().with_name("shopbook.db-journal")
    with store.writing() as pen:
        pen.connection.execute("PRAGMA cache_size=1")  # spills into the file before the commit
        for _ in range(20):
            pen.add(Kept(0, "", "pump", "w" * 9000, "{}"))
        halves = path.read_bytes(), journal.read_bytes()
    path.write_bytes(halves[0])
    journal.write_bytes(halves[1])
    assert len(halves[1]) > 4096
    return before


def test_a_write_that_was_cut_off_is_taken_back():
    """Readers, too, see what was there before it; the next write goes on from there."""
    before = cut_off()

    assert (before, None) == store.read()
    with store.writing() as pen:
        added = pen.add(attempt("afterwards"))
    assert (*before, added) == store.read().rows


def test_a_write_that_was_cut_off_and_a_damaged_file():
    """The journal is set aside with the file it belongs to, never played into the new one."""
    cut_off()
    journal = place.file().with_name("shopbook.db-journal")
    for file in (place.file(), journal):  # else the journal alone would mend it
        raw = file.read_bytes()
        file.write_bytes(bytes(100) + raw[100:])
    with store.writing() as pen:
        added = pen.add(attempt("afterwards"))

    assert "set aside" in pen.said[0]
    assert added in store.read().rows and None is store.read().trouble
