"""What else an assumption might have been, to see whether the first move hangs on it."""

from collections.abc import Iterator
from typing import Any

from fastkit.extraction.facts import Facts
from fastkit.extraction.situation import Situation
from fastkit.extraction.stubs import BELOW
from fastkit.records.thread import Thread

# How far off each default may well be; workshop judgement, common practice. What only takes ways
# away is asked of the first move alone; the rest needs a plan of its own.
NARROWER: dict[str, tuple[Any, ...]] = {
    "coating": ("stainless", "zinc"),
    "load": ("spring",),
    "residue": ("flammable",),
    "support": ("jack",),
    "recess": ("filled",),
    "left_hand": (True,),
    "no_heat": (True,),
    "stub_mm": (2.0,),
    "above_mm": (60.0,),
    "beside_mm": (10.0,),
    "swing_deg": (40.0,),
    "side_mm": ((0.0, 0.0),),
    "power": ("none",),
    "can": ((),),
}
DEEPER = (40.0,)  # of a stub in its hole
OTHERWISE: dict[str, tuple[Any, ...]] = {
    "damage": ("worn",),
    "seized": ("seized", "none"),
    "seized_at": ("head",),
    "far_side": ("reachable",),
    "wasted_pct": (30.0,),
    "into": ("aluminium",),
}
SCALES = (0.8,)  # the thread a size down
STRENGTHS = (0.6,)  # the grade some classes down


def narrower(what: str, situation: Situation) -> Iterator[Situation]:
    """Yield the situation with one assumption otherwise, where that can only take ways away."""
    values = NARROWER.get(what, ())
    if what == "stub_mm" and situation.damage == BELOW:
        values = DEEPER
    if what == "load" and situation.load != "unknown":  # that a name brought along
        values = ("none",)
    for value in values:
        if getattr(situation, what) != value:
            yield situation._replace(**{what: value})


def otherwise(what: str, situation: Situation, facts: Facts) -> Iterator[tuple[Situation, Facts]]:
    """Yield the situation and the rows with one assumption otherwise, where anything may follow."""
    if what == "thread":
        for scale in SCALES:
            drills = tuple(row._replace(drill_mm=row.drill_mm * scale) for row in facts.drills)
            yield situation, facts._replace(thread=_scaled(facts, scale), drills=drills)
    elif what == "grade":
        row = facts.strength
        for scale in STRENGTHS:
            limit = row.yield_min_mpa and row.yield_min_mpa * scale
            tensile = row.tensile_min_mpa * scale
            other = row._replace(tensile_min_mpa=tensile, yield_min_mpa=limit)
            yield situation, facts._replace(strength=other)
    elif what == "engage_mm":
        have = situation.engage_mm or facts.thread.nominal_mm
        yield situation._replace(engage_mm=2 * have), facts
    elif what == "spoil_min":
        yield situation._replace(spoil_min=3 * situation.spoil_min), facts
    else:
        for value in OTHERWISE.get(what, ()):
            if getattr(situation, what) != value:
                yield situation._replace(**{what: value}), facts


def _scaled(facts: Facts, scale: float) -> Thread:
    thread = facts.thread
    return thread._replace(
        nominal_mm=thread.nominal_mm * scale,
        pitch_mm=thread.pitch_mm * scale,
        pitch_diameter_mm=thread.pitch_diameter_mm * scale,
        minor_mm=thread.minor_mm * scale,
        root_mm=thread.root_mm * scale,
        stress_area_mm2=thread.stress_area_mm2 * scale**2,
    )
