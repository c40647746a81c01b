"""Cards to tell a thread by: diameter steps, pitch combs, look-alikes, pipe threads."""

import sqlite3
from collections.abc import Sequence

from fastkit.answers.cards import rows
from fastkit.deck import profiles
from fastkit.deck.card import Block, Caution, Cell, Drawing, Text, inches
from fastkit.deck.drawings import Shape, combs, sheet_of
from fastkit.deck.tables import Faces, head, in_inches, keyed, num, sketch, table, told
from fastkit.records.thread import Thread

WIDTH_MM = 54.8
"""Width of a sleeve-sized card's body."""

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
STEPS = (
    "M2x0.4",
    "M2.5x0.45",
    "M3x0.5",
    "M4x0.7",
    "M5x0.8",
    "M6x1",
    "M7x1",
    "M8x1.25",
    "M10x1.5",
    "M12x1.75",
    "M14x2",
    "M16x2",
)
STEPS_IN = (
    "#4-40-UNC",
    "#6-32-UNC",
    "#8-32-UNC",
    "#10-24-UNC",
    "#12-24-UNC",
    "1/4-20-UNC",
    "5/16-18-UNC",
    "3/8-16-UNC",
    "7/16-14-UNC",
    "1/2-13-UNC",
    "9/16-12-UNC",
    "5/8-11-UNC",
)
ALIKE = (
    ("M3x0.5", "#4-40-UNC"),
    ("M4x0.7", "#8-32-UNC"),
    ("M5x0.8", "#10-32-UNF"),
    ("M6x1", "1/4-20-UNC"),
    ("M6x1", "1/4-28-UNF"),
    ("M8x1.25", "5/16-18-UNC"),
    ("M8x1", "5/16-24-UNF"),
    ("M10x1.5", "3/8-16-UNC"),
    ("M10x1", "3/8-24-UNF"),
    ("M12x1.75", "1/2-13-UNC"),
    ("M14x1.5", "9/16-18-UNF"),
    ("M16x2", "5/8-11-UNC"),
)
WORSE = (
    ("1/2-13-UNC", "1/2-12-BSW"),
    ("1/4-20-UNC", "1/4-20-BSW"),
    ("3/8-16-UNC", "3/8-16-BSW"),
    ("G1/8", "1/8-27-NPT"),
    ("G1/4", "1/4-18-NPT"),
    ("M10x1", "G1/8"),
)
PIPES = ("G1/8", "G1/4", "G3/8", "G1/2", "G3/4", "G1")
TAPERS = ("1/8-27-NPT", "1/4-18-NPT", "3/8-18-NPT", "1/2-14-NPT", "3/4-14-NPT", "1-11.5-NPT")


def _threads(store: sqlite3.Connection) -> dict[str, Thread]:
    """All threads by key."""
    return {t.id: t for t in rows(store, Thread)}


def diameters(store: sqlite3.Connection) -> Faces:
    """Black steps as wide as a thread is thick."""
    threads = _threads(store)
    metric = [threads[k] for k in STEPS if k in threads]
    inch = [threads[k] for k in STEPS_IN if k in threads]

    def step(t: Thread) -> Shape:
        below = f"{t.nominal_mm + 1e-9:.2f}" if t.tpi else inches(t.nominal_mm)
        path = profiles.rectangle(t.nominal_mm, 8.5, (0, 0))
        return Shape(t.size, below, t.nominal_mm, 8.5, path)

    def steps(part: Sequence[Thread], title: str) -> Drawing:
        return Drawing(sheet_of([step(t) for t in part], WIDTH_MM, title))

    return Faces(
        (
            steps(metric, "Outer diameters of metric threads, true to scale"),
            Text(
                "Lay the thread along a step: one as wide as it. Below: inch. Worn: a little less.",
                "small",
            ),
        ),
        (
            steps(inch, "Outer diameters of inch threads, true to scale"),
            Text(
                "Below: mm. Then the pitch combs: diameter alone does not tell a thread.", "small"
            ),
        ),
        told(keyed("thread", [*metric, *inch]), metric, inch),
        "Thread diameter, inch",
    )


