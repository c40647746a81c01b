"""What is said behind the thread in words is what `--was` and `--into` say."""

import shlex

import pytest
from click.testing import CliRunner

from fastkit.cli import cli


def run(line):
    return CliRunner().invoke(cli, shlex.split(line))


@pytest.mark.parametrize(
    ("words", "options"),
    [
        ("M6 pan head PH2 rusted", "M6 --was 'pan head PH2 rusted'"),
        ("M6 pan head rusted into aluminium", "M6 --was 'pan head rusted' --into aluminium"),
        ("M8 rusted in alloy --grip 12", "M8 --was rusted --into aluminium --grip 12"),
        ("M8 in alloy --into steel", "M8 --into steel"),
        ("M8 rusted --was 'socket head'", "M8 --was 'socket head rusted'"),
    ],
)
def test_words_say_what_options_say(words, options):
    said, meant = (run(f"replace {line} --json") for line in (words, options))

    assert said.stdout == meant.stdout
    assert said.exit_code == meant.exit_code < 2
