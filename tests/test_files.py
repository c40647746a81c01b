"""Every command that reads a file of the user's, against every kind of file nobody should have."""

import os
import subprocess
import sys
from pathlib import Path

import pytest

from tests.command_lines import FILES, faults, lay_out

READERS = {
    "job": ["job"],
    "order": ["order", "--at"],
    "cards": ["cards", "--out", "written", "--for"],
    "tools": ["tools", "import"],
    "stock": ["stock", "import"],
}
ROOT = Path(__file__).parents[1]
CLI = [sys.executable, "-c", "from fastkit.cli import main; main()"]
LONGEST_S = 20.0
MORE = {
    "keys.toml": ".".join(["a"] * 20_000) + " = 1\n",
    "tables.toml": "\n".join(f"[{'.'.join(['t'] * n)}]" for n in range(1, 400)),
    "strings.toml": 'a = "' + "x" * 900_000 + '"\n',
    "escape.toml": 'title = "\\u001b[31mred\\u0007"\n"\\u001b[2J" = 1\n',
    "cells.csv": ",".join(["x"] * 100_000) + "\n",
    "quote.csv": 'tool,"' + "x" * 200_000,
    "nul.csv": "tool\0,above_mm\n",
    "empty.toml": "",
}


@pytest.mark.parametrize("file", [*FILES, *MORE])
@pytest.mark.parametrize("reader", READERS)
def test_a_file_that_is_none(reader, file, tmp_path, monkeypatch):
    """One line, status 1 to 3, in good time; nothing is written but what was asked for."""
    if file == "locked.toml" and os.geteuid() == 0:  # the superuser reads it: an empty file
        file = "empty.toml"
    monkeypatch.chdir(tmp_path)
    lay_out(tmp_path)
    for name, text in MORE.items():
        (tmp_path / name).write_text(text, "utf-8")
    before = {path.name for path in tmp_path.iterdir()}
    line = [*READERS[reader], file]
    done = subprocess.run(
        [*CLI, *line],
        capture_output=True,
        text=True,
        timeout=LONGEST_S,
        check=False,
        env={**os.environ, "PYTHONPATH": str(ROOT)},
    )

    empty = done.stdout == "0 taken in, 0 in all\n"  # a file without a row is one
    assert done.returncode in {1, 2, 3} or empty, done.stdout
    assert [] == faults(line, done.returncode, done.stdout, done.stderr)
    assert before >= {path.name for path in tmp_path.iterdir()} - {"home"}
