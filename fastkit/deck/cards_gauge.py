"""Gauge cards: silhouettes true to scale, to lay a screw, bit or head on."""

import sqlite3
from collections.abc import Callable, Sequence

from fastkit.answers.cards import rows
from fastkit.deck import profiles
from fastkit.deck.card import Caution, Cell, Drawing, Text, inches
from fastkit.deck.drawings import (
    NUMERAL_MM,
    Shape,
    blades,
    outlined,
    recognition,
    rings,
    sheet_of,
    stairs,
)
from fastkit.deck.tables import Faces, head, in_inches, keyed, num, sketch, table, told
from fastkit.records.drive import CrossTip, Drive, DrivePin
from fastkit.records.head import Head
from fastkit.records.recess import RecessDim

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
EXTERNAL = ("E4", "E5", "E6", "E7", "E8", "E10", "E12", "E14", "E16", "E18", "E20", "E24")
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
PAN = "ISO 7045"
PANS = ("M2", "M3", "M4", "M5", "M6", "M8", "M10")
TIPS = ("PH0", "PH1", "PH2", "PH3", "PH4")
SQUARE = ("SQ0", "SQ1", "SQ2", "SQ3", "SQ4")
SLOTS = (
    "slot-2x0.4",
    "slot-3x0.5",
    "slot-4x0.8",
    "slot-5.5x1",
    "slot-6.5x1.2",
    "slot-8x1.2",
    "slot-8x1.6",
    "slot-10x1.6",
    "slot-12x2",
    "slot-14x2.5",
)
TRIPLE = tuple(f"triple-square-M{n}" for n in (4, 5, 6, 8, 10, 12, 14))
PINNED = ("T10", "T15", "T20", "T25", "T27", "T30", "T40", "T45", "T50")
FLATS_MM = ("5.5", "7", "8", "10", "11", "13", "15", "16", "17", "18", "19", "21", "22", "24", "27")
FLATS_IN = (
    "1/4",
    "5/16",
    "11/32",
    "3/8",
    "7/16",
    "1/2",
    "9/16",
    "5/8",
    "11/16",
    "3/4",
    "13/16",
    "7/8",
    "15/16",
    "1",
    "1-1/16",
)

LAY = "Lay the bit's tip, or the screw, on the black shape: the one that it just covers."


def _drives(store: sqlite3.Connection) -> dict[str, Drive]:
    """All drives by their key."""
    return {d.id: d for d in rows(store, Drive)}


def _held(drives: dict[str, Drive], keys: Sequence[str]) -> list[Drive]:
    """The rows that the data holds, in the order asked."""
    return [drives[key] for key in keys if key in drives]


def _silhouettes(
    drives: list[Drive], shape: Callable[[Drive], Shape], title: str, text_mm: float = NUMERAL_MM
) -> Drawing:
    """Black shapes in rows."""
    return Drawing(sheet_of([shape(d) for d in drives], WIDTH_MM, title, text_mm=text_mm))


def _lobes(d: Drive) -> Shape:
    """A hexalobular outline by A and B."""
    a, b = d.across_points_mm or 0, d.across_valleys_mm or 0
    return Shape(d.id, f"{a:g}", a, a, profiles.hexalobular(a, b, (0, 0)))


def _hexagon(d: Drive) -> Shape:
    """A hexagon by its flats, standing on a flat."""
    flats = d.across_flats_mm or 0
    inch = d.id.endswith("in")
    name = d.size.removesuffix("in").removesuffix("mm").strip()
    return Shape(
        name,
        f"{flats + 1e-9:.2f}" if inch else inches(flats),
        flats * 2 / 3**0.5,
        flats,
        profiles.regular(6, flats, (0, 0)),
    )


def hexalobular(store: sqlite3.Connection) -> Faces:
    """Hexalobular recesses in front, the same with a pin behind."""
    drives = _drives(store)
    inner = [d for d in _held(drives, HEXALOBULAR) if d.across_valleys_mm]
    holes = {p.drive: p for p in rows(store, DrivePin)}
    pinned = [d for d in _held(drives, [f"{k}-tamper" for k in PINNED]) if d.id in holes]

    def pin(d: Drive) -> Shape:
        hole = holes[d.id].hole_mm
        circle = f'<path d="{profiles.circle(hole, (0, 0))}" fill="#fff"/>'
        return _lobes(d)._replace(name=d.size, below=f"{hole:g}", extra=circle)

    return Faces(
        (
            _silhouettes(inner, _lobes, "Hexalobular sizes, true to scale"),
            Text(f"{LAY} Below each: across the lobes, mm; 25.4 mm are 1 in.", "small"),
        ),
        (
            _silhouettes(pinned, pin, "Hexalobular sizes with a hole for the pin, true to scale"),
            Text(
                "A post in the middle of the recess wants a bored bit. Below: its hole, mm, about "
                "(practice). A bored bit carries less.",
                "small",
            ),
        ),
        told(keyed("drive", [*inner, *pinned]), inner, pinned, [holes[d.id] for d in pinned]),
        "Hexalobular with a pin",
    )


