"""Every cell of the phone page's grid, planned on all processors there are."""

import os
from collections.abc import Callable, Iterator, Sequence
from itertools import groupby
from pathlib import Path

from fastkit.answers.grid_classes import Picks, every
from fastkit.answers.grid_stuck import Cell, Planner
from fastkit.errors import Broken
from fastkit.reference.store import connect

Progress = Callable[[int, int], None]
Task = tuple[Picks, ...]
Part = dict[Picks, Cell]
FEW = 40  # mixes that are not worth another process
ALIKE = 3  # mixes that agree in so many axes are one task: a second or two of work


def made(path: Path, progress: Progress, damages: Sequence[str] | None = None) -> Part:
    """
    Return the plan of every mix of classes.

    Other processes are started afresh, so a script that calls this guards its main part.

    Args:
        path: The compiled reference.
        progress: Hears how many are done, of how many.
        damages: Classes of the first axis; all if left out.

    Raises:
        Broken: When the reference cannot be read, or a process did not come to its end.
    """
    mixes = _mixes(damages)
    tasks = [tuple(group) for _, group in groupby(mixes, key=lambda picks: picks[:ALIKE])]
    found: Part = {}
    for part in _run(path, tasks, processors() if len(mixes) > FEW else 1):
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


def _run(path: Path, tasks: Sequence[Task], workers: int) -> Iterator[Part]:
    if workers == 1:
        _begin(path)
        yield from map(_plan, tasks)
        return
    from concurrent.futures import ProcessPoolExecutor, as_completed
    from concurrent.futures.process import BrokenProcessPool
    from multiprocessing import get_context

    # started afresh: a copy of this process would share its open connection
    afresh = get_context("spawn")
    with ProcessPoolExecutor(workers, afresh, _begin_alone, (path,)) as pool:
        waiting = [pool.submit(_plan, task) for task in tasks]
        try:
            for done in as_completed(waiting):
                yield done.result()
        except BrokenProcessPool as error:
            raise Broken(
                "a process that works out plans ended before its work: too little memory, or "
                "called from a script whose main part is not guarded"
            ) from error
        finally:
            pool.shutdown(cancel_futures=True)


_planner: Planner


def _begin(path: Path) -> None:
    global _planner
    _planner = Planner(connect(path))


def _begin_alone(path: Path) -> None:
    from signal import SIG_IGN, SIGINT, signal
    from threading import Thread

    signal(SIGINT, SIG_IGN)  # who interrupts means the process that waits; it ends the others
    Thread(target=_end_with_the_one_that_asked, daemon=True).start()
    _begin(path)


def _end_with_the_one_that_asked() -> None:
    """Leave once it is gone, for a process that was killed ends no others."""
    from multiprocessing import parent_process

    asked = parent_process()
    if asked is not None:
        asked.join()
        os._exit(1)


def _plan(task: Task) -> Part:
    alike = sorted(task, key=lambda picks: picks[-1])  # of one size after another
    return {picks: _planner.cell(picks) for picks in alike}
