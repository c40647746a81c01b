"""
Everything that README shows is run and compared.

In a ```console block each line that starts with `$ ` is a command, and what follows is what it
prints at 80 columns, both streams; a line that is only `...` stands for any lines, `...` within a
line for any text. ```pycon blocks are run as doctests. ```sh blocks are set-up commands, run on a
fresh clone instead.
"""

import doctest
import os
import re
import shlex
import subprocess
import sys
from pathlib import Path

import pytest

ROOT = Path(__file__).parents[1]
README = (ROOT / "README.md").read_text("utf-8")
CLI = [sys.executable, "-c", "from fastkit.cli import main; main()"]


def blocks(language):
    return re.findall(rf"^```{language}\n(.*?)^```$", README, re.MULTILINE | re.DOTALL)


def examples():
    """Blocks of commands, each with the lines it should print."""
    for block in blocks("console"):
        parts = [part.partition("\n") for part in re.split(r"^\$ ", block, flags=re.MULTILINE)[1:]]
        told = [(command, expected) for command, _, expected in parts]
        yield pytest.param(told, id=told[0][0][:60])


def fits(expected, printed):
    """Whether lines were printed as expected; `...` is any lines, within a line any text."""
    after = {0}  # how many printed lines may be used up so far
    for line in expected:
        if line.strip() == "...":
            after = set(range(min(after), len(printed) + 1)) if after else after
            continue
        pattern = re.compile(re.escape(line.rstrip()).replace(r"\.\.\.", ".*") + r"[ ]*")
        after = {n + 1 for n in after if n < len(printed) and pattern.fullmatch(printed[n])}
    return len(printed) in after


@pytest.mark.parametrize("told", list(examples()))
def test_printed_as_shown(told, tmp_path):
    """The commands of a block, typed one after the other, print what README shows."""
    (tmp_path / "cards_out").mkdir()
    for command, expected in told:
        typed, _, file = command.partition(" > ")
        program, *arguments = shlex.split(typed)
        assert "fastkit" == program, "a console block shows fastkit commands only"
        child = subprocess.run(
            [*CLI, *arguments],
            stdout=subprocess.PIPE,
            stderr=subprocess.STDOUT,
            stdin=subprocess.DEVNULL,
            text=True,
            check=False,
            cwd=tmp_path,
            env={**os.environ, "PYTHONPATH": str(ROOT), "PYTHONIOENCODING": "utf-8"},
        )
        if file:
            (tmp_path / file).write_text(child.stdout, "utf-8")
            continue
        printed = child.stdout.strip("\n") + "\n"

        assert "Traceback" not in printed
        if not fits(expected.strip("\n").splitlines(), printed.splitlines()):
            assert expected == printed  # shows the difference


@pytest.mark.parametrize("block", blocks("pycon"))
def test_python_as_shown(block):
    """The Python examples give what README shows."""
    test = doctest.DocTestParser().get_doctest(block, {}, "README", "README.md", 0)
    runner = doctest.DocTestRunner(optionflags=doctest.ELLIPSIS)

    assert 0 == runner.run(test).failed


def test_the_two_commands_lead():
    """The first two set-up blocks are the two commands, one line each."""
    install, tests = blocks("sh")[:2]

    assert 1 == install.count("\n") and install.startswith("python3 -m venv ")
    assert "fastkit extract " in install
    assert "sh tests/run\n" == tests
