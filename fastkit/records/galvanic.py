"""Metals that touch one another: indices, potentials, limits by environment, verdicts."""

from typing import NamedTuple


class AnodicIndex(NamedTuple):
    """Potential of a group of metals below gold."""

    TABLE = "anodic_index"

    id: str
    title: str
    index_v: float
    source: str
    locator: str
    checked: str


class Metal(NamedTuple):
    """A metal or plating as the workshop calls it, and the group of the index it belongs to."""

    TABLE = "metal"

    id: str  # aluminium, stainless, zinc-plated
    title: str
    anodic_index: str
    source: str
    locator: str
    checked: str


class Environment(NamedTuple):
    """Where two metals touch, and the difference of index that may stand there."""

    TABLE = "environment"

    id: str  # harsh, normal, controlled
    title: str
    limit_v: float
    source: str
    locator: str
    checked: str


class SeaPotential(NamedTuple):
    """Potential of a metal in flowing sea water against a reference electrode."""

    TABLE = "sea_potential"

    metal: str
    title: str
    electrode: str  # saturated calomel, silver chloride
    potential_v: float
    source: str
    locator: str
    checked: str


class Pair(NamedTuple):
    """Two metals in contact: computed from their indices and the limits."""

    TABLE = "pair"

    id: str  # aluminium+stainless, in the order of the alphabet
    first: str
    second: str
    difference_v: float
    corrodes: str | None  # the metal that does; None: neither
    harsh: str  # fit, unfit
    normal: str
    controlled: str
