"""Recesses and slots as they stand in the heads of one standard and size."""

from typing import NamedTuple


class RecessDim(NamedTuple):
    """
    One dimension of a recess in a head: a value, or limits.

    `diameter` is the reference diameter m of a cross recess at the top, `penetration` how deep its
    gauge goes; `depth` that of a hexalobular recess; `slot_width` and `slot_depth` those of a slot.
    """

    TABLE = "recess_dim"

    standard: str  # as in `head`, with the series of penetration where there are two
    size: str
    system: str
    drive: str | None  # none for a slot: any blade that fits
    dimension: str
    value_mm: float | None
    low_mm: float | None
    high_mm: float | None
    source: str
    locator: str
    checked: str
