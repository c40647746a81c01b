"""Situations kept under a name, to go on with after an attempt."""

import json
import sqlite3
from collections.abc import Iterable, Mapping, Sequence
from typing import Any, NamedTuple

from fastkit.answers.kept_rows import keep, latest
from fastkit.answers.understand import understand
from fastkit.errors import Misuse
from fastkit.extraction.situation import SNAPPED
from fastkit.records.method import Method
from fastkit.reference.lookup import many
from fastkit.reference.store import connect
from fastkit.shopbook.rows import Attempt, Kept
from fastkit.shopbook.text import now

LISTED = ("near", "have", "lack", "can", "tried")
DONE_KINDS = ("treat", "gate", "room")  # preparations: done is done, whatever came of them
HOLED = ("extractor", "drill")  # what breaks in these stays in the hole
WORSE = {"intact": "worn", "worn": "stripped"}


class Recalled(NamedTuple):
    """A kept situation with what was tried since, as `extract` takes it."""

    words: str
    options: dict[str, Any]
    said: tuple[str, ...]  # about the own file


def filled(options: Mapping[str, Any]) -> dict[str, Any]:
    """Return the options that say something."""
    return {name: value for name, value in options.items() if value not in (None, False, (), [])}


def save(name: str, words: str, options: Mapping[str, Any]) -> tuple[str, ...]:
    """
    Keep words and options under a name; the latest of a name counts.

    Returns:
        What had to be done to the own file first.

    Raises:
        Misuse: When the name cannot be kept.
        Broken: When the own file cannot be written.
    """
    return keep(Kept(0, now(), name, words, json.dumps(filled(options))))


def recall(
    name: str,
    words: str = "",
    options: Mapping[str, Any] | None = None,
    *,
    store: sqlite3.Connection | None = None,
) -> Recalled:
    """
    Return a kept situation with the attempts noted since and what is said now, which wins.

    An attempt that made things worse, or a tool that broke off in its hole, changes the damage.

    Raises:
        NotHeld: When nothing is kept under the name; the nearest are named.
        Misuse: When the shank broke and nobody has said where.
        Broken: When the own file cannot be read.
    """
    store = store or connect()
    kept, held = latest(Kept, name, "nothing")
    said = filled(options or {})
    before = json.loads(kept.options)
    since = [row for row in held.of(Attempt) if row.kept == kept.name and row.id > kept.id]
    methods = {row.id: row for row in many(store, Method)}
    merged = {**before, **{key: value for key, value in said.items() if key not in LISTED}}
    for key in LISTED:
        found = [*before.get(key, ()), *said.get(key, ())]
        if key == "tried":
            found = [*before.get(key, ()), *_tried(since, methods), *said.get(key, ())]
        if found:
            merged[key] = tuple(found)
    if "damage" in said and "stub" not in said:
        merged.pop("stub", None)  # measured before it broke again
    text = " ".join(filter(None, (kept.words, words)))
    if "damage" not in said:
        damage = _damage(store, text, merged, since, methods)
        if damage:
            merged["damage"] = damage
    return Recalled(text, merged, (held.trouble,) if held.trouble else ())


def _tried(since: Iterable[Attempt], methods: Mapping[str, Method]) -> list[str]:
    return [
        row.method
        for row in since
        if row.method in methods and (row.outcome != "ok" or methods[row.method].kind in DONE_KINDS)
    ]


def _damage(
    store: sqlite3.Connection,
    words: str,
    options: Mapping[str, Any],
    since: Sequence[Attempt],
    methods: Mapping[str, Method],
) -> str | None:
    """Return the damage after attempts that changed it; None where none did."""
    found, broken = "", None
    for row in since:
        if row.damage:  # as it was before this attempt
            found, broken = row.damage, None
        if row.outcome == "worse":
            found = found or understand(store, words, options).situation.damage
            found = WORSE.get(found, found)
        elif row.outcome == "broke":
            method = methods.get(row.method)
            holed = method is not None and method.grip in HOLED
            found, broken = ("extractor-broken", None) if holed else (found, row.method)
    if broken:
        raise Misuse(
            f"{broken} broke it: say what is left with --damage, {', '.join(SNAPPED)} or another",
            SNAPPED,
        )
    told = any(
        row.outcome in ("worse", "broke") or "damage" in json.loads(row.said) for row in since
    )
    return found if told and found else None
