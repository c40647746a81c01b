"""The examples that help ends with are real: each is run."""

import shlex

import pytest
from click.testing import CliRunner

from fastkit.cli import COMMANDS, cli
from fastkit.cli.examples import ALONE, EXAMPLES

LINES = [line for lines in EXAMPLES.values() for line in lines] + [line for _, line in ALONE]


def test_every_command_has_one():
    assert set(COMMANDS) == set(EXAMPLES)


@pytest.mark.parametrize("line", LINES)
def test_it_runs(line, tmp_path, monkeypatch):
    """As typed, in an empty folder; every one has an answer."""
    monkeypatch.chdir(tmp_path)
    program, *words = shlex.split(line)
    result = CliRunner().invoke(cli, words)

    assert program == "fastkit"
    assert result.exit_code == 0, result.output


@pytest.mark.parametrize("name", COMMANDS)
def test_help_shows_them_whole(name):
    """An example that is broken over two lines cannot be copied."""
    shown = CliRunner().invoke(cli, [name, "--help"]).output

    for line in EXAMPLES[name]:
        assert line in shown


def test_alone_it_says_the_three_things_one_can_do_now():
    shown = CliRunner().invoke(cli, []).output.splitlines()

    assert len(shown) == 4
    for _, line in ALONE:
        assert any(line in row for row in shown)
