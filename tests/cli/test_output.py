"""Lines as they are written: cut to the screen, and nothing raw from outside."""

import contextlib
import os
import struct
import subprocess
import sys
from pathlib import Path

import pytest
from click.testing import CliRunner
from hypothesis import given
from hypothesis import strategies as st

from fastkit.cli import COMMANDS, cli
from fastkit.cli.output import clean, refusal_line, trouble_line, width, wrap
from fastkit.errors import Misuse
from fastkit.shopbook.store import read

ROOT = Path(__file__).parents[2]


@given(st.text(), st.integers(8, 100))
def test_no_line_is_wider_than_the_screen(text, columns):
    assert all(len(line) <= columns for line in wrap(text, columns, "  - "))


@given(st.lists(st.text("abc", min_size=1, max_size=6), max_size=30), st.integers(12, 60))
def test_no_word_is_lost(words, columns):
    lines = list(wrap(" ".join(words), columns, "", "  "))

    assert words == " ".join(lines).split()


@pytest.mark.parametrize(
    "pair",
    [
        *("8.4 mm", "0.331 in", "43.3 lb·ft", "58.5 N·m", "99 %", "7540 lbf", "30 kN", "450 °C"),
        *("19.9 kg", "126 MPa", "36.61 mm²", "102 ksi", "500 g", "4 h", "10 min", "0.15 V"),
    ],
)
@pytest.mark.parametrize("columns", range(16, 40))
def test_a_number_stands_with_its_unit(pair, columns):
    """Wherever the line ends: 30 at its end and kN on the next is read as something else."""
    text = f"the screw holds ({pair}), or {pair} where it is oiled"
    lines = list(wrap(text, columns, "- "))

    assert 2 == sum(line.count(pair) for line in lines)
    assert text.split() == " ".join(lines).removeprefix("- ").split()


def test_a_column_too_narrow_for_both_breaks_between_them():
    """Never inside the unit: `0.24 m` is another length."""
    assert ["at    0.24", "      mm or", "      so"] == list(wrap("0.24 mm or so", 11, "at    "))


@given(st.text())
def test_nothing_steers_the_terminal(text):
    assert clean(text).isprintable()
    clean(text).encode("utf-8")


@pytest.mark.parametrize(
    ("text", "shown"),
    [
        ("\x1b[31mred", "\\x1b[31mred"),
        ("a\nb\tc\u2028d", "a b c d"),
        ("\u202eevil", "\\u202eevil"),
        ("\udc80", "\\udc80"),
        ("N·m ° µ ×", "N·m ° µ ×"),
    ],
)
def test_what_stands_instead(text, shown):
    assert shown == clean(text)


def test_long_words_are_cut():
    assert ["abcd", "efgh", "ij"] == list(wrap("abcdefghij", 4))
    assert ["1. aaa", "   bbb"] == list(wrap("aaa bbb", 6, "1. "))
    assert ["x"] == list(wrap("", 10, "x"))


@pytest.mark.parametrize(
    ("given_", "columns"),
    [
        ("50", 50),
        ("5", 24),
        ("9999", 100),
        ("0", 80),
        ("wide", 80),
        ("-3", 80),
        ("", 80),
        ("1" * 400, 80),
    ],
)
def test_width_is_what_was_asked_within_reason(monkeypatch, given_, columns):
    with monkeypatch.context() as during:  # pytest draws its own progress by COLUMNS, too
        during.setenv("COLUMNS", given_)

        assert columns == width()


def test_a_refusal_is_one_line():
    line = refusal_line(Misuse("no such\nthing", ("this", "th\x07at")))

    assert "fastkit: no such thing; nearest: this, th\\x07at" == line
    assert len(trouble_line("x" * 10_000)) < 700


