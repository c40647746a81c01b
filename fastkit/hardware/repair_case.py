"""A ruined thread as it was told, and the facts that its repair rests on."""

from typing import NamedTuple

from fastkit.records.grade import GradeRow
from fastkit.records.material import Material
from fastkit.records.part import Part
from fastkit.records.repair import InsertBody, PartHole, Repair
from fastkit.records.thread import Insert, TapDrill, Thread


class Case(NamedTuple):
    """What stands before the bench; None: not known."""

    hole: str  # stripped, oversize, cracked, damaged
    oversize_mm: float | None
    depth_mm: float  # of the hole, or of the sheet
    engage_mm: float  # what of it the screw used
    wall_mm: float | None  # least metal outside the old thread
    above_mm: float | None  # free room over the hole
    far_side: str  # reachable, blind, unknown
    hot_c: float | None
    critical: str | None = None  # what hangs on it: brakes, restraint …


class Facts(NamedTuple):
    """Rows for one thread in one material."""

    thread: Thread
    screw: GradeRow
    material: Material
    repairs: tuple[Repair, ...]
    insert: Insert | None
    bodies: tuple[InsertBody, ...]  # solid and keyed, of this size
    larger: Thread | None  # the next size that shops have
    larger_screw: GradeRow | None
    drill: TapDrill | None
    larger_drill: TapDrill | None
    forming_mm: float | None  # hole of a thread-forming screw of the next size
    rivet_mm: float | None  # hole of a rivet nut of this size
    clearance_mm: float | None
    shear_mpa: float | None  # of the body
    sealed: tuple[Part, PartHole] | None = None  # what sits in the hole and must seal


class Short(NamedTuple):
    """What is missing on one axis."""

    axis: str
    amount: float
    unit: str


class Barred(NamedTuple):
    """A repair that is out, why (a code with numbers), and what it is short by."""

    method: str
    because: tuple[str, tuple[float | str, ...]]
    short_by: Short | None


class Strength(NamedTuple):
    """What a thread in its body holds [N], what the screw holds, and which gives way first."""

    thread_n: float | None  # the thread in the body alone
    screw_thread_n: float | None
    screw_n: float
    strength_n: float | None
    limited_by: str  # body thread, screw thread, screw, bond line, table, not computed


class Option(NamedTuple):
    """A repair that is possible, with its numbers."""

    repair: Repair
    after: Strength
    share: float | None  # of what the body's thread held before
    enough: bool  # as strong as what was there
    drill_mm: float | None
    drill_name: str | None
    tap: str | None
    outer_mm: float | None
    length_mm: float | None
    wall_needed_mm: float
    wall_left_mm: float | None
    cost_min: float
    drill_checked: str | None


class Weighed(NamedTuple):
    """Before, the options best first, what is out, and whether it belongs to a machine shop."""

    before: Strength
    options: tuple[Option, ...]
    barred: tuple[Barred, ...]
    shop: str | None  # cracked, none-left, weaker, critical
