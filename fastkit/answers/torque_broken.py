"""What gets the rest of a broken fastener out: holes, extractor, slot, weld, jaws."""

import sqlite3
from typing import Any

from fastkit.answers.torque_parts import Parts
from fastkit.answers.torque_sources import Used, used_of
from fastkit.joint.remains import remains
from fastkit.records.bench import Bench, BenchNumber
from fastkit.records.drilling import DrillOut, DrillShare
from fastkit.reference.lookup import many

Numbers = dict[str, Any]
JUDGED = Used(
    "practice",
    "Common workshop practice",
    "core of extractors, throat of plug welds, jaws",
    "judgement",
    "what is left of a broken one",
)


def broken(store: sqlite3.Connection, parts: Parts) -> tuple[Numbers, tuple[Used, ...]]:
    """
    What stub and tools carry, with no preload and no head.

    Args:
        store: Compiled reference.
        parts: The records of the answer.

    Returns:
        The numbers of the answer, and their sources.
    """
    drills = many(store, DrillOut, thread=parts.thread.id)
    shares = {row.purpose: row for row in many(store, DrillShare)}
    bench = Bench(many(store, BenchNumber))
    found = remains(parts.thread, parts.strength, tuple(drills), bench)
    holes = [
        {
            "purpose": hole.purpose,
            "title": shares[hole.purpose].title,
            "drill_mm": hole.drill_mm,
            "wall_mm": hole.wall_mm,
            "extractor": hole.extractor,
            "shank_nm": hole.shank_nmm / 1000,
            "extractor_nm": None if hole.tool_nmm is None else hole.tool_nmm / 1000,
            "equal_mm": hole.equal_mm,
        }
        for hole in found.holes
    ]
    said = {
        "shank_nm": found.shank_nmm / 1000,
        "holes": holes,
        "slot_nm": found.slot_nmm / 1000,
        "weld_nm": found.weld_nmm / 1000,
        "jaw_nm": found.jaw_nmm / 1000,
    }
    used = [used_of(store, shares[hole.purpose], "hole in a broken bolt") for hole in found.holes]
    return said, (*dict.fromkeys(used), JUDGED)
