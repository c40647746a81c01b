"""The sheet of a job, as lines for a screen or a printer."""

from collections.abc import Iterable, Iterator

from fastkit.answers.job import JobAnswer
from fastkit.answers.job_apart import Task
from fastkit.answers.job_buy import Buy
from fastkit.answers.job_loosen import Loosening
from fastkit.answers.job_tools import ToolLine
from fastkit.answers.job_worth import Worth
from fastkit.answers.wording import show_chance, show_minutes
from fastkit.cli.output import bold, unread_words, wrap

AT_HAND = {True: "", False: " (borrow or buy)", None: ""}


def sheet(answer: JobAnswer, columns: int) -> Iterator[str]:
    """Yield the lines of the sheet."""
    yield from wrap(answer.job.title, columns)
    low, middle, high = map(show_minutes, answer.minutes)
    chance = "" if answer.chance == 1 else f", {show_chance(answer.chance)} that all comes apart"
    yield from wrap(f"about {middle} ({low} to {high} in eight of ten){chance}", columns)
    if answer.worth:
        yield from wrap(_worth(answer.worth, answer.job.hour or 0.0), columns)
    yield from _listed("Mind", answer.cautions, columns, "! ")
    yield from _listed("Lay out", map(_tool, answer.tools), columns)
    yield from _listed("Buy", map(_buy, answer.buy), columns)
    yield from _listed("Photograph", answer.photographs, columns)
    yield from _numbered("Apart", answer.apart, columns)
    for plan in answer.plans:
        yield from _plan(plan, columns)
    yield from _listed("Clean", answer.clean, columns)
    yield from _numbered("Together", answer.together, columns)
    yield from _listed("Check before use", answer.checks, columns, "[ ] ")
    yield from _listed("Assumed", answer.assumed, columns)


def _heading(words: str, columns: int) -> Iterator[str]:
    yield ""
    for line in wrap(words, columns):
        yield bold(line)


def _listed(heading: str, rows: Iterable[str], columns: int, mark: str = "- ") -> Iterator[str]:
    rows = list(rows)
    if rows:
        yield from _heading(heading, columns)
    for row in rows:
        yield from wrap(row, columns, mark)


def _numbered(heading: str, tasks: Iterable[Task], columns: int) -> Iterator[str]:
    yield from _heading(heading, columns)
    for number, task in enumerate(tasks, 1):
        yield from wrap(f"{task.what}: {'; '.join(task.how)}.", columns, f"{number}. ".rjust(4))


def _tool(tool: ToolLine) -> str:
    return f"{tool.title}{AT_HAND[tool.at_hand]}: {', '.join(tool.for_)}"


def _buy(buy: Buy) -> str:
    spares = f" ({buy.spares} spare)" if buy.spares else ""
    return f"{buy.pieces} × {buy.line}{spares}: {buy.for_}; {buy.why}"


def _plan(plan: Loosening, columns: int) -> Iterator[str]:
    yield from _heading(f"Will not move: {plan.name}, {plan.stuck} of them", columns)
    low, middle, high = map(show_minutes, plan.minutes)
    with_ = f", {plan.variant}" if plan.variant else ""
    chance = "" if plan.chance_first is None else f" ({show_chance(plan.chance_first)})"
    yield from wrap(f"first: {plan.first_said}{with_}{chance}", columns)
    for move in plan.then:
        yield from wrap(f"then: {move}", columns)
    yield from wrap(
        f"each about {middle} ({low} to {high}), comes out {show_chance(min(plan.chance, 0.99))}",
        columns,
    )
    for stop in plan.stop_when:
        yield from wrap(f"stop: {stop}", columns)
    yield from unread_words(plan.not_understood, columns)


def _worth(found: Worth, hour: float) -> str:
    better = "do it yourself" if found.better == "own" else "hand it on"
    said = f"{better}: {found.own:.0f} against {found.away:.0f} at {hour:g} an hour"
    if found.break_even is None:
        return f"{said}, at any value of an hour"
    other = "hand it on" if found.better == "own" else "do it yourself"
    way = "above" if (found.break_even > hour) else "below"
    return f"{said}; {way} {found.break_even:.0f} an hour {other}"
