"""
How long a cold command takes, as a multiple of the bare imports it cannot do without.

Run by hand: `python tests/bench/startup.py [ROUNDS]`. Each round starts every command and the
bare imports once, so that what else the machine is doing hits all of them alike; the ratio is
taken inside each round, and its median printed. Aims: help 1.3, find and show 1.6, torque and
extract 2.5. Beside it stand the peak of memory and, where valgrind or a counter of the processor
can be had, the instructions, which do not depend on what else is going on.

The floor is Python's own start and click (0.7 to 0.8 of the bare imports), SQLite, and what the
question is worked out with. Below it only another way to start would go: a process that stays
(there is none here), the modules frozen into one file, or a compiled language.
"""

import os
import shutil
import subprocess
import sys
import tempfile
from pathlib import Path
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


def megabytes(code: str, arguments: list[str]) -> float:
    """Largest memory of one process, by its own account."""
    child = os.posix_spawn(
        sys.executable,
        [sys.executable, "-c", code, *arguments],
        os.environ,
        file_actions=[
            (os.POSIX_SPAWN_OPEN, stream, os.devnull, os.O_WRONLY, 0) for stream in (1, 2)
        ],
    )
    used = os.wait4(child, 0)[2]
    return used.ru_maxrss / (2**20 if sys.platform == "darwin" else 2**10)


def by_valgrind(code: str, arguments: list[str]) -> int:
    """Instructions of one process, every one of them counted."""
    with tempfile.TemporaryDirectory() as folder:
        said = Path(folder) / "said"
        tool = ["valgrind", "--tool=cachegrind", "--cache-sim=no", f"--log-file={said}"]
        kept = f"--cachegrind-out-file={Path(folder) / 'out'}"
        subprocess.run(
            [*tool, kept, sys.executable, "-c", code, *arguments], check=True, capture_output=True
        )
        line = next(line for line in said.read_text().splitlines() if "refs:" in line)
        return int(line.rpartition(":")[2].replace(",", ""))


def by_perf(code: str, arguments: list[str]) -> int:
    """Instructions of one process by the processor's own counter; 0 where it has none."""
    counted = ["perf", "stat", "-x,", "-e", "instructions:u"]
    done = subprocess.run(
        [*counted, sys.executable, "-c", code, *arguments],
        capture_output=True,
        text=True,
        check=False,
    )
    count = done.stderr.strip().rpartition("\n")[2].partition(",")[0]
    return int(count) if count.isdigit() else 0


def main(rounds: int) -> None:
    """Print the median ratio of each command, its memory and its instructions."""
    os.environ.pop("PYTHONDONTWRITEBYTECODE", None)  # what is compiled is kept, as after installing
    bare: list[float] = []
    taken: dict[str, list[float]] = {name: [] for name in QUESTIONS}
    for round_ in range(rounds + 1):  # the first warms the file cache and is thrown away
        base = seconds(BARE, [])
        times = {name: seconds(CLI, question) for name, question in QUESTIONS.items()}
        if round_:
            bare.append(base)
            for name, time in times.items():
                taken[name].append(time / base)
    counted = shutil.which("perf") and by_perf("", [])
    count = by_perf if counted else by_valgrind if shutil.which("valgrind") else None
    how = {by_perf: "the processor", by_valgrind: "valgrind", None: "nothing here"}[count]
    base = count(BARE, []) if count else 0
    print(
        f"bare imports {1000 * median(bare):.0f} ms, median of {rounds}; "
        f"{megabytes(BARE, []):.0f} MB; {base / 1e6:.0f} million instructions, counted by {how}"
    )
    for name, ratios in taken.items():
        more = f"{count(CLI, QUESTIONS[name]) / base:6.2f} x the instructions" if count else ""
        print(
            f"{name:8} {median(ratios):5.2f} x  {megabytes(CLI, QUESTIONS[name]):4.0f} MB  {more}"
        )


if __name__ == "__main__":
    main(int(sys.argv[1]) if len(sys.argv) > 1 else 15)
