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
CROSS_LOOSE_MM = 0.5  # type H wings in a type Z recess: it turns a light screw and cams out
SQUARE_IN_SQUARE_MM = 0.6  # a size up, hammered: squares are half a millimetre apart
LOBES_ON_HEX_MM = 0.5  # an outer hexalobular socket hammered over a hexagon's corners
SQUARE_IN_HEX = 3**0.5 - 1  # side of the largest square in a hexagon, of its width across flats
CORNERS = {"hex-socket": 1 / COS30, "square": 2**0.5}  # across corners over across flats
LOBED = ("hexalobular", "triple-square")
SQUARES = ("square", "driving-square")
OUTSIDE = {"hexagon": ("hexagon", "twelve-point"), "twelve-point": ("twelve-point",)}


class NearFit(NamedTuple):
    """A tool of another size: play (negative: interference), and how it goes on."""

    drive: str
    play_mm: float
    how: str  # by hand, hammered


def near_fits(worn: Drive, drives: Iterable[Drive]) -> tuple[NearFit, ...]:
    """
    Return the tools that bite in (or on) a worn drive, tightest usable first.

    A bit with lobes or points goes into a hexagon or square socket while they reach past the flats
    and stay inside the corners; a hexagon goes into hexalobular lobes on its corners; a socket goes
    over a rounded hexagon while it is smaller than its flats, or its lobes than the corners.
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
    corners in a hexagon, a hexagon socket on the points of an external hexalobular head, a
    twelve-point socket on a hexagon.
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


def flats(drive: Drive) -> float | None:
    """Return the width across flats, the middle of its limits where only those are printed."""
    low, high = drive.across_flats_min_mm, drive.across_flats_max_mm
    if drive.across_flats_mm is None and low is not None and high is not None:
        return (low + high) / 2
    return drive.across_flats_mm


def _how(sound: Drive, tool: Drive, play: float) -> str:
    if (sound.system, tool.system) == ("hexagon", "twelve-point"):
        return "by hand on a sound hexagon; slips round worn corners"
    if "cross" in sound.system and play > LOOSE_MM:
        return "by hand, rocks and cams out: light screws only"
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
    size, other = flats(sound), flats(tool)
    points, tips = sound.across_points_mm, tool.across_points_mm
    play: float | None = None
    least = 0.0
    if pair in (("hex-socket", "hex-socket"), ("square", "square")) and size and other:
        play = size - other
    elif sound.system in OUTSIDE and tool.system in OUTSIDE[sound.system] and size and other:
        play = other - size
    elif pair == ("triple-square", "hexalobular") and points and tips:
        play, least = points - tips, -HEX_IN_LOBES_MM
    elif pair == ("hexalobular", "hex-socket") and points and other:
        if other > (sound.across_valleys_mm or points):  # else it turns between the lobes
            play = points - other / COS30
    elif pair == ("hexalobular", "hexalobular") and points and tips:
        if tips > (sound.across_valleys_mm or points):
            play, least = points - tips, -HEX_IN_LOBES_MM
    elif sound.system == "hex-socket" and tool.system in SQUARES and size and other:
        play, least = size * SQUARE_IN_HEX - other, -HEX_IN_LOBES_MM
    elif pair == ("external-hexalobular", "hexagon") and points and other:
        if other < points:  # else it turns round the points
            play, least = other / COS30 - points, -HEX_IN_LOBES_MM
    elif pair == ("slot", "slot") and size and other and points and tips:
        play = size - other if tips <= points * 1.2 else None  # the blade's ends stay in the head
    elif "cross" in sound.system and "cross" in tool.system and sound.wing_mm and tool.wing_mm:
        play = sound.wing_mm - tool.wing_mm
        return play if -CROSS_MM <= play <= CROSS_LOOSE_MM else None
    return play if play is not None and least <= play <= LOOSE_MM else None


def _play(worn: Drive, tool: Drive) -> float | None:
    """Return the play of a tool in a worn drive, None where it cannot bite."""
    pair = worn.system, tool.system
    size, other = flats(worn), flats(tool)
    points, tips = worn.across_points_mm, tool.across_points_mm
    play, least = 0.0, 0.0
    if worn.system in CORNERS and tool.system in LOBED and size and tips:
        return size - tips if size < tips < size * CORNERS[worn.system] else None
    if pair == ("hex-socket", "hex-socket") and size and other:
        play, least = size - other, HEX_IN_HEX_MM
    elif pair == ("square", "square") and size and other:
        play, least = size - other, SQUARE_IN_SQUARE_MM
    elif pair == ("hexalobular", "hex-socket") and points and other:
        play, least = points - other / COS30, HEX_IN_LOBES_MM
    elif pair == ("hexagon", "hexagon") and size and other:
        play, least = other - size, SOCKET_ON_HEX_MM
    elif pair == ("hexagon", "external-hexalobular") and size and tips:
        play, least = tips - size / COS30, LOBES_ON_HEX_MM
    return play if -least <= play < 0 else None
