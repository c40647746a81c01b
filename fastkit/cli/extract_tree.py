"""The policy as a tree in words, and the numbers behind the first rank."""

from collections.abc import Iterator

from fastkit.answers.extract_answer import ExtractAnswer
from fastkit.answers.tree import Node, Steady
from fastkit.answers.wording import NOWHERE, method_title, show_chance, show_minutes
from fastkit.cli.extract_screen import understood
from fastkit.cli.output import bold, wrap

OUTCOMES = {
    "free": "free",
    "done": "done",
    "failed": "fails",
    "nothing": "nothing moves",
    "worse-drive": "the drive is worse",
    "snapped": "it snaps",
    "insert-out": "out, the insert with it",
    "torn": "out, its thread with it",
    "broken-extractor": "the extractor breaks in it",
}
STEP = "  "
RARE = 0.02  # outcomes below this share are not drawn


def draw(answer: ExtractAnswer, node: Node | None, columns: int) -> list[str]:
    """Return how the words were read, then the tree, a line or more a move and an outcome."""
    above = understood(answer, columns)
    if node is None:
        return [*above, *wrap(NOWHERE.capitalize() + ".", columns)]
    return [*above, *_move(answer, node, columns, "", "1"), *wrap(answer.governs, columns)]


def _move(
    answer: ExtractAnswer, node: Node, columns: int, indent: str, number: str
) -> Iterator[str]:
    if node.move == "stop":
        yield from wrap(NOWHERE, columns, f"{indent}stop: ", indent + STEP)
        return
    title = method_title(node.move, answer.titles)
    told = f"{title}: {show_minutes(node.minutes)}; from here {show_minutes(node.expected_minutes)}"
    more = "" if node.outcomes else "; and so on"
    yield from map(bold, wrap(told + more, columns, f"{indent}{number} ", indent + STEP))
    count = 0
    for outcome in sorted(node.outcomes, key=lambda item: -item.share):
        if outcome.share < RARE:
            continue
        name = OUTCOMES.get(outcome.name, outcome.name)
        snapped = f" ({outcome.damage})" if outcome.name == "snapped" and outcome.damage else ""
        line = (
            f"{name}{snapped}"
            if outcome.share > 0.995
            else (f"{show_chance(outcome.share)} {name}{snapped}")
        )
        yield from wrap(line, columns, f"{indent}{STEP}- ", indent + 2 * STEP)
        if outcome.then is not None:
            count += 1
            yield from _move(answer, outcome.then, columns, indent + 2 * STEP, f"{number}.{count}")


def first_against_second(answer: ExtractAnswer, off: Steady, columns: int) -> Iterator[str]:
    """Yield why rank 1 stands before rank 2, and how wrong the bond must be to change that."""
    ways = [step for step in answer.plan if step.kind != "gate"]
    if not ways:
        return
    yield bold("WHY FIRST")
    for step in ways[:2]:
        title = method_title(step.method, answer.titles)
        odds = f"{show_chance(step.chance)} frees it, " if step.kind in ("turn", "part") else ""
        told = (
            f"{title}: {show_minutes(step.minutes)} now, {odds}"
            f"{show_minutes(step.expected_minutes)} in all"
        )
        yield from wrap(told, columns, "  ", "    ")
    if len(ways) > 1:
        saved = ways[1].expected_minutes - ways[0].expected_minutes
        yield from wrap(f"the first saves {show_minutes(saved)}", columns, "  ", "    ")
    yield from wrap(_steady(off), columns, "  ", "    ")


def _steady(off: Steady) -> str:
    ends = [
        f"{factor:g} times {word}"
        for factor, word in ((off.weaker, "weaker"), (off.stronger, "stronger"))
        if factor is not None
    ]
    if not ends:
        return "the bond, the worst known number, may be 4 times off without another first move"
    return f"another first move wins once the bond, the worst known number, is {' or '.join(ends)}"
