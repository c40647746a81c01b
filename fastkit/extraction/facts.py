"""The rows of the database that a plan rests on, gathered by the caller."""

from typing import NamedTuple

from fastkit.records.bench import Bench
from fastkit.records.drilling import DrillOut
from fastkit.records.drive import Drive, DriveTorque
from fastkit.records.grade import GradeRow
from fastkit.records.hazard import Clearance, Neighbour
from fastkit.records.head import Head
from fastkit.records.material import Conductivity, Material
from fastkit.records.method import (
    BondEffect,
    HeatSource,
    Method,
    MethodHazard,
    RoomGain,
    StubGrip,
    ToolVeto,
    Variant,
    VariantHazard,
    Veto,
)
from fastkit.records.own import OwnTries
from fastkit.records.part import Part
from fastkit.records.seizure import DriveState, Seizure
from fastkit.records.stuff import Expansion
from fastkit.records.thread import ClearanceHole, Thread
from fastkit.records.tightening import PrevailingTorque


class Facts(NamedTuple):
    """
    Everything `extraction.plan` reads besides the situation.

    `strength` is the row of the fastener's own class; `hole` and `head` may be missing, then
    the usual proportions of the thread stand in for them. `drives` holds all drives, from which
    the ladder of near fits is computed. The other tables come whole. `own` is what the user's own
    notes say, empty where there are none.
    """

    thread: Thread
    strength: GradeRow
    drive: Drive | None
    drive_torques: tuple[DriveTorque, ...]
    head: Head | None
    hole: ClearanceHole | None
    drives: tuple[Drive, ...]
    materials: tuple[Material, ...]
    seizures: tuple[Seizure, ...]
    drive_states: tuple[DriveState, ...]
    methods: tuple[Method, ...]
    variants: tuple[Variant, ...]
    method_hazards: tuple[MethodHazard, ...]
    bond_effects: tuple[BondEffect, ...]
    vetoes: tuple[Veto, ...]
    stub_grips: tuple[StubGrip, ...]
    room_gains: tuple[RoomGain, ...]
    neighbours: tuple[Neighbour, ...]
    clearances: tuple[Clearance, ...]
    heat_sources: tuple[HeatSource, ...]
    conductivities: tuple[Conductivity, ...]
    expansions: tuple[Expansion, ...]
    drills: tuple[DrillOut, ...]  # into a stub of the thread
    bench: Bench
    prevailing: PrevailingTorque | None  # of a nut that grips by itself, about this size
    own: tuple[OwnTries, ...] = ()
    variant_hazards: tuple[VariantHazard, ...] = ()
    tool_vetoes: tuple[ToolVeto, ...] = ()
    part: Part | None = None  # that the fastener is by its name
