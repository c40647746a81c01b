"""Metals on a scale of volts, and the gaps on it that a place stands."""

from collections.abc import Sequence

from fastkit.deck import profiles
from fastkit.deck.drawings import NUMERAL_MM, filled, label, line, svg

VOLT_MM = 30.0
"""Length of a volt [mm]."""

WIDTH_MM, AXIS_MM, LETTERS_MM, LEAST_MM = 54.8, 22.6, 2.5, 2.8

Place = tuple[str, str, float]
"""A metal's key, its word, its index [V]."""


def metal_scale(
    bodies: Sequence[Place], bolts: Sequence[Place], gaps: Sequence[tuple[str, float]]
) -> str:
    """
    Bodies left and bolts right of an axis, noble on top; bars as long as the gaps allowed.

    Args:
        bodies: Metals of bodies.
        bolts: Metals of fasteners.
        gaps: Word and voltage [V] of each place.
    """
    indices = [volts for _, _, volts in (*bodies, *bolts)]
    top = min(indices)
    high = (max(indices) - top) * VOLT_MM + 4.0

    def at(volts: float) -> float:
        return 2.0 + (volts - top) * VOLT_MM

    body = line([(AXIS_MM, at(top)), (AXIS_MM, at(max(indices)))], 0.5)
    for part, way, anchor in ((bodies, -1, "end"), (bolts, 1, "start")):
        ordered = sorted(part, key=lambda place: (place[2], place[0]))
        for (key, word, volts), y in zip(
            ordered, _apart([at(v) for _, _, v in ordered]), strict=True
        ):
            ends = [
                (AXIS_MM, at(volts)),
                (AXIS_MM + way * 1.4, at(volts)),
                (AXIS_MM + way * 2.4, y),
            ]
            drawn = line(ends, 0.25) + label(
                AXIS_MM + way * 2.8, y + 0.85, word, LETTERS_MM, anchor
            )
            tick = profiles.number(at(volts))
            body += f'<g data-metal="{key}" data-y="{tick}">{drawn}</g>'
    y = 1.0
    for word, volts in gaps:
        body += label(WIDTH_MM, y + 3.4, f"{volts:g} V", NUMERAL_MM, "end", bold=True)
        body += label(WIDTH_MM, y + 6.2, word, 2.3, "end")
        bar = (WIDTH_MM - 1.0, y + 7.2 + volts * VOLT_MM / 2)
        body += filled(profiles.rectangle(2.0, volts * VOLT_MM, bar))
        y += volts * VOLT_MM + 9.2
    return svg(WIDTH_MM, max(high, y), "Metals by their potential, noble on top", body)


def _apart(wanted: Sequence[float]) -> list[float]:
    """Places in their order, moved so that words do not cover each other [mm]."""
    found = list(wanted)
    for _ in range(40):
        for k in range(1, len(found)):
            short = LEAST_MM - (found[k] - found[k - 1])
            if short > 1e-6:
                found[k - 1] -= short / 2
                found[k] += short / 2
    return found
