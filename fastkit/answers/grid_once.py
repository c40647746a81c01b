"""Things by number, so that a page holds each of them once."""

from typing import Any


class Once:
    """Things that can be hashed, each once, numbered in the order in which they came."""

    def __init__(self) -> None:
        self.numbers: dict[Any, int] = {}

    def of(self, item: Any) -> int:
        """Return the number of a thing, a new one where it has not come yet."""
        return self.numbers.setdefault(item, len(self.numbers))

    def all(self) -> list[Any]:
        """Return the things in the order of their numbers, as JSON has them."""
        return [list(item) if isinstance(item, tuple) else item for item in self.numbers]
