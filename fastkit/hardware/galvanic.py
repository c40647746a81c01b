"""Two metals that touch: what the anodic index and the sea say, in both directions of area."""

from collections.abc import Iterable, Mapping
from typing import NamedTuple

from fastkit.records.galvanic import AnodicIndex, Environment, Metal, SeaPotential

ENVIRONMENT = {1: "controlled", 2: "normal", 3: "harsh", 4: "harsh"}
SACRIFICED = frozenset(("zinc-plated", "zinc-flake", "galvanised", "zinc-nickel", "cadmium-plated"))
EATEN = frozenset(("aluminium", "magnesium", "zinc"))  # bodies to be parted from a nobler screw
CALOMEL = "saturated calomel"
IN_SEA = {  # names of the series in sea water; stainless taken as passive
    "aluminium": "aluminium-3003",
    "brass": "naval-brass",
    "cast-iron": "cast-iron",
    "copper": "copper",
    "stainless": "stainless-304-passive",
    "steel": "carbon-steel",
    "titanium": "titanium",
    "zinc-plated": "zinc",
    "zinc-flake": "zinc",
    "galvanised": "zinc",
}


class Verdict(NamedTuple):
    """
    What a fastener of one metal does in a body of another.

    `verdict`: fit; sacrificial, the coat goes first and guards what is under it; unfit.
    `as_fitted` and `reversed`: what the areas do to whatever corrodes, a small fastener in a
    large part and the other way round: none, spread (slow), focused (fast).
    """

    fastener: str
    body: str
    environment: str
    difference_v: float
    limit_v: float
    corrodes: str | None  # fastener, body
    verdict: str
    as_fitted: str
    reversed: str
    insulate: bool
    sea_difference_v: float | None


class Galvanics(NamedTuple):
    """The rows that a verdict rests on."""

    metals: Mapping[str, Metal]
    indices: Mapping[str, AnodicIndex]
    environments: Mapping[str, Environment]
    sea: tuple[SeaPotential, ...]


def galvanics(
    metals: Iterable[Metal],
    indices: Iterable[AnodicIndex],
    environments: Iterable[Environment],
    sea: Iterable[SeaPotential],
) -> Galvanics:
    """The rows by their ids."""
    return Galvanics(
        {row.id: row for row in metals},
        {row.id: row for row in indices},
        {row.id: row for row in environments},
        tuple(sea),
    )


def verdict(facts: Galvanics, fastener: str, body: str, level: int) -> Verdict:
    """
    Judge a pair of metals.

    Args:
        facts: Indices, limits and potentials.
        fastener: Metal or coat of the fastener, an id of the metals.
        body: Metal of the body.
        level: 1 dry inside, 2 damp, 3 outdoors, 4 salt.

    Returns:
        The verdict.

    Raises:
        KeyError: When a metal is none of the data's.
    """
    limit = facts.environments[ENVIRONMENT[level]]
    ours, theirs = (
        facts.indices[facts.metals[name].anodic_index].index_v for name in (fastener, body)
    )
    difference = round(abs(ours - theirs), 6)
    corrodes = None if difference == 0 else "fastener" if ours > theirs else "body"
    word = "fit"
    if difference > limit.limit_v:
        word = "sacrificial" if corrodes == "fastener" and fastener in SACRIFICED else "unfit"
    focused = {None: "none", "fastener": "focused", "body": "spread"}[corrodes]
    other = {"none": "none", "focused": "spread", "spread": "focused"}[focused]
    parted = word == "unfit" and corrodes == "body" and body in EATEN
    return Verdict(
        fastener,
        body,
        limit.id,
        difference,
        limit.limit_v,
        corrodes,
        word,
        focused,
        other,
        parted,
        _in_sea(facts, fastener, body),
    )


def _in_sea(facts: Galvanics, fastener: str, body: str) -> float | None:
    """Difference of potential in flowing sea water; None where one of them is not listed."""
    held = {row.metal: row.potential_v for row in facts.sea if row.electrode == CALOMEL}
    found = [held.get(IN_SEA.get(name, "")) for name in (fastener, body)]
    if found[0] is None or found[1] is None:
        return None
    return round(abs(found[0] - found[1]), 6)
