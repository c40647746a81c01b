"""
How long a cold command takes, as a multiple of the bare imports it cannot do without.

Run by hand: `python tests/bench/startup.py [ROUNDS]`. Each round starts every command and the
bare imports once, so that what else the machine is doing hits all of them alike; the ratio is
taken inside each round, and its median printed. Aims: find 1.6, extract and torque 2.5.
"""

import subprocess
import sys
from statistics import median
from time import perf_counter

BARE = "import click, sqlite3, rapidfuzz.process"
CLI = "from fastkit.cli import main; main()"
QUESTIONS = {
    "--help": ["--help"],
    "find": ["find", "hexalobullar", "30"],
    "find id": ["find", "m8", "8.8", "torque"],
    "show": ["show", "thread:M8x1.25"],
    "torque": ["torque", "M8", "8.8"],
    "replace": [
        "replace",
        "M6",
        "--was",
        "pan head, PH2, rusted",
        "--into",
        "aluminium",
        "--grip",
        "12",
    ],
    "extract": [
        "extract",
        "6 mm hex socket rounded out, M8 into cast iron, 90 mm above, 8 mm beside, "
        "rubber hose 20 mm off, rusted",
    ],
}


def seconds(code: str, arguments: list[str]) -> float:
    """Wall time of one cold process."""
    start = perf_counter()
    subprocess.run(
        [sys.executable, "-c", code, *arguments],
        stdout=subprocess.DEVNULL,
        stderr=subprocess.DEVNULL,
        check=True,
    )
    return perf_counter() - start


def main(rounds: int) -> None:
    """Print the median ratio of each command."""
    bare: list[float] = []
    taken: dict[str, list[float]] = {name: [] for name in QUESTIONS}
    for round_ in range(rounds + 1):  # the first warms the file cache and is thrown away
        base = seconds(BARE, [])
        times = {name: seconds(CLI, question) for name, question in QUESTIONS.items()}
        if round_:
            bare.append(base)
            for name, time in times.items():
                taken[name].append(time / base)
    print(f"bare imports {1000 * median(bare):.0f} ms, median of {rounds}")
    for name, ratios in taken.items():
        print(f"{name:8} {median(ratios):.2f} x")


if __name__ == "__main__":
    main(int(sys.argv[1]) if len(sys.argv) > 1 else 15)
