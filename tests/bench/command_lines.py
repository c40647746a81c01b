"""
Ten thousand command lines in process and three hundred as processes: what breaks, how long it took.

Run by hand: `python -m tests.bench.command_lines [COUNT] [PROCESSES] [SEED]`.
"""

import os
import subprocess
import sys
import tempfile
from collections import Counter
from pathlib import Path
from time import perf_counter

from tests.command_lines import faults, lay_out, lines, run

CLI = "from fastkit.cli import main; main()"
LONGEST_S = 20.0
SLOWEST = 3
Took = tuple[float, str]


def in_process(count: int, seed: int) -> tuple[dict[str, list[str]], Counter[int], list[Took]]:
    """What was wrong by command line, how often each status came, the slowest."""
    wrong, statuses, took = {}, Counter[int](), list[Took]()
    for line in lines(count, seed):
        begun = perf_counter()
        result = run(line)
        took = sorted([*took, (perf_counter() - begun, str(line)[:120])])[-SLOWEST:]
        statuses[result.exit_code] += 1
        bad = faults(line, result.exit_code, result.stdout, result.stderr)
        if result.exception and not isinstance(result.exception, SystemExit):
            bad.append(repr(result.exception))
        if bad:
            wrong[str(line)[:300]] = bad
    return wrong, statuses, took


def as_processes(count: int, seed: int) -> dict[str, list[str]]:
    """The same as processes, with raw bytes, odd screens and a plain locale."""
    wrong = {}
    screens = (
        {"COLUMNS": "0"},
        {"COLUMNS": "7"},
        {"COLUMNS": "x"},
        {"LANG": "C"},
        {"TERM": "dumb"},
    )
    for number, line in enumerate(lines(count, seed)):
        words = [
            word.replace("\x00", "").encode(
                "utf-8", "replace" if "\ud800" in word else "surrogateescape"
            )
            for word in line
        ]
        try:
            done = subprocess.run(
                [sys.executable, "-c", CLI, *words],
                capture_output=True,
                stdin=subprocess.DEVNULL,
                timeout=LONGEST_S,
                env={**os.environ, **screens[number % len(screens)]},
                check=False,
            )
        except subprocess.TimeoutExpired:
            wrong[str(line)[:300]] = ["hangs"]
            continue
        out, err = (raw.decode("utf-8", "replace") for raw in (done.stdout, done.stderr))
        bad = faults(line, done.returncode, out, err)
        if bad:
            wrong[str(line)[:300]] = bad
    return wrong


def main(count: int, processes: int, seed: int) -> None:
    """Print what broke."""
    with tempfile.TemporaryDirectory() as folder:
        os.environ["PYTHONPATH"] = str(Path.cwd())
        os.environ["FASTKIT_HOME"] = str(Path(folder) / "home")
        os.chdir(folder)
        lay_out(Path(folder))
        begun = perf_counter()
        wrong, statuses, took = in_process(count, seed)
        print(f"{count} in process: {perf_counter() - begun:.0f} s, the slowest of them")
        for seconds, line in reversed(took):
            print(f"{seconds:6.1f} s  {line}")
        print(f"statuses {dict(sorted(statuses.items()))}, {len(wrong)} wrong")
        more = as_processes(processes, seed + 1)
        print(f"{processes} as processes: {len(more)} wrong")
        for line, bad in (wrong | more).items():
            print(f"{bad}: {line}")
        os.chdir("/")


if __name__ == "__main__":
    given = [int(word) for word in sys.argv[1:]]
    main(*(*given, *(10_000, 300, 1)[len(given) :]))
