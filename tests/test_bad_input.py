"""Whatever is typed, the answer is an answer or one line: no traceback, no stray file."""

import json

from click.testing import CliRunner
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from fastkit.cli import COMMANDS, cli

# Words that come close to something meant, and some that steer a terminal or a file name.
WORDS = (
    *("M8", "m8x1", "1/4-20", "8.8", "A2-70", "T20", "hex 5", "PH2", "M8 8.8 torque", "thread:M8"),
    *("rusted", "rounded", "8 mm beside", "fuel:20", "fuel", "none", "stripped", "unknown", "-1"),
    *(
        "0",
        "1e400",
        "nan",
        "inf",
        "-0.0",
        "12 N·m",
        "9 lb-ft",
        "7/0in",
        "1/",
        "10x20",
        "x",
        "",
        "-",
    ),
    *("8", "60", "circle", "rectangle", "rings", "grid", "5x2", "4+8", "nut-8", "0.1..0.2"),
    *("\x1b[31m", "\x00", "\n", "../../etc", "'; DROP TABLE thread; --", "%", "*", '"', "🔩", "²"),
    *("9" * 400, "soak-penetrant", "thread:", ":", "drive:T20", "grade:8.8", "--", "½", "M" * 5000),
)
OPTIONS = (
    *("--json", "--why", "--limit", "--kind", "--friction", "--mu", "--head", "--into", "--engage"),
    *("--clamp", "--utilisation", "--wrench-error", "--prevailing", "--thread", "--grade"),
    *("--drive", "--damage", "--seized", "--above", "--beside", "--swing", "--side", "--pocket"),
    *("--near", "--have", "--lack", "--can", "--tried", "--power", "--no-heat", "--spoil"),
    *("--place", "--maker", "--again", "--save", "--note", "add", "list", "undo", "ok", "torque"),
    *("--wasted", "--left-hand", "--load", "--nonsense", "--help", "-x"),
    *("--mu-head", "--grip", "--angle", "--set", "--maker", "--adapter", "--wrench-length"),
    *("--adapter-angle", "--prevailing", "--torque", "--loosen", "--at"),
)
QUESTIONS = tuple(name for name in COMMANDS if name != "cards")  # which prints for seconds


@settings(
    max_examples=300,
    suppress_health_check=[HealthCheck.function_scoped_fixture, HealthCheck.too_slow],
)
@given(
    command=st.sampled_from(QUESTIONS) | st.text(max_size=8),
    words=st.lists(st.sampled_from(WORDS + OPTIONS) | st.text(max_size=12), max_size=7),
)
def test_no_command_line_breaks_it(command, words, tmp_path, monkeypatch):
    """An answer, or one line on standard error with a status that says whose fault it was."""
    monkeypatch.chdir(tmp_path)

    result = CliRunner().invoke(cli, [command, *words])

    assert result.exception is None or isinstance(result.exception, SystemExit), result.exception
    assert result.exit_code in {0, 1, 2}, result.output
    assert "\x1b[31m" not in result.output and "\x00" not in result.output
    if 2 == result.exit_code:
        assert "" == result.stdout
        assert 1 == result.stderr.count("\n")
    elif "--json" in words and "--" not in words[: words.index("--json")] and result.stdout:
        assert result.stdout.startswith(("{", "Usage:")) or "--help" in words
        if result.stdout.startswith("{"):
            json.loads(result.stdout)
    assert {"home"} >= {path.name for path in tmp_path.iterdir()}  # the user's own file


def test_numbers_out_of_range_are_refused():
    """A value that cannot be is named with what was expected, not clamped in silence."""
    for words in (["--beside", "-3"], ["--wasted", "140"], ["--swing", "nan"], ["--above", "inf"]):
        result = CliRunner().invoke(cli, ["extract", "M8 rusted", *words])

        assert 2 == result.exit_code, words
        assert words[1] in result.stderr or "expected" in result.stderr
