"""Numbers that the bench alone gives: holds, grips, shares of what a sound one carries."""

from collections.abc import Iterable
from typing import NamedTuple

ANY = "any"


class BenchNumber(NamedTuple):
    """One number of practice, of any fastener or of one kind of drive, head or way."""

    TABLE = "bench_number"

    number: str
    of: str  # a drive system, a form of head, a method; any
    title: str
    value: float
    unit: str  # MPa, N, mm, -
    source: str
    locator: str
    checked: str


class Bench:
    """The numbers of the bench by their names."""

    def __init__(self, rows: Iterable[BenchNumber]) -> None:
        self._values = {(row.number, row.of): row.value for row in rows}

    def get(self, number: str, of: str = ANY) -> float:
        """
        Return a number of one kind, else of any.

        Raises:
            KeyError: When the rows hold no such number.
        """
        found = self._values.get((number, of))
        return self._values[number, ANY] if found is None else found
