"""Cards on what bites next: near fits, drills and extractors, slots, nuts to weld on."""

import sqlite3
from collections.abc import Sequence

from fastkit.answers.cards import row, rows
from fastkit.answers.near import NearTool, near
from fastkit.answers.torque import torque
from fastkit.deck import profiles
from fastkit.deck.card import Block, Caution, Cell, Drawing, Text
from fastkit.deck.drawings import Shape, sheet_of
from fastkit.deck.tables import (
    Faces,
    head,
    in_inches,
    in_pounds,
    keyed,
    lbft,
    num,
    practised,
    sketch,
    table,
    told,
)
from fastkit.records.drilling import DrillOut, SpiralExtractor
from fastkit.records.drive import Drive, DriveTorque
from fastkit.records.head import Head
from fastkit.records.method import MethodText
from fastkit.records.recess import RecessDim
from fastkit.records.thread import Thread

KEYS = ("hex-2mm", "hex-2.5mm", "hex-3mm", "hex-4mm", "hex-5mm", "hex-6mm", "hex-8mm", "hex-10mm")
LOBES = ("T10", "T15", "T20", "T25", "T27", "T30", "T40", "T45")
WRENCHES = (8, 10, 11, 13, 14, 16, 17, 19, 22, 24)
ACROSS_IN = ("5/16", "3/8", "7/16", "1/2", "9/16", "5/8", "11/16", "3/4", "13/16", "7/8")
DRILLED = ("M5x0.8", "M6x1", "M8x1.25", "M10x1.5", "M12x1.75", "M16x2")
DRILLED_IN = ("#10-24-UNC", "1/4-20-UNC", "5/16-18-UNC", "3/8-16-UNC", "7/16-14-UNC", "1/2-13-UNC")
SLOTS = ("4x0.8", "5.5x1", "6.5x1.2", "8x1.2", "8x1.6", "10x1.6", "12x2", "14x2.5")
STUBS = ("M5x0.8", "M6x1", "M8x1.25", "M10x1.5", "M12x1.75", "M16x2", "M20x2.5")
NUTS = ("M6", "M8", "M10", "M12", "M16", "M20", "M24")
HOLE_SHARE = 0.95  # a nut whose hole is this much of the stub still goes over a rough break


def _called(drive: str) -> str:
    """A drive's key as one says it."""
    return (
        drive.removeprefix("drive:").removeprefix("hex-").replace("in", " in").replace("mm", " mm")
    )


def _play(fit: NearTool) -> str:
    """Play with its sign, in hundredths."""
    return f"{fit.play_mm:+.2f}"


def _ladder(store: sqlite3.Connection, keys: Sequence[str], most: int = 2) -> list[list[Cell]]:
    """Each size with what else goes into it or on it, closest first."""
    lines = []
    for key in keys:
        if row(store, Drive, id=key) is None:
            continue
        fits = near(key, store=store).fits[:most]
        line = [Cell(_called(key).removesuffix(" mm"), "big")]
        for fit in fits:
            line += [Cell(_called(fit.id), "head"), Cell(_play(fit))]
        lines.append(line + [Cell("")] * (1 + 2 * most - len(line)))
    return lines


def near_keys(store: sqlite3.Connection) -> Faces:
    """What else goes into a hexagon or hexalobular recess."""
    used = [d for k in (*KEYS, *LOBES) if (d := row(store, Drive, id=k))]
    heads = ("", "nearest", "mm", "next", "mm")
    said = Text(
        "mm: plus is play, minus is hammered in: beyond 0.10 into a worn recess only, it may split "
        "a thin head. 0.25 mm is .01 in.",
        "small",
    )
    eyes = Caution("Driven bits splinter: eyes.")
    return Faces(
        (table(("hex mm", *heads[1:]), _ladder(store, KEYS)), said, eyes),
        (table(heads, _ladder(store, LOBES)), said, eyes),
        told(keyed("drive", used), used),
        "Near bits, hexalobular",
    )


