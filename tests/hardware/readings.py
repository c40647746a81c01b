"""Published threads, and what somebody with a caliper reads on them."""

import csv
from pathlib import Path
from random import Random
from typing import NamedTuple

INCH = 25.4
ERROR_MM = 0.03
UNPRINTED_MM = 0.05  # where only the upper limit is printed, a sound thread lies this far below
BA_PITCH = (1.0, 0.9, 0.81, 0.73, 0.66, 0.59, 0.53, 0.48, 0.43, 0.39, 0.35)  # BS 93, no. 0 to 10
# ISO 1478 and ISO 228-1: pitch, threads per inch, by size
TAPPING = {
    **{"1.5": 0.5, "1.9": 0.6, "2.2": 0.8, "2.9": 1.1, "3.5": 1.3, "4.2": 1.4, "4.8": 1.6},
    **{"5.5": 1.8, "6.3": 1.8, "8": 2.1, "9.5": 2.1},
}
PIPE = {"1/16": 28, "1/8": 28, "1/4": 19, "3/8": 19, "1/2": 14, "5/8": 14, "3/4": 14, "7/8": 14}


class Published(NamedTuple):
    """One printed pair of limits [mm]."""

    thread: str
    internal: bool
    low: float
    high: float
    pitch: float


def pitch_of(thread: str) -> float:
    """Pitch [mm] from the designation, by the standards' own series."""
    if thread.startswith("M"):
        return float(thread.partition("x")[2])
    if thread.startswith("BA-"):
        return BA_PITCH[int(thread[3:])]
    if thread.startswith("ST"):
        return TAPPING[thread[2:]]
    if thread.startswith("G"):
        return INCH / PIPE.get(thread[1:], 11)
    return INCH / float(thread.split("-")[-2])


def published() -> list[Published]:
    """
    Every printed row of published_threads.csv.

    The least minor diameter of 1/2-13 UNC 2B is left out: its sheet prints 0.4700 for 0.417.
    """
    with (Path(__file__).parent / "published_threads.csv").open(encoding="utf-8") as lines:
        return [_row(row) for row in csv.DictReader(lines)]


def _row(row: dict[str, str]) -> Published:
    unit = INCH if row["unit"] == "in" else 1.0
    high = float(row["high"]) * unit
    low = float(row["low"]) * unit if row["low"] else high - UNPRINTED_MM
    internal = row["side"] == "internal"
    return Published(row["thread"], internal, low, high, pitch_of(row["thread"]))


def read(row: Published, chance: Random, error: float = ERROR_MM) -> tuple[float, float]:
    """
    Diameter and pitch as read: a sound thread anywhere in its limits, each reading off by up
    to *error* [mm].
    """
    true = chance.uniform(row.low, row.high)
    return true + chance.uniform(-error, error), row.pitch + chance.uniform(-error, error)
