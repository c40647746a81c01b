"""Cards beside the torque: adapters, lubricants, scatter, order, set screws."""

import sqlite3
from collections.abc import Sequence

from fastkit.answers.cards import row, rows
from fastkit.answers.order import OrderAnswer, tightening_order
from fastkit.deck.adapter_drawing import adapters
from fastkit.deck.card import Caution, Cell, Drawing, Step, Steps, Text
from fastkit.deck.order_drawing import order_svg
from fastkit.deck.tables import Faces, head, in_pounds, keyed, num, practised, sketch, table, told
from fastkit.mechanics.wrench import wrench_setting
from fastkit.records.drive import Drive
from fastkit.records.head import Head
from fastkit.records.set_screw import SetScrewTorque
from fastkit.records.source import Source
from fastkit.records.thread import Thread
from fastkit.records.tightening import (
    NutFactor,
    PrevailingTorque,
    TighteningMethod,
    TorqueFactor,
    WrenchClass,
)

ADAPTERS_MM = (25, 50, 75, 100, 150, 200)
WRENCHES_MM = (250, 400, 600)
FACTORS = (
    "engine-oil",
    "grease",
    "anti-seize-vehicle",
    "molybdenum-paste",
    "into-aluminium",
    "spring-washer",
    "adhesive",
)
NUT_FACTORS = (
    "plain-black",
    "plain",
    "zinc-plated",
    "cadmium-plated",
    "lightly-oiled",
    "lubricated",
    "anti-seize",
    "molybdenum",
    "waxed",
)
SCATTER = (
    "yield-controlled",
    "angle-controlled",
    "elongation",
    "torque-tested",
    "torque-estimated",
    "by-feel",
    "impact",
)
CLASSES = ("type-2-class-a", "type-2-class-d", "type-1-class-b", "type-1-class-c", "type-1-class-a")
NUTS = ("M5x0.8", "M6x1", "M8x1.25", "M10x1.5", "M12x1.75", "M16x2")


def wrench_adapter(store: sqlite3.Connection) -> Faces:
    """What the scale is set to behind an adapter."""
    source = row(store, Source, id="tm-9-254")

    def factor(length: float, adapter: float) -> str:
        return f"{wrench_setting(1.0, length, adapter):.3f}"

    lines = [(head(f"{a}"), *(Cell(factor(w, a), "big") for w in WRENCHES_MM)) for a in ADAPTERS_MM]
    return Faces(
        (
            table(("adapter mm", *(f"wrench {w} mm" for w in WRENCHES_MM)), lines),
            Text(
                "Set torque x this. 25 mm are 1 in. Wrench: grip's middle to its square. Adapter: "
                "square to fastener, straight out.",
                "small",
            ),
        ),
        (
            Drawing(adapters(), "Straight: the table. Square to it: no change. Folded back: more."),
            Steps(
                (
                    Step("1", "At an angle", "Adapter x cosine: 45° is 0.71, 90° is 0."),
                    Step("2", "Set = T x L / (L + A)", "Folded back: T x L / (L - A)."),
                    Step("3", "Hand on the mark", "Choked up or slid out, L is another."),
                )
            ),
            Caution("A long extension to the side twists and reads low at the fastener."),
        ),
        told([f"source:{source.id}"] if source else []) | {"sources": ("tm-9-254",)}
        if source
        else told([]),
        "Adapters: how",
    )


