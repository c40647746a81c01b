"""What is said behind thread and grade in words is what the options say."""

import shlex

import pytest
from click.testing import CliRunner

from fastkit.cli import cli


def run(line):
    return CliRunner().invoke(cli, shlex.split(line))


@pytest.mark.parametrize(
    ("words", "options"),
    [
        ("M8 10.9 oiled", "M8 10.9 --friction oiled"),
        ("M8 10.9 into aluminium", "M8 10.9 --into aluminium"),
        (
            "m8 10.9 oiled into alloy 12 mm engaged",
            "M8 10.9 --friction oiled --into aluminium --engage 12",
        ),
        ("M10 8.8 dry, flanged", "M10 8.8 --friction dry --head flange"),
        ("M6 A2-70 anti seize reused", "M6 A2-70 --friction anti-seize --reused"),
        (
            "M12 8.8 zinc plated cast iron 1-1/2 in deep",
            "M12 8.8 --friction zinc-dry --into cast-iron --engage 38.1",
        ),
        ("M8 8.8 socket head threadlock", "M8 8.8 --head socket --friction threadlocker"),
        ("M8 8.8 dry --friction oiled", "M8 8.8 --friction oiled"),
    ],
)
def test_words_say_what_options_say(words, options):
    said, meant = (run(f"torque {line} --json") for line in (words, options))

    assert said.stdout == meant.stdout
    assert said.exit_code == meant.exit_code < 2


def test_a_word_that_says_nothing_is_told_with_a_line_that_works():
    result = run("torque M8 8.8 banana")

    assert result.exit_code == 2
    assert result.stderr.count("\n") == 1
    assert "'banana'" in result.stderr
    assert "oiled" in result.stderr
