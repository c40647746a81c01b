"""Gauge cards: silhouettes and combs true to scale, to lay a screw, bit or head on."""

import sqlite3
from collections.abc import Callable, Sequence

from fastkit.answers.cards import rows
from fastkit.deck import profiles
from fastkit.deck.card import Block, Card, Drawing, Sketch, Text, gathered, inches
from fastkit.deck.drawings import Shape, combs, recognition, sheet_of
from fastkit.records.drive import Drive
from fastkit.records.thread import Thread

LOBES = ("gauge-hexalobular", "gauge", "Hexalobular", "Which size is this recess or bit?")
KEYS = ("gauge-hex-socket", "gauge", "Hex keys", "Which key fits this socket?")
CROSS = ("gauge-cross", "gauge", "Cross, square, slot", "Cross H or Z, and which size?")
COMBS = ("gauge-pitch", "gauge", "Pitch combs", "Which pitch is this thread?")

WIDTH_MM = 54.8
"""Width of a sleeve-sized card's body."""

HEXALOBULAR = (
    "T6",
    "T8",
    "T10",
    "T15",
    "T20",
    "T25",
    "T27",
    "T30",
    "T40",
    "T45",
    "T50",
    "T55",
    "T60",
)
EXTERNAL = ("E4", "E5", "E6", "E7", "E8", "E10", "E11", "E12", "E14", "E16", "E18")
SOCKET_MM = ("1.5", "2", "2.5", "3", "4", "5", "6", "7", "8", "10", "12")
SOCKET_IN = (
    "1/16",
    "5/64",
    "3/32",
    "7/64",
    "1/8",
    "9/64",
    "5/32",
    "3/16",
    "7/32",
    "1/4",
    "5/16",
    "3/8",
    "7/16",
)
CROSS_H, CROSS_Z = ("PH0", "PH1", "PH2", "PH3", "PH4"), ("PZ0", "PZ1", "PZ2", "PZ3", "PZ4")
SQUARE = ("SQ0", "SQ1", "SQ2", "SQ3", "SQ4")
SLOTS = (
    "slot-3x0.5",
    "slot-4x0.8",
    "slot-5.5x1",
    "slot-6.5x1.2",
    "slot-8x1.2",
    "slot-10x1.6",
    "slot-12x2",
)
PITCHES = (
    "M3x0.5",
    "M4x0.7",
    "M5x0.8",
    "M6x1",
    "M8x1.25",
    "M10x1.5",
    "M12x1.75",
    "M16x2",
    "M20x2.5",
    "M24x3",
)
TPI = (
    "#10-32-UNF",
    "1/4-28-UNF",
    "5/16-24-UNF",
    "1/4-20-UNC",
    "5/16-18-UNC",
    "3/8-16-UNC",
    "7/16-14-UNC",
    "1/2-13-UNC",
    "5/8-11-UNC",
    "3/4-10-UNC",
)

LAY = "Lay the bit's tip, or the screw, on the black shape: the one that it just covers."


def _drives(store: sqlite3.Connection) -> dict[str, Drive]:
    """All drives by their key."""
    return {d.id: d for d in rows(store, Drive)}


def _held(drives: dict[str, Drive], keys: Sequence[str]) -> list[Drive]:
    """The rows that the data holds, in the order asked."""
    return [drives[key] for key in keys if key in drives]


def _silhouettes(drives: list[Drive], shape: Callable[[Drive], Shape], title: str) -> Drawing:
    """Black shapes in rows."""
    return Drawing(sheet_of([shape(d) for d in drives], WIDTH_MM, title))


def _lobes(d: Drive) -> Shape:
    """A hexalobular outline by A and B; a disc of A where B is not known."""
    a, b = d.across_points_mm or 0, d.across_valleys_mm
    path = profiles.hexalobular(a, b, (0, 0)) if b else profiles.circle(a, (0, 0))
    return Shape(d.id, f"{a:g}", a, a, path)


def _hexagon(d: Drive) -> Shape:
    """A hexagon by its flats, standing on a flat."""
    flats = d.across_flats_mm or 0
    inch = d.id.endswith("in")
    name = d.size.removesuffix("in").removesuffix("mm").strip()
    return Shape(
        name,
        f"{flats:.2f}" if inch else inches(flats),
        flats * 2 / 3**0.5,
        flats,
        profiles.regular(6, flats, (0, 0)),
    )


def hexalobular(store: sqlite3.Connection) -> Card:
    """Hexalobular recesses in front, heads behind."""
    drives = _drives(store)
    inner, outer = _held(drives, HEXALOBULAR), _held(drives, EXTERNAL)
    front: tuple[Block, ...] = (
        _silhouettes(inner, _lobes, "Hexalobular sizes, true to scale"),
        Text(f"{LAY} Below each: across the lobes, mm; 25.4 mm are 1 in.", "small"),
    )
    back: tuple[Block, ...] = (
        _silhouettes(outer, _lobes, "External hexalobular sizes, true to scale"),
        Text(
            "Stand the head on the disc: its points just reach the rim. Below each: across the "
            "points, mm.",
            "small",
        ),
    )
    return Card(
        *LOBES,
        front=front,
        back=back,
        back_title="External hexalobular",
        **gathered("drive", [*inner, *outer]),
    )


