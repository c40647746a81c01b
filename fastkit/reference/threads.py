"""The threads that a key may stand for; apart from the rest because a search needs only this."""

import sqlite3

from fastkit.notation.designation import ThreadName, thread_name
from fastkit.records.thread import Thread
from fastkit.reference.lookup import many

COARSE, FINE = ("coarse", "UNC", "BSW"), ("fine", "UNF", "BSF")


def threads(store: sqlite3.Connection, key: str) -> list[Thread]:
    """
    Every thread that a key names, whole or not: the coarse one first, then by falling pitch.

    An inch size with threads per inch that no Unified thread has is looked for among Whitworth's.
    """
    name = thread_name(key)
    sizes = (name.size, f"{name.size}W") if name.pitch and not name.series else (name.size,)
    groups = ([r for r in many(store, Thread, size=size) if _fits(r, name)] for size in sizes)
    found = next((group for group in groups if group), [])
    return sorted(found, key=lambda row: (row.series not in COARSE, -row.pitch_mm))


def _fits(row: Thread, name: ThreadName) -> bool:
    if name.pitch is not None and abs(float(name.pitch) - (row.tpi or row.pitch_mm)) > 1e-6:
        return False
    if name.series is None:
        return True
    wanted = {"coarse": COARSE, "fine": FINE}.get(name.series, (name.series,))
    return row.series in wanted
