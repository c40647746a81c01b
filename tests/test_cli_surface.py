"""The command line as users and scripts see it."""

import json
import re
from pathlib import Path

import click
import pytest
from click.testing import CliRunner

from fastkit.cli import cli

README = (Path(__file__).parents[1] / "README.md").read_text("utf-8")
CONTEXT = click.Context(cli)
NAMES = sorted(cli.list_commands(CONTEXT))


def command(name):
    found = cli.get_command(CONTEXT, name)
    assert found is not None
    return found


def test_the_slice_is_there():
    """The commands that this stage promises."""
    assert {"find", "show", "torque", "order", "extract", "cards", "sources", "check"} <= set(NAMES)


@pytest.mark.parametrize("name", NAMES)
def test_command_is_documented(name):
    """A command without help or without a README example does not ship."""
    assert command(name).help
    assert re.search(rf"^\$ fastkit {name}\b", README, re.MULTILINE)


@pytest.mark.parametrize("name", NAMES)
def test_every_option_says_what_it_does(name):
    """`--help` explains each option, and every command speaks JSON."""
    options = [param for param in command(name).params if isinstance(param, click.Option)]

    assert [] == [option.name for option in options if not option.help and not option.hidden]
    assert "--json" in {flag for option in options for flag in option.opts}


@pytest.mark.parametrize(
    "question",
    [
        ["find", "m8"],
        ["show", "grade:8.8"],
        ["torque", "M8", "8.8"],
        ["order", "8", "circle"],
        ["extract", "M8 rusted"],
        ["cards", "--list"],
        ["sources"],
        ["check"],
    ],
    ids=lambda question: question[0],
)
def test_json_is_alone_on_stdout(question):
    """One document on standard output and nothing else; only long work says how far it is."""
    result = CliRunner().invoke(cli, [*question, "--json"])

    assert 0 == result.exit_code, result.output
    assert isinstance(json.loads(result.stdout), dict)
    assert "" == result.stderr or question[0] == "cards"


@pytest.mark.parametrize("name", NAMES)
def test_help_fits_a_narrow_screen(name):
    """`--help` works for every command and keeps to the screen's width."""
    result = CliRunner().invoke(cli, [name, "--help"], terminal_width=60)

    assert 0 == result.exit_code
    assert result.stdout.startswith("Usage:")
