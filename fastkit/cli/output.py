"""What every command writes with: one document, wrapped lines, nothing raw from outside."""

import os
import sys
from collections.abc import Callable, Iterable, Iterator, Mapping, Sequence
from contextlib import contextmanager
from typing import Any

import click

from fastkit.errors import FastkitError, Mistakes, NotHeld
from fastkit.notation.tied import TIE, tied

NARROWEST, USUAL, WIDEST = 24, 80, 100
NARROW = 66  # columns under which a screen is one of a phone or of half a window
WIDE, PLAIN = "fastkit.wide", "fastkit.plain"  # set by the options that every command takes
MESSAGE_LIMIT = 600


def clean(text: str) -> str:
    """
    The text on one line and without anything that steers a terminal.

    White space becomes a blank, what cannot be printed its escaped number.
    """
    if text.isprintable():
        return text
    return "".join(
        c if c.isprintable() else " " if c.isspace() else c.encode("unicode_escape").decode()
        for c in text
    )


def width() -> int:
    """
    Columns to write in: COLUMNS, else the terminal, else 80; never under 24.

    Nor over 100, which the eye loses, unless `--wide` asks for all there are.
    """
    given = os.environ.get("COLUMNS", "")
    if given.isascii() and given.isdigit() and 0 < len(given) < 6:
        columns = int(given)
    else:
        try:
            columns = os.get_terminal_size(sys.stdout.fileno()).columns
        except (OSError, ValueError):  # a pipe, a file, a captured stream
            columns = USUAL
    return max(min(columns or USUAL, columns if asked(WIDE) else WIDEST), NARROWEST)


def asked(mode: str) -> bool:
    """Whether the command line asks for `--wide` or `--plain`."""
    context = click.get_current_context(silent=True)
    return context is not None and bool(context.meta.get(mode))


def drawn(lines: Iterable[str]) -> Iterator[str]:
    """The lines of a drawing; none in plain mode, where what it shows is said in words beside."""
    if not asked(PLAIN):
        yield from lines


def wrap(text: str, columns: int, first: str = "", rest: str | None = None) -> Iterator[str]:
    """
    The words of *text* in lines of at most *columns*, cleaned.

    *first* stands before the first line, *rest* (blanks of the same length if left out) before
    the others. A number and its unit are one word, where a line has room for it. A word longer
    than a line is cut.
    """
    indent = " " * len(first) if rest is None else rest
    line, empty = first, True
    for word in _words(clean(text), columns - max(len(first), len(indent))):
        while True:
            room = columns - len(line) - (0 if empty else 1)
            if len(word) <= room:
                line += word if empty else f" {word}"
                empty = False
                break
            if not empty:
                yield line
            else:
                cut = max(room, 1)
                yield line + word[:cut]
                word = word[cut:]
            line, empty = indent, True
            if not word:
                break
    if not empty or line == first:
        yield line.rstrip()


def _words(text: str, room: int) -> Iterator[str]:
    """What no line parts: words, and numbers with their units that are no longer than a line."""
    for word in tied(" ".join(text.split())).split(" "):
        yield from (word.replace(TIE, " "),) if len(word) <= room else word.split(TIE)


def bold(text: str) -> str:
    """*text* in bold where a person reads it on a terminal and NO_COLOR is not set."""
    if (
        asked(PLAIN)
        or os.environ.get("NO_COLOR")
        or os.environ.get("TERM") == "dumb"
        or not sys.stdout.isatty()
    ):
        return text
    return f"\x1b[1m{text}\x1b[22m"


