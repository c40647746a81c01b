"""What a hurried person types wrong is answered with what was wanted and a line that works."""

import os
import shlex

import pytest
from click.testing import CliRunner

from fastkit.cli import cli


def run(line):
    return CliRunner().invoke(cli, shlex.split(line), env={"COLUMNS": "80"})


@pytest.mark.parametrize(
    ("line", "parts"),
    [
        ("torque M8", ("GRADE", "expected as in: fastkit torque M8 8.8")),
        ("torque", ("THREAD", "expected as in: fastkit torque M8 8.8")),
        ("near", ("SIZE", "expected as in: fastkit near ")),
        ("identify", ("thread|drive|grade|head", "expected as in: fastkit identify ")),
        ("stock ad 12 m8x20", ("'ad'", "nearest: add")),
        ("tools lst", ("'lst'", "nearest: list")),
        ("repair", ("THREAD", "expected as in: fastkit repair ")),
        ("sources --export", ("--export", "expected as in: fastkit sources --export tables")),
        ("cards --size a5", ("--size", "'a5'", "expected one of sleeve, 3x5")),
        ("cards --paper A5", ("--paper", "expected one of a4, letter; nearest: a4")),
        ("note better-bit", ("better-bit", "ok, nothing, worse, broke")),
        ("cards tube nuts", ("'tube nuts'", "expected as in: fastkit cards ")),
        ("job nofile.toml", ("nofile.toml", "no such file", "fastkit job --example")),
    ],
)
def test_a_line_that_works_stands_behind_it(line, parts):
    result = run(line)

    assert 2 == result.exit_code
    assert 1 == result.stderr.strip().count("\n") + 1
    for part in parts:
        assert part in result.stderr


def test_the_body_that_nobody_named_is_assumed():
    """A thread made good in aluminium, where nothing said aluminium."""
    assert "body aluminium" in " ".join(run("repair M8").stdout.partition("Assumed")[2].split())
    assert "body aluminium" not in run("repair M8 --into aluminium").stdout
    assert "body steel" not in run("repair m8 steel").stdout


def test_a_file_that_is_none_is_told_as_what_it_is(tmp_path, monkeypatch):
    """A folder or a pipe is there, but is no plain file; each is named once, as what was wanted."""
    monkeypatch.chdir(tmp_path)
    (tmp_path / "folder.toml").mkdir()
    os.mkfifo("pipe.toml")
    (tmp_path / "noise.toml").write_bytes(b"\xff\xfe")

    for name in ("folder", "pipe"):
        told = run(f"job {name}.toml").stderr
        assert "not a plain file" in told and "fastkit job --example" in told
    told = run("order --at pipe.toml").stderr
    assert "not a plain file" in told and "job" not in told
    for line in ("tools import noise.toml", "tools import folder.toml", "job noise.toml"):
        assert 1 == run(line).stderr.count(".toml"), line


def test_a_shelf_without_a_word_or_with_a_thing_is_looked_at(tmp_path, monkeypatch):
    """`stock` lists, `stock m8x20` says whether there is one: nobody types `list` for it."""
    monkeypatch.setenv("FASTKIT_HOME", str(tmp_path))
    for key, named in (("stock", "stock"), ("tools", "tools"), ("note", "note")):
        result = run(key)
        assert result.exit_code == 0 and f"no {named}" in result.stdout

    run("stock add 12 m8x20 8.8 drawer 3")
    run("stock add 5 m6x16")
    run("tools add ratchet 3/8in --above 62")
    run("note better-bit nothing --damage worn --seized rusted")

    assert run("stock").stdout == run("stock list").stdout
    assert "drawer 3" in run("stock m8x20").stdout and "M6" not in run("stock m8x20").stdout
    assert run("stock m5").exit_code == 1 and "'m5'" in run("stock m5").stderr
    assert "62 mm" in run("tools ratchet").stdout
    assert "better-bit" in run("note").stdout
