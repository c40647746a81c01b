"""Work for the phone page is kept by data and code, and never trusted blindly."""

from gzip import compress, decompress
from json import dumps

import pytest

from fastkit.answers import grid, grid_kept
from fastkit.shopbook.place import cache_folder

DAMAGES = ("extractor-broken",)


@pytest.fixture
def counted(monkeypatch):
    """How often the plans were made; a stand-in for them that takes no time."""
    times = []

    def made(path, progress, damages):
        times.append(damages)
        progress(1, 1)
        return {}

    monkeypatch.setattr(grid, "made", made)
    monkeypatch.setattr(grid, "pack", lambda store, cells: {"cells": [1, 2], "texts": ["°"]})
    monkeypatch.setattr(grid, "torques", lambda store, only: {"rows": [[1.5, -1]]})
    return times


def file():
    """Where the work is kept."""
    return cache_folder() / grid_kept.NAME


def test_made_once_and_the_same(counted, store):
    """The second time comes out of the cache, equal to the first, byte for byte when written."""
    first, second = grid.content(store), grid.content(store)

    assert first == second and len(counted) == 1
    assert grid_kept.text_of(first) == grid_kept.text_of(second)


def test_same_work_same_file(counted, store):
    """Nothing of the clock or of chance is in it."""
    grid.content(store)
    before = file().read_bytes()
    file().unlink()
    grid.content(store)

    assert before == file().read_bytes()


def spoiled(data):
    """What may stand in the file's place."""
    head, _, body = decompress(data).partition(b"\n")
    return {
        "empty": b"",
        "cut short": data[: len(data) // 2],
        "one byte wrong": data[:40] + bytes([data[40] ^ 1]) + data[41:],
        "not packed": head + b"\n" + body,
        "other work under our head": compress(head + b"\n" + body.replace(b"1.5", b"9.5")),
        "another stamp": compress(head.replace(b'"data": "', b'"data": "f') + b"\n" + body),
        "no stamp": compress(b"{}\n" + body),
        "a list": compress(b"[]\n[]"),
        "not JSON": compress(b"fastkit\n" + body),
        "not text": compress(b"\xff\xfe\n" + body),
        "nested": compress(b"[" * 100_000 + b"\n"),
    }


SPOILT = sorted(spoiled(compress(b"{}\n" + bytes(range(200)))))


@pytest.mark.parametrize("how", SPOILT)
def test_damaged_or_foreign_work_is_made_again(how, counted, store):
    """Whatever lies there: the answer is the right one, and the file is put right."""
    right = grid.content(store)
    good = file().read_bytes()
    file().write_bytes(spoiled(good)[how])

    assert grid.content(store) == right
    assert len(counted) == 2
    assert file().read_bytes() == good


def test_other_code_or_data_starts_afresh(counted, store, monkeypatch):
    """A version, a row or a line of code that differs: what is kept is not used."""
    grid.content(store)
    for name, value in (("VERSION", "9.9"), ("_code", lambda: "0")):
        monkeypatch.setattr(grid_kept, name, value)
        grid.content(store)
    monkeypatch.setattr(grid, "meta", lambda store: {"data_version": "0123456789ab"})
    grid.content(store)

    assert len(counted) == 4


def test_a_part_is_not_kept(counted, store):
    """Plans for a few damages are never taken for all."""
    grid.content(store, damages=DAMAGES)
    grid.content(store, threads=("M8x1.25",))

    assert not file().exists()


def test_a_folder_that_cannot_be_written_is_said(counted, store, monkeypatch, tmp_path):
    """The answer comes all the same."""
    (tmp_path / "file").write_text("in the way")
    monkeypatch.setenv("FASTKIT_HOME", str(tmp_path / "file"))
    said = []

    assert grid.content(store, told=said.append)["stuck"]["cells"] == [1, 2]
    assert len(said) == 1 and "cannot be kept" in said[0]


def test_no_home_is_no_hindrance(counted, store, monkeypatch):
    """Nor where no folder is known at all."""
    monkeypatch.delenv("FASTKIT_HOME")
    monkeypatch.delenv("XDG_CACHE_HOME", raising=False)
    monkeypatch.setattr("fastkit.shopbook.place.paths.expanduser", lambda path: path)
    said = []

    assert grid.content(store, told=said.append)["stuck"]["cells"] == [1, 2]
    assert "FASTKIT_HOME" in said[0]


def test_stamp_names_what_must_agree():
    """Version, data and code."""
    assert set(grid_kept.stamp("abc")) == {"fastkit", "data", "code"}
    assert dumps(grid_kept.stamp("abc"))
