"""Where a left-hand thread is to be expected."""

from typing import NamedTuple


class LeftHand(NamedTuple):
    """One place in which the thread is cut left-hand; its sizes are those of the right-hand one."""

    TABLE = "left_hand"

    id: str
    title: str
    where_not: str | None  # the part beside it that has a right-hand thread
    source: str
    locator: str
    checked: str