def near_wrenches(store: sqlite3.Connection) -> Faces:
    """Which size of the other system lies nearest to a wrench."""
    drives = {d.id: d for d in rows(store, Drive, system="hexagon")}
    inch = [d for s in ACROSS_IN if (d := drives.get(f"AF-{s}in"))]
    metric = [d for mm in WRENCHES if (d := drives.get(f"AF-{mm}mm"))]
    both = [d for d in drives.values() if d.across_flats_mm]

    def fits(d: Drive) -> tuple[Cell, ...]:
        flats = d.across_flats_mm or 0.0
        other = [o for o in both if o.id.endswith("in") != d.id.endswith("in") and "." not in o.id]
        best = min(other, key=lambda o: (abs((o.across_flats_mm or 0) - flats), o.id))
        gap = (best.across_flats_mm or 0) - flats
        said = "knock on" if gap < -0.02 else "fits" if gap < 0.15 else "slips"
        return (
            Cell(d.size.split()[0], "big"),
            Cell(best.size.split()[0], "head"),
            num(best, "across_flats_mm", "plain", digits=2),
            Cell(f"{gap:+.2f} {said}", "small"),
        )

    return Faces(
        (table(("head mm", "inch", "is mm", "play mm"), (fits(d) for d in metric)),),
        (
            table(("head inch", "mm", "is mm", "play mm"), (fits(d) for d in inch)),
            Text("Minus goes on a rounded head with a hammer.", "small"),
        ),
        told(keyed("drive", [*metric, *inch]), metric, inch),
        "Near wrenches, inch",
    )


def drills_extractors(store: sqlite3.Connection) -> Faces:
    """Holes for a broken bolt by thread, and the extractor that goes in."""
    drills = {(d.thread, d.purpose): d for d in rows(store, DrillOut)}
    extractors = {e.id: e for e in rows(store, SpiralExtractor)}
    used: list[SpiralExtractor] = []

    def line(key: str, by_inch: bool) -> list[Cell]:
        def hole(purpose: str, look: str) -> Cell:
            d = drills.get((key, purpose))
            if d is None:
                return Cell("none", "small")
            shown = in_inches if by_inch else num
            return shown(d, "drill_mm", look)._replace(mark="")

        spiral = drills.get((key, "spiral-extractor"))
        number = spiral.extractor.removeprefix("spiral-") if spiral and spiral.extractor else ""
        if number:
            used.append(extractors[f"spiral-{number}"])
        name = key.removesuffix("-UNC") if by_inch else key.partition("x")[0]
        return [
            head(name),
            hole("pilot", "small"),
            hole("left-hand-drill", "big"),
            hole("spiral-extractor", "head"),
            Cell(f"no. {number}" if number else "", "small"),
            hole("drill-out", "small"),
        ]

    held = [k for k in (*DRILLED, *DRILLED_IN) if (k, "pilot") in drills]
    metric = [k for k in held if k.startswith("M")]
    left, spiral = (Cell(word, mark="p") for word in ("left-hand", "spiral"))
    heads = ("thread", "pilot", left, spiral, "", "to the root")
    front = table(heads, (line(k, False) for k in metric))
    back = table(heads, (line(k, True) for k in held if k not in metric))
    return Faces(
        (
            front,
            Text(
                "Largest drill, mm. Pilot dead on centre, then left-hand drill: it often comes.",
                "small",
            ),
            Caution(
                "A broken extractor is the worst state there is. None where an intact head already "
                "failed at full torque and the bond has not been weakened since."
            ),
        ),
        (
            back,
            Text(
                "Largest drill, inch. Straight fluted extractors wedge less than spirals.", "small"
            ),
            Caution("Swarf: eyes. Stop when the extractor springs."),
        ),
        told([*(f"thread:{k}" for k in held), *keyed("extractor", used)], used),
        "Drills, extractors, inch",
    )


