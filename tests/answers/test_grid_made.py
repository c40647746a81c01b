"""The processes that work the plans out end with the one that asked, however it ends."""

import signal
import subprocess
import sys
import time
from pathlib import Path

import pytest

ROOT = Path(__file__).parents[2]
ASKS = """
import sys
from multiprocessing import active_children
from pathlib import Path
from fastkit.answers import grid_made
grid_made.processors, grid_made.ALIKE = lambda: 2, 9  # soon something to be heard
def hear(done, of):
    print(*[child.pid for child in active_children()], flush=True)
grid_made.made(Path(sys.argv[1]), hear)
"""
PATIENCE_S = 20.0


def runs(number: str) -> bool:
    """Whether a process still does anything; one that nobody has fetched does not."""
    try:
        state = Path(f"/proc/{number}/stat").read_text().rpartition(")")[2].split()[0]
    except (FileNotFoundError, ProcessLookupError):
        return False
    return state not in {"Z", "X"}


@pytest.mark.parametrize("ends", [signal.SIGTERM, signal.SIGKILL, signal.SIGINT])
def test_no_worker_outlives_its_parent(ends, database):
    with subprocess.Popen(
        [sys.executable, "-c", ASKS, str(database)],
        cwd=ROOT,
        stdout=subprocess.PIPE,
        stderr=subprocess.DEVNULL,
        text=True,
    ) as asking:
        assert asking.stdout is not None
        workers = asking.stdout.readline().split()
        assert 2 == len(workers) and all(map(runs, workers))
        asking.send_signal(ends)
    until = time.monotonic() + PATIENCE_S
    while any(map(runs, workers)) and time.monotonic() < until:
        time.sleep(0.1)

    assert not any(map(runs, workers))
