"""The values of tube fittings, and of drills into a broken bolt."""

import sqlite3
from collections.abc import Mapping

from fastkit.answers.show_rows import Builder, Group, held, listed, plain, standing
from fastkit.records.drilling import DrillOut, DrillShare, SpiralExtractor
from fastkit.records.thread import Thread
from fastkit.records.tube import Tube, TubeCaution, TubeForm, TubeMismatch, TubeNutHex, TubeTorque
from fastkit.reference.lookup import get, many


def tube(store: sqlite3.Connection, key: str) -> list[Group]:
    """A tube fitting: tube, thread, hexagon, flare, torque; what never mates; cautions."""
    row = get(store, Tube, key)
    form = get(store, TubeForm, row.form)
    return [
        Group("", (row._asdict(),)),
        Group("flare", listed([form], "id")),
        Group("nut_hexagon", listed(many(store, TubeNutHex, tube=key), "tube")),
        Group("torques", listed(many(store, TubeTorque, tube=key), "tube")),
        Group("never_mates", listed(many(store, TubeMismatch, form=row.form), "form")),
        Group("cautions", listed(many(store, TubeCaution), "n")),
    ]


def drill_out(store: sqlite3.Connection, key: str) -> list[Group]:
    """Drills into a broken bolt of one thread, smallest first, each with the rule it stands on."""
    rows = held(many(store, DrillOut, thread=key), "drill for a thread", key)
    thread = get(store, Thread, key)
    shares = {share.purpose: share for share in many(store, DrillShare)}
    drills = [
        {
            "purpose": row.purpose,
            "drill_mm": row.drill_mm,
            "wall_mm": row.wall_mm,
            "extractor": f"extractor:{row.extractor}" if row.extractor else None,
            "for": shares[row.purpose].title,
            **standing(shares[row.purpose]),
        }
        for row in sorted(rows, key=lambda row: row.drill_mm)
    ]
    root = {"thread": f"thread:{key}", "root_mm": thread.root_mm, **standing(thread)}
    return [Group("", (root,)), Group("drills", tuple(drills))]


KINDS: Mapping[str, Builder] = {
    "tube": tube,
    "broken": drill_out,
    "extractor": plain(SpiralExtractor),
}
