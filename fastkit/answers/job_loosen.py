"""The plans for those fasteners of a job that will not move, and how long each may take."""

import sqlite3
from collections.abc import Iterator, Mapping
from typing import Any, NamedTuple

from fastkit.answers.extract import extract_course
from fastkit.answers.extract_answer import ExtractAnswer, Step
from fastkit.answers.job_rows import Fastener, Job, told
from fastkit.answers.wording import NOWHERE, in_sentence, kept_off, method_title, thing
from fastkit.extraction.spread import Course, quantile
from fastkit.records.job import LineKind

BESIDE_MM = 300.0  # how far off a line of the job is taken to be; shown as assumed
ATTEMPTS = ("turn", "part")  # kinds of methods that may free it
MOST_MOVES = 3  # told of a plan: the first and what follows on failure, gates not counted
PERCENTILES = (0.1, 0.5, 0.9)


class Loosening(NamedTuple):
    """The plan for one of the stuck fasteners of a row; minutes at the percentiles above."""

    name: str
    stuck: int
    first: str  # method; stop where nothing helps
    first_said: str
    variant: str | None
    chance_first: float | None  # None: a preparation, which only makes the next one likelier
    then: tuple[str, ...]  # what follows on failure, in words
    chance: float  # that it comes out in the end
    minutes: tuple[float, ...]
    stop_when: tuple[str, ...]
    needs: tuple[str, ...]  # tool ids of what may be done in the first three moves
    cautions: tuple[str, ...]
    not_understood: tuple[str, ...]


class Planned(NamedTuple):
    """A plan with what is summed over the job."""

    row: Fastener
    plan: Loosening
    left_hand: bool
    drive: str | None
    course: Course
    tools: Mapping[str, str]  # titles by tool id


def plan_rows(
    job: Job, kinds: Mapping[str, LineKind], store: sqlite3.Connection
) -> tuple[Planned, ...]:
    """
    Return the plans of the rows that hold stuck fasteners; rows that say the same share one.

    Raises:
        Misuse: When a state is not understood.
    """
    beside = beside_job(job, kinds)
    known: dict[tuple[Any, ...], tuple[ExtractAnswer, Course]] = {}
    found = []
    for row in job.fasteners:
        if not row.stuck:
            continue
        options = {**told(row), **({"support": job.support} if job.support != "unknown" else {})}
        words = row.state or f"{row.thread} {row.was} seized"
        extra = tuple(name for name in beside if name not in words)
        key = words, tuple(sorted(options.items())), extra
        if key not in known:
            near = tuple(f"{name}:{BESIDE_MM:g}" for name in extra)
            known[key] = extract_course(words, most=MOST_MOVES, store=store, near=near, **options)
        answer, way = known[key]
        titles = {tool: answer.titles.get(f"tool:{tool}", tool) for tool in _needs(answer)}
        plan = _summary(row, answer, way)
        situation = answer.situation
        found.append(Planned(row, plan, situation.left_hand, situation.drive, way, titles))
    return tuple(found)


def beside_job(job: Job, kinds: Mapping[str, LineKind]) -> tuple[str, ...]:
    """Return the neighbours that the lines of a job are to all its fasteners."""
    found = (kinds[line.kind].beside for line in job.lines)
    return tuple(dict.fromkeys(name for name in found if name))


def _summary(row: Fastener, answer: ExtractAnswer, way: Course) -> Loosening:
    moves = _line_of(answer)
    first = moves[0] if moves else None
    then = [_said(step, answer) for step in moves[1:]]
    if moves and moves[-1].if_it_fails == "stop":
        then.append(NOWHERE)
    minutes = tuple(quantile(way.minutes, share) for share in PERCENTILES)
    return Loosening(
        row.name,
        row.stuck,
        first.method if first else "stop",
        _said(first, answer) if first else NOWHERE,
        first and first.variant and answer.variants.get((first.method, first.variant)),
        first.chance if first and first.kind in ATTEMPTS else None,
        tuple(then),
        way.freed,
        minutes,
        answer.stop_when,
        tuple(_needs(answer)),
        (*dict.fromkeys(caution for step in moves for caution in step.cautions), *_no_fire(answer)),
        answer.not_understood,
    )


def _no_fire(answer: ExtractAnswer) -> Iterator[str]:
    """Yield why no fire comes near this fastener, and how far off each neighbour wants it."""
    for why, _ in answer.never.because:
        yield f"{why[:1].upper()}{why[1:]}."
    found: dict[str, dict[float, list[str]]] = {}
    for item, hazard, mm in answer.never.near:
        found.setdefault(item.thing, {}).setdefault(mm, []).append(thing(hazard))
    for name, rules in found.items():
        told = kept_off(thing(name), rules)
        yield f"{told[:1].upper()}{told[1:]}."


def _line_of(answer: ExtractAnswer) -> list[Step]:
    """Return the first move and what follows it on failure, gates in front not counted."""
    by_method = {step.method: step for step in answer.plan}
    found: list[Step] = []
    step = answer.plan[0] if answer.plan else None
    while step and step not in found and sum(s.kind != "gate" for s in found) < MOST_MOVES:
        found.append(step)
        step = by_method.get(step.if_it_fails)
    return found


def _needs(answer: ExtractAnswer) -> list[str]:
    return list(dict.fromkeys(tool for step in _line_of(answer) for tool in step.needs))


def _said(step: Step, answer: ExtractAnswer) -> str:
    return in_sentence(method_title(step.method, answer.titles))
