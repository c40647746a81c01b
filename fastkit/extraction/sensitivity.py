"""What else an assumption might have been, to see whether the first move hangs on it."""

from collections.abc import Iterator

from fastkit.extraction.facts import Facts
from fastkit.extraction.situation import Situation
from fastkit.records.thread import Thread

# How far off each default may well be; workshop judgement, common practice.
OTHERS: dict[str, tuple[object, ...]] = {
    "kind": (),
    "damage": ("worn",),
    "seized": ("rusted", "seized"),
    "seized_at": ("thread", "head"),
    "coating": ("stainless", "zinc"),
    "load": ("spring",),
    "far_side": ("reachable",),
    "residue": ("flammable",),
    "support": ("jack",),
    "recess": ("filled",),
    "wasted_pct": (30.0,),
    "into": ("aluminium", "cast-iron"),
    "left_hand": (True,),
    "above_mm": (60.0,),
    "beside_mm": (10.0,),
    "swing_deg": (40.0,),
    "side_mm": ((0.0, 0.0),),
    "power": ("none",),
    "can": ((),),
}
SCALES = (0.8, 1.25)  # the thread a size down or up
STRENGTHS = (0.6, 1.5)  # the grade some classes down or up


def alternatives(what: str, situation: Situation, facts: Facts) -> Iterator[tuple[Situation, Facts]]:
    """Yield what the situation would be if one assumption were otherwise."""
    if what == "thread":
        for scale in SCALES:
            yield situation, facts._replace(thread=_scaled(facts, scale))
    elif what == "grade":
        for scale in STRENGTHS:
            row = facts.strength
            yield (
                situation,
                facts._replace(
                    strength=row._replace(
                        tensile_min_mpa=row.tensile_min_mpa * scale,
                        yield_min_mpa=row.yield_min_mpa and row.yield_min_mpa * scale,
                    )
                ),
            )
    elif what == "engage_mm":
        have = situation.engage_mm or facts.thread.nominal_mm
        for scale in (0.6, 2.0):
            yield situation._replace(engage_mm=have * scale), facts
    elif what == "spoil_min":
        for scale in (0.33, 3.0):
            yield situation._replace(spoil_min=situation.spoil_min * scale), facts
    else:
        for value in OTHERS.get(what, ()):
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
