"""Cards on making a thread good and on joints of their own: inserts, taps, tubes, ground."""

import sqlite3

from fastkit.answers.cards import rows
from fastkit.deck.card import Caution, Cell, Drawing, Step, Steps, Table, Text, standing
from fastkit.deck.flare_drawing import NAMES
from fastkit.deck.flare_drawing import flares as flare_forms
from fastkit.deck.ground_drawing import ground_stack
from fastkit.deck.tables import Faces, head, in_inches, keyed, num, practised, sketch, table, told
from fastkit.notation.units import LBFT_NMM
from fastkit.records.ground import GroundLimit, GroundNote
from fastkit.records.thread import FormDrill, Insert, TapDrill, Thread
from fastkit.records.tube import Tube, TubeCaution, TubeForm, TubeMismatch, TubeNutHex, TubeTorque

INSERTS = (
    "M4x0.7",
    "M5x0.8",
    "M6x1",
    "M8x1.25",
    "M8x1",
    "M10x1.5",
    "M10x1.25",
    "M12x1.75",
    "M12x1.5",
)
INSERTS_IN = (
    "#10-24-UNC",
    "#10-32-UNF",
    "1/4-20-UNC",
    "1/4-28-UNF",
    "5/16-18-UNC",
    "5/16-24-UNF",
    "3/8-16-UNC",
    "3/8-24-UNF",
    "1/2-13-UNC",
)
FORMED = ("M2x0.4", "M2.5x0.45", "M3x0.5", "M4x0.7", "M5x0.8", "M6x1", "M8x1.25", "M10x1.5")
FORMED_MORE = ("M12x1.75", "M16x2", "M20x2.5", "M24x3", "M8x1", "M10x1.25", "M12x1.5")
CUT = ("M3x0.5", "M4x0.7", "M5x0.8", "M6x1", "M8x1.25", "M10x1.5", "M12x1.75")
CUT_IN = (
    "#6-32-UNC",
    "#8-32-UNC",
    "#10-24-UNC",
    "1/4-20-UNC",
    "5/16-18-UNC",
    "3/8-16-UNC",
    "1/2-13-UNC",
)
METRIC_TUBES = ("4.75mm-iso", "4.75mm-jis", "4.75mm-inverted", "6mm-iso", "6mm-jis", "8mm-iso")
INCH_TUBES = (
    "3/16in-inverted",
    "1/4in-inverted",
    "5/16in-inverted",
    "3/8in-inverted",
    "3/16in-flare-37",
    "1/4in-flare-37",
    "3/8in-flare-37",
    "1/2in-flare-37",
)
FORMS = tuple(NAMES)


def inserts(store: sqlite3.Connection) -> Faces:
    """Drills for wire thread inserts, and the tap's outer diameter."""
    every = {i.id: i for i in rows(store, Insert)}

    def line(i: Insert) -> tuple[Cell, ...]:
        inch = not i.id.startswith("M")
        name = i.id.removesuffix("-UNC").removesuffix("-UNF")
        return (
            head(name),
            Cell(i.drill_name, "big") if inch and i.drill_name else num(i, "drill_mm", "big"),
            (num(i, "drill_mm", "small", digits=2) if inch else in_inches(i, "drill_mm")),
            num(i, "tap_major_mm", "plain", digits=2)._replace(mark=""),
        )

    metric = [every[k] for k in INSERTS if k in every]
    inch = [every[k] for k in INSERTS_IN if k in every]
    how = Steps(
        (
            Step("1", "Drill straight, full depth", "Wire insert size, not the tap drill's."),
            Step("2", "Tap with the insert's tap", "Clean out every chip."),
            Step("3", "Wind in a half turn below", "Break the tang off, fish it out."),
        )
    )
    return Faces(
        (
            table(("insert", "drill mm", "in", "tap is mm wide"), (line(i) for i in metric)),
            Text("Wire insert: the old thread comes back, in steel. 1.5 diameters long.", "small"),
        ),
        (table(("insert", "drill", "mm", "tap mm"), (line(i) for i in inch[:7])), how),
        told(keyed("insert", [*metric, *inch]), metric, inch),
        "Inserts, inch",
    )


