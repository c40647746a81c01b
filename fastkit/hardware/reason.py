"""A code with its numbers: what the pure room says, worded once in the answers."""

from typing import NamedTuple


class Reason(NamedTuple):
    """Why, as a code and the values that its sentence shows."""

    code: str
    values: tuple[float | str, ...] = ()