def external(store: sqlite3.Connection) -> Faces:
    """External hexalobular heads by their points, as rings."""
    outer = _held(_drives(store), EXTERNAL)
    small = [d for d in outer if (d.across_points_mm or 0) < 12]

    def drawn(part: Sequence[Drive]) -> Drawing:
        return Drawing(rings([(d.id, d.across_points_mm or 0) for d in part], WIDTH_MM))

    say = Text(
        "Stand the head in a ring: its six points just touch the line's inner edge. In the ring: "
        "across the points, mm; 25.4 mm are 1 in.",
        "small",
    )
    return Faces(
        (drawn(small), say, Text("Not a hexagon: a six-point socket rounds it.")),
        (drawn([d for d in outer if d not in small]), say),
        told(keyed("drive", outer), outer),
        "External, larger",
    )


def hex_socket(store: sqlite3.Connection) -> Faces:
    """Hexagon keys, metric in front, inch behind."""
    drives = _drives(store)
    metric = _held(drives, [f"hex-{s}mm" for s in SOCKET_MM])
    inch = _held(drives, [f"hex-{s}in" for s in SOCKET_IN])
    return Faces(
        (
            _silhouettes(metric, _hexagon, "Hexagon keys in mm, true to scale"),
            Text(f"{LAY} Name: mm across flats; below: inch.", "small"),
        ),
        (
            _silhouettes(inch, _hexagon, "Hexagon keys in inches, true to scale", 4.2),
            Text(
                "Name: inch across flats; below: mm. A key that is loose by 0.1 mm rounds the "
                "socket: try the other system before turning.",
                "small",
            ),
        ),
        told(keyed("drive", [*metric, *inch]), metric, inch),
        "Hex keys, inch",
    )


def cross(store: sqlite3.Connection) -> Faces:
    """Heads with their cross recess, H and Z, and the tips of the bits."""
    drives = _drives(store)
    spans = {
        r.size: r
        for r in rows(store, RecessDim, standard=PAN, system="cross-h", dimension="diameter")
        if r.value_mm
    }
    heads = {h.size: h for h in rows(store, Head, standard=PAN) if h.size in spans}
    pans = [heads[s] for s in PANS if s in heads]
    tips = {t.drive: t for t in rows(store, CrossTip)}
    bits = [d for d in _held(drives, TIPS) if d.id in tips]

    def pan(h: Head) -> Shape:
        wide, span = h.head_diameter_mm or 0, spans[h.size].value_mm or 0
        wing = (drives[h.drive].wing_mm if h.drive in drives else None) or span / 3
        rim = outlined(profiles.circle(wide, (0, 0)), 0.15)
        return Shape(
            h.size, f"{h.drive} {span:g}", wide, wide, profiles.cross(span, wing, (0, 0)), rim
        )

    def tip(d: Drive) -> Shape:
        wide = tips[d.id].tip_mm
        return Shape(d.id[2:], f"{wide:g}", wide, wide, profiles.circle(wide, (0, 0)))

    return Faces(
        (
            Drawing(sheet_of([pan(h) for h in pans], WIDTH_MM, "Pan heads with cross recess H")),
            Text(
                "Lay the head on the ring that it covers, wings on the cross. Below: bit, span of "
                "the wings, mm. True to scale.",
                "small",
            ),
        ),
        (
            Drawing(
                recognition("cross-h") + recognition("cross-z"),
                "H: plain between the wings. Z: four fine rays there. Not to scale.",
            ),
            Drawing(
                sheet_of([tip(d) for d in bits], WIDTH_MM, "Tips of cross bits, true to scale"),
                "Stand the bit's flat tip on a dot: its size. mm below.",
            ),
            Text("H in Z or Z in H rides up and strips it. One size too small does too."),
            Caution("Press hard, straight: cam-out starts at half the push."),
        ),
        told(
            [*keyed("head", pans), *keyed("drive", bits)],
            pans,
            [spans[h.size] for h in pans],
            bits,
            [tips[d.id] for d in bits],
        ),
        "H or Z, and which bit?",
    )


