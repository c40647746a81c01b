"""Ctrl-C at any moment: one line and 130, or the answer; what was acknowledged is there."""

import os
import random
import signal
import subprocess
import sys
import time
from pathlib import Path

import pytest

from fastkit.__main__ import main as started
from fastkit.shopbook.store import read

START = "import sys; from fastkit.__main__ import main; print('ready', flush=True); main()"
QUESTIONS = {
    "find": ["find", "hexalobullar"],
    "extract": ["extract", "M8 rusted, hex socket rounded out"],
    "note": ["note", "better-bit", "ok"],
    "check": ["check"],
    "cards": ["cards", "--list"],
    "sources": ["sources", "--export", "tables"],
}
ROOT = Path(__file__).parents[1]
LATEST_S = 0.5  # after the start, at which it is interrupted
TIMES = 8


def interrupted(words, after_s, folder):
    """Status, output and trouble of a process that is interrupted so long after its start."""
    child = subprocess.Popen(
        [sys.executable, "-c", START, *words],
        cwd=folder,
        env={**os.environ, "PYTHONPATH": str(ROOT)},
        stdout=subprocess.PIPE,
        stderr=subprocess.PIPE,
        text=True,
    )
    assert child.stdout is not None and "ready\n" == child.stdout.readline()
    time.sleep(after_s)
    child.send_signal(signal.SIGINT)
    out, err = child.communicate(timeout=60)
    return child.returncode, out, err


@pytest.mark.parametrize("name", QUESTIONS)
def test_ctrl_c_at_any_moment(name, tmp_path):
    dice, acknowledged = random.Random(name), 0
    for number in range(TIMES):
        latest = LATEST_S * (number + 1) / TIMES
        status, out, err = interrupted(QUESTIONS[name], dice.uniform(0, latest), tmp_path)

        assert status in {0, 130}, err
        # on a terminal the line of the ^C is ended first
        assert ("fastkit: interrupted\n" if status else "") == err.lstrip("\n")
        acknowledged += out.startswith("noted")
    assert acknowledged <= len(read().rows) <= TIMES


SWALLOWED = """
import sys, time, weakref
import fastkit.__main__ as entry, fastkit.cli

class Thing: pass

def interrupt(_):
    raise KeyboardInterrupt

def run():
    thing = Thing()
    seen = weakref.ref(thing, interrupt)
    del thing
    for _ in range(100):
        time.sleep(0.02)
    print("went on")

fastkit.cli.main = run
entry.main()
"""


def test_an_interrupt_that_python_swallows_is_heard():
    """Where it falls into a callback of the interpreter's own, as while a module loads."""
    done = subprocess.run(
        [sys.executable, "-c", SWALLOWED],
        env={**os.environ, "PYTHONPATH": str(ROOT)},
        capture_output=True,
        text=True,
        timeout=60,
        check=False,
    )

    assert (130, "", "fastkit: interrupted\n") == (done.returncode, done.stdout, done.stderr)


def test_ctrl_c_while_a_class_is_made(monkeypatch, capsys):
    """Python 3.11 hands it on as the cause of a RuntimeError; another of those is not swallowed."""

    def broken_off(cause):
        def run():
            raise RuntimeError("Error calling __set_name__") from cause

        return run

    monkeypatch.setattr("fastkit.cli.main", broken_off(KeyboardInterrupt()))
    with pytest.raises(SystemExit, match="130"):
        started()
    assert capsys.readouterr().err == "fastkit: interrupted\n"

    monkeypatch.setattr("fastkit.cli.main", broken_off(ValueError()))
    with pytest.raises(RuntimeError):
        started()