def emit(
    document: Mapping[str, Any],
    as_json: bool,
    render: Callable[[int], Iterable[str]],
    unread: Sequence[str] | None = None,
    dangers: Sequence[str] = (),
) -> None:
    """
    Write an answer: the document as JSON, or the lines that *render* makes for a width.

    With the words, or none, that were passed over unread, and what the words tell of dangers.
    """
    if as_json:
        import json

        more = {} if unread is None else {"not_understood": list(unread), "dangers": list(dangers)}
        click.echo(json.dumps({**document, **more}, indent=2, allow_nan=False))
    else:
        columns = width()
        first = [*unread_words(unread or (), columns), *danger_lines(dangers, columns)]
        show([*first, *render(columns)])


def unread_words(words: Sequence[str], columns: int) -> list[str]:
    """The line that names the words passed over, where there are any."""
    return list(wrap(f"not understood: {', '.join(words)}", columns)) if words else []


def danger_lines(dangers: Sequence[str], columns: int) -> list[str]:
    """The lines that tell of dangers, where there are any."""
    return list(wrap("; ".join(dangers), columns, bold("DANGER  "), "  ")) if dangers else []


def show(lines: list[str]) -> None:
    """Write lines; through a pager where a terminal is there and they are more than it shows."""
    text = "\n".join(lines)
    if sys.stdout.isatty() and sys.stdin.isatty() and len(lines) > _rows_shown():
        click.echo_via_pager(f"{text}\n")
    else:
        click.echo(text)


def _rows_shown() -> int:
    try:
        return os.get_terminal_size(sys.stdout.fileno()).lines - 1
    except (OSError, ValueError):  # no terminal after all
        return sys.maxsize


def short_source(key: str, title: str) -> str:
    """The standard's number, which stands in brackets in its title; else the title."""
    if key == "practice":
        return key
    bracketed = [part.partition(")")[0] for part in title.split("(")[1:]]
    numbers = [part for part in bracketed if any(map(str.isdigit, part)) and not part.isdigit()]
    return clean(numbers[0] if numbers else title)


def fitting(columns: int, tries: Iterable[Iterable[str]], long: bool = False) -> list[str]:
    """
    The first of several ways to say it, ever shorter, that is one screen; else the last.

    A narrow screen is higher; *long* is what is worth some lines more, as many sources are.
    """
    rows = (50 if long else 48) if columns < NARROW else (40 if long else 34)
    shown: list[str] = []
    for lines in tries:
        shown = list(lines)
        if len(shown) <= rows:
            break
    return shown


@contextmanager
def answering(as_json: bool, empty: Mapping[str, Any]) -> Iterator[None]:
    """
    Run a question; where the data holds no answer, the JSON document still comes.

    *empty* is that document with its empty lists and nulls; `reason` and `nearest` are added.
    The refusal goes on to the caller, who prints its line and sets the exit status.
    """
    try:
        yield
    except NotHeld as refusal:
        if as_json:
            document = {**empty, "reason": str(refusal), "nearest": list(refusal.nearest)}
            emit(document, True, lambda columns: ())
        raise


def missing(ctx: click.Context, name: str) -> click.MissingParameter:
    """The refusal of a line that lacks one of its parameters, which its words did not say."""
    param = next(param for param in ctx.command.params if param.name == name)
    return click.MissingParameter(ctx=ctx, param=param)


def refusal_line(error: FastkitError) -> str:
    """The one line that tells what was wrong, what was expected and what is nearest."""
    nearest = f"; nearest: {', '.join(error.nearest)}" if error.nearest else ""
    return trouble_line(str(error), nearest)


def refusal_lines(error: FastkitError) -> list[str]:
    """The line of a refusal; a file with several mistakes has a line for each."""
    if isinstance(error, Mistakes):
        return [trouble_line(line) for line in error.lines]
    return [refusal_line(error)]


def trouble_line(message: str, tail: str = "") -> str:
    """One line for standard error; a message grown by a long input is cut in its middle."""
    text = clean(message)
    if len(text) > MESSAGE_LIMIT:
        text = f"{text[: MESSAGE_LIMIT // 2]} … {text[-MESSAGE_LIMIT // 2 :]}"
    return f"fastkit: {text}{clean(tail)}"
