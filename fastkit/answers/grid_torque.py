"""
The torques of the phone page: the window of every thread and class that the compiled table holds.

Each is computed as `torque` answers it, with its defaults. The form:

    frictions  [{id, title, mu: [lowest, middle, highest], column}]; with the same friction, the
               same column
    usual      condition of the defaults
    classes    [{id, title}]
    threads    [{id, title, classes: [[number of the class, text: twists off at, [row a column]]]}]
    rows       [set, low, high, clamp, what bounds it: numbers of texts, [texts: what opens it]];
               where no setting does, set and clamp are -1 and low stands above high
    texts      every text once
    others     [{id, title, reason, instead: [sentences]}]: threads that get no window
    assumed    what every row takes for granted, a sentence each
    caution    what stands beside every value
    hangs      [{id, because, instead}]: what gets no window, a life hanging on it; stop: the words
               for that, {} standing for the id
"""

import sqlite3
from collections.abc import Collection, Mapping
from typing import Any

from fastkit.answers.critical import is_governed
from fastkit.answers.grid_once import Once
from fastkit.answers.refused import FAMILIES
from fastkit.answers.torque import CLASS_B, torque
from fastkit.answers.torque_answer import CAUTION, MAKER_ALONE, TorqueAnswer
from fastkit.answers.torque_limits import LIMITS
from fastkit.notation.units import show_kn, show_nm
from fastkit.records.critical import Critical
from fastkit.records.friction import Friction
from fastkit.records.thread import Thread
from fastkit.reference.lookup import many
from fastkit.reference.store import query

ASSUMED = (
    "Hexagon head on a medium hole, nut or body as strong as the bolt.",
    "90 % of yield, a wrench true to 4 %, a clamp of at least 40 % of the table preload.",
)
NO_CLASS = "8.8"  # threads that get no window get none in any class


def torques(store: sqlite3.Connection, only: Collection[str] | None = None) -> dict[str, Any]:
    """
    Return the torque part in the form that the module's head describes.

    Args:
        store: Open reference.
        only: Keys of the threads to hold; all if left out.

    Raises:
        Broken: When the reference cannot be read.
    """
    titles = {str(key): str(title) for key, title in query(store, "SELECT id, title FROM entry")}
    frictions = many(store, Friction)
    columns: dict[tuple[float, ...], Friction] = {}
    for friction in frictions:
        columns.setdefault(_mu(friction), friction)
    numbers = {mu: number for number, mu in enumerate(columns)}
    texts, rows, classes = Once(), Once(), Once()
    threads: dict[str, list[Any]] = {}
    sql = "SELECT DISTINCT thread, grade FROM torque ORDER BY rowid"
    for thread, grade in query(store, sql):
        if only is not None and thread not in only:
            continue
        answers = [torque(thread, grade, friction=one.id, store=store) for one in columns.values()]
        held = [rows.of(_row(answer, texts)) for answer in answers]
        entry = [classes.of(grade), texts.of(_twists_off(answers[0])), held]
        threads.setdefault(str(thread), []).append(entry)
    return {
        "frictions": [
            {"id": row.id, "title": row.title, "mu": list(_mu(row)), "column": numbers[_mu(row)]}
            for row in frictions
        ],
        "usual": CLASS_B,
        "classes": [{"id": key, "title": titles[f"grade:{key}"]} for key in classes.all()],
        "threads": [
            {"id": key, "title": titles[f"thread:{key}"], "classes": held}
            for key, held in threads.items()
        ],
        "rows": rows.all(),
        "texts": texts.all(),
        "others": [
            _other(row, titles, store)
            for row in many(store, Thread)
            if row.family in FAMILIES and (only is None or row.id in only)
        ],
        "assumed": list(ASSUMED),
        "caution": CAUTION,
        "hangs": [
            {"id": row.id, "because": row.because, "instead": row.instead}
            for row in many(store, Critical)
            if is_governed(row)
        ],
        "stop": MAKER_ALONE,
    }


def _mu(friction: Friction) -> tuple[float, ...]:
    return friction.mu_min, friction.mu_mid, friction.mu_max


def _row(answer: TorqueAnswer, texts: Once) -> tuple[Any, ...]:
    """Return one row in numbers of texts."""

    def shown(nm: float | None) -> int:
        return -1 if nm is None else texts.of(show_nm(1000 * nm))

    there = not answer.empty and answer.preload_n is not None
    return (
        shown(answer.torque_nm) if there else -1,
        shown(answer.torque_min_nm),
        shown(answer.torque_max_nm),
        texts.of(show_kn(answer.preload_n)) if there and answer.preload_n is not None else -1,
        texts.of(LIMITS[answer.limited_by]) if answer.limited_by else -1,
        tuple(texts.of(way) for way in answer.opens_it),
    )


def _twists_off(answer: TorqueAnswer) -> str:
    about = "about " if answer.breaking_torque_is_estimate else ""
    return f"{about}{show_nm(1000 * (answer.breaking_torque_nm or 0.0))}"


def _other(row: Thread, titles: Mapping[str, str], store: sqlite3.Connection) -> dict[str, Any]:
    answer = torque(row.id, NO_CLASS, store=store)
    return {
        "id": row.id,
        "title": titles[f"thread:{row.id}"],
        "reason": answer.reason,
        "instead": list(answer.published or ()),
    }


def read(torques: Mapping[str, Any], thread: str, grade: str, friction: str) -> dict[str, Any]:
    """
    Return one row in words out of what `torques` gave, as the page does.

    Raises:
        StopIteration: When thread, class or condition is not on the page.
    """
    texts = torques["texts"]
    column = next(row["column"] for row in torques["frictions"] if row["id"] == friction)
    classes = next(row["classes"] for row in torques["threads"] if row["id"] == thread)
    twists, held = next(
        (off, rows) for number, off, rows in classes if torques["classes"][number]["id"] == grade
    )
    *numbers, opens = torques["rows"][held[column]]
    words = [texts[number] if number >= 0 else "" for number in numbers]
    return {
        **dict(zip(("set", "low", "high", "clamp", "limit"), words, strict=True)),
        "opens_it": [texts[number] for number in opens],
        "twists_off": texts[twists],
    }
