"""
One write, killed before its first call of the store's, its second, and so on to its end.

Run as a process, for it forks: `killer.py START HOMES`. Each write begins from a copy of the
folder START, in HOMES under the number of the call, and a line says how it went: 2 it ended and
said so, 1 it was killed after it had said so, 0 it was killed before.
"""

import os
import shutil
import signal
import sys
from pathlib import Path
from types import FrameType

from fastkit.shopbook import store
from fastkit.shopbook.rows import Attempt

MOST = 2000  # calls that one write may make


def killed_before(call: int) -> int:
    """How a child got on that is killed before that call."""
    told, tell = os.pipe()
    child = os.fork()
    if child == 0:
        count = 0

        def watch(frame: FrameType, event: str, arg: object) -> None:
            nonlocal count
            if event == "c_call" and frame.f_code.co_filename == store.__file__:
                count += 1
                if count == call:
                    os.kill(os.getpid(), signal.SIGKILL)

        try:
            sys.setprofile(watch)
            with store.writing() as pen:
                pen.add(Attempt(0, "", "new", "ok", "worn", "rusted", "", "{}"))
            os.write(tell, b"said")
        finally:
            os._exit(0)
    os.close(tell)
    said = os.read(told, 4) == b"said"
    os.close(told)
    ended = os.waitpid(child, 0)[1] == 0
    return ended + said


def main(start: Path, homes: Path) -> None:
    for call in range(1, MOST):
        home = homes / f"{call}"
        if start.exists():
            shutil.copytree(start, home)
        os.environ["FASTKIT_HOME"] = str(home)
        how = killed_before(call)
        print(how)
        if how == 2:
            break


if __name__ == "__main__":
    main(Path(sys.argv[1]), Path(sys.argv[2]))
