"""Moves that are due before any other, because every number would be wrong without them."""

from fastkit.extraction.result import Reason
from fastkit.extraction.situation import Situation

DRY_OFF = "dry-off"
PRESSURE_NEIGHBOURS = ("pressurised", "refrigerant")
RECESS_STATES = ("intact", "worn", "stripped")


def due(situation: Situation, outer: bool) -> tuple[tuple[str, Reason], ...]:
    """
    Return the gates due, in order, each with its reason; what has been done is not due again.

    `outer` says that the fastener is driven from outside and so has no recess to clean.
    """
    things = {near.thing for near in situation.near}
    found: list[tuple[str, str]] = []
    if situation.load in ("spring", "weight"):
        found.append(("unload", f"load_{situation.load}"))
    elif situation.support == "jack":
        found.append(("unload", "on_jack"))
    if situation.load == "pressure":
        found.append(("isolate", "load_pressure"))
    elif situation.load == "unknown" and things & set(PRESSURE_NEIGHBOURS):
        found.append(("isolate", "beside_pressure"))
    elif "airbag" in things:
        found.append(("isolate", "beside_airbag"))
    elif "battery" in things:
        found.append(("isolate", "beside_battery"))
    if situation.recess == "filled" and not outer and situation.damage in RECESS_STATES:
        found.append(("clean-recess", "recess_filled"))
    if situation.residue == "flammable":
        found.append((DRY_OFF, "residue_flammable"))
    return tuple(
        (gate, Reason("due_first", (why,))) for gate, why in found if gate not in situation.tried
    )