def lubricant(store: sqlite3.Connection) -> Faces:
    """What a lubricant or surface does to a torque for the same clamp."""
    factors = {f.id: f for f in rows(store, TorqueFactor)}
    held = [factors[k] for k in FACTORS if k in factors]
    every = rows(store, NutFactor)
    ranges = [
        (min(found, key=lambda f: f.k_min), max(found, key=lambda f: f.k_max), found)
        for k in NUT_FACTORS
        if (found := [f for f in every if f.condition == k])
    ]
    return Faces(
        (
            table(
                ("against what is printed", "for", "x"),
                (
                    (
                        Cell(f.title.removesuffix(", machine maker").removesuffix(", vehicle use")),
                        Cell(f.base, "small"),
                        num(f, "factor_min", "big"),
                    )
                    for f in held
                ),
            ),
            Caution("Oil on a torque printed for dry tears the bolt."),
        ),
        (
            table(
                ("nut factor K", "least", "most"),
                (
                    (
                        Cell(
                            found[0]
                            .title.removesuffix(", nothing added")
                            .removesuffix(", as delivered")
                        ),
                        num(low, "k_min", "head")._replace(mark=""),
                        num(high, "k_max", "big")._replace(mark=""),
                    )
                    for low, high, found in ranges
                ),
            ),
            Text("Torque = K x diameter x clamp. Sources differ: hence least and most.", "small"),
        ),
        told(
            [
                *keyed("torque-factor", held),
                *(f"nut-factor:{found[0].condition}" for *_, found in ranges),
            ],
            held,
            [r for *_, found in ranges for r in found],
        ),
        "Nut factor",
    )


def how_true(store: sqlite3.Connection) -> Faces:
    """How far the clamp scatters by way of tightening, and what a wrench may be off."""
    found: dict[str, list[TighteningMethod]] = {}
    for m in rows(store, TighteningMethod):
        if m.scatter_max_pct is not None:
            found.setdefault(m.method, []).append(m)
    held = [found[k] for k in SCATTER if k in found]
    classes = {c.id: c for c in rows(store, WrenchClass)}

    def least(m: TighteningMethod) -> float:
        return m.scatter_min_pct or 0.0

    def most(m: TighteningMethod) -> float:
        return m.scatter_max_pct or 0.0

    wrenches = [classes[k] for k in CLASSES if k in classes]
    return Faces(
        (
            table(
                ("clamp scatters", "± % least", "most"),
                (
                    (
                        Cell(ms[0].title),
                        num(min(ms, key=least), "scatter_min_pct", "head")._replace(mark=""),
                        num(max(ms, key=most), "scatter_max_pct", "big")._replace(mark=""),
                    )
                    for ms in held
                ),
            ),
            Text(
                "The torque may be right and the clamp far off: friction eats most of it.", "small"
            ),
        ),
        (
            table(
                ("torque tool may be off", "± % to 10 N·m", "over"),
                (
                    (
                        Cell(c.title),
                        num(c, "small_deviation_pct", "head"),
                        num(c, "deviation_pct", "big"),
                    )
                    for c in wrenches
                ),
            ),
            Text(
                "Use its upper four fifths. Slacken the spring after work, test once a year or "
                "every 5000 pulls. 10 N·m are 7.4 lb·ft."
            ),
            Caution("A wrench that fell is untested until it has been tested."),
        ),
        practised(
            told(
                [*(f"tightening:{ms[0].method}" for ms in held), *keyed("wrench-class", wrenches)],
                [m for ms in held for m in ms],
                wrenches,
            ),
        ),
        "How true is the wrench?",
    )


def _order(count: int, shape: str, size: str | None = None) -> OrderAnswer:
    """The order of one pattern."""
    return tightening_order(count, shape, size=size)


def _sequence(answer: OrderAnswer) -> str:
    """An order as numbers with dashes."""
    return "-".join(map(str, answer.sequence))


def _drawn(
    answers: Sequence[OrderAnswer], sides_mm: Sequence[float], largest: float = 0.13
) -> Drawing:
    """Patterns drawn side by side, the turn in each circle."""
    return Drawing(
        "".join(
            order_svg(a.points, a.sequence, side, largest)
            for a, side in zip(answers, sides_mm, strict=True)
        )
    )


def _stages(answer: OrderAnswer) -> Text:
    """The passes of tightening as shares."""
    shares = [s.share_pct for s in answer.stages if s.share_pct]
    passes = ", ".join(f"{s:g} %" for s in dict.fromkeys(shares))
    return Text(f"All by hand first. Then {passes} of the torque in this order, last once round.")


