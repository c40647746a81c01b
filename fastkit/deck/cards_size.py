"""Size cards: wrench sizes, drills and holes by thread, in both systems."""

import sqlite3
from typing import NamedTuple

from fastkit.answers.cards import rows
from fastkit.deck.card import Card, Cell, Sketch, Table, Text, gathered, standing
from fastkit.deck.tables import INCH, Faces, head, in_inches, keyed, num, sketch, told
from fastkit.records.drive import Drive
from fastkit.records.head import Head
from fastkit.records.thread import ClearanceHole, TapDrill, Thread

WRENCH = ("across-flats", "gauge", "Wrench by thread", "Which wrench for this hexagon?")
DRILLS = (
    "drills-metric",
    "repair",
    "Drills, metric",
    "Which drill before the tap, which to clear?",
)
DRILLS_INCH = ("drills-inch", "repair", "Drills, inch", DRILLS[3])
METRIC = ("M3x0.5", "M4x0.7", "M5x0.8", "M6x1", "M8x1.25", "M10x1.5", "M12x1.75", "M16x2")
METRIC_MORE = ("M8x1", "M10x1", "M10x1.25", "M12x1.25", "M12x1.5", "M14x1.5", "M14x2", "M20x2.5")
FLATS = ("M4", "M5", "M6", "M8", "M10", "M12", "M14", "M16", "M18", "M20")
FLATS_IN = ("1/4", "5/16", "3/8", "7/16", "1/2", "5/8", "3/4")
COARSE_IN = (
    "#8-32-UNC",
    "#10-24-UNC",
    "1/4-20-UNC",
    "5/16-18-UNC",
    "3/8-16-UNC",
    "7/16-14-UNC",
    "1/2-13-UNC",
    "5/8-11-UNC",
)
FINE_IN = (
    "#8-36-UNF",
    "#10-32-UNF",
    "1/4-28-UNF",
    "5/16-24-UNF",
    "3/8-24-UNF",
    "7/16-20-UNF",
    "1/2-20-UNF",
)
NOW, OLDER, INCH_HEADS = "ISO 4014", "DIN 933", "ASME B18.2.1"


def fraction(drive: Drive, look: str) -> Cell:
    """The size of an inch drive as its fraction."""
    of = (drive, "across_flats_mm", INCH)
    return Cell(drive.size.removesuffix(" in").split()[0], look, standing(drive.checked), of)


class Hole(NamedTuple):
    """Drills of one thread."""

    thread: Thread
    tap: TapDrill
    clearance: ClearanceHole | None


def _holes(store: sqlite3.Connection, keys: tuple[str, ...]) -> list[Hole]:
    """The threads that have a tap drill in the data, in the order asked."""
    threads = {t.id: t for t in rows(store, Thread)}
    taps = {t.thread: t for t in rows(store, TapDrill)}
    clear = {c.size: c for c in rows(store, ClearanceHole)}
    return [
        Hole(threads[k], taps[k], clear.get(threads[k].size))
        for k in keys
        if k in threads and k in taps
    ]


def _drill_rows(holes: list[Hole], inch: bool) -> Table:
    """Thread, tap drill large, clearance hole, both systems; inch threads by the drill's name."""

    def line(h: Hole) -> tuple[Cell, ...]:
        tap, clear, name = h.tap, h.clearance, h.tap.drill_name
        named = inch and name
        return (
            head(h.thread.id.removesuffix("-UNC").removesuffix("-UNF")),
            Cell(name, "big", standing(tap.checked))
            if named and name
            else num(tap, "drill_mm", "big", digits=2),
            num(tap, "drill_mm", "small", digits=2)._replace(mark="")
            if named
            else in_inches(tap, "drill_mm"),
            num(clear, "medium_mm", "head", digits=1) if clear else Cell("none", "head"),
            in_inches(clear, "medium_mm") if clear else Cell(""),
        )

    heads = (
        ("thread", "tap drill", "mm", "clear mm", "in")
        if inch
        else ("thread", "tap drill mm", "in", "clear mm", "in")
    )
    return Table(heads, tuple(line(h) for h in holes))


def metric_drills(store: sqlite3.Connection) -> Card:
    """Tap and clearance drills, coarse in front, fine and large behind."""
    return _drills(store, DRILLS, METRIC, METRIC_MORE, False)


def inch_drills(store: sqlite3.Connection) -> Card:
    """Tap and clearance drills, coarse in front, fine behind."""
    return _drills(store, DRILLS_INCH, COARSE_IN, FINE_IN, True)


