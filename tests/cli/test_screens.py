"""What every command prints fits the screen, and a voice can read it."""

import itertools
import os
import re
import shlex
import shutil
import sqlite3
import subprocess
import sys
from contextlib import closing
from pathlib import Path

import pytest
from click.testing import CliRunner

from fastkit.cli import COMMANDS, cli
from fastkit.cli.examples import ALONE, EXAMPLES

ROOT = Path(__file__).parents[2]
LINES = [line for lines in EXAMPLES.values() for line in lines if "--out" not in line]
LINES += [line for _, line in ALONE]
# a drawing in words alone: no boxes, blocks, shapes, arrows
DRAWN = {chr(code) for code in (*range(0x2190, 0x2200), *range(0x2500, 0x2600))}
SCREEN = 50  # lines that one turns to once or twice; what is one entry whole may be longer
NUMBER = re.compile(r"(?:^|[ (])[\d.,/]+$")
MEASURES = "mm²?|in²?|k?N|N·m|lb·ft|lb·in|lbf|[MG]Pa|[kp]si|°C|°F|k?g|min|h|%|V"
UNIT = re.compile(rf" *(?:{MEASURES})[ ,.;:)]")
WHOLE = ("show", "sources", "job", "cards", "check")


def told(line, monkeypatch, columns, *more):
    with monkeypatch.context() as during:  # pytest draws its own progress by COLUMNS, too
        during.setenv("COLUMNS", str(columns))
        result = CliRunner().invoke(cli, [*shlex.split(line)[1:], *more])
    assert 0 == result.exit_code, result.output
    return result.stdout


@pytest.mark.parametrize("columns", [50, 80])
@pytest.mark.parametrize("line", LINES)
def test_it_fits_the_screen(line, columns, tmp_path, monkeypatch):
    """No line is wider; a job file is not broken, for it is to be kept as it is."""
    monkeypatch.chdir(tmp_path)
    shown = told(line, monkeypatch, columns).splitlines()

    if "--example" not in line:
        assert [] == [row for row in shown if len(row) > columns]
    if columns == 80 and line.split()[1] not in WHOLE and "--why" not in line:
        assert len(shown) <= SCREEN


@pytest.mark.parametrize("columns", [42, 50, 66, 80])
@pytest.mark.parametrize("line", LINES)
def test_no_number_is_parted_from_its_unit(line, columns, tmp_path, monkeypatch):
    """As `30` at the end of a line and `kN` at the head of the next."""
    monkeypatch.chdir(tmp_path)
    shown = told(line, monkeypatch, columns).splitlines()
    pairs = itertools.pairwise(shown)

    assert [] == [two for two in pairs if NUMBER.search(two[0]) and UNIT.match(two[1])]


def test_check_says_on_a_narrow_screen_too_whether_to_trust_it(monkeypatch):
    shown = told("fastkit check", monkeypatch, 50).splitlines()

    assert len(shown) <= 14
    assert " ".join(shown[:2]).partition(":")[2].strip().startswith("sound")


@pytest.mark.parametrize("line", LINES)
def test_a_voice_can_read_it(line, tmp_path, monkeypatch):
    """`--plain`: no drawing, no bold, no line wider than any other screen's."""
    monkeypatch.chdir(tmp_path)
    shown = told(line, monkeypatch, 80, "--plain")

    assert set() == set(shown) & DRAWN
    assert "\x1b" not in shown


@pytest.mark.parametrize("columns", [50, 80])
@pytest.mark.parametrize("name", ["", *COMMANDS])
def test_help_fits_the_screen(name, columns):
    """All but the examples, which are for copying whole."""
    words = [name, "--help"] if name else ["--help"]
    result = CliRunner().invoke(cli, words, terminal_width=columns)
    shown, _, examples = result.stdout.partition("Examples:")

    assert [] == [row for row in shown.splitlines() if len(row) > columns]
    assert bool(name) == bool(examples)


@pytest.mark.parametrize("line", LINES)
def test_a_plain_locale_and_a_reader_that_has_left(line, tmp_path):
    """Under LANG=C nothing fails for a letter, and nobody reading is no trouble."""
    env = {k: v for k, v in os.environ.items() if not k.startswith("PYTHON")}
    env |= {"LC_ALL": "C", "PYTHONPATH": str(ROOT)}
    words = [sys.executable, "-c", "from fastkit.cli import main; main()", *shlex.split(line)[1:]]
    reading, writing = os.pipe()
    os.close(reading)
    for out in (subprocess.PIPE, writing):
        done = subprocess.run(
            words, stdout=out, stderr=subprocess.PIPE, env=env, cwd=tmp_path, check=False
        )

        assert 0 == done.returncode, done.stderr
        assert b"Traceback" not in done.stderr and b"Error" not in done.stderr
    os.close(writing)


HOSTILE = "red\\u001b[31m\\u0007\\u202e\\u009b31m"


def test_what_the_users_own_files_hold_steers_no_terminal(tmp_path, monkeypatch):
    """A job file, a file of tools and of coordinates with escapes in every text."""
    monkeypatch.chdir(tmp_path)
    example = CliRunner().invoke(cli, ["job", "--example"]).stdout
    job = example.replace("cover bolts", f"cover {HOSTILE} bolts")
    Path("job.toml").write_text(job.replace('title = "', f'title = "{HOSTILE}', 1), "utf-8")
    Path("at.csv").write_text("x,y\n0,0\n\x1b[31m,5\n", "utf-8")
    Path("tools.toml").write_text(f'[[tool]]\ntool = "{HOSTILE}"\n', "utf-8")
    Path("stock.csv").write_text("what,amount\nM8\x1b[31m\u202e,1\n", "utf-8")
    for words in (
        ["job", "job.toml"],
        ["job", "job.toml", "--as-read"],
        ["job", "job.toml", "--save", "x"],
        ["order", "--at", "at.csv"],
        ["tools", "import", "tools.toml"],
        ["stock", "import", "stock.csv"],
    ):
        result = CliRunner().invoke(cli, words)

        assert result.exit_code in (0, 2), words
        assert all(sign == "\n" or sign.isprintable() for sign in result.stdout + result.stderr)


def test_what_the_data_hold_steers_no_terminal(database, tmp_path, monkeypatch):
    """Titles and texts of the compiled file with escapes in them."""
    spoilt = tmp_path / "reference.db"
    shutil.copy(database, spoilt)
    with closing(sqlite3.connect(spoilt)) as connection, connection:
        connection.execute("UPDATE entry SET title = title || char(27, 93, 7, 8238)")
        connection.execute("UPDATE source SET title = title || char(27, 93, 7, 155)")
    monkeypatch.setattr("fastkit.reference.store.BUILT", spoilt)
    result = CliRunner().invoke(cli, ["show", "grade:8.8"])

    assert 0 == result.exit_code and "\\x1b]\\x07" in result.stdout
    assert all(sign == "\n" or sign.isprintable() for sign in result.stdout)