def form_taps(store: sqlite3.Connection) -> Faces:
    """Holes for taps that form."""
    every = {(f.thread, f.thread_pct): f for f in rows(store, FormDrill)}
    held = [k for k in (*FORMED, *FORMED_MORE) if (k, 75) in every and (k, 65) in every]
    threads = {t.id: t for t in rows(store, Thread)}

    def line(k: str) -> tuple[Cell, ...]:
        coarse = k in threads and threads[k].series == "coarse"
        return (
            head(k.partition("x")[0] if coarse else k),
            num(every[k, 65], "drill_mm", "big", digits=2),
            in_inches(every[k, 65], "drill_mm"),
            num(every[k, 75], "drill_mm", "plain", digits=2),
        )

    heads = ("forming tap", "65 % mm", "in", "75 % mm")
    return Faces(
        (
            table(heads, (line(k) for k in held if k in FORMED)),
            Text(
                "Forms without chips: the hole is larger than for cutting. 65 % of full thread "
                "is enough.",
                "small",
            ),
        ),
        (
            table(heads, (line(k) for k in held if k in FORMED_MORE)),
            Text("Hole = diameter - 0.0068 x pitch x per cent. Not in cast iron. Oil.", "small"),
            Caution("In a hole below the 75 % size the tap jams and breaks."),
        ),
        practised(
            told(
                [f"thread:{k}" for k in held],
                [every[k, p] for k in held for p in (75, 65)],
            ),
        ),
        "Forming taps, more",
    )


def cut_taps(store: sqlite3.Connection) -> Faces:
    """How much thread a cutting tap's drill leaves, metric in front, inch behind."""
    taps = {t.thread: t for t in rows(store, TapDrill) if t.thread_pct}

    def line(t: TapDrill) -> tuple[Cell, ...]:
        inch = not t.thread.startswith("M")
        named = Cell(t.drill_name or "", "big", standing(t.checked))
        return (
            head(t.thread.removesuffix("-UNC") if inch else t.thread.partition("x")[0]),
            named if inch and t.drill_name else num(t, "drill_mm", "big"),
            num(t, "drill_mm", "small", digits=2) if inch else in_inches(t, "drill_mm"),
            num(t, "thread_pct", "head", digits=0),
        )

    metric, inch = ([taps[k] for k in keys if k in taps] for keys in (CUT, CUT_IN))
    snaps = Caution("A broken tap is harder than any drill: stop when it springs.")
    return Faces(
        (
            table(("cutting tap", "drill mm", "in", "% thread"), (line(t) for t in metric)),
            Text(
                "Half a turn in, a quarter back. Oil; paraffin for aluminium, dry for cast iron.",
                "small",
            ),
            snaps,
        ),
        (
            table(("cutting tap", "drill", "mm", "% thread"), (line(t) for t in inch)),
            Text("In steel 50 % still holds: deep or hard holes may be drilled that far.", "small"),
            snaps,
        ),
        practised(told(keyed("thread", [*metric, *inch], "thread"), metric, inch)),
        "Cutting taps, inch",
    )


def tube_nuts(store: sqlite3.Connection) -> Faces:
    """Tube, thread, wrench and torque of tube nuts."""
    tubes = {t.id: t for t in rows(store, Tube)}
    hexes: dict[str, list[TubeNutHex]] = {}
    for h in rows(store, TubeNutHex):
        hexes.setdefault(h.tube, []).append(h)
    torques: dict[str, list[TubeTorque]] = {}
    for t in rows(store, TubeTorque):
        torques.setdefault(t.tube, []).append(t)
    used = [tubes[key] for key in (*METRIC_TUBES, *INCH_TUBES) if key in tubes]

    def line(tube: Tube, unit: str) -> tuple[Cell, ...]:
        usual, *others = (h.hexagon.removesuffix(unit) for h in hexes[tube.id])
        values = torques[tube.id]
        low, high = min(v.torque_min_nm for v in values), max(v.torque_max_nm for v in values)
        ends = [low] if low == high else [low, high]
        return (
            head(tube.id.partition(unit)[0]),
            Cell(tube.thread, "plain"),
            Cell(usual, "big"),
            Cell(" ".join(f"or {other}" for other in others), "small"),
            Cell("-".join(f"{end:g}" for end in ends), "head"),
            Cell("-".join(f"{end * 1000 / LBFT_NMM:.0f}" for end in ends), "small"),
        )

    def by_form(unit: str) -> Table:
        lines: list[tuple[Cell, ...]] = []
        for form, name in NAMES.items():
            those = [t for t in used if t.form == form and unit in t.id.partition("-")[0]]
            lines += [(Cell(f"{name} flare", "group"),)] if those else []
            lines += [line(tube, unit) for tube in those]
        return table((f"tube {unit}", "thread", "wrench", "", "N·m", "lb·ft"), lines)

    cautions = [c.text for c in rows(store, TubeCaution)]
    part = [
        *(h for t in used for h in hexes[t.id]),
        *(v for t in used for v in torques[t.id]),
    ]
    return Faces(
        (by_form("mm"), Caution(" ".join(cautions[:3]))),
        (
            by_form("in"),
            Caution(f"Tube by its outside. {cautions[6]}"),
        ),
        told(keyed("tube", used), used, part),
        "Tube nuts, inch",
    )


