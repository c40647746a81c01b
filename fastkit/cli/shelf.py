"""What `tools` and `stock` share: reading a number, and showing a shelf."""

from collections.abc import Callable, Iterator
from pathlib import Path
from typing import Any

import click

from fastkit.answers.shelf import Shelf, amount_of, export, listed, remove, take_in
from fastkit.cli.output import answering, clean, emit, trouble_line, wrap
from fastkit.errors import Misuse

LIST = "list"
ACTIONS = ("add", "remove", LIST, "export", "import")
ALIKE = 0.7  # of 1, from which a word is taken for an action ill spelt
DONE = {"add": "kept", "remove": "removed", "import": "taken in"}


def tend(
    key: str,
    action: str,
    words: tuple[str, ...],
    force: bool,
    as_json: bool,
    add: Callable[..., Shelf],
    tell: Callable[[Any], str],
) -> None:
    """Do what is asked of a shelf and show it; `add` takes the words, `tell` says one row."""
    action, words = _read(action, words)
    with answering(as_json, {key: [], "changed": []}):
        shelf = _done(key, action, words, force, add)
    for line in shelf.said:
        click.echo(trouble_line(line), err=True)
    document = {
        key: [row._asdict() for row in shelf.rows],
        "changed": [row._asdict() for row in shelf.changed],
    }

    def lines(columns: int) -> Iterator[str]:
        if action == "export":
            yield f"{len(shelf.rows)} written to {clean(words[0])}"
        elif action == "import":
            yield f"{len(shelf.changed)} taken in, {len(shelf.rows)} in all"
        elif action == LIST:
            for row in shelf.rows:
                yield from wrap(tell(row), columns, f"{row.id:4}  ")
            if not shelf.rows:
                yield f"no {key} kept yet: fastkit {key} add …"
        else:
            for row in shelf.changed:
                yield from wrap(f"{DONE[action]}: number {row.id}, {tell(row)}", columns)

    emit(document, as_json, lines)


def _done(
    key: str, action: str, words: tuple[str, ...], force: bool, add: Callable[..., Shelf]
) -> Shelf:
    if action == LIST:
        return listed(key, " ".join(words))
    if not words:
        raise Misuse(f"{action}: expected what to {action}")
    if action == "add":
        return add(*words)
    if action == "remove":
        if len(words) > (2 if key == "stock" else 1):
            raise Misuse(f"remove: {len(words)} words; expected the number that `list` shows")
        if not (words[0].isascii() and words[0].isdigit()):
            raise Misuse(f"remove: {words[0][:40]!r}; expected the number that `list` shows")
        return remove(key, amount_of(words[0]), amount_of(words[1]) if words[1:] else None)
    if len(words) > 1:
        raise Misuse(f"{action}: {len(words)} names; expected one file")
    path = Path(words[0])
    return export(key, path, force) if action == "export" else take_in(key, path)


def _read(action: str, words: tuple[str, ...]) -> tuple[str, tuple[str, ...]]:
    """
    Return what is to be done, and with what: words alone name what is looked for.

    Raises:
        Misuse: When the first word is one of the actions, ill spelt.
    """
    if action in ACTIONS:
        return action, words
    from difflib import get_close_matches

    near = get_close_matches(action[:40], ACTIONS, 1, ALIKE)
    if near:
        raise Misuse(f"{action[:60]!r}: expected one of {', '.join(ACTIONS)}", tuple(near))
    return LIST, (action, *words)
