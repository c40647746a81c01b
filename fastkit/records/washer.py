"""Washers by thread size."""

from typing import NamedTuple


class Washer(NamedTuple):
    """One washer of one standard and size."""

    TABLE = "washer"

    id: str  # ISO-7089-M8
    standard: str  # ISO 7089
    form: str  # plain; chamfered; small; large; conical spring …
    size: str  # M8: of the thread
    inner_mm: float
    outer_mm: float
    thickness_mm: float  # nominal; of the strip, for a spring
    source: str
    locator: str
    checked: str
