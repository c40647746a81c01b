"""Whatever is typed, the answer is an answer or one line: no traceback, no stray file."""

import click
from click.testing import CliRunner
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from fastkit.cli import COMMANDS, cli
from tests.command_lines import FILES, OUTPUT, lay_out, lines, run
from tests.command_lines import faults as found_wrong


def test_a_thousand_command_lines(tmp_path, monkeypatch):
    """An answer, or a refusal with a status that says whose fault it was; nothing else is made."""
    monkeypatch.chdir(tmp_path)
    lay_out(tmp_path)
    wrong = {}
    for line in lines(1000, 20):
        result = run(line)
        bad = found_wrong(line, result.exit_code, result.stdout, result.stderr)
        if result.exception and not isinstance(result.exception, SystemExit):
            bad.append(repr(result.exception))
        if bad:
            wrong[str(line)[:200]] = bad

    assert wrong == {}
    assert {*FILES, OUTPUT, "home"} >= {
        path.name for path in tmp_path.iterdir()
    }  # the user's own file


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

    assert set(COMMANDS) - {"cards"} <= set(tried)
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


def test_numbers_out_of_range_are_refused():
    """A value that cannot be is named with what was expected, not clamped in silence."""
    for words in (["--beside", "-3"], ["--wasted", "140"], ["--swing", "nan"], ["--above", "inf"]):
        result = CliRunner().invoke(cli, ["extract", "M8 rusted", *words])

        assert 2 == result.exit_code, words
        assert words[1] in result.stderr or "expected" in result.stderr
