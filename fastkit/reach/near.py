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
LOOSE_MM = 0.3  # a tool with more play than this turns in the drive or rounds it
SNUG_MM = 0.1  # play up to this: it carries nearly as the drive's own size does
CROSS_MM = 1.2  # wing widths of neighbouring cross sizes differ by about a millimetre
SQUARE_IN_HEX = 3**0.5 - 1  # side of the largest square in a hexagon, of its width across flats


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


def beside(sound: Drive, drives: Iterable[Drive]) -> tuple[NearFit, ...]:
    """
    Return every tool that lies within hundredths of a drive, the closest first.

    Besides what bites: what goes in or on with little play (the inch size beside the metric one),
    neighbouring cross sizes by their wing width, blades by their thickness, a square on its
    corners in a hexagon, a hexagon socket on the points of an external hexalobular head.
    """
    found = []
    for drive in drives:
        if drive.id == sound.id:
            continue
        play = _play(sound, drive)
        if play is None:
            play = _close(sound, drive)
        if play is not None:
            found.append(NearFit(drive.id, play, _how(sound, drive, play)))
    return tuple(sorted(found, key=lambda fit: (abs(fit.play_mm), fit.drive)))


def _how(sound: Drive, tool: Drive, play: float) -> str:
    if "cross" in sound.system:
        return "by hand, pressed hard" if play >= 0 else "hammered, for a worn recess"
    if play > SNUG_MM:
        return "by hand, rocks: no hard pull"
    if play >= 0:
        return "by hand"
    if sound.system != tool.system or play < -PRESS_MM:
        return "tapped, for a worn drive" if play > -PRESS_MM else "hammered, for a worn drive"
    return "by hand where the drive is worn, else not at all"


def _close(sound: Drive, tool: Drive) -> float | None:
    """Return the play of a tool that goes in or on without biting, None where it does not."""
    pair = sound.system, tool.system
    size, other = sound.across_flats_mm, tool.across_flats_mm
    points, tips = sound.across_points_mm, tool.across_points_mm
    play: float | None = None
    least = 0.0
    if pair in (("hex-socket", "hex-socket"), ("square", "square")) and size and other:
        play = size - other
    elif pair == ("hexagon", "hexagon") and size and other:
        play = other - size
    elif pair == ("hexalobular", "hex-socket") and points and other:
        if other > (sound.across_valleys_mm or points):  # else it turns between the lobes
            play = points - other / COS30
    elif pair == ("hexalobular", "hexalobular") and points and tips:
        if tips > (sound.across_valleys_mm or points):
            play, least = points - tips, -HEX_IN_LOBES_MM
    elif pair == ("hex-socket", "square") and size and other:
        play, least = size * SQUARE_IN_HEX - other, -HEX_IN_LOBES_MM
    elif pair == ("external-hexalobular", "hexagon") and points and other:
        if other < points:  # else it turns round the points
            play, least = other / COS30 - points, -HEX_IN_LOBES_MM
    elif pair == ("slot", "slot") and size and other and points and tips:
        play = size - other if tips <= points * 1.2 else None  # the blade's ends stay in the head
    elif "cross" in sound.system and "cross" in tool.system and sound.wing_mm and tool.wing_mm:
        play = sound.wing_mm - tool.wing_mm
        return play if -CROSS_MM <= play <= LOOSE_MM else None
    return play if play is not None and least <= play <= LOOSE_MM else None


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
