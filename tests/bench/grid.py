"""How long what the phone page knows takes to work out, what memory, and how large it is."""

from gzip import compress
from resource import RUSAGE_CHILDREN, RUSAGE_SELF, getrusage
from time import perf_counter

from fastkit.answers.grid import content
from fastkit.answers.grid_classes import DAMAGE
from fastkit.answers.grid_kept import text_of
from fastkit.answers.grid_made import count, processors
from fastkit.reference.store import connect


def main() -> None:
    """Print wall and processor time, peak memory and the packed sizes; nothing is kept."""
    began = perf_counter()
    found = content(connect(), damages=[each.id for each in DAMAGE.classes])
    wall = perf_counter() - began
    used = [getrusage(who) for who in (RUSAGE_SELF, RUSAGE_CHILDREN)]
    busy = sum(each.ru_utime + each.ru_stime for each in used)
    print(f"{count()} plans and the torques: {wall:.0f} s on {processors()} processors")
    print(f"processor time {busy:.0f} s; peak {max(each.ru_maxrss for each in used) / 1024:.0f} MB")
    for name in ("stuck", "torque"):
        print(f"{name}: {len(compress(text_of(found[name]))) / 1000:.0f} kB packed")


if __name__ == "__main__":
    main()
