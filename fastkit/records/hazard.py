"""Neighbours, hazards and the distances between them."""

from typing import NamedTuple


class Hazard(NamedTuple):
    """Something that a method gives off."""

    TABLE = "hazard"

    id: str  # flame, sparks, heat, current, vibration, swarf, fluid, fumes, energy
    title: str
    caution: str
    guard: str | None  # what whoever does it minds in any case, in short
    source: str
    locator: str
    checked: str


class Neighbour(NamedTuple):
    """Something that may stand beside the work."""

    TABLE = "neighbour"

    id: str  # fuel, brake-fluid, rubber …
    title: str
    part: str  # the part that may be moved or was heated, in short
    caution: str
    movable: int  # 1: making room can put it out of the way
    aside_mm: float | None  # how much further off it is once taken off or tied back by itself
    aside_min: float | None
    undone_mm: float | None  # the same of a rigid pipe of it, undone at its unions
    undone_min: float | None  # filled, bled and tested again
    danger: str | None  # where something planned may reach it, or it must be moved
    named: int  # 1: only where the words name it as what comes away: a rigid pipe stays
    source: str
    locator: str
    checked: str


class Clearance(NamedTuple):
    """Distance below which a hazard must not be let loose beside a neighbour."""

    TABLE = "clearance"

    neighbour: str
    hazard: str
    forbid_mm: float  # nearer than this: the method is out
    shield_mm: float  # nearer than this: only with the condition
    condition: str | None
    because: str
    done: str | None  # what must be minded where it was done nearer than that all the same
    source: str
    locator: str
    checked: str


class Danger(NamedTuple):
    """What must be minded of what an attempt gave off, where a field has one of some values."""

    TABLE = "danger"

    hazard: str
    field: str
    value: str  # words split by blanks
    danger: str
    source: str
    locator: str
    checked: str
