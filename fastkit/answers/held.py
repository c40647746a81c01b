"""What the compiled file says of itself: asked at every start, so that nothing more is loaded."""

import sqlite3
from typing import NamedTuple

from fastkit.errors import Broken
from fastkit.reference import store as files


class Held(NamedTuple):
    """What the compiled file says of itself."""

    data_version: str
    rows: int


def held(store: sqlite3.Connection | None = None) -> Held:
    """
    Version and number of rows of the data in use.

    Raises:
        Broken: When the compiled file is missing or damaged.
    """
    said = files.meta(store or files.connect())
    if not said.get("rows", "").isdigit() or "data_version" not in said:
        raise Broken(f"the compiled data file does not say what it holds: {files.remedy()}")
    return Held(said["data_version"], int(said["rows"]))


def out_of_date() -> str | None:
    """One line where the compiled file is older than the data in the checkout; else None."""
    return files.stale()
