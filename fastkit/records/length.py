"""Lengths that screws are made in, how much of them is threaded, and how they end."""

from typing import NamedTuple


class NominalLength(NamedTuple):
    """A nominal length of bolts and screws (ISO 888)."""

    TABLE = "nominal_length"

    length_mm: float
    avoid: int  # 1: printed in brackets, to be avoided where another length will do
    source: str
    locator: str
    checked: str


class LengthRange(NamedTuple):
    """Shortest and longest length in which a standard's screw of one size is usually made."""

    TABLE = "length_range"

    standard: str
    size: str
    shortest_mm: float
    longest_mm: float
    source: str
    locator: str
    checked: str


class ThreadLength(NamedTuple):
    """Threaded length of a partly threaded bolt, b = diameters x d + plus, by its length."""

    TABLE = "thread_length"

    rule: str  # hexagon, socket
    over_mm: float  # the bolt is longer than this
    to_mm: float | None  # and no longer than this
    diameters: float
    plus_mm: float
    source: str
    locator: str
    checked: str


class ScrewEnd(NamedTuple):
    """A form of end (ISO 4753); points of set screws have their sizes in `hardware_dim`."""

    TABLE = "screw_end"

    id: str  # the standard's symbol: CH, CP, LD
    title: str
    use: str
    source: str
    locator: str
    checked: str
