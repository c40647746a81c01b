"""Near fits: which other bit or socket bites where the drive's own size has let go."""

from collections.abc import Iterable
from math import cos, radians
from typing import NamedTuple

from fastkit.records.drive import Drive

COS30 = cos(radians(30))
# How far a tool may be from the worn size and still be driven on; workshop judgement.
HEX_IN_HEX_MM = 0.35
SOCKET_ON_HEX_MM = 0.8
HEX_IN_LOBES_MM = 0.25
PRESS_MM = 0.1  # interference up to this goes in by hand or a light tap


class NearFit(NamedTuple):
    """A tool of another size: play (negative: interference), and how it goes on."""

    drive: str
    play_mm: float
    how: str  # by hand, hammered


def near_fits(worn: Drive, drives: Iterable[Drive]) -> tuple[NearFit, ...]:
    """
    Return the tools that bite in (or on) a worn drive, tightest usable first.

    A hexalobular bit goes into a hexagon socket while its points reach past the flats and stay
    inside the corners; a hexagon goes into hexalobular lobes on its corners; a socket goes over a
    rounded hexagon while it is smaller than its flats.
    """
    found = []
    for drive in drives:
        if drive.id == worn.id:
            continue
        play = _play(worn, drive)
        if play is not None:
            found.append(NearFit(drive.id, play, "by hand" if play > -PRESS_MM else "hammered"))
    return tuple(sorted(found, key=lambda fit: (abs(fit.play_mm + PRESS_MM), fit.drive)))


def _play(worn: Drive, tool: Drive) -> float | None:
    """Return the play of a tool in a worn drive, None where it cannot bite."""
    pair = worn.system, tool.system
    size, other = worn.across_flats_mm, tool.across_flats_mm
    if pair == ("hex-socket", "hex-socket") and size and other:
        play = size - other
        return play if -HEX_IN_HEX_MM <= play < 0 else None
    if pair == ("hex-socket", "hexalobular") and size and tool.across_points_mm:
        play = size - tool.across_points_mm
        return play if size < tool.across_points_mm < size / COS30 else None
    if pair == ("hexalobular", "hex-socket") and worn.across_points_mm and other:
        play = worn.across_points_mm - other / COS30
        return play if -HEX_IN_LOBES_MM <= play < 0 else None
    if pair == ("hexagon", "hexagon") and size and other:
        play = other - size
        return play if -SOCKET_ON_HEX_MM <= play < 0 else None
    return None
