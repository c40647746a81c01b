"""What the phone page knows without a network: torques, and plans for stuck fasteners."""

import sqlite3
from collections.abc import Callable, Sequence
from pathlib import Path
from typing import Any

from fastkit.answers.grid_made import made
from fastkit.answers.grid_stuck import pack
from fastkit.answers.grid_torque import torques
from fastkit.reference.store import meta, query
from fastkit.version import VERSION


def content(
    database: sqlite3.Connection,
    progress: Callable[[int, int], None] = lambda done, of: None,
    damages: Sequence[str] | None = None,
) -> dict[str, Any]:
    """
    Return everything, fit for JSON; nothing of the user's own is in it.

    Args:
        database: Open reference.
        progress: Hears how many plans are done, of how many.
        damages: Classes of damage to plan for; all if left out.

    Returns:
        `version` of the code, `data` version, `torque` as in `grid_torque`, `stuck` as in
        `grid_stuck`.

    Raises:
        Broken: When the reference cannot be read.
    """
    return {
        "version": VERSION,
        "data": meta(database)["data_version"],
        "torque": torques(database),
        "stuck": pack(database, made(_file(database), progress, damages)),
    }


def _file(database: sqlite3.Connection) -> Path:
    return Path(str(query(database, "PRAGMA database_list")[0][2]))
