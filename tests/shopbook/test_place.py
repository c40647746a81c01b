"""The own file lies where platformdirs would put it, unless FASTKIT_HOME says otherwise."""

import sys

import platformdirs
import pytest

from fastkit.shopbook import place


def test_own_folder(monkeypatch, tmp_path):
    monkeypatch.setenv("FASTKIT_HOME", str(tmp_path / "a#b"))

    assert tmp_path / "a#b" / "shopbook.db" == place.file()


@pytest.mark.parametrize("given", [None, "", " ", "relative/x", "/data of/mine"])
def test_as_platformdirs_says(monkeypatch, given):
    """Also with an XDG folder that is set, empty or not absolute."""
    monkeypatch.delenv("FASTKIT_HOME")
    monkeypatch.delenv("XDG_DATA_HOME", raising=False)
    if given is not None:
        monkeypatch.setenv("XDG_DATA_HOME", given)

    assert platformdirs.user_data_path("fastkit", appauthor=False) == place.folder()


@pytest.mark.parametrize("system", ["darwin", "win32"])
def test_elsewhere(monkeypatch, system, tmp_path):
    """The other systems' folders, as their makers fix them."""
    monkeypatch.delenv("FASTKIT_HOME")
    monkeypatch.delenv("XDG_DATA_HOME", raising=False)
    monkeypatch.setattr(sys, "platform", system)
    monkeypatch.setenv("HOME", str(tmp_path))
    monkeypatch.setenv("LOCALAPPDATA", str(tmp_path / "AppData/Local"))
    usual = {"darwin": "Library/Application Support", "win32": "AppData/Local"}

    assert tmp_path / usual[system] / "fastkit" == place.folder()


@pytest.mark.parametrize("given", [None, "", "relative/x", "/cache of/mine"])
def test_cache_as_platformdirs_says(monkeypatch, given):
    """What can be worked out again lies where such things lie."""
    monkeypatch.delenv("FASTKIT_HOME")
    monkeypatch.delenv("XDG_CACHE_HOME", raising=False)
    if given is not None:
        monkeypatch.setenv("XDG_CACHE_HOME", given)

    assert platformdirs.user_cache_path("fastkit", appauthor=False) == place.cache_folder()


def test_cache_goes_with_the_own_folder(monkeypatch, tmp_path):
    """Who names a home finds everything in it."""
    monkeypatch.setenv("FASTKIT_HOME", str(tmp_path))

    assert tmp_path / "cache" == place.cache_folder()


@pytest.mark.parametrize(
    ("system", "usual"),
    [("darwin", "Library/Caches/fastkit"), ("win32", "AppData/Local/fastkit/Cache")],
)
def test_cache_elsewhere(monkeypatch, system, usual, tmp_path):
    """The other systems' folders, as their makers fix them."""
    monkeypatch.delenv("FASTKIT_HOME")
    monkeypatch.delenv("XDG_CACHE_HOME", raising=False)
    monkeypatch.setattr(sys, "platform", system)
    monkeypatch.setenv("HOME", str(tmp_path))
    monkeypatch.setenv("LOCALAPPDATA", str(tmp_path / "AppData/Local"))

    assert tmp_path / usual == place.cache_folder()
