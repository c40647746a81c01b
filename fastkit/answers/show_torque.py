"""The table torque of a thread in a grade, and the friction conditions it stands on."""

import sqlite3
from collections.abc import Mapping

from fastkit.answers.show_rows import FORMULA, STANDING, Builder, Group, plain, standing
from fastkit.errors import NotHeld
from fastkit.records.friction import Friction
from fastkit.records.torque import TorqueRow
from fastkit.reference.lookup import get, many


def torque(store: sqlite3.Connection, key: str) -> list[Group]:
    """Torque of a thread in a grade, a row for each friction condition, and what went in."""
    thread_, _, grade_ = key.partition("@")
    rows = many(store, TorqueRow, thread=thread_, grade=grade_)
    if not rows:
        raise NotHeld(f"no torque {key[:60]!r} in the data")
    same = ("utilisation_pct", "bearing_diameter_mm", "hole_mm", "wrench_error_pct")
    how = dict(zip(STANDING, ("vdi-2230-1", "torque from preload", FORMULA), strict=True))
    inputs = {"thread": thread_, "grade": grade_, **{name: getattr(rows[0], name) for name in same}}
    shown = [
        {
            "friction": row.friction,
            "mu": row.mu_mid,
            "mu_min": row.mu_min,
            "mu_max": row.mu_max,
            "torque_min_nm": row.torque_min_nm,
            "torque_nm": row.torque_nm,
            "torque_max_nm": row.torque_max_nm,
            "preload_n": row.preload_n,
            # no torque is surer than the friction that went in
            **standing(get(store, Friction, row.friction)),
        }
        for row in rows
    ]
    return [Group("", ({**inputs, **how},)), Group("rows", tuple(shown))]


KINDS: Mapping[str, Builder] = {
    "torque": torque,
    "friction": plain(Friction),
}
