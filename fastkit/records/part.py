"""Parts that go by a name of their own: plugs, bleed screws, wheel nuts."""

from typing import NamedTuple


class Part(NamedTuple):
    """
    A fastener whose name says what it is, where it sits and what a mechanic minds.

    What is not said is taken from it: the columns from `kind` to `engage_mm`. `shank_share` is what
    its shank stands, of a solid one of its thread and class; `preload_share` what still clamps it,
    of a bolt's.
    """

    TABLE = "part"

    id: str
    title: str
    kind: str
    thread: str | None
    drive: str | None
    standard: str | None  # of its head, where its drive alone tells its thread
    grade: str | None
    body: str | None  # what it sits in
    seized: str | None  # what it is where it will not move and nobody says why
    seized_at: str | None
    near: str | None  # neighbours that it brings along, between blanks
    engage_mm: float | None  # of its thread what is stuck, where that is no diameter
    shank_share: float
    preload_share: float
    opens: int  # 1: undone, it opens the line or body whose fluid it holds
    on_wheels: int  # 1: cracked loose with the vehicle on its wheels
    note: str
    source: str
    locator: str
    checked: str
