"""A whole job on one sheet: apart, loose, bought, together, tight, checked, and how long."""

import sqlite3
from collections.abc import Mapping
from typing import Any, NamedTuple

from fastkit.answers.asks import GOVERNS, STANDS
from fastkit.answers.job_apart import (
    Label,
    Task,
    Way,
    apart,
    labels,
    ordered,
    photographs,
    together,
)
from fastkit.answers.job_buy import Buy, Renewal, renewals, shopping
from fastkit.answers.job_file import read_job
from fastkit.answers.job_loosen import (
    BESIDE_MM,
    PERCENTILES,
    Loosening,
    Planned,
    beside_job,
    plan_rows,
)
from fastkit.answers.job_rows import AGAIN, Job
from fastkit.answers.job_tighten import Tightening, tighten
from fastkit.answers.job_tools import ToolLine, lay_out
from fastkit.answers.job_worth import Worth, chance_of_all, total_minutes, worth
from fastkit.answers.wording import thing
from fastkit.extraction.spread import mean, quantile
from fastkit.records.job import HandWork, LineKind
from fastkit.reference.lookup import many
from fastkit.reference.store import connect

CLEAN = (
    "Brush each thread and blow it out; chase with a nut or an old tap, do not cut it anew.",
    "Blind holes empty and dry: oil or water at the bottom bursts the casting when a bolt goes in.",
    "Scrape faces with wood or plastic on soft metal; no scratch across a seal.",
    "Old locking compound off both threads; oil nothing that the maker wants dry.",
)
AFTER = (
    "Everything that moves turned through its whole travel by hand before any power.",
    "Every fastener looked at again after the first run, cold; a part that has settled is "
    "tightened once more to the same value, unless the maker forbids it.",
    "No tool, rag or part left over: count the bags and the labels.",
)


class JobAnswer(NamedTuple):
    """One job on one sheet; `minutes` at 10, 50 and 90 of 100."""

    job: Job
    labels: tuple[Label, ...]
    photographs: tuple[str, ...]
    apart: tuple[Task, ...]
    plans: tuple[Loosening, ...]
    tools: tuple[ToolLine, ...]
    buy: tuple[Buy, ...]
    clean: tuple[str, ...]
    together: tuple[Task, ...]
    tightening: tuple[Tightening, ...]
    checks: tuple[str, ...]
    cautions: tuple[str, ...]
    minutes: tuple[float, ...]
    mean_minutes: float
    chance: float
    worth: Worth | None
    assumed: tuple[str, ...]


def job(text: str, *, store: sqlite3.Connection | None = None) -> JobAnswer:
    """
    Return the sheet of a job.

    Args:
        text: A job file, TOML.
        store: Open reference; the package's own if left out.

    Raises:
        Mistakes: When the file holds mistakes; each with its line.
        Broken: When the reference or the own file cannot be read.
    """
    store = store or connect()
    told = read_job(text, store)
    kinds = {row.id: row for row in many(store, LineKind)}
    works = {row.id: row for row in many(store, HandWork)}
    planned = plan_rows(told, kinds, store)
    left = {item.row.name for item in planned if item.left_hand}
    left |= {row.name for row in told.fasteners if row.left_hand}
    renewed = renewals(told, left, store)
    tight = {
        row.name: tighten(row, told, row.name in left, renewed.get(row.name), store)
        for row in told.fasteners
    }
    order = ordered(told)
    tags = labels(order, kinds)
    way = Way(told, tuple(order), {tag.name: tag for tag in tags}, tight)
    total = total_minutes(told, planned, kinds, works)
    minutes, chance = mean(total), chance_of_all(planned)
    return JobAnswer(
        told,
        tags,
        photographs(way),
        apart(way),
        tuple(item.plan for item in planned),
        lay_out(told, planned, tight, store),
        shopping(told, renewed, store),
        CLEAN,
        together(way),
        tuple(tight.values()),
        _checks(tags),
        _cautions(told, planned, tags),
        tuple(quantile(total, share) for share in PERCENTILES),
        minutes,
        chance,
        _worth(told, minutes, chance),
        _assumed(told, kinds, renewed),
    )


def document(answer: JobAnswer) -> dict[str, Any]:
    """Return the JSON document of a sheet."""
    plain = _plain(answer)
    assert isinstance(plain, dict)
    return plain


def _plain(value: Any) -> Any:
    if hasattr(value, "_asdict"):
        return {name.rstrip("_"): _plain(inner) for name, inner in value._asdict().items()}
    if isinstance(value, tuple):
        return [_plain(inner) for inner in value]
    return value


def _checks(tags: tuple[Label, ...]) -> tuple[str, ...]:
    lines = (f"{tag.letter}, {tag.name}: {tag.afterwards}" for tag in tags)
    return (*lines, *AFTER)


def _cautions(told: Job, planned: tuple[Planned, ...], tags: tuple[Label, ...]) -> tuple[str, ...]:
    return tuple(
        dict.fromkeys(
            (
                *((f"{STANDS.capitalize()}.",) if told.support in ("jack", "unknown") else ()),
                *(f"{tag.title}: {tag.caution}." for tag in tags if tag.caution),
                *(caution for item in planned for caution in item.plan.cautions),
                GOVERNS,
            )
        )
    )


def _worth(told: Job, minutes: float, chance: float) -> Worth | None:
    if told.away is None or told.hour is None:
        return None
    return worth(
        minutes=minutes,
        freed=chance,
        again=told.again,
        price=told.away.price,
        away_minutes=told.away.minutes,
        parts_price=told.parts_price,
        hour=told.hour,
    )


def _assumed(
    told: Job, kinds: Mapping[str, LineKind], renewed: Mapping[str, Renewal]
) -> tuple[str, ...]:
    left_over = (
        f"of {name} not understood: {', '.join(item.not_understood)}"
        for name, item in renewed.items()
        if item.not_understood
    )
    beside = (
        f"{thing(name)} {BESIDE_MM:g} mm from every fastener that will not move"
        for name in beside_job(told, kinds)
    )
    again = (f"{100 * AGAIN:g} % of repairs done twice",) if told.again == AGAIN else ()
    return (
        *left_over,
        *beside,
        *again,
        "times of handwork are workshop judgement, and each is taken by itself",
    )
