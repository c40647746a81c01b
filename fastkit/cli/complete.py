"""What a shell may complete: ids, names, option words, and what the own file has a name for."""

from collections.abc import Callable, Iterable

import click
from click.shell_completion import CompletionItem

from fastkit.answers.critical import critical_ids
from fastkit.answers.keys import begin_with, kept_names
from fastkit.answers.notes import OUTCOMES
from fastkit.answers.options import CHOICES, MOVES
from fastkit.answers.repair_given import FAR_SIDES
from fastkit.answers.torque_heat import LOCKERS
from fastkit.cli.shelf import ACTIONS
from fastkit.notation.entry import KINDS

# parameter -> kind of the entries whose keys it takes; an id is whole
KEYS = {
    "thread": "thread",
    "grade": "grade",
    "drive": "drive",
    "friction": "friction",
    "head": "head",
    "into": "material",
    "tried": "method",
    "compare": "method",
    "part": "part",
    "have": "tool",
    "near": "neighbour",
    "id": "",
    "wanted": "",
}
# command and parameter -> the words that it takes
WORDS: dict[tuple[str, str], tuple[str, ...]] = {
    ("find", "kind"): KINDS,
    ("identify", "what"): ("thread", "drive", "grade", "head"),
    ("torque", "locker"): LOCKERS,
    ("repair", "far_side"): FAR_SIDES,
    ("tools", "action"): ACTIONS,
    ("stock", "action"): ACTIONS,
    **{(command, "can"): MOVES for command in ("extract", "note")},
    **{
        (command, name): words for command in ("extract", "note") for name, words in CHOICES.items()
    },
}
FILES = {("job", "file"), ("cards", "job")}
NOTES = ("list", "undo", "torque")

Values = Callable[[click.Context, str], Iterable[str]]


def attach(name: str, command: click.Command) -> None:
    """Let a command's parameters be completed."""
    for param in command.params:
        offer = _offered(name, param.name or "")
        if offer is not None:
            setattr(param, "shell_complete", offer)  # noqa: B010 - on this one alone


def _offered(
    command: str, param: str
) -> Callable[[click.Context, str], list[CompletionItem]] | None:
    if (command, param) in FILES:
        return _file
    if (command, param) in {("tools", "words"), ("stock", "words")}:
        return _behind_action
    values = _values(command, param)
    return None if values is None else _offer(values)


def _values(command: str, param: str) -> Values | None:
    if (command, param) in WORDS:
        return lambda ctx, begun: WORDS[command, param]
    if (command, param) == ("repair", "critical"):
        return lambda ctx, begun: critical_ids()
    if param == "again":
        return lambda ctx, begun: kept_names(command == "job")
    if (command, param) == ("note", "what"):
        return lambda ctx, begun: (*NOTES, *begin_with(begun, "method"))
    if (command, param) == ("note", "words"):
        return lambda ctx, begun: OUTCOMES if ctx.params.get("what") not in NOTES else ()
    if param == "lack" and command != "replace":
        return lambda ctx, begun: (*begin_with(begun, "tool"), *begin_with(begun, "method"))
    if param in KEYS:
        return lambda ctx, begun: begin_with(begun, KEYS[param])
    return None


def _offer(values: Values) -> Callable[[click.Context, str], list[CompletionItem]]:
    def offer(ctx: click.Context, incomplete: str) -> list[CompletionItem]:
        begun = incomplete.lower()
        found = values(ctx, incomplete)
        return [CompletionItem(value) for value in found if value.lower().startswith(begun)]

    return offer


def _file(ctx: click.Context, incomplete: str) -> list[CompletionItem]:
    return [CompletionItem(incomplete, type="file")]


def _behind_action(ctx: click.Context, incomplete: str) -> list[CompletionItem]:
    """A file to export to or import from; what is added to the tools."""
    action = ctx.params.get("action")
    if action in ("export", "import"):
        return _file(ctx, incomplete)
    if ctx.info_name == "tools" and action == "add":
        return _offer(lambda ctx, begun: begin_with(begun, "tool"))(ctx, incomplete)
    return []
