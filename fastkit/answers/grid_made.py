"""Every cell of the phone page's grid, planned on all processors there are."""

import os
from collections.abc import Callable, Iterator, Sequence
from itertools import groupby
from pathlib import Path

from fastkit.answers.grid_classes import Picks, every
from fastkit.answers.grid_stuck import Cell, Planner
from fastkit.reference.store import connect

Progress = Callable[[int, int], None]
Task = tuple[str, tuple[Picks, ...]]
FEW = 40  # mixes that are not worth another process


def made(path: Path, progress: Progress, damages: Sequence[str] | None = None) -> dict[Picks, Cell]:
    """
    Return the plan of every mix of classes.

    Args:
        path: The compiled reference.
        progress: Hears how many are done, of how many.
        damages: Classes of the first axis; all if left out.

    Raises:
        Broken: When the reference cannot be read.
    """
    mixes = _mixes(damages)
    tasks = [(str(path), tuple(group)) for _, group in groupby(mixes, key=lambda picks: picks[:2])]
    found: dict[Picks, Cell] = {}
    for part in _run(tasks, processors() if len(mixes) > FEW else 1):
        found.update(part)
        progress(len(found), len(mixes))
    return {picks: found[picks] for picks in mixes}


def count(damages: Sequence[str] | None = None) -> int:
    """Return how many mixes there are, of some classes of damage or of all."""
    return len(_mixes(damages))


def _mixes(damages: Sequence[str] | None) -> list[Picks]:
    return [picks for picks in every() if damages is None or picks[0] in damages]


def processors() -> int:
    """Return how many processors this process may use."""
    if hasattr(os, "sched_getaffinity"):
        return len(os.sched_getaffinity(0))
    return os.cpu_count() or 1


def _run(tasks: Sequence[Task], workers: int) -> Iterator[dict[Picks, Cell]]:
    if workers == 1:
        yield from map(_plan, tasks)
        return
    from concurrent.futures import ProcessPoolExecutor, as_completed
    from multiprocessing import get_context

    # started afresh: a copy of this process would share its open connection
    with ProcessPoolExecutor(workers, mp_context=get_context("spawn")) as pool:
        waiting = [pool.submit(_plan, task) for task in tasks]
        try:
            for done in as_completed(waiting):
                yield done.result()
        finally:
            pool.shutdown(cancel_futures=True)


def _plan(task: Task) -> dict[Picks, Cell]:
    path, mixes = task
    planner = Planner(connect(Path(path)))
    return {picks: planner.cell(picks) for picks in mixes}