def pitches(store: sqlite3.Connection) -> Faces:
    """Pitch combs, metric in front, inch behind."""
    threads = _threads(store)
    metric = [threads[k] for k in PITCHES if k in threads]
    inch = [threads[k] for k in TPI if k in threads]
    hold = "Hold the screw on the comb, under a light: the one whose teeth vanish in the thread."
    front: tuple[Block, ...] = (
        Drawing(
            combs(
                [(f"{t.pitch_mm:g}", t.size, t.pitch_mm) for t in metric],
                WIDTH_MM,
                "Combs by pitch in mm, true to scale",
            )
        ),
        Text(f"{hold} Left: pitch, mm. Right: its coarse thread.", "small"),
    )
    back: tuple[Block, ...] = (
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
    )
    return Faces(
        front, back, told(keyed("thread", [*metric, *inch]), metric, inch), "Pitch combs, inch"
    )


def _short(t: Thread) -> str:
    """A thread as one says it; the series where it tells twins apart."""
    if t.series in ("BSW", "NPT"):
        return f"{t.id.partition('-')[0]} {t.series}"
    return t.id.removesuffix("-UNC").removesuffix("-UNF")


def look_alikes(store: sqlite3.Connection) -> Faces:
    """Threads that start in each other and strip."""
    threads = _threads(store)

    def pairs(wanted: Sequence[tuple[str, str]]) -> list[tuple[Thread, Thread]]:
        return [(threads[a], threads[b]) for a, b in wanted if a in threads and b in threads]

    def line(a: Thread, b: Thread, digits: int = 3) -> tuple[Cell, ...]:
        return (
            head(_short(a)),
            num(a, "nominal_mm", "small", digits=digits),
            num(a, "pitch_mm", "small", digits=2),
            head(_short(b)),
            num(b, "nominal_mm", "small", digits=digits),
            num(b, "pitch_mm", "small", digits=2),
        )

    front, back = pairs(ALIKE), pairs(WORSE)
    heads = ("thread", "mm", "pitch", "starts in", "mm", "pitch")
    used = [t for pair in (*front, *back) for t in pair]
    return Faces(
        (
            table(heads, (line(a, b) for a, b in front)),
            Text("25.4 / pitch = threads per inch.", "small"),
            Caution("It starts by hand, then strips under load."),
        ),
        (
            table(heads, (line(a, b, 2) for a, b in back)),
            Text(
                "Same pitch, other flank: 60° against 55° (BSW, G). It turns in and carries on "
                "its edges only. Tell them by a comb held to the light."
            ),
            Caution("Brake, fuel, gas: a look-alike seals today and leaks tomorrow."),
        ),
        told(keyed("thread", used), used),
        "Look-alikes, worse",
    )


def pipes(store: sqlite3.Connection) -> Faces:
    """Pipe threads by what a caliper reads on them."""
    threads = _threads(store)
    straight = [threads[k] for k in PIPES if k in threads]
    taper = [threads[k] for k in TAPERS if k in threads]

    def line(t: Thread, name: str) -> tuple[Cell, ...]:
        return (
            head(name),
            num(t, "nominal_mm", "big"),
            in_inches(t, "nominal_mm"),
            num(t, "tpi", "big"),
        )

    return Faces(
        (
            table(("thread", "outside mm", "in", "per inch"), (line(t, t.id) for t in straight)),
            Text(
                "G seals on a ring or face, R (same size and pitch, 1 in 16 taper) in the thread. "
                "The size is not a measure: G1/4 is 13 mm thick."
            ),
        ),
        (
            table(
                ("NPT", "outside mm", "in", "per inch"),
                (line(t, t.size.removesuffix(" NPT")) for t in taper),
            ),
            Text(
                "Taper 1 in 16, 60°. A taper thread gets no torque: hand-tight, then turns. "
                "1/2 and 3/4 have 14 to the inch as G has: only the flank tells."
            ),
            Caution("Gas and fuel: local code and licensed hands."),
        ),
        told(keyed("thread", [*straight, *taper]), straight, taper),
        "Pipe threads, NPT",
    )


SKETCHES = (
    sketch("thread-diameter", "gauge", "Thread diameter", "How thick is this thread?", diameters),
    sketch("gauge-pitch", "gauge", "Pitch combs", "Which pitch is this thread?", pitches),
    sketch(
        "look-alikes", "gauge", "Look-alikes", "Which threads start in each other?", look_alikes
    ),
    sketch("pipe-threads", "gauge", "Pipe threads", "Which pipe thread is this?", pipes),
)