def hex_socket(store: sqlite3.Connection) -> Card:
    """Hexagon keys, metric in front, inch behind."""
    drives = _drives(store)
    metric = _held(drives, [f"hex-{s}mm" for s in SOCKET_MM])
    inch = _held(drives, [f"hex-{s}in" for s in SOCKET_IN])
    return Card(
        *KEYS,
        front=(
            _silhouettes(metric, _hexagon, "Hexagon keys in mm, true to scale"),
            Text(f"{LAY} Name: mm across flats; below: inch.", "small"),
        ),
        back=(
            _silhouettes(inch, _hexagon, "Hexagon keys in inches, true to scale"),
            Text(
                "Name: inch across flats; below: mm. A key that is loose by 0.1 mm rounds the "
                "socket: try the other system before turning.",
                "small",
            ),
        ),
        back_title="Hex keys, inch",
        **gathered("drive", [*metric, *inch]),
    )


def cross_and_square(store: sqlite3.Connection) -> Card:
    """Cross recesses in front, square and slot behind."""
    drives = _drives(store)
    h, z = _held(drives, CROSS_H), _held(drives, CROSS_Z)
    square = _held(drives, SQUARE)
    slots = _held(drives, SLOTS)

    def wings(d: Drive) -> Shape:
        wing = d.wing_mm or 0
        span = 3 * wing
        return Shape(d.id, f"{wing:g}", span, span, profiles.cross(span, wing, (0, 0)))

    def box(d: Drive) -> Shape:
        flats = d.across_flats_max_mm or d.across_flats_mm or 0
        return Shape(d.id, f"{flats:g}", flats, flats, profiles.rectangle(flats, flats, (0, 0)))

    def blade(d: Drive) -> Shape:
        width, thick = _blade(d)
        return Shape(
            f"{width:g}",
            f"{thick:g} thick",
            width,
            max(thick, 1.2),
            profiles.rectangle(width, thick, (0, 0)),
        )

    return Card(
        *CROSS,
        front=(
            Drawing(
                recognition("cross-h") + recognition("cross-z"),
                "Left: H, corners between the wings plain. Right: Z, four fine rays there. "
                "Not to scale.",
            ),
            _silhouettes(h, wings, "Wing widths of cross recesses H, true to scale"),
            Text(
                "Wing width, mm, to scale (its length is not: it differs by screw). The wrong "
                "type or one size too small rides up and strips the recess. Z sizes: PZ0 to PZ4, "
                "bits as H.",
                "small",
            ),
        ),
        back=(
            _silhouettes(square, box, "Square drives, true to scale"),
            _silhouettes(slots, blade, "Blades, width by thickness, true to scale"),
            Text(
                "Square: across flats, mm. Blade: width above, thickness below, mm; it fills "
                "slot and width, else it climbs out.",
                "small",
            ),
        ),
        back_title="Square and slot",
        **gathered("drive", [*h, *z, *square, *slots]),
    )


def _blade(d: Drive) -> tuple[float, float]:
    """Width and thickness [mm] of a blade, from its key slot-WxT."""
    width, thick = d.id.removeprefix("slot-").split("x")
    return float(width), float(thick)


def pitches(store: sqlite3.Connection) -> Card:
    """Pitch combs, metric in front, inch behind."""
    threads = {t.id: t for t in rows(store, Thread)}
    metric = [threads[k] for k in PITCHES if k in threads]
    inch = [threads[k] for k in TPI if k in threads]
    hold = "Hold the screw on the comb, under a light: the one whose teeth vanish in the thread."
    return Card(
        *COMBS,
        front=(
            Drawing(
                combs(
                    [(f"{t.pitch_mm:g}", t.size, t.pitch_mm) for t in metric],
                    WIDTH_MM,
                    "Combs by pitch in mm, true to scale",
                )
            ),
            Text(f"{hold} Left: pitch, mm. Right: its coarse thread.", "small"),
        ),
        back=(
            Drawing(
                combs(
                    [(f"{t.tpi:g}", f"{t.size} {t.series}", t.pitch_mm) for t in inch],
                    WIDTH_MM,
                    "Combs by threads per inch, true to scale",
                )
            ),
            Text(
                "Left: threads per inch. 20 and 1.25 mm, 16 and 1.5 mm look alike over three "
                "turns: compare over ten.",
                "small",
            ),
        ),
        back_title="Pitch combs, inch",
        **gathered("thread", [*metric, *inch]),
    )


SKETCHES = (
    Sketch(*LOBES, hexalobular),
    Sketch(*KEYS, hex_socket),
    Sketch(*CROSS, cross_and_square),
    Sketch(*COMBS, pitches),
)
