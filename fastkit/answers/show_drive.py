"""The values of a drive and of a system of drives."""

import sqlite3
from collections.abc import Mapping

from fastkit.answers.show_rows import Builder, Group, listed, plain, standing
from fastkit.records.drive import (
    CrossTip,
    Drive,
    DrivePin,
    DriveSystem,
    DriveTorque,
    KeyArm,
    WrenchOpening,
)
from fastkit.records.head import Head
from fastkit.records.recess import RecessDim
from fastkit.reference.lookup import get, many, one


def drive(store: sqlite3.Connection, key: str) -> list[Group]:
    """Sizes of a drive, what its tools are proved to carry, arms of its key, heads that have it."""
    row = get(store, Drive, key)
    torques = many(store, DriveTorque, drive=key)
    weakest = min(torques, key=lambda torque: torque.proof_torque_nm, default=None)
    proof = {"proof_torque_nm": weakest.proof_torque_nm if weakest else None}
    arms = one(store, KeyArm, drive=key)
    heads = [
        {"head": f"head:{head.id}", "size": head.size} for head in many(store, Head, drive=key)
    ]
    return [
        Group("", (row._asdict(),)),
        Group("", ({**proof, **(standing(weakest) if weakest else {})},)),
        Group("proof_torques", listed(torques, "drive")),
        Group("key_arms", listed([arms] if arms else [], "drive")),
        Group("tip", listed(many(store, CrossTip, drive=key), "drive")),
        Group("pin", listed(many(store, DrivePin, drive=key), "drive")),
        Group("wrench_opening", listed(many(store, WrenchOpening, drive=key), "drive")),
        Group("heads", tuple(heads)),
        Group("recesses", listed(many(store, RecessDim, drive=key), "drive")),
    ]


def system(store: sqlite3.Connection, key: str) -> list[Group]:
    """A system of drives and its sizes."""
    sizes = [{"drive": f"drive:{row.id}"} for row in many(store, Drive, system=key)]
    return [*plain(DriveSystem)(store, key), Group("drives", tuple(sizes))]


KINDS: Mapping[str, Builder] = {
    "drive": drive,
    "system": system,
}
