"""
Time of identify and repair, in process and cold against the bare imports; run by hand.

    python tests/bench/found.py
"""

import os
import subprocess
import sys
from collections.abc import Callable
from statistics import median
from tempfile import TemporaryDirectory
from time import perf_counter, process_time
from typing import Any

from fastkit.answers.identify import identify_thread
from fastkit.answers.identify_parts import identify_drive, identify_grade, identify_head
from fastkit.answers.repair import repair
from fastkit.reference.store import connect

ASKED: tuple[tuple[str, Callable[..., Any], dict[str, Any]], ...] = (
    ("thread, two readings", identify_thread, {"major_mm": 7.85, "pitch_mm": 1.25}),
    ("thread, diameter", identify_thread, {"major_mm": 12.6}),
    ("thread, pitch alone", identify_thread, {"pitch_mm": 1.5}),
    ("thread, hole", identify_thread, {"minor_mm": 6.75, "internal": True}),
    ("drive", identify_drive, {"across_mm": 5.05, "lobes": 6}),
    ("head", identify_head, {"flats_mm": 13.0, "height_mm": 5.3}),
    ("grade", identify_grade, {"marks": "three lines"}),
    ("repair", repair, {"thread": "M6", "depth_mm": 15.0, "wall_mm": 3.0}),
)
COLD = ("identify thread 7.85 x 1.25", "repair M6 alu stripped 15 deep")
BARE = "import click, sqlite3, rapidfuzz.process"
ROUNDS = 15


def timed(call: Callable[[], object], clock: Callable[[], float] = process_time) -> float:
    """Median time of a call [ms]."""
    found = []
    for _ in range(ROUNDS):
        start = clock()
        call()
        found.append(1000 * (clock() - start))
    return median(found)


def main() -> None:
    """Print each time."""
    store = connect()
    for name, ask, given in ASKED:
        print(f"{name:24} {timed(lambda a=ask, g=given: a(**g, store=store)):7.1f} ms")
    with TemporaryDirectory() as folder:
        cold_starts(folder)


def cold_starts(folder: str) -> None:
    """Print the cold starts; what is compiled is kept in *folder*, as an installation keeps it."""
    kept = {**os.environ, "PYTHONPYCACHEPREFIX": folder}
    kept.pop("PYTHONDONTWRITEBYTECODE", None)

    def run(line: list[str]) -> float:
        return timed(
            lambda: subprocess.run(line, check=True, capture_output=True, env=kept), perf_counter
        )

    bare = run([sys.executable, "-c", BARE])
    print(f"{'bare imports':24} {bare:7.1f} ms")
    for words in COLD:
        cold = run([sys.executable, "-m", "fastkit", *words.split()])
        print(f"{words:34} {cold:7.1f} ms, {cold / bare:.2f} x")


if __name__ == "__main__":
    main()