def square_slot(store: sqlite3.Connection) -> Faces:
    """Squares by their flats and depth in front, blades end on behind."""
    drives = _drives(store)
    square, slots = _held(drives, SQUARE), _held(drives, SLOTS)

    def box(d: Drive) -> Shape:
        flats = d.across_flats_max_mm or 0
        return Shape(d.id, "", flats, flats, profiles.rectangle(flats, flats, (0, 0)))

    def line(d: Drive) -> tuple[Cell, ...]:
        return (
            head(d.id),
            num(d, "across_flats_max_mm", "big", digits=2),
            num(d, "across_flats_min_mm", "head", digits=2),
            in_inches(d, "across_flats_min_mm"),
            num(d, "depth_mm", "head", digits=1),
        )

    def blade(d: Drive) -> tuple[float, float, str]:
        wide, thick = d.across_points_mm or 0, d.across_flats_mm or 0
        return (wide, thick, f"{wide:g} wide, {inches(thick)}")

    return Faces(
        (
            _silhouettes(square, box, "Square drives, true to scale"),
            table(
                ("recess", "most mm", "least mm", "in", "deep mm"), (line(d) for d in square), "SQ"
            ),
            Text(
                "Lay the bit's tip on a square: it just covers it. Loose by a size strips.", "small"
            ),
        ),
        (
            Drawing(blades([blade(d) for d in slots], WIDTH_MM, "Blades end on, true to scale")),
            Text(
                "Lay slot or blade on a bar. Left: thickness, mm; right: width, mm, and thickness, "
                "inch. A blade fills width and slot, else it climbs.",
                "small",
            ),
        ),
        told(keyed("drive", [*square, *slots]), square, slots),
        "How wide is the slot?",
    )


def rare(store: sqlite3.Connection) -> Faces:
    """Triple squares, and hexagon keys with a pin."""
    drives = _drives(store)
    triple = _held(drives, TRIPLE)
    holes = {p.drive: p for p in rows(store, DrivePin)}
    keys = [d for d in drives.values() if d.system == "hex-socket-tamper" and d.id in holes]

    def star(d: Drive) -> Shape:
        across = d.across_points_mm or 0
        path = profiles.star(across, (0, 0))
        return Shape(d.size, f"{across:g}", across, across, path)

    def pinned(d: Drive) -> Shape:
        circle = f'<path d="{profiles.circle(holes[d.id].hole_mm, (0, 0))}" fill="#fff"/>'
        return _hexagon(d)._replace(below=f"{holes[d.id].hole_mm:g}", extra=circle)

    return Faces(
        (
            _silhouettes(triple, star, "Triple squares, true to scale"),
            Text(
                "Twelve points of 90°: three squares. A hexagon key goes in, turns its points off "
                "and ruins it. Below: across the points, mm; 25.4 mm are 1 in."
            ),
        ),
        (
            _silhouettes(keys, pinned, "Hexagon keys with a hole for the pin, true to scale"),
            Text("Name: mm across flats. Below: hole for the pin, mm, about (practice).", "small"),
        ),
        told(keyed("drive", [*triple, *keys]), triple, keys, [holes[d.id] for d in keys]),
        "Hexagon with a pin",
    )


def flats(store: sqlite3.Connection) -> Faces:
    """Stairs whose steps are as wide as a hexagon across its flats."""
    drives = _drives(store)
    metric = _held(drives, [f"AF-{s}mm" for s in FLATS_MM])
    inch = _held(drives, [f"AF-{s}in" for s in FLATS_IN])

    def drawn(part: list[Drive], title: str) -> Drawing:
        steps = []
        for d in part:
            mm, name = d.across_flats_mm or 0, d.size.split()[0]
            steps.append((name, f"{mm + 1e-9:.2f}" if d.id.endswith("in") else inches(mm), mm))
        return Drawing(stairs(steps, WIDTH_MM, title))

    say = "Lay two flats of the head along a step: flush with both its edges."
    return Faces(
        (
            drawn(metric, "Hexagons across flats, mm, true to scale"),
            Text(f"{say} Right: inch.", "small"),
        ),
        (
            drawn(inch, "Hexagons across flats, inch, true to scale"),
            Text(f"{say} Right: mm.", "small"),
        ),
        told(keyed("drive", [*metric, *inch]), metric, inch),
        "Across flats, inch",
    )


SKETCHES = (
    sketch(
        "gauge-hexalobular",
        "gauge",
        "Hexalobular",
        "Which size is this recess or bit?",
        hexalobular,
    ),
    sketch(
        "gauge-external-hexalobular",
        "gauge",
        "External hexalobular",
        "Which size is this head?",
        external,
    ),
    sketch("gauge-hex-socket", "gauge", "Hex keys", "Which key fits this socket?", hex_socket),
    sketch("gauge-cross", "gauge", "Cross recess", "Which bit for this cross?", cross),
    sketch(
        "gauge-square-slot", "gauge", "Square and slot", "Which square, which blade?", square_slot
    ),
    sketch("gauge-rare", "gauge", "Twelve points, pins", "What is this odd recess?", rare),
    sketch("gauge-across-flats", "gauge", "Across flats", "Which wrench, by laying it on?", flats),
)