def circles(_: sqlite3.Connection) -> Faces:
    """Order of bolts on a circle."""
    found = [_order(n, "circle") for n in (4, 5, 6, 8, 10, 12)]
    return Faces(
        (
            _drawn(found[:2], (26, 26), 0.175),
            _drawn(found[2:4], (26, 27.5), 0.175),
            Text("In the circle: its turn. Any bolt may be the first.", "small"),
            _stages(found[0]),
        ),
        (
            _drawn(found[4:], (26, 26)),
            table(
                ("bolts", "counted round"),
                ((head(f"{a.fasteners}"), Cell(_sequence(a), "plain")) for a in found),
            ),
            Caution("Loosen in reverse, a quarter turn each first: what is under load jumps."),
        ),
        told(["source:asme-pcc-1", "source:practice"])
        | {"sources": ("asme-pcc-1", "practice"), "marks": "p"},
        "Order, larger circles",
    )


def rectangles(_: sqlite3.Connection) -> Faces:
    """Order of bolts along a flange, a cover or a head."""
    few = [_order(2 * n, "grid", f"{n}x2") for n in (2, 3, 4)]
    long = [_order(2 * n, "grid", f"{n}x2") for n in (5, 7)]
    cover = _order(10, "rectangle", "4x3")
    return Faces(
        (
            _drawn(few[:2], (20, 32), 0.2),
            _drawn(few[2:], (44,)),
            _stages(few[0]),
            Text("From the middle outward, each against the last. A maker's order goes first."),
        ),
        (
            _drawn(long[:1], (40,)),
            _drawn(long[1:], (50,)),
            _drawn([cover], (27,)),
            Text("Last: a cover, bolts along its edge.", "small"),
            Caution("One side pulled down first cracks the cover."),
        ),
        practised(told(["source:practice"])),
        "Order, longer rows",
    )


def set_screws(store: sqlite3.Connection) -> Faces:
    """Torque of set screws, and what a prevailing nut drags."""
    found = rows(store, SetScrewTorque, grade="45H")
    heads = {h.size: h for h in rows(store, Head, standard="ISO 4026")}
    drags = [
        d
        for k in NUTS
        if (d := next(iter(rows(store, PrevailingTorque, thread=k, nut_class="5, 6 and 8")), None))
    ]
    threads = {t.id: t for t in rows(store, Thread)}

    def key(s: SetScrewTorque) -> Cell:
        h = heads.get(s.size)
        drive = row(store, Drive, id=h.drive) if h else None
        return num(drive, "across_flats_mm", "head") if drive else Cell("")

    return Faces(
        (
            table(
                ("45H set screw", "key mm", "proof N·m", "lb·ft"),
                (
                    (
                        head(s.size),
                        key(s),
                        num(s, "proof_torque_nm", "big"),
                        in_pounds(s, "proof_torque_nm"),
                    )
                    for s in found
                ),
            ),
            Caution("That is what key and socket stand at most: set two thirds."),
        ),
        (
            table(
                ("locking nut", "drags at most N·m", "fifth off, least"),
                (
                    (
                        head(threads[d.thread].size if d.thread in threads else d.thread),
                        num(d, "first_on_max_nm", "big"),
                        num(d, "fifth_off_min_nm", "head"),
                    )
                    for d in drags
                ),
            ),
            Text(
                "Classes 5, 6, 8. Add what it drags to the torque. Drags less than the last "
                "column: a new nut."
            ),
        ),
        practised(told(["grade:45H", *(f"thread:{d.thread}" for d in drags)], found, drags)),
        "Locking nuts",
    )


SKETCHES = (
    sketch("set-screws", "torque", "Set screws", "How hard may I turn them?", set_screws),
    sketch(
        "wrench-adapter",
        "torque",
        "Wrench adapters",
        "What do I set behind an adapter?",
        wrench_adapter,
    ),
    sketch(
        "lubricant-and-torque",
        "torque",
        "Oil and torque",
        "What does a lubricant change?",
        lubricant,
    ),
    sketch("how-true-is-it", "torque", "How true is it?", "How far off is the clamp?", how_true),
    sketch("order-circles", "torque", "Order: circles", "Which bolt next, on a circle?", circles),
    sketch(
        "order-rectangles", "torque", "Order: rows, covers", "Which bolt next, in rows?", rectangles
    ),
)
