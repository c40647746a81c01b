"""What the file says of methods in words: titles, steps, cautions, what whoever uses one minds."""

import re
import sqlite3
from collections.abc import Collection, Iterable, Mapping

from fastkit.answers.wording import Names
from fastkit.extraction.facts import Facts
from fastkit.extraction.rules import HEATS, giving_off
from fastkit.records.hazard import Hazard
from fastkit.reference.lookup import many
from fastkit.reference.store import query

VITAL = "vital"
COLD = "cold to the hand before any oil"  # oil flashes on what was heated
OILED = "oil in", "oil without"  # how a condition begins that wants oil on it
OIL = re.compile(r"\b(?:oil|penetrant)\b(?!-free)", re.IGNORECASE)
ON_LOBES, TITLE = "lobed-", "title"  # parts of the texts of methods
Texts = Mapping[tuple[str, str], list[str]]  # by method and part
Tagged = Mapping[tuple[str, str], list[tuple[frozenset[str], str]]]  # and at what each is told


def tagged_texts(store: sqlite3.Connection) -> Tagged:
    """Return steps and cautions by method and part, in order, each with what it is told at."""
    found: dict[tuple[str, str], list[tuple[frozenset[str], str]]] = {}
    sql = "SELECT method, part, told, text FROM method_text ORDER BY method, part, n"
    for method, part, told, text in query(store, sql):
        found.setdefault((method, part), []).append((frozenset((told or "").split()), text))
    return found


def told_at(tagged: Tagged, hand: Collection[str] | None = None) -> Texts:
    """Return the texts of what is at hand only, a tool among it; None: all."""
    return {
        key: [text for told, text in texts if hand is None or not told or _is_so(told, hand)]
        or [text for _, text in texts]
        for key, texts in tagged.items()
    }


def _is_so(told: Collection[str], hand: Collection[str]) -> bool:
    return any(all(word in hand for word in tag.split("+")) for tag in told)


def of_tools(tagged: Tagged, variants: Collection[str]) -> Tagged:
    """Return of all texts those of which some are told with one tool alone."""
    return {
        key: texts
        for key, texts in tagged.items()
        if any(word in variants for told, _ in texts for tag in told for word in tag.split("+"))
    }


def on_lobes(texts: Texts, titles: Names) -> tuple[Texts, Names]:
    """Return texts and titles with what a head with lobes takes in place of a hexagon's tools."""
    lobed = {
        (method, part.removeprefix(ON_LOBES)): told
        for (method, part), told in texts.items()
        if part.startswith(ON_LOBES)
    }
    named = {f"method:{method}": told[0] for (method, part), told in lobed.items() if part == TITLE}
    return {**texts, **lobed}, {**titles, **named}


def titles_of(store: sqlite3.Connection) -> Names:
    """Return the titles of methods, tools and neighbours by entry id."""
    sql = "SELECT id, title FROM entry WHERE kind IN ('method', 'tool', 'neighbour')"
    return {str(entry): str(title) for entry, title in query(store, sql)}


def guards_of(store: sqlite3.Connection, facts: Facts, texts: Texts) -> dict[str, tuple[str, ...]]:
    """Return what whoever uses a method minds in any case: of itself, and by what it gives off."""
    guards = {row.id: row.guard for row in many(store, Hazard)}
    vital = {method: told for (method, part), told in texts.items() if part == VITAL}
    found: dict[str, list[str]] = {method: [] for method in vital}
    for row in facts.method_hazards:
        guard, told = guards[row.hazard], found.setdefault(row.method, [])
        if guard and guard not in "; ".join((*told, *vital.get(row.method, ()))):
            told.append(guard)
    return {method: (*told, *vital.get(method, ())) for method, told in found.items()}


def hot_and_oily(texts: Texts, facts: Facts) -> tuple[frozenset[str], frozenset[str]]:
    """Return the methods that heat it, and those whose steps want oil on it."""
    hot = giving_off(facts, HEATS)
    oiled = {method for (method, part), told in texts.items() if OIL.search(" ".join(told))}
    gates = {row.id for row in facts.methods if row.kind == "gate"}
    return hot, frozenset(oiled - hot - gates)


def wants_oil(
    method: str, conditions: Iterable[str], hot: Collection[str], oily: Collection[str]
) -> bool:
    """Say whether a method puts oil on it, by its steps or by what it asks for, and heats not."""
    oiled = method in oily or any(text.startswith(OILED) for text in conditions)
    return oiled and method not in hot
