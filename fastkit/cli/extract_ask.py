"""The questions of `extract --ask`: asked on standard error, answered on standard input."""

import sys
from typing import Any

import click

from fastkit.answers.ask import MOST, Question, answered, next_question
from fastkit.cli.output import trouble_line, width, wrap
from fastkit.errors import Misuse

WHAT = "What is it, and what is wrong with it? (as you would say it)"
PATIENCE = 3  # wrong answers to one question


def questioned(words: str, given: dict[str, Any]) -> tuple[str, dict[str, Any]]:
    """
    Return words and options after the questions that are worth asking; end of input ends them.

    Raises:
        Misuse: When nothing at all was said.
    """
    asked: set[str] = set()
    if not words.strip() and not any(given.values()):
        words = _line(WHAT) or ""
    for _ in range(MOST):
        question = next_question(None, words, given, frozenset(asked))
        if question is None:
            break
        asked.add(question.name)
        for _ in range(PATIENCE):
            said = _line(_prompt(question))
            if said is None:
                return words, given
            try:
                given = answered(None, question, said, given)
                break
            except Misuse as error:
                click.echo(trouble_line(str(error)), err=True)
    return words, given


def _prompt(question: Question) -> str:
    answers = ", ".join(question.answers)
    return f"{question.text} {answers} (Enter keeps: {question.default})"


def _line(prompt: str) -> str | None:
    """Return the line that is typed or piped in, None at the end of input."""
    for line in wrap(prompt, width(), "? ", "  "):
        click.echo(line, err=True)
    if sys.stdin.isatty():
        click.echo("> ", nl=False, err=True)
    typed = sys.stdin.buffer.readline().decode("utf-8", "replace")
    return typed.strip() if typed else None
