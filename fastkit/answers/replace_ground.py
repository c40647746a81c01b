"""The electrical ground joint: stack, bare metal, torque, drop allowed under load, how to check."""

import sqlite3
from collections.abc import Sequence
from typing import NamedTuple

from fastkit.answers.replace_option import Option
from fastkit.answers.replace_parts import Joint
from fastkit.hardware.old import Place
from fastkit.notation.units import figures, show_mm
from fastkit.records.ground import GroundLimit, GroundTorque
from fastkit.records.source import Source
from fastkit.records.thread import Thread
from fastkit.reference.lookup import one

VEHICLE = "vehicle-ground"
# circuit -> joint and part of ground_limits.csv
LIMITS = {
    "starter": ("starter-circuit", "battery ground post to frame", "cranking"),
    "sensor": (VEHICLE, "sensor or control unit ground", "everything on"),
    "charging": (VEHICLE, "charging ground, full output", "full load at 2000 rpm"),
}
USUAL = (VEHICLE, "body or lamp ground", "lamps on")
HOLDS_P = 3.0  # pitches of sheet that a thread needs to be called one (practice)


class Ground(NamedTuple):
    """
    How the joint is made. `stack` runs from the far side to the head; `drop_max_v` is allowed
    across the joint while `under_load` is on.
    """

    stack: tuple[str, ...]
    drawing: tuple[str, ...]
    steps: tuple[str, ...]
    torque_min_nm: float | None
    torque_max_nm: float | None
    torque_source: str | None
    torque_class: str  # of the screw that the torque is for
    drop_max_v: float
    drop_of: str
    under_load: str
    drop_source: str
    check: tuple[str, ...]
    never: tuple[str, ...]


def ground_joint(
    store: sqlite3.Connection,
    thread: Thread,
    joint: Joint,
    place: Place,
    options: Sequence[Option],
) -> Ground:
    """Describe the joint for a circuit (lamp or body where nobody said which), as bought first."""
    limit, load = _limit(store, place)
    torque, grade = ground_torque(store, thread.size), "8.8"
    first = options[0] if options else None
    if torque and first and first.torque_min_nm is not None and first.torque_max_nm is not None:
        torque, grade = (first.torque_min_nm, first.torque_max_nm), first.grade
    on_back = joint.body is None
    stack = _stack(thread, joint, on_back)
    source = one(store, Source, id=limit.source)
    return Ground(
        stack,
        _drawing(thread, joint, on_back),
        _steps(joint, on_back, thread),
        torque[0] if torque else None,
        torque[1] if torque else None,
        "practice" if torque else None,
        grade,
        limit.drop_max_v or 0.0,
        f"{limit.title}: {limit.part}",
        load,
        source.title if source else limit.source,
        _check(limit.drop_max_v or 0.0, load),
        (
            "never paint, sealer, threadlocker or a plastic washer between lug and body",
            "never an anodised or powder-coated face, nor bare copper on aluminium or zinc",
            "never through other parts or a hinge, nor by a tapping screw where much current flows",
            "never more than four lugs on a point: each large current has its own way back",
        ),
    )


def ground_torque(store: sqlite3.Connection, size: str) -> tuple[float, float] | None:
    """Lowest and highest torque of a ground bolt of a size [N·m]; None where none is held."""
    row = one(store, GroundTorque, joint=VEHICLE, size=size)
    if row is None or row.torque_max_nm is None:
        return None
    return row.torque_min_nm, row.torque_max_nm


def _limit(store: sqlite3.Connection, place: Place) -> tuple[GroundLimit, str]:
    joint, part, load = LIMITS.get(place.circuit or "", USUAL)
    found = one(store, GroundLimit, joint=joint, part=part)
    assert found is not None, part
    return found, load


def _stack(thread: Thread, joint: Joint, on_back: bool) -> tuple[str, ...]:
    back = (
        (f"flange nut, or nut and washer, {thread.size} on the back, sealed over",)
        if on_back
        else ()
    )
    return (
        *back,
        f"{_body(joint, on_back)}, bare and bright in a ring wider than the lug",
        "lug, tinned copper, flat on the bare ring",
        f"{_washer(thread)}, teeth on the lug",
        "screw head or nut, tin or zinc plated",
    )


def _body(joint: Joint, on_back: bool) -> str:
    return "sheet" if on_back else f"{joint.asked.body.replace('-', ' ')} body"


def _washer(thread: Thread) -> str:
    return f"toothed washer DIN 6797 – {thread.size.removeprefix('M')}"


def _drawing(thread: Thread, joint: Joint, on_back: bool) -> tuple[str, ...]:
    """The stack as it stands, each part named; 50 columns at the most."""
    back = (
        "      [ nut  ]      flange nut, or nut and washer,",
        f"                    {thread.size} on the back, sealed over",
    )
    return (
        "      [ head ]      screw head or nut, tin or zinc",
        f"    ^v^v^v^v^v^v    {_washer(thread)}",
        "    ============__  lug, tinned copper -> cable",
        "    ............    bare ring wider than the lug",
        f"##################  {_body(joint, on_back)}",
        *(back if on_back else ()),
    )


def _steps(joint: Joint, on_back: bool, thread: Thread) -> tuple[str, ...]:
    holds = HOLDS_P * thread.pitch_mm
    found = [
        "Battery off, ground post first.",
        "Take paint, rust and anodic film off to bright metal, a ring wider than the lug; "
        "aluminium: brush under conductive paste and close at once.",
    ]
    if on_back:
        found.append(
            f"Sheet under {show_mm(holds)} holds no thread: nut on the back, weld or rivet nut on "
            "bare metal; a thread-forming screw only in a drawn rim, for small currents."
        )
    else:
        found.append(
            "Thread clean and dry; a thread-forming screw cuts its own clean metal in sheet, once."
        )
    found += [
        "Stack as shown, lug held against turning, tighten dry.",
        "Then seal: grease or wax, primer and paint over the joint and its edge.",
    ]
    return tuple(found)


def _check(volts: float, load: str) -> tuple[str, ...]:
    return (
        f"Meter on DC volts, leads on lug and on bare body beside it, {load}: at most "
        f"{figures(volts)} V.",
        "Then the load's own ground pin to the battery's ground post: the whole way.",
        "No ohmmeter: without current it does not see a joint that fails under load.",
        "Warm to the hand after ten minutes of load: take it apart again.",
    )
