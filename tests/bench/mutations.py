"""
How many slips of the pen the defences on the data catch, table by table.

Run by hand from the top of the tree: `python -m tests.bench.mutations [COUNT [TABLE…]]`. Plants
COUNT slips of each kind (`tests/data/slips.py`) one at a time in the parsed rows of every table
that holds printed numbers, runs the defences in process and prints the share they complain about,
of slips that move a value by more than 5 % or put it in another row, column or unit, and apart of
the smaller ones. With tables named, each large slip that nobody saw is printed. Aim: 95 % of the
large ones. Fingerprints do not take part, nor does the copy that a row was read from.
"""

import random
import sys
from collections import Counter
from time import perf_counter

from tests.data.defences import complaints
from tests.data.parsed import completed, numbers, read
from tests.data.slips import KINDS, caught, plant


def main(count: int, only: list[str]) -> None:
    """Plant and report."""
    tables, chance = read(), random.Random(20)
    if standing := complaints(completed(tables)):
        sys.exit("first mend what the data as it stands is blamed for:\n" + "\n".join(standing))
    print(
        f"{'table':22} {'large':>6} {'caught':>7}   {'small':>6} {'caught':>7}   " + " ".join(KINDS)
    )
    rounds, start = 0, perf_counter()
    for table in only or numbers():
        planted: Counter[tuple[str, bool]] = Counter()
        found: Counter[tuple[str, bool]] = Counter()
        missed = []
        for slip in plant(tables, table, count, chance):
            planted[slip.kind, slip.big] += 1
            if caught(tables, slip):
                found[slip.kind, slip.big] += 1
            elif slip.big:
                missed.append(slip)
        rounds += planted.total()
        if planted:
            print(f"{table:22} {shares(planted, found)}")
        for slip in missed if only else ():
            print(f"    {slip.kind:7}{slip.where}")
    print(f"{rounds} rounds of {1000 * (perf_counter() - start) / max(rounds, 1):.0f} ms")


def shares(planted: Counter[tuple[str, bool]], found: Counter[tuple[str, bool]]) -> str:
    """Numbers and shares of large and small slips, then the shares of large ones by kind."""
    parts = []
    for big in (True, False):
        total = sum(planted[kind, big] for kind in KINDS)
        seen = sum(found[kind, big] for kind in KINDS)
        parts.append(f"{total:6} {seen / total:7.1%}" if total else f"{total:6}       -")
    by_kind = (
        f"{found[kind, True] / planted[kind, True]:{len(kind)}.0%}" if planted[kind, True] else "-"
        for kind in KINDS
    )
    return "   ".join(parts) + "   " + " ".join(by_kind)


if __name__ == "__main__":
    main(int(sys.argv[1]) if len(sys.argv) > 1 else 40, sys.argv[2:])
