"""Ways of making a ruined thread good, and the bodies of inserts."""

from typing import NamedTuple


class Repair(NamedTuple):
    """
    One way of making a thread good.

    `holes` and `bodies` are words between blanks: the states of hole and the materials it serves.
    `wall_d` is the least wall that must stay outside the new hole, in diameters of the old thread;
    `strength` what it leaves of the strength that its thread computes to.
    """

    TABLE = "repair"

    id: str  # wire-insert, next-size …
    title: str
    how: str  # what carries the load: same, deeper, larger, insert, bond, far-side, apart
    holes: str
    bodies: str
    strength: float
    bond_mpa: float | None  # shear strength of the bond line
    length_min_d: float  # least length of thread, in diameters
    wall_d: float
    above_mm: float  # room over the hole for drill, tap or tool
    minutes_min: float
    minutes_max: float
    trouble_min: float  # what kit, skill and risk are worth, in minutes
    reversible: str
    heat_max_c: float | None  # None: as the parts
    keeps_screw: int
    needs: str
    why: str
    source: str
    locator: str
    checked: str


class RepairText(NamedTuple):
    """A step or a caution of a repair, in order."""

    TABLE = "repair_text"

    repair: str
    part: str  # step, caution
    n: int
    text: str


class PartHole(NamedTuple):
    """The hole of a part that closes or senses: no nut behind it and no glue, as it must seal."""

    TABLE = "part_hole"

    part: str
    larger: str  # yes, no: whether the part is made a size larger
    first: str | None  # the repair that is made for it
    critical: str | None  # what hangs on it: brakes, pressure
    also: str | None  # other names between semicolons, as of a Critical
    engage_mm: float  # of its thread
    caution: str
    source: str
    locator: str
    checked: str


class InsertBody(NamedTuple):
    """Outer thread of a solid or keyed insert, by the size of the thread that it gives."""

    TABLE = "insert_body"

    kind: str  # solid-insert, keyed-insert
    size: str  # M6, 1/4, plug-M14
    outer_mm: float
    pitch_mm: float
    drill_mm: float
    source: str
    locator: str
    checked: str
