"""How long a job takes, and whether to hand it on."""

from collections.abc import Iterable, Mapping
from math import prod
from typing import NamedTuple

from fastkit.answers.job_loosen import Planned
from fastkit.answers.job_rows import Job
from fastkit.extraction.spread import Spread, likely, times, together
from fastkit.records.job import HandWork, LineKind

FOR_EACH = ("turn-out", "clean-thread", "turn-in", "tighten")  # works of every fastener


class Worth(NamedTuple):
    """
    Doing it oneself against handing it on, in the user's own money, risks weighed in.

    `break_even` is the value of an hour at which both cost the same; None where there is none,
    then `better` holds at any.
    """

    own: float
    away: float
    break_even: float | None
    better: str  # own, away


def total_minutes(
    job: Job,
    planned: Iterable[Planned],
    kinds: Mapping[str, LineKind],
    works: Mapping[str, HandWork],
) -> Spread:
    """
    Return the time of a whole job: every piece of work after the other, each taken by itself.

    A stuck fastener takes its plan's time in place of turning it out.
    """

    def work(name: str, n: int = 1) -> Spread:
        row = works[name]
        return times(likely(row.quick_min, row.usual_min, row.slow_min), n)

    stuck = {item.row.name: item for item in planned}
    total = together(work("lay-out"), work("check-over"))
    for line in job.lines:
        row = kinds[line.kind]
        total = together(total, likely(row.off_quick_min, row.off_min, row.off_slow_min))
        total = together(total, likely(row.on_quick_min, row.on_min, row.on_slow_min))
    total = together(total, work("photograph", len(job.lines) + len(job.parts)))
    total = together(total, work("part-off", len(job.parts)))
    total = together(total, work("part-on", len(job.parts)))
    pieces = sum(row.pieces for row in job.fasteners)
    held = sum(item.row.stuck for item in stuck.values())
    for name in FOR_EACH:
        total = together(total, work(name, pieces - held if name == "turn-out" else pieces))
    for item in stuck.values():
        total = together(total, times(item.course.minutes, item.row.stuck))
    return total


def chance_of_all(planned: Iterable[Planned]) -> float:
    """Return the chance that every stuck fastener comes out, each taken by itself."""
    return prod(item.course.freed**item.row.stuck for item in planned)


def worth(
    *,
    minutes: float,
    freed: float,
    again: float,
    price: float,
    away_minutes: float,
    parts_price: float,
    hour: float,
) -> Worth:
    """
    Return what doing it oneself costs against handing it on.

    Expected cost of one's own way: (1 + again) (hour T / 60 + parts) + (1 - freed) (price +
    hour t / 60), T the job's mean time, t one's own time for bringing it; of the other: price +
    hour t / 60. Both are lines over the hour's value; they cross at the break-even.

    Args:
        minutes: Mean time of the job [min].
        freed: Chance that all comes apart [-].
        again: Chance that it has to be done twice [-].
        price: What it costs elsewhere.
        away_minutes: One's own time for that [min].
        parts_price: What must be bought.
        hour: What an hour of one's own is worth.

    References:
        Expected value of two alternatives; no standard.
    """
    fixed_own = (1 + again) * parts_price + (1 - freed) * price
    slope_own = ((1 + again) * minutes + (1 - freed) * away_minutes) / 60
    own, away = fixed_own + slope_own * hour, price + away_minutes / 60 * hour
    steeper = slope_own - away_minutes / 60
    at = (price - fixed_own) / steeper if steeper else None
    even = at if at is not None and at > 0 else None
    return Worth(own, away, even, "own" if own <= away else "away")
