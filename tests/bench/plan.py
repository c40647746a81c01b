"""
How long a plan takes in process, as a multiple of the bare imports of a cold command.

Run by hand: `python tests/bench/plan.py [SITUATIONS [SEED]]`. Processor time throughout; the bare
imports are timed between the situations, so that what else the machine is doing hits both alike.
Prints median, 99th percentile and worst for the policy alone and for the whole plan, which also
asks what each assumption changes. Aims: median 0.7, worst of 1,000 random situations 2.
"""

import gc
import resource
import subprocess
import sys
from random import Random
from statistics import median
from time import process_time

from fastkit.answers.facts import gather
from fastkit.cli import GARBAGE
from fastkit.extraction.plan import plan
from fastkit.extraction.situation import Near, Situation
from fastkit.extraction.solving import solve
from fastkit.reference.store import connect

BARE = "import click, sqlite3, rapidfuzz.process"
EVERY = 10  # situations between two timings of the bare imports
FASTENERS = [
    ("M8x1.25", "hex-6mm"),
    ("M6x1", "T30"),
    ("M5x0.8", "PH2"),
    ("M8x1.25", "AF-13mm"),
    ("M12x1.75", "AF-18mm"),
]
DAMAGES = ["intact", "worn", "gone", "snapped-proud", "snapped-flush", "snapped-below", "spinning"]
THINGS = ["fuel", "rubber", "wiring", "electronics", "battery", "brake-fluid"]
ASSUMED = (
    *(("grade", "8.8"), ("swing_deg", None), ("side_mm", None), ("load", "unknown")),
    *(("far_side", "unknown"), ("seized_at", "unknown"), ("coating", "unknown")),
    *(("above_mm", None), ("support", "unknown"), ("engage_mm", None), ("spoil_min", 120.0)),
    *(("recess", "clean"), ("residue", "none"), ("wasted_pct", 0.0), ("into", "steel")),
)


def bare() -> float:
    """Processor time of the bare imports in a process of their own."""
    before = resource.getrusage(resource.RUSAGE_CHILDREN)
    subprocess.run([sys.executable, "-c", BARE], check=True)
    after = resource.getrusage(resource.RUSAGE_CHILDREN)
    return after.ru_utime + after.ru_stime - before.ru_utime - before.ru_stime


def situation(random: Random) -> Situation:
    """A fastener in some state, somewhere, beside something."""
    thread, drive = random.choice(FASTENERS)
    outer = drive.startswith("AF")
    damage = random.choice([*DAMAGES, "tool-stuck"])
    return Situation(
        kind="bolt" if outer else "screw",
        thread=thread,
        grade="8.8",
        drive=drive,
        damage=("rounded" if outer else "stripped") if damage == "gone" else damage,
        seized=random.choice(["none", "rusted", "seized", "galled", "threadlocked-high"]),
        into=random.choice(["steel", "aluminium", "cast-iron", "plastic"]),
        far_side=random.choice(["unknown", "reachable"]),
        above_mm=random.choice([None, 20.0, 60.0, 100.0, 200.0]),
        beside_mm=random.choice([None, 5.0, 15.0, 40.0]),
        swing_deg=random.choice([None, 20.0, 90.0]),
        near=tuple(
            Near(random.choice(THINGS), random.choice([0.0, 20.0, 100.0]))
            for _ in range(random.randint(0, 2))
        ),
    )


def settle() -> None:
    """Keep the collector from looking through the rows of all situations during a plan."""
    gc.unfreeze()
    gc.collect()
    gc.freeze()


def main(count: int, seed: int) -> None:
    """Print the ratios."""
    gc.set_threshold(GARBAGE)  # as the command does, for whose sake it is timed
    random, store = Random(seed), connect()
    bares, alone, whole = [bare() for _ in range(3)], [], []
    for number in range(count):
        if number % EVERY == 0:
            bares.append(bare())
        case = situation(random)
        facts = gather(store, case)
        settle()
        start = process_time()
        solve(case, facts)
        middle = process_time()
        plan(case, facts, ASSUMED)
        alone.append(middle - start)
        whole.append(process_time() - middle)
    base = median(bares)
    print(f"bare imports {1000 * base:.0f} ms; {count} situations, seed {seed}")
    for name, times in (("policy", sorted(alone)), ("plan", sorted(whole))):
        late = times[min(count - 1, int(0.99 * count))]
        print(
            f"{name:7} median {median(times) / base:.2f} x, 99th percentile {late / base:.2f} x, "
            f"worst {times[-1] / base:.2f} x"
        )


if __name__ == "__main__":
    main(*(int(word) for word in (sys.argv[1:] + ["200", "1"][len(sys.argv) - 1 :])))