def slots(store: sqlite3.Connection) -> Faces:
    """Which blade a cut slot wants, and what it carries."""
    held = [
        (d, t)
        for s in SLOTS
        if (d := row(store, Drive, id=f"slot-{s}"))
        and (t := row(store, DriveTorque, drive=d.id, tool="blade"))
    ]

    def line(d: Drive, t: DriveTorque) -> tuple[Cell, ...]:
        return (
            head(d.size.removesuffix(" mm")),
            num(d, "across_flats_mm", "big"),
            in_inches(d, "across_flats_mm"),
            num(t, "proof_torque_nm", "big"),
            in_pounds(t, "proof_torque_nm"),
        )

    shapes = [
        Shape(
            f"{d.across_points_mm:g}",
            f"{d.across_flats_mm:g}",
            d.across_points_mm or 0,
            max(d.across_flats_mm or 0, 1.2),
            profiles.rectangle(d.across_points_mm or 0, d.across_flats_mm or 0, (0, 0)),
        )
        for d, _ in held
    ]
    widths = [
        r
        for r in rows(store, RecessDim, standard="ISO 1207", system="slot", dimension="slot_width")
        if r.low_mm
    ]
    thick = dict.fromkeys(d.across_flats_mm or 0.0 for d, _ in held)
    takes = [
        (head(f"{t:g}"), Cell(" ".join(r.size for r in widths if 0 <= (r.low_mm or 0) - t < 0.1)))
        for t in thick
    ]
    how = [t.text for t in rows(store, MethodText, method="cut-slot-handsaw", part="step")]
    return Faces(
        (
            table(
                ("blade mm", "slot wide", "in", "carries N·m", "lb·ft"),
                (line(d, t) for d, t in held),
            ),
            Text("Blade: width x thickness. Torque: the test torque of a blade.", "small"),
        ),
        (
            Drawing(
                sheet_of(shapes, 54.8, "Blades seen end on, true to scale", text_mm=2.6),
                "Lay the blade on it: width above, thickness below, mm.",
            ),
            table(("blade thick", "fills the slot of"), (line for line in takes if line[1].text)),
            Text(" ".join(how[:1]), "small"),
            Caution("A cutting disc throws sparks metres far: not beside fuel or a battery."),
        ),
        told(
            ["method:cut-slot-handsaw", *keyed("drive", [d for d, _ in held])],
            [d for d, _ in held],
            [t for _, t in held],
            widths,
        ),
        "Slots: the blades",
    )


def weld_nuts(store: sqlite3.Connection) -> Faces:
    """Which nut goes over a stub, which wrench then turns it, and when the stub breaks."""
    threads = {t.id: t for t in rows(store, Thread)}
    coarse = {t.size: t for t in threads.values() if t.series == "coarse"}
    nuts = {h.size: h for h in rows(store, Head, standard="ISO 4032")}
    used: list[Head] = []
    lines = []
    for key in STUBS:
        stub = threads.get(key)
        nut = next(
            (
                coarse[s]
                for s in NUTS
                if stub and s in coarse and coarse[s].minor_mm >= HOLE_SHARE * stub.nominal_mm
            ),
            None,
        )
        if stub is None or nut is None or nut.size not in nuts:
            continue
        used.append(nuts[nut.size])
        flats = row(store, Drive, id=nuts[nut.size].drive)
        breaks = torque(key, "8.8", store=store).breaking_torque_nm
        lines.append(
            (
                head(stub.size),
                Cell(nut.size, "big"),
                num(flats, "across_flats_mm", "big"),
                Cell(f"{breaks:.3g}" if breaks else "", "head"),
                Cell(lbft(breaks) if breaks else "", "small"),
            )
        )
    how = [t.text for t in rows(store, MethodText, method="weld-nut", part="step")]
    cautions = [t.text for t in rows(store, MethodText, method="weld-nut", part="caution")]
    front: tuple[Block, ...] = (
        table(("stub", "nut", "wrench mm", "breaks at N·m", "lb·ft"), lines),
        Text("Breaks: least of a whole 8.8 shank; a rusted one sooner.", "small"),
    )
    return Faces(
        front,
        (*(Text(f"{n}: {text}") for n, text in enumerate(how, 1)), Caution(" ".join(cautions[:2]))),
        practised(told(["method:weld-nut", *keyed("head", used)], used)),
        "Weld a nut on: how",
    )


SKETCHES = (
    sketch(
        "near-keys", "loosen", "Near bits and keys", "What else goes in, and how tight?", near_keys
    ),
    sketch(
        "near-wrenches", "loosen", "Near wrenches", "Which size of the other system?", near_wrenches
    ),
    sketch(
        "drills-extractors",
        "loosen",
        "Drills, extractors",
        "How large a hole in a broken bolt?",
        drills_extractors,
    ),
    sketch("slots", "loosen", "Slots and blades", "Which slot do I cut, what carries it?", slots),
    sketch("weld-nuts", "loosen", "Nuts to weld on", "Which nut over which stub?", weld_nuts),
)
