"""What a shell may complete: ids, names and option words out of the data."""

from collections.abc import Callable, Iterable

import click
from click.shell_completion import CompletionItem

from fastkit.answers.keys import begin_with
from fastkit.answers.options import CHOICES, MOVES
from fastkit.notation.entry import KINDS

# parameter -> kind of the entries whose keys it takes; `id` takes ids whole
KEYS = {
    "thread": "thread",
    "grade": "grade",
    "drive": "drive",
    "friction": "friction",
    "head": "head",
    "into": "material",
    "tried": "method",
    "have": "tool",
    "lack": "tool",
    "near": "neighbour",
    "id": "",
}


def attach(name: str, command: click.Command) -> None:
    """Let a command's parameters be completed."""
    for param in command.params:
        values = _values(name, param.name or "")
        if values is not None:
            setattr(param, "shell_complete", _offer(values))  # noqa: B010 - on this one alone


def _values(command: str, param: str) -> Callable[[str], Iterable[str]] | None:
    if command == "find" and param == "kind":
        return lambda begun: KINDS
    if command == "extract" and param == "can":
        return lambda begun: MOVES
    if param in KEYS:
        return lambda begun: begin_with(begun, KEYS[param])
    if command == "extract" and param in CHOICES:
        return lambda begun: CHOICES[param]
    return None


def _offer(
    values: Callable[[str], Iterable[str]],
) -> Callable[[click.Context, str], list[CompletionItem]]:
    def offer(ctx: click.Context, incomplete: str) -> list[CompletionItem]:
        found = values(incomplete)
        return [CompletionItem(value) for value in found if value.startswith(incomplete)]

    return offer
