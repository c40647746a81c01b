"""What is said in words behind a thread is what the options say."""

import shlex

import pytest
from click.testing import CliRunner

from fastkit.cli import cli


def run(line):
    return CliRunner().invoke(cli, shlex.split(line))


@pytest.mark.parametrize(
    ("words", "options"),
    [
        ("torque M8 10.9 oiled", "torque M8 10.9 --friction oiled"),
        ("torque M8 10.9 into aluminium", "torque M8 10.9 --into aluminium"),
        (
            "torque m8 10.9 oiled into alloy 12 mm engaged",
            "torque M8 10.9 --friction oiled --into aluminium --engage 12",
        ),
        ("torque M10 8.8 dry, flanged", "torque M10 8.8 --friction dry --head flange"),
        ("torque M6 A2-70 anti seize reused", "torque M6 A2-70 --friction anti-seize --reused"),
        (
            "torque M12 8.8 zinc plated cast iron 1-1/2 in deep",
            "torque M12 8.8 --friction zinc-dry --into cast-iron --engage 38.1",
        ),
        (
            "torque M8 8.8 socket head threadlock",
            "torque M8 8.8 --head socket --friction threadlocker",
        ),
        ("torque M8 8.8 dry --friction oiled", "torque M8 8.8 --friction oiled"),
        ("replace M6 pan head PH2 rusted", "replace M6 --was 'pan head PH2 rusted'"),
        (
            "replace M6 pan head rusted into aluminium",
            "replace M6 --was 'pan head rusted' --into aluminium",
        ),
        (
            "replace M8 rusted in alloy --grip 12",
            "replace M8 --was rusted --into aluminium --grip 12",
        ),
        ("replace M8 in alloy --into steel", "replace M8 --into steel"),
        ("replace M8 rusted --was 'socket head'", "replace M8 --was 'socket head rusted'"),
    ],
)
def test_words_say_what_options_say(words, options):
    said, meant = (run(f"{line} --json") for line in (words, options))

    assert said.stdout == meant.stdout
    assert said.exit_code == meant.exit_code < 2


def test_a_word_that_says_nothing_is_told_with_a_line_that_works():
    result = run("torque M8 8.8 banana")

    assert result.exit_code == 2
    assert result.stderr.count("\n") == 1
    assert "'banana'" in result.stderr
    assert "oiled" in result.stderr
