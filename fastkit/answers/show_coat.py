"""The values of finishes, compounds and ground joints."""

import sqlite3
from collections.abc import Mapping

from fastkit.answers.show_rows import STANDING, Builder, Group, held, listed
from fastkit.records.compound import (
    Compound,
    CompoundLimit,
    CompoundNote,
    Flammability,
    LockerStrength,
)
from fastkit.records.finish import (
    CoatingMass,
    Finish,
    FinishCorrosion,
    FinishLimit,
    FinishNote,
    FinishThickness,
)
from fastkit.records.ground import GroundLimit, GroundNote, GroundTorque
from fastkit.reference.lookup import get, many


def finish(store: sqlite3.Connection, key: str) -> list[Group]:
    """A finish: thickness, hours of salt spray, temperatures, hydrogen, fume."""
    return [
        Group("", (get(store, Finish, key)._asdict(),)),
        Group("temperatures", listed(many(store, FinishLimit, finish=key), "finish")),
        Group("notes", listed(many(store, FinishNote, finish=key), "finish")),
        Group("thickness", listed(many(store, FinishThickness, finish=key), "finish")),
        Group("mass", listed(many(store, CoatingMass, finish=key), "finish")),
        Group("salt_spray", listed(many(store, FinishCorrosion, finish=key), "finish")),
    ]


def compound(store: sqlite3.Connection, key: str) -> list[Group]:
    """A compound: strength, temperatures, how it burns, what to know."""
    return [
        Group("", (get(store, Compound, key)._asdict(),)),
        Group("strength", listed(many(store, LockerStrength, compound=key), "compound")),
        Group("temperatures", listed(many(store, CompoundLimit, compound=key), "compound")),
        Group("flammability", listed(many(store, Flammability, compound=key), "compound")),
        Group("notes", listed(many(store, CompoundNote, compound=key), "compound")),
    ]


def ground(store: sqlite3.Connection, key: str) -> list[Group]:
    """A ground joint: limits, torques, how to make it."""
    limits = held(many(store, GroundLimit, joint=key), "ground joint", key)
    first = {name: getattr(limits[0], name) for name in ("joint", *STANDING)}
    return [
        Group("", (first,)),
        Group("limits", listed(limits, "joint", "title")),
        Group("torques", listed(many(store, GroundTorque, joint=key), "joint")),
        Group("notes", listed(many(store, GroundNote, joint=key), "joint")),
    ]


KINDS: Mapping[str, Builder] = {
    "finish": finish,
    "compound": compound,
    "ground": ground,
}
