"""A job of two hundred fasteners in forty rows, half of them stuck, against the bare imports."""

import subprocess
import sys
from time import perf_counter

from fastkit.answers.job import job

ROWS = 40
STATES = ("rusted", "seized", "rounded, rusted", "painted over")
BARE = [sys.executable, "-c", "import click, sqlite3, rapidfuzz.process"]


def text() -> str:
    """The job file: forty rows of five, every second one with a state of its own size."""
    rows = ['title = "Hoist"\n', '[[part]]\nname = "frame"\n']
    for number in range(ROWS):
        thread = ("M5", "M6", "M8", "M10", "M12")[number % 5]
        stuck = f'state = "{thread} hexagon, {STATES[number // 2 % 4]}"\n' if number % 2 else ""
        rows.append(
            f'[[fastener]]\nname = "row {number}"\nholds = "frame"\nthread = "{thread}"\n'
            f'count = 5\nshape = "circle"\ngrade = "8.8"\n{stuck}'
        )
    return "\n".join(rows)


def main() -> None:
    """Print the seconds of one sheet, and what they are of the bare imports."""
    begun = perf_counter()
    subprocess.run(BARE, check=True)
    bare = perf_counter() - begun
    begun = perf_counter()
    job(text())
    took = perf_counter() - begun
    print(f"200 fasteners in {ROWS} rows: {took:.2f} s, {took / bare:.1f} x the bare imports")


if __name__ == "__main__":
    main()