def _drills(
    store: sqlite3.Connection,
    name: tuple[str, str, str, str],
    front: tuple[str, ...],
    back: tuple[str, ...],
    inch: bool,
) -> Card:
    """Tap and clearance drills for two lists of threads."""
    first, second = _holes(store, front), _holes(store, back)
    also = [r for h in (*first, *second) for r in (h.tap, h.clearance) if r]
    return Card(
        *name,
        front=(_drill_rows(first, inch),),
        back=(
            _drill_rows(second, inch),
            Text(
                "For cutting taps; forming taps need a larger one: card Forming taps. "
                "Clear: the medium series.",
                "small",
            ),
        ),
        back_title=f"{name[2]}, more",
        **gathered("thread", [h.thread for h in (*first, *second)], also),
    )


def across_flats(store: sqlite3.Connection) -> Card:
    """Which wrench for which thread: today's and older heads, inch heads behind."""
    drives = {d.id: d for d in rows(store, Drive, system="hexagon")}
    heads = {(h.standard, h.size): h for h in rows(store, Head, form="hexagon")}
    used: list[Head] = []

    def flats(standard: str, size: str) -> Drive | None:
        head = heads.get((standard, size))
        if head is None or head.drive is None:
            return None
        used.append(head)
        return drives.get(head.drive)

    front = []
    for size in FLATS:
        now, older = flats(NOW, size), flats(OLDER, size)
        if now is None or now.across_flats_mm is None:
            continue
        front.append(
            (
                head(size),
                num(now, "across_flats_mm", "big"),
                num(older, "across_flats_mm", "head")
                if older and older != now
                else Cell("same", "small"),
                in_inches(now, "across_flats_mm"),
            )
        )
    back = []
    for size in FLATS_IN:
        inch = flats(INCH_HEADS, size)
        if inch and inch.across_flats_mm:
            back.append(
                (
                    head(size),
                    fraction(inch, "big"),
                    num(inch, "across_flats_mm", "head", digits=2)._replace(mark=""),
                )
            )
    return Card(
        *WRENCH,
        front=(Table(("thread", "wrench mm", "older mm", "inch"), tuple(front)),),
        back=(
            Table(("thread", "wrench in", "mm"), tuple(back)),
            Text(
                "Thread by wrench is a guess: flange heads and nuts differ. Measure the flats, "
                "then the thread.",
                "small",
            ),
        ),
        back_title="Wrench by thread, inch",
        **gathered("head", used, [drives[h.drive] for h in used if h.drive in drives]),
    )


KEYED = ("M3", "M4", "M5", "M6", "M8", "M10", "M12", "M16", "M20")
KEYED_IN = ("#6", "#8", "#10", "1/4", "5/16", "3/8", "7/16", "1/2", "5/8")
KEY_HEADS = (
    ("cap", "ISO 4762", "ASME B18.3 cap"),
    ("button", "ISO 7380-1", "ASME B18.3 button"),
    ("flat", "ISO 10642", "ASME B18.3 flat"),
    ("set", "ISO 4026", "ASME B18.3 set screw"),
)


def keys_by_thread(store: sqlite3.Connection) -> Faces:
    """Which key for which socket screw."""
    heads = {(h.standard, h.size): h for h in rows(store, Head)}
    drives = {d.id: d for d in rows(store, Drive, system="hex-socket")}
    used: list[Head] = []

    def key(standard: str, size: str, look: str) -> Cell:
        h = heads.get((standard, size))
        if h is None or h.drive not in drives:
            return Cell("", look)
        used.append(h)
        drive = drives[h.drive]
        if h.drive.endswith("in"):
            return fraction(drive, look)
        return num(drive, "across_flats_mm", look)

    def line(size: str, place: int) -> tuple[Cell, ...]:
        looks = ("big", "head", "head", "head")
        return (
            head(size),
            *(key(h[place], size, look) for h, look in zip(KEY_HEADS, looks, strict=True)),
        )

    names = ("key for", *(h[0] for h in KEY_HEADS))
    front = Table(names, tuple(line(s, 1) for s in KEYED))
    back = Table(names, tuple(line(s, 2) for s in KEYED_IN))
    return Faces(
        (
            front,
            Text("mm. Cap ISO 4762, button ISO 7380-1, flat ISO 10642, set ISO 4026.", "small"),
        ),
        (
            back,
            Text(
                "Inch, ASME B18.3. Button and flat heads have small keys: they strip first.",
                "small",
            ),
        ),
        told(keyed("head", used), used),
        "Keys by thread, inch",
    )


SKETCHES = (
    Sketch(*WRENCH, across_flats),
    sketch(
        "keys-by-thread", "gauge", "Keys by thread", "Which key for this screw?", keys_by_thread
    ),
    Sketch(*DRILLS, metric_drills),
    Sketch(*DRILLS_INCH, inch_drills),
)
