"""The group: commands come when called, every trouble is one line and a status."""

import json
import os
import subprocess
import sys
from pathlib import Path

import click
import pytest
from click.testing import CliRunner
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from fastkit.cli import COMMANDS, cli
from fastkit.errors import Broken, Misuse, NotHeld
from fastkit.reference import store as files
from fastkit.version import VERSION


def run(*args):
    return CliRunner().invoke(cli, args)


def fastkit(*args, root, **options):
    """The command as a process of its own."""
    return subprocess.run(
        [sys.executable, "-m", "fastkit", *args],
        capture_output=True,
        cwd=root,
        timeout=60,
        **options,
    )


def test_version_names_code_and_data():
    result = run("--version")

    assert 0 == result.exit_code
    assert result.stdout.startswith(f"fastkit {VERSION}, data ") and "rows" in result.stdout


def test_alone_it_helps():
    result = run()

    assert 0 == result.exit_code
    assert "find" in result.stdout and "extract" in result.stdout


def test_every_command_is_listed_with_a_line():
    result = run("--help")

    for name, line in COMMANDS.items():
        assert name in result.stdout and line in result.stdout
        assert run(name, "--help").exit_code == 0


@pytest.mark.parametrize(
    ("args", "said"),
    [
        (["finf"], "nearest: find"),
        (["m8", "8.8"], "nearest: fastkit find m8 8.8"),
        (["stuck", "bolt", "m8"], "nearest: fastkit extract stuck bolt m8"),
        (["m6", "rounded"], "nearest: fastkit extract m6 rounded"),
        (["tourqe", "m8", "8.8"], "nearest: torque"),
        (["find", "--limt", "3", "m8"], "find --help lists; nearest: --limit"),
        (["extract", "--damge", "worn"], "extract --help lists; nearest: --damage"),
        (["find", "m8", "--limit", "many"], "not a valid integer"),
        (["show"], "ID is missing; expected as in: fastkit show "),
        (["check", "b"], "is too much"),
        (["--nope"], "no option '--nope'; expected one that"),
        (["find", "--limit"], "--limit stands without its value"),
        (["\x1b[2J"], "no command"),
        (["x" * 9000], "no command"),
        (["order", "--at", "\0"], "holds a NUL"),
        (["tools", "export", "\0.csv"], "holds a NUL"),
    ],
)
def test_wrong_usage_is_one_line_and_two(args, said):
    result = run(*args)

    assert 2 == result.exit_code
    assert "" == result.stdout
    assert 1 == result.stderr.count("\n") and said in result.stderr
    assert result.stderr.startswith("fastkit: ") and "\x1b" not in result.stderr


@pytest.mark.parametrize(
    ("error", "status"),
    [
        (NotHeld("not held"), 1),
        (Misuse("misused"), 2),
        (Broken("broken"), 3),
        (KeyboardInterrupt(), 130),
        (PermissionError(13, "Permission denied", "deck.pdf"), 3),
    ],
)
def test_statuses(monkeypatch, error, status):
    @click.command()
    def failing():
        raise error

    monkeypatch.setattr(cli, "get_command", lambda ctx, name: failing)

    result = run("find")

    assert status == result.exit_code
    assert isinstance(result.exception, SystemExit)
    assert 1 == result.stderr.strip().count("fastkit: ") == len(result.stderr.strip().splitlines())


def test_a_missing_file_is_three_on_every_command(monkeypatch, tmp_path):
    monkeypatch.setattr(files, "BUILT", tmp_path / "reference.db")

    for args in (["find", "m8"], ["show", "grade:8.8"], ["sources"], ["check"], ["--version"]):
        result = run(*args)
        assert (3, "") == (result.exit_code, result.stdout)
        assert "python -m fastkit.compiler" in result.stderr


def test_a_stale_file_is_named_once_and_the_answer_still_comes(monkeypatch):
    monkeypatch.setattr("fastkit.answers.held.out_of_date", lambda: "old: run `x`")

    result = run("find", "m8", "--json")

    assert 0 == result.exit_code and "fastkit: old: run `x`\n" == result.stderr
    assert "thread:M8x1.25" == json.loads(result.stdout)["hits"][0]["id"]


def test_a_reader_that_leaves_is_no_trouble(root):
    shell = f"{sys.executable} -m fastkit find torque --limit 1000 --json | head -1"
    result = subprocess.run(shell, shell=True, capture_output=True, cwd=root, timeout=60)

    assert b"" == result.stderr and 1 == result.stdout.count(b"\n")


@pytest.mark.skipif(not Path("/dev/full").exists(), reason="no full device on this system")
def test_a_full_disk_is_told(root):
    with Path("/dev/full").open("w") as full:
        result = subprocess.run(
            [sys.executable, "-m", "fastkit", "find", "m8"],
            stdout=full,
            stderr=subprocess.PIPE,
            cwd=root,
        )

    assert 3 == result.returncode and b"Traceback" not in result.stderr


def test_a_terminal_of_few_letters_still_gets_its_answer(root):
    result = fastkit(
        "show", "drive:AF-13mm", root=root, env={**os.environ, "PYTHONIOENCODING": "ascii"}
    )

    assert 0 == result.returncode and b"proof torque" in result.stdout


def test_bytes_that_are_no_text(root):
    result = fastkit("find", b"\xff\xfe m8", root=root)

    assert result.returncode in {0, 1} and b"Traceback" not in result.stderr


@settings(max_examples=60, suppress_health_check=[HealthCheck.function_scoped_fixture])
@given(
    command=st.sampled_from(["find", "show"]),
    words=st.lists(st.text(max_size=30), max_size=4),
    as_json=st.booleans(),
)
def test_whatever_is_typed(command, words, as_json):
    """A document or lines, or one line of refusal; never a traceback, nothing raw."""
    result = run(command, *(["--json"] if as_json else []), "--", *words)

    assert result.exit_code in {0, 1, 2}, result.output
    assert isinstance(result.exception, SystemExit | None)
    assert result.stderr.count("\n") <= 1
    assert all(c == "\n" or c.isprintable() for c in result.stdout + result.stderr)
    if as_json and result.exit_code < 2:
        document = json.loads(result.stdout)
        assert result.exit_code == 0 or document["reason"]
    elif result.exit_code:
        assert "" == result.stdout
