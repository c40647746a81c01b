"""Washers by thread size."""

from typing import NamedTuple


class Washer(NamedTuple):
    """One plain washer."""

    TABLE = "washer"

    size: str  # M8: of the thread
    standard: str  # ISO 7089
    inner_mm: float
    outer_mm: float
    thickness_mm: float
    source: str
    locator: str
    checked: str