def flares(store: sqlite3.Connection) -> Faces:
    """Forms of flare drawn, and what never goes together."""
    forms = {f.id: f for f in rows(store, TubeForm)}
    held = [forms[k] for k in FORMS if k in forms]
    never = rows(store, TubeMismatch)
    return Faces(
        (
            Drawing(flare_forms()),
            table(
                ("flare", "tube °", "seat °"),
                (
                    (
                        Cell(f.title, "fine"),
                        num(f, "flare_deg", "big"),
                        num(f, "seat_deg", "head"),
                    )
                    for f in held
                    if f.flare_deg
                ),
            ),
        ),
        (
            table(
                ("never", "with"),
                ((Cell(NAMES.get(m.form, m.form), "head"), Cell(m.never)) for m in never[:9]),
                "tube",
            ),
            Caution(
                "A line that seals on the wrong cone leaks at full pressure. Brakes: qualified "
                "hands."
            ),
        ),
        told(
            [
                f"tube:{t}"
                for t in ("3/16in-inverted", "4.75mm-iso", "4.75mm-jis", "3/16in-flare-37")
            ],
            held,
            never[:9],
        ),
        "Never together",
    )


def ground(store: sqlite3.Connection) -> Faces:
    """How a ground joint is built, and what it may drop."""
    shown = [g for g in rows(store, GroundLimit, joint="vehicle-ground") if g.drop_max_v]
    notes = {n.topic: n for n in rows(store, GroundNote, joint="vehicle-ground")}

    def step(n: int, topic: str, title: str) -> Step:
        return Step(str(n), title, notes[topic].text if topic in notes else "", "p")

    def limits(part: list[GroundLimit], look: str) -> Table:
        lines = ((word_of(g.part), num(g, "drop_max_v", look)) for g in part)
        return table(("may drop at most, under load", "V"), lines, "ground")

    by_practice = [g for g in shown if g.checked == "judgement"]
    return Faces(
        (Drawing(ground_stack()), limits(by_practice, "big")),
        (
            Steps(
                (
                    step(1, "surface", "Bare, bright metal"),
                    step(2, "metals", "Mind the metals"),
                )
            ),
            limits([g for g in shown if g not in by_practice], "head"),
            Caution(notes["caution"].text if "caution" in notes else ""),
        ),
        told(["ground:vehicle-ground"], shown, list(notes.values())),
        "Ground: how",
    )


def word_of(part: str) -> Cell:
    """A part of a circuit in few words."""
    return Cell(part[:1].upper() + part[1:])


SKETCHES = (
    sketch("form-taps", "repair", "Forming taps", "How large a hole to form in?", form_taps),
    sketch("cut-taps", "repair", "Cutting taps", "How much thread does a drill leave?", cut_taps),
    sketch("inserts", "repair", "Wire inserts", "Which drill makes a thread good?", inserts),
    sketch("tube-nuts", "repair", "Tube nuts", "Which thread, wrench, torque?", tube_nuts),
    sketch("flares", "repair", "Flares", "Which flare is this, what never fits?", flares),
    sketch("ground-joint", "repair", "Ground joint", "How much may it drop?", ground),
)
