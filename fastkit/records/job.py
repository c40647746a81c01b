"""What a whole job is made of besides its fasteners: lines that come off, handwork, spares."""

from typing import NamedTuple


class LineKind(NamedTuple):
    """A kind of line or lead: what its open ends want, and what is checked once it is on again."""

    TABLE = "line_kind"

    id: str  # water-hose, plug
    title: str
    beside: str | None  # the neighbour that it is to everything else of the job
    cap: str  # over its open ends; - for none
    photo: str
    caution: str
    afterwards: str  # what is checked once it is on again
    off_quick_min: float
    off_min: float
    off_slow_min: float
    on_quick_min: float
    on_min: float
    on_slow_min: float
    source: str
    locator: str
    checked: str


class HandWork(NamedTuple):
    """One piece of handwork and the time it takes."""

    TABLE = "hand_work"

    id: str  # photograph, turn-out, part-off
    title: str
    quick_min: float
    usual_min: float
    slow_min: float
    source: str
    locator: str
    checked: str


class Spare(NamedTuple):
    """For how many fasteners up to a diameter one more is bought."""

    TABLE = "spare"

    up_to_mm: float
    for_every: int
    source: str
    locator: str
    checked: str
