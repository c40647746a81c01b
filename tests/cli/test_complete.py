"""Completion in the shell: commands, options, and ids and names out of the data."""

import os
import shutil
import subprocess
import sys

import pytest

CLI = [sys.executable, "-c", "from fastkit.cli import main; main()"]
SHELLS = ("bash", "zsh", "fish")


def complete(shell, words):
    """What a shell is told when the last of the words is completed."""
    line = {"COMP_WORDS": " ".join(("fastkit", *words)), "COMP_CWORD": str(len(words))}
    if shell == "fish":
        line["COMP_CWORD"] = words[-1]
    env = {**os.environ, **line, "_FASTKIT_COMPLETE": f"{shell}_complete"}
    out = subprocess.run(CLI, env=env, capture_output=True, text=True, check=True).stdout
    lines = [row for row in out.splitlines() if row]
    if shell == "bash":
        return {row.partition(",")[2] for row in lines}
    if shell == "fish":
        return {row.partition(",")[2].partition("\t")[0] for row in lines}
    return set(lines[1::3])  # type, value, help


@pytest.mark.parametrize("shell", SHELLS)
@pytest.mark.parametrize(
    ("words", "expected"),
    [
        (["extr"], "extract"),
        (["extract", "--dam"], "--damage"),
        (["extract", "--damage", "snapped-f"], "snapped-flush"),
        (["extract", "--tried", "seat"], "seat-bit"),
        (["extract", "--near", "refr"], "refrigerant"),
        (["show", "thread:M8x"], "thread:M8x1.25"),
        (["show", "drive:T2"], "drive:T20"),
        (["torque", "M10x1."], "M10x1.5"),
        (["torque", "M8x1.25", "A2-"], "A2-70"),
        (["find", "--kind", "meth"], "method"),
    ],
    ids=lambda value: " ".join(value) if isinstance(value, list) else value,
)
def test_it_is_offered(shell, words, expected):
    found = complete(shell, words)

    assert expected in found
    assert all(value.startswith(words[-1]) for value in found)


@pytest.mark.parametrize("shell", SHELLS)
def test_the_script_is_one_that_the_shell_reads(shell):
    env = {**os.environ, "_FASTKIT_COMPLETE": f"{shell}_source"}
    script = subprocess.run(CLI, env=env, capture_output=True, text=True, check=True).stdout

    assert "_FASTKIT_COMPLETE" in script
    if shutil.which(shell):
        subprocess.run([shell, "-n"], input=script, text=True, check=True)


def test_nothing_raw_is_asked_of_the_database():
    """Signs that mean something to a query are letters like others."""
    assert complete("bash", ["show", "thread:%"]) == set()
    assert complete("bash", ["show", "thread:_8"]) == set()


def test_a_real_bash_completes_an_id(tmp_path):
    """As README sets it up: a colon does not cut the word."""
    exe = tmp_path / "fastkit"
    exe.write_text(f"#!/bin/sh\nexec {CLI[0]} -c '{CLI[2]}' \"$@\"\n", "utf-8")
    exe.chmod(0o755)
    script = """
        COMP_WORDBREAKS=${COMP_WORDBREAKS//:}
        eval "$(_FASTKIT_COMPLETE=bash_source fastkit)"
        COMP_WORDS=(fastkit show thread:M8x1.2) COMP_CWORD=2
        _fastkit_completion fastkit
        printf '%s\\n' "${COMPREPLY[@]}"
    """
    env = {**os.environ, "PATH": f"{tmp_path}:{os.environ['PATH']}"}
    done = subprocess.run(["bash", "-c", script], env=env, capture_output=True, text=True)

    assert done.stdout.split() == ["thread:M8x1.25"]
