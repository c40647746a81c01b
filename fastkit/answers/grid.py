"""What the phone page knows without a network: torques, and plans for stuck fasteners."""

import sqlite3
from collections.abc import Callable, Sequence
from json import loads
from pathlib import Path
from typing import Any

from fastkit.answers.grid_kept import keep, recall, stamp, text_of
from fastkit.answers.grid_made import count, made
from fastkit.answers.grid_stuck import pack
from fastkit.answers.grid_torque import torques
from fastkit.reference.store import meta, query
from fastkit.version import VERSION


def content(
    database: sqlite3.Connection,
    progress: Callable[[int, int], None] = lambda done, of: None,
    damages: Sequence[str] | None = None,
    threads: Sequence[str] | None = None,
    told: Callable[[str], None] = lambda said: None,
) -> dict[str, Any]:
    """
    Return everything, fit for JSON; nothing of the user's own is in it.

    It is kept in the cache folder, so that it is worked out once for each state of data and code.

    Args:
        database: Open reference.
        progress: Hears how many plans are done, of how many.
        damages: Classes of damage to plan for; all if left out. A part of the whole is not kept.
        threads: Keys of the threads to give torques of; all if left out.
        told: Hears why the work could not be kept.

    Returns:
        `version` of the code, `data` version, `torque` as in `grid_torque`, `stuck` as in
        `grid_stuck`.

    Raises:
        Broken: When the reference cannot be read.
    """
    data_version = meta(database)["data_version"]
    wanted = stamp(data_version)
    whole = damages is None and threads is None
    if whole and (kept := recall(wanted)) is not None:
        found: dict[str, Any] = kept
        return found
    progress(0, count(damages))
    work: dict[str, Any] = {
        "version": VERSION,
        "data": data_version,
        "torque": torques(database, threads),
        "stuck": pack(database, made(_file(database), progress, damages)),
    }
    if whole and (trouble := keep(wanted, work)):
        told(trouble)
    plain: dict[str, Any] = loads(text_of(work))  # as it comes out of the cache
    return plain


def _file(database: sqlite3.Connection) -> Path:
    return Path(str(query(database, "PRAGMA database_list")[0][2]))
