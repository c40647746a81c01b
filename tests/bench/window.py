"""
How long one torque window takes, in process and cold.

Run by hand: `python tests/bench/window.py [ROUNDS]`. Aims: one window below 1 ms, so that the whole
table of torque ranges fits well into the compile's 5 s; a cold `torque` at most 2.5 times the bare
imports.
"""

import sys
from collections.abc import Callable
from statistics import median
from time import perf_counter

from startup import BARE, CLI, seconds

from fastkit.answers.torque import torque
from fastkit.joint.seat import Seat
from fastkit.joint.window import Joint, table_row, window
from fastkit.records.friction import Friction
from fastkit.records.grade import GradeRow
from fastkit.records.thread import Thread
from fastkit.reference.lookup import get, many
from fastkit.reference.store import connect


def per_call(call: Callable[[], object], calls: int = 200) -> float:
    """Milliseconds that a call takes, median of seven batches."""
    batches = []
    for _ in range(7):
        start = perf_counter()
        for _ in range(calls):
            call()
        batches.append((perf_counter() - start) / calls * 1000)
    return median(batches)


def main(rounds: int) -> None:
    """Print each measure beside its aim."""
    store = connect()
    thread = get(store, Thread, "M8x1.25")
    seat = Seat(11.63, 9.0, 90.0, "printed")
    joint = Joint(thread, 640.0, 800.0, seat, 0.08, 0.12, 0.16, strip_n=3e4, bearing_mpa=490.0)
    row = many(store, GradeRow, grade="8.8")[0]
    friction = get(store, Friction, "class-b")
    rows = store.execute("SELECT count(*) FROM torque").fetchone()[0]
    one = per_call(lambda: window(joint))
    line = per_call(lambda: table_row(thread, row, friction, seat))
    whole = per_call(lambda: torque("M8", "8.8", store=store), 20)
    print(f"one window              {one:.3f} ms  (aim below 1)")
    print(f"torque table, {rows:6} rows {line * rows / 1000:.2f} s   (aim within 5)")
    print(f"one answer, records too {whole:.2f} ms")
    ratios = []
    for _ in range(rounds):
        base = seconds(BARE, [])
        ratios.append(seconds(CLI, ["torque", "M8", "8.8"]) / base)
    print(f"cold torque             {median(ratios):.2f} x bare imports  (aim at most 2.5)")


if __name__ == "__main__":
    main(int(sys.argv[1]) if len(sys.argv) > 1 else 15)
