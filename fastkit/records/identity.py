"""What helps to tell threads apart: how common they are, and which are known to be mixed up."""

from typing import NamedTuple


class Commonness(NamedTuple):
    """How often a series of threads lies on a bench, as a weight; workshop judgement."""

    TABLE = "thread_commonness"

    family: str
    series: str
    weight: float
    source: str
    locator: str
    checked: str


class MixUp(NamedTuple):
    """Two threads that are known to start on each other, and what comes of it."""

    TABLE = "mix_up"

    first: str  # threads
    second: str
    kind: str  # jams, strips, leaks, angle
    note: str
    source: str
    locator: str
    checked: str