def test_wide_and_plain_are_taken_by_every_command(monkeypatch):
    """`--wide` breaks the hundred columns, `--plain` leaves the drawing out and says the same."""
    monkeypatch.setenv("COLUMNS", "160")
    usual = CliRunner().invoke(cli, ["order", "8", "circle"]).output
    wide = CliRunner().invoke(cli, ["order", "8", "circle", "--wide"]).output
    plain = CliRunner().invoke(cli, ["order", "8", "circle", "--plain"]).output

    assert max(map(len, usual.splitlines())) <= 100 < max(map(len, wide.splitlines()))
    assert "In the drawing" in usual and "In the drawing" not in plain
    assert "1, 5, 3, 7, 2, 6, 4, 8" in plain
    for name in COMMANDS:
        assert {"--wide", "--plain"} <= set(CliRunner().invoke(cli, [name, "-h"]).output.split())


@pytest.mark.skipif(sys.platform == "win32", reason="wants a terminal of the kind that forks")
@pytest.mark.parametrize(
    ("more", "env", "is_bold"),
    [
        ([], {}, True),
        ([], {"NO_COLOR": "1"}, False),
        ([], {"TERM": "dumb"}, False),
        (["--plain"], {}, False),
    ],
)
def test_bold_on_a_terminal_that_wants_it(more, env, is_bold):
    """A real terminal: bold and nothing else, unless the user or the terminal says no."""
    import pty

    near, far = pty.openpty()
    told = {k: v for k, v in os.environ.items() if k not in {"NO_COLOR", "PAGER"}}
    child = subprocess.Popen(
        [sys.executable, "-c", "from fastkit.cli import main; main()", "find", "m8", *more],
        stdin=subprocess.DEVNULL,
        stdout=far,
        env={**told, "TERM": "xterm", "PYTHONPATH": str(ROOT), **env},
    )
    os.close(far)
    shown = b""
    with contextlib.suppress(OSError):  # the child has closed the terminal
        while piece := os.read(near, 1000):
            shown += piece
    os.close(near)
    assert child.wait(20) == 0
    assert (b"\x1b[1m" in shown) == is_bold
    assert b"\x1b" not in shown.replace(b"\x1b[1m", b"").replace(b"\x1b[22m", b"")


@pytest.mark.skipif(sys.platform == "win32", reason="wants a terminal of the kind that forks")
def test_a_pager_only_where_a_terminal_is_too_short(tmp_path):
    """A real terminal of 10 lines: `show` goes through the pager, a short answer does not."""
    import fcntl
    import pty
    import termios

    pager = tmp_path / "pager"
    pager.write_text("#!/bin/sh\ncat > paged\n", "utf-8")
    pager.chmod(0o755)
    for words, through in ((["show", "thread:M8x1.25"], True), ([], False)):
        (tmp_path / "paged").unlink(missing_ok=True)
        near, far = pty.openpty()
        fcntl.ioctl(far, termios.TIOCSWINSZ, struct.pack("HHHH", 10, 80, 0, 0))
        child = subprocess.Popen(
            [sys.executable, "-c", "from fastkit.cli import main; main()", *words],
            cwd=tmp_path,
            stdin=far,
            stdout=far,
            env={**os.environ, "PAGER": str(pager), "PYTHONPATH": str(ROOT)},
        )
        os.close(far)
        with contextlib.suppress(OSError):  # the child has closed the terminal
            while os.read(near, 1000):
                pass
        os.close(near)
        assert child.wait(20) == 0
        assert (tmp_path / "paged").exists() == through


@pytest.mark.parametrize(
    ("closed", "status", "said"),
    [
        (">&-", 3, "fastkit: cannot write: standard output is closed\n"),
        ("2>&-", 0, ""),
        ("<&-", 0, ""),
        ("<&- 2>&-", 0, ""),
        ("<&- >&- 2>&-", 3, ""),
    ],
)
@pytest.mark.parametrize("words", ["find m8", "--help", "note better-bit ok"])
def test_a_closed_stream_is_no_trouble_or_one_line(words, closed, status, said):
    """Nor does a file of ours get the number of a stream that somebody else writes to."""
    line = f'"{sys.executable}" -c "from fastkit.cli import main; main()" {words} {closed}'
    done = subprocess.run(["sh", "-c", line], capture_output=True, text=True, check=False)

    assert (status, said) == (done.returncode, done.stderr)
    assert (status == 0) == bool(done.stdout)
    if words.startswith("note"):  # what was acknowledged, and only that, is there
        assert (1 if status == 0 else 0) == len(read().rows)
