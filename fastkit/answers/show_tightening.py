"""The values of entries on tightening: nut factors, friction, scatter, nuts, assemblies."""

import sqlite3
from collections.abc import Mapping

from fastkit.answers.show_rows import STANDING, Builder, Group, held, listed, plain, ranged
from fastkit.records.tightening import (
    Embedding,
    MeasuredFriction,
    NutFactor,
    NutTorque,
    PrevailingTorque,
    ReuseTorque,
    SlipFriction,
    StructuralTorque,
    TighteningMethod,
    TorqueFactor,
    TurnOfNut,
    WrenchClass,
)
from fastkit.reference.lookup import many


def tightening(store: sqlite3.Connection, key: str) -> list[Group]:
    """Scatter of one way of tightening; alpha_A of VDI 2230-1 as printed and from the scatter."""
    groups = ranged(TighteningMethod, "method")(store, key)
    if key == "turn-of-nut":
        groups.append(Group("turns", listed(many(store, TurnOfNut))))
    return groups


def structural(store: sqlite3.Connection, key: str) -> list[Group]:
    """Preload and torque of a structural bolt assembly."""
    row = held(many(store, StructuralTorque, thread=key), "structural assembly", key)[0]
    return [Group("", (row._asdict(),))]


def prevailing(store: sqlite3.Connection, key: str) -> list[Group]:
    """Prevailing torque of new nuts by class, and what a used one must still have."""
    new = many(store, PrevailingTorque, thread=key)
    used = many(store, ReuseTorque, thread=key)
    first = held([*new, *used], "prevailing torque", key)[0]._asdict()
    return [
        Group("", ({name: first[name] for name in ("thread", *STANDING)},)),
        Group("new_nuts", listed(new, "thread")),
        Group("used_nuts", listed(used, "thread")),
    ]


KINDS: Mapping[str, Builder] = {
    "nut-factor": ranged(NutFactor, "condition", "k_min", "k_max"),
    "measured": plain(MeasuredFriction),
    "slip": ranged(SlipFriction, "pair", "mu_min", "mu_max"),
    "torque-factor": plain(TorqueFactor),
    "tightening": tightening,
    "structural": structural,
    "embedding": ranged(Embedding, "roughness"),
    "wrench-class": plain(WrenchClass),
    "prevailing": prevailing,
    "nut-torque": ranged(NutTorque, "thread"),
}
