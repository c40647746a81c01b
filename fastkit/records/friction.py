"""Friction conditions for tightening."""

from typing import NamedTuple


class Friction(NamedTuple):
    """A friction condition: range of the coefficient in thread and under head."""

    TABLE = "friction"

    id: str  # class-b, oiled
    title: str
    mu_min: float
    mu_mid: float
    mu_max: float
    source: str
    locator: str
    checked: str
