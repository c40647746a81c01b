"""
A job of two hundred fasteners in forty rows against the bare imports: how many different plans it
asks for decides. Aim: 2 s.
"""

import subprocess
import sys
from time import perf_counter

from fastkit.answers.job import job

ROWS = 40
STATES = ("rusted", "seized", "rounded, rusted", "painted over")
SIZES = ("M5", "M6", "M8", "M10", "M12")
BARE = [sys.executable, "-c", "import click, sqlite3, rapidfuzz.process"]


def text(plans: int) -> str:
    """The job file: forty rows of five, every second one stuck, in so many different ways."""
    rows = ['title = "Hoist"\n', '[[part]]\nname = "frame"\n']
    for number in range(ROWS):
        way = number // 2 % plans
        thread = SIZES[way % len(SIZES)]
        stuck = f'state = "{thread} hexagon, {STATES[way % len(STATES)]}"\n' if number % 2 else ""
        rows.append(
            f'[[fastener]]\nname = "row {number}"\nholds = "frame"\nthread = "{thread}"\n'
            f'count = 5\nshape = "circle"\ngrade = "8.8"\n{stuck}'
        )
    return "\n".join(rows)


def main() -> None:
    """Print the seconds of a sheet by the number of different plans."""
    for plans in (4, 8, 20):
        begun = perf_counter()
        subprocess.run(BARE, check=True)
        bare = perf_counter() - begun
        begun = perf_counter()
        job(text(plans))
        took = perf_counter() - begun
        print(f"200 fasteners, {plans:2} plans: {took:.2f} s, {took / bare:.1f} x the bare imports")


if __name__ == "__main__":
    main()
