"""Whatever is typed, the answer is an answer or one line: no traceback, no stray file."""

import re
import shlex

import click
import pytest
from click.testing import CliRunner
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from fastkit.cli import COMMANDS, cli
from fastkit.cli.examples import EXAMPLES
from tests.command_lines import EXPORTED, FILES, OUTPUT, lay_out, lines, run
from tests.command_lines import faults as found_wrong

# Options so named take one number of a unit.
NUMBERS = {"MM", "DEG", "PCT", "MIN", "N", "NM", "TORQUE", "DEGC", "FLOAT"}
NUMBER_LINES = {
    "torque": ["M8", "8.8"],
    "repair": ["M8"],
    "replace": ["M8"],
    "extract": ["M8"],
    "note": ["better-bit", "ok"],
    "tools": ["add", "ratchet"],
    "order": ["8", "circle"],
    "identify": ["thread"],
}
MAY_BE = {  # a cold service, a turn back, a clamp that leaves an empty window
    *(("--hot", "-3"), ("--angle", "-3"), ("--adapter-angle", "-3"), ("--clamp", "99999999"))
}


def told_wrong(line):
    """What is wrong with the answer to a line, an exception that got out among it."""
    result = run(line)
    bad = found_wrong(line, result.exit_code, result.stdout, result.stderr)
    if result.exception and not isinstance(result.exception, SystemExit):
        bad.append(repr(result.exception))
    return bad


def test_a_thousand_command_lines(tmp_path, monkeypatch):
    """An answer, or a refusal with a status that says whose fault it was; nothing else is made."""
    monkeypatch.chdir(tmp_path)
    lay_out(tmp_path)
    wrong = {}
    for line in lines(1000, 20):
        if bad := told_wrong(line):
            wrong[str(line)[:200]] = bad

    assert wrong == {}
    assert {*FILES, OUTPUT, EXPORTED, "home"} >= {
        path.name for path in tmp_path.iterdir()
    }  # the user's own file


POISON = ("\udcff\udcfe", "\ud800\udc00", "9" * 5000, "a-" * 2500, "\x1b[31m", "1/0", "1/0 %", "")


def in_every_place():
    """A working line of each command, each of its words and each option's value in turn spoilt."""
    for name in COMMANDS:
        base = shlex.split(EXAMPLES[name][0])[1:]
        for poison in POISON if name != "cards" else ():
            for at in range(1, len(base)):
                yield [*base[:at], poison, *base[at + 1 :]]
            for param in cli.get_command(click.Context(cli), name).params:
                if isinstance(param, click.Option) and not param.is_flag and param.nargs == 1:
                    yield [*base, param.opts[0], poison]


def test_every_place_where_a_word_goes(tmp_path, monkeypatch):
    """Half a letter, endless digits and the like in each argument and option, one at a time."""
    monkeypatch.chdir(tmp_path)
    wrong, count = {}, 0
    for line in in_every_place():
        count += 1
        if bad := told_wrong(line):
            wrong[str(line)[:120]] = bad

    assert wrong == {}
    assert count > 700


def test_every_command_is_among_them():
    """The generator draws over all commands and reaches most options."""
    tried = [word for line in lines(1000, 20) for word in line]
    options = {
        flag
        for name in COMMANDS
        for param in cli.get_command(click.Context(cli), name).params
        for flag in param.opts
        if flag.startswith("--")
    }

    assert set(COMMANDS) <= set(tried)
    assert len(options - set(tried)) < len(options) / 4


@settings(
    max_examples=60,
    suppress_health_check=[HealthCheck.function_scoped_fixture, HealthCheck.too_slow],
)
@given(
    command=st.sampled_from([name for name in COMMANDS if name != "cards"]) | st.text(max_size=8),
    words=st.lists(st.text(max_size=12), max_size=4),
)
def test_any_words(command, words, tmp_path, monkeypatch):
    """Letters of every script, in any order."""
    monkeypatch.chdir(tmp_path)
    result = run([command, *words])

    assert found_wrong(words, result.exit_code, result.stdout, result.stderr) == []


@pytest.mark.parametrize(
    "number", ["-3", "1e9", "99999999", "1e309", "nan", "-nan", "inf", "-inf", "9" * 5000]
)
@pytest.mark.parametrize("name", NUMBER_LINES)
def test_numbers_out_of_range_are_refused(name, number):
    """A value that cannot be is named with what was expected, whatever option it is given to."""
    for param in cli.get_command(click.Context(cli), name).params:
        flag = param.opts[0]
        if param.make_metavar(click.Context(cli)) not in NUMBERS or (flag, number) in MAY_BE:
            continue
        result = CliRunner().invoke(cli, [name, *NUMBER_LINES[name], flag, number])

        assert 2 == result.exit_code, (flag, result.output)
        assert "" == result.stdout and 1 == result.stderr.count("\n")
        assert re.search("expected|must be|not a valid|does not belong", result.stderr), flag


def test_every_number_is_tried():
    """No command takes a number that the test above does not know."""
    taking = {
        name
        for name in COMMANDS
        for param in cli.get_command(click.Context(cli), name).params
        if param.make_metavar(click.Context(cli)) in NUMBERS
    }

    assert taking == set(NUMBER_LINES)
