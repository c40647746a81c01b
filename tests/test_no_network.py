"""Offline is the promise: no command opens a connection or looks up a host."""

import ast
import shlex
import subprocess
import sys
from pathlib import Path

import pytest

from fastkit.cli.examples import EXAMPLES

PACKAGE = Path(__file__).parents[1] / "fastkit"
NETWORK = {"asyncio", "ftplib", "http", "requests", "smtplib", "socket", "ssl", "urllib"}
CHILD = """
import sys
def refuse(event, args):
    if event.startswith("socket.") and event != "socket.__new__":
        raise SystemExit(f"network: {event}")
sys.addaudithook(refuse)
from fastkit.cli import main
main()
"""
QUESTIONS = [shlex.split(line)[1:] for lines in EXAMPLES.values() for line in lines]
QUESTIONS += [["find"], ["--version"], ["--help"]]


def test_no_module_knows_the_network():
    """No file of the package imports what talks to other machines."""
    for path in PACKAGE.rglob("*.py"):
        for node in ast.walk(ast.parse(path.read_text("utf-8"))):
            names = {alias.name for alias in node.names} if isinstance(node, ast.Import) else set()
            if isinstance(node, ast.ImportFrom):
                names = {node.module or ""}
            assert set() == {name.split(".")[0] for name in names} & NETWORK, path


@pytest.mark.parametrize("question", QUESTIONS, ids=" ".join)
def test_command_answers_offline(question, tmp_path):
    """Each command answers where every use of a socket ends the process."""
    child = subprocess.run(
        [sys.executable, "-c", CHILD, *question],
        capture_output=True,
        text=True,
        check=False,
        cwd=tmp_path,
        env={"PYTHONPATH": str(PACKAGE.parent), "PATH": "", "FASTKIT_HOME": str(tmp_path / "home")},
    )

    assert 0 == child.returncode, child.stderr
