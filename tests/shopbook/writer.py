"""Writes notes one after another and says each number once it is kept; run as a process."""

import sys

from fastkit.shopbook.rows import Attempt
from fastkit.shopbook.store import writing


def main(name: str, count: int, size: int) -> None:
    for number in range(count):
        with writing() as pen:
            pen.add(Attempt(0, "", f"{name}-{number}", "ok", "worn", "rusted", "", "x" * size))
        sys.stdout.write(f"{number}\n")
        sys.stdout.flush()


if __name__ == "__main__":
    main(sys.argv[1], int(sys.argv[2]), int(sys.argv[3]))
