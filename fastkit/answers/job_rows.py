"""A whole job as its file tells it: what comes off, what holds it, what it would cost elsewhere."""

from typing import Any, NamedTuple

AGAIN = 0.05  # that a repair has to be done twice; workshop judgement, shown as assumed


class Away(NamedTuple):
    """What handing the job on costs: money, and minutes of one's own."""

    price: float
    minutes: float = 0.0


class Line(NamedTuple):
    """A line or lead that is disconnected, once what stands in `after` is off."""

    name: str
    kind: str
    after: tuple[str, ...] = ()


class Part(NamedTuple):
    """A part that comes off, once what stands in `after` is off; `seal` is renewed under it."""

    name: str
    after: tuple[str, ...] = ()
    seal: str = ""


class Fastener(NamedTuple):
    """Fasteners that are alike and hold one part; `stuck` of the pieces will not move."""

    name: str
    holds: str
    thread: str
    pieces: int = 1
    grade: str = ""
    was: str = ""
    state: str = ""
    stuck: int = 0
    left_hand: bool = False
    into: str = ""
    grip_mm: float | None = None
    engage_mm: float | None = None
    stub_mm: float | None = None
    maker: str = ""
    shape: str = ""
    size: str = ""
    renew: bool | None = None  # None: by the rules of reuse


class Job(NamedTuple):
    """One job, as its file tells it."""

    title: str
    machine: str = ""
    place: str = ""
    support: str = "unknown"
    hour: float | None = None
    again: float = AGAIN
    parts_price: float = 0.0
    away: Away | None = None
    lines: tuple[Line, ...] = ()
    parts: tuple[Part, ...] = ()
    fasteners: tuple[Fastener, ...] = ()


def told(row: Fastener) -> dict[str, Any]:
    """Return what a fastener's own keys say of its situation, as options of `extract`."""
    said = {
        "thread": row.thread,
        "grade": row.grade,
        "into": row.into,
        "engage": row.engage_mm,
        "stub": row.stub_mm,
        "left_hand": row.left_hand,
    }
    return {name: value for name, value in said.items() if value}
