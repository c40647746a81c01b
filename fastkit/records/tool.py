"""Tools that a method may be done with, by the names that `--have` and `--lack` take."""

from typing import NamedTuple


class Tool(NamedTuple):
    """One tool, or a small set that is carried together."""

    TABLE = "tool"

    id: str  # ratchet, locking-pliers, welder
    title: str
    source: str
    locator: str
    checked: str
