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
    """Pairs of a command and the lines it should print."""
    for block in blocks("console"):
        for part in re.split(r"^\$ ", block, flags=re.MULTILINE)[1:]:
            command, _, expected = part.partition("\n")
            yield pytest.param(command, expected, id=command[:60])


def as_pattern(expected):
    """The printed lines as a regular expression."""
    lines = expected.strip("\n").splitlines()
    return "".join(
        r"(?:.*\n)*?"
        if line.strip() == "..."
        else re.escape(line.rstrip()).replace(r"\.\.\.", ".*") + r"[ ]*\n"
        for line in lines
    )


@pytest.mark.parametrize(("command", "expected"), list(examples()))
def test_printed_as_shown(command, expected, tmp_path):
    """The command, typed as it stands, prints what README shows."""
    program, *arguments = shlex.split(command)
    assert "fastkit" == program, "a console block shows fastkit commands only"
    (tmp_path / "cards_out").mkdir()
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
    printed = child.stdout.strip("\n") + "\n"

    assert "Traceback" not in printed
    if not re.fullmatch(as_pattern(expected), printed):
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
