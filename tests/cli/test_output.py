"""Lines as they are written: cut to the screen, and nothing raw from outside."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from fastkit.cli.output import clean, refusal_line, trouble_line, width, wrap
from fastkit.errors import Misuse


@given(st.text(), st.integers(8, 100))
def test_no_line_is_wider_than_the_screen(text, columns):
    assert all(len(line) <= columns for line in wrap(text, columns, "  - "))


@given(st.lists(st.text("abc", min_size=1, max_size=6), max_size=30), st.integers(12, 60))
def test_no_word_is_lost(words, columns):
    lines = list(wrap(" ".join(words), columns, "", "  "))

    assert words == " ".join(lines).split()


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
