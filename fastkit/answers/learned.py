"""What the user's own file says of the methods and tools, ready for a plan."""

from collections.abc import Iterable
from typing import NamedTuple

from fastkit.errors import Broken
from fastkit.extraction.learned import seizure_class
from fastkit.records.method import Variant
from fastkit.records.own import OwnTries
from fastkit.shopbook.rows import Attempt, Owned
from fastkit.shopbook.store import read


class Consulted(NamedTuple):
    """Attempts counted, tools that were measured, and what is wrong with the own file."""

    tries: tuple[OwnTries, ...]
    tools: tuple[Owned, ...]
    said: tuple[str, ...]


def consult(seized: str) -> Consulted:
    """
    Return what the notes say of each method and damage at a kind of seizure, and of the tools.

    What is wrong with the own file is said and keeps no answer from being given.
    """
    try:
        held = read()
    except Broken as error:
        return Consulted((), (), (str(error),))
    counts: dict[tuple[str, str], list[bool]] = {}
    wanted = seizure_class(seized)
    for row in held.of(Attempt):
        if row.damage and seizure_class(row.seized) == wanted:
            counts.setdefault((row.method, row.damage), []).append(row.outcome == "ok")
    tries = tuple(
        OwnTries(method, damage, wanted, sum(found), len(found))
        for (method, damage), found in counts.items()
    )
    tools = [row for row in held.of(Owned) if row[3:6] != (None, None, None)]
    return Consulted(tries, tuple(tools), (held.trouble,) if held.trouble else ())


def measured(variants: Iterable[Variant], tools: Iterable[Owned]) -> tuple[Variant, ...]:
    """Return the variants with the room that the user measured, the latest of a tool counting."""
    own = {row.tool: row for row in tools}
    return tuple(_as_measured(row, own[row.tool]) if row.tool in own else row for row in variants)


def _as_measured(variant: Variant, own: Owned) -> Variant:
    return variant._replace(
        title=f"{variant.title}, as you measured it",
        above_mm=variant.above_mm if own.above_mm is None else own.above_mm,
        beside_mm=variant.beside_mm if own.beside_mm is None else own.beside_mm,
        swing_deg=variant.swing_deg if own.swing_deg is None else own.swing_deg,
    )
