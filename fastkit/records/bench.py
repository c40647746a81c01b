"""What the bench alone gives: holds, grips, shares, what is likeliest where nobody said."""

from collections.abc import Iterable
from typing import NamedTuple

ANY = "any"


class Usual(NamedTuple):
    """What something is likeliest to be, where nobody said it."""

    TABLE = "usual"

    what: str  # size-of-system, thread-of-drive, class-of-form …
    of: str
    value: str
    source: str
    locator: str
    checked: str


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

    def kinds(self, number: str) -> tuple[str, ...]:
        """What a number is held of by name."""
        return tuple(of for name, of in self._values if name == number and of != ANY)

    def get(self, number: str, of: str = ANY) -> float:
        """
        Return a number of one kind, else of any.

        Raises:
            KeyError: When the rows hold no such number.
        """
        found = self._values.get((number, of))
        return self._values[number, ANY] if found is None else found
