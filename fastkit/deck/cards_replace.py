"""Cards on what may replace a fastener: length, engagement, metals, locking, nuts, washers."""

import re
import sqlite3
from collections.abc import Sequence

from fastkit.answers.cards import row, rows
from fastkit.deck.card import Caution, Cell, Drawing, Step, Steps, Text, clean, inches
from fastkit.deck.length_drawing import length_rule
from fastkit.deck.metal_drawing import metal_scale
from fastkit.deck.tables import Faces, head, keyed, num, practised, sketch, table, told, word
from fastkit.notation.units import LBFT_NMM
from fastkit.records.compound import Compound, CompoundLimit, LockerStrength
from fastkit.records.galvanic import AnodicIndex, Environment, Metal, Pair
from fastkit.records.head import Head
from fastkit.records.replacement import ReuseRule
from fastkit.records.stuff import Engagement
from fastkit.records.thread import Thread
from fastkit.records.tightening import ReuseTorque
from fastkit.records.washer import Washer

LENGTHS = ("M4x0.7", "M5x0.8", "M6x1", "M8x1.25", "M10x1.5", "M12x1.75", "M16x2")
BODIES = (
    "steel-360",
    "steel-500",
    "grey-iron",
    "aluminium-hardened",
    "aluminium-cast",
    "aluminium-die-cast",
    "magnesium-die-cast",
)
SHORT = {
    "zinc-plated": "zinced",
    "cast-iron": "cast iron",
    "aluminium-2000": "aluminium 2000",
    "tin-plated": "tinned",
    "cadmium-plated": "cadmium",
}
BODIES_DRAWN = (
    "copper",
    "stainless",
    "lead",
    "aluminium-2000",
    "cast-iron",
    "aluminium",
    "galvanised",
    "magnesium",
)
BOLTS_DRAWN = (
    "titanium",
    "brass",
    "stainless",
    "tin-plated",
    "steel",
    "aluminium",
    "cadmium-plated",
    "zinc-plated",
)
PLACES = {"harsh": "outdoors, salt", "normal": "unheated store", "controlled": "dry room"}
BOLT_METALS = ("zinc-plated", "stainless", "brass", "steel")
BODY_METALS = ("aluminium", "steel", "cast-iron", "galvanised", "stainless", "brass", "magnesium")
LOCKERS = ("threadlocker-low", "threadlocker-medium", "threadlocker-high")
DRAGS = ("1/4-20-UNC", "5/16-18-UNC", "3/8-16-UNC", "7/16-14-UNC", "1/2-13-UNC", "5/8-11-UNC")
RULES = {
    "to-yield": "Tightened to an angle",
    "stretched": "Stretched, bent, cracked",
    "galled": "Galled",
    "cotter": "Castle nut, split pin",
    "lock-nut": "Locking nut",
    "sound": "Plain bolt, thread whole",
}
VERDICTS = {"renew": "NEW", "reuse": "OK", "measure": "LOOK"}
THREADS_OUT = 2  # pitches that stand out of a nut


def length(store: sqlite3.Connection) -> Faces:
    """What a bolt must be longer than what it clamps."""
    threads = {t.id: t for t in rows(store, Thread)}
    washers = {w.size: w for w in rows(store, Washer, standard="ISO 7089")}
    nuts = {h.size: h for h in rows(store, Head, standard="ISO 4032")}
    held = [t for k in LENGTHS if (t := threads.get(k)) and t.size in washers and t.size in nuts]

    def line(t: Thread) -> tuple[Cell, ...]:
        washer, nut = washers[t.size].thickness_mm, nuts[t.size].head_height_mm or 0.0
        add = washer + nut + THREADS_OUT * t.pitch_mm
        return (
            head(t.size),
            Cell(f"{add:.1f}", "big"),
            Cell(inches(add), "small"),
            Cell(f"{washer:g} + {nut:g} + {THREADS_OUT * t.pitch_mm:g}", "small"),
        )

    return Faces(
        (
            Drawing(length_rule(), "Length: what it clamps, washer, nut, two pitches out."),
            table(("add to the grip", "mm", "in", "washer, nut, 2 P"), (line(t) for t in held)),
        ),
        (
            Steps(
                (
                    Step(
                        "1",
                        "Nut: grip plus the front",
                        "Then the next length up. A washer more, not a thread less.",
                    ),
                    Step(
                        "2",
                        "Tapped: grip plus engagement",
                        "Card Engagement. Blind: 2 pitches must stay free below.",
                    ),
                    Step(
                        "3", "Countersunk: head counts", "All others are measured under the head."
                    ),
                    Step(
                        "4",
                        "Shank in the shear plane",
                        "The thread must not stand where parts shear it.",
                    ),
                )
            ),
            Caution("Too long in a blind hole feels tight and clamps nothing."),
        ),
        practised(
            told(
                keyed("thread", held),
                held,
                [washers[t.size] for t in held],
                [nuts[t.size] for t in held],
            ),
        ),
        "Which length: rules",
    )


def engagement(store: sqlite3.Connection) -> Faces:
    """Least engagement by body, in diameters and for two sizes in mm."""
    found = {(e.body, e.bolts): e for e in rows(store, Engagement, series="coarse")}
    held = [b for b in BODIES if (b, "8.8") in found]

    def name(e: Engagement) -> str:
        words = re.sub(r"-?[0-9]+", "", e.body).replace("-", " ").capitalize()
        return f"{words}, {e.tensile_min_mpa:g} MPa" if e.tensile_min_mpa else words

    def line(body: str) -> tuple[Cell, ...]:
        first = found[body, "8.8"]
        second = found.get((body, "10.9"))
        return (
            Cell(name(first)),
            num(first, "length_d", "big"),
            num(second, "length_d", "head") if second else Cell(""),
            num(first, "length_d", factor=8.0)._replace(mark=""),
        )

    rules = [e for e in rows(store, Engagement, bolts="any") if e.body != "aluminium-any"]
    used = [found[b, c] for b in held for c in ("8.8", "10.9") if (b, c) in found]
    return Faces(
        (
            table(("diameters for", "8.8", "10.9", "M8, mm"), (line(b) for b in held)),
            Text("From trials, coarse thread, full and clean. Less strips the body.", "small"),
        ),
        (
            table(
                ("rule of thumb", "diameters"),
                ((word(e, "title", limit=40), num(e, "length_d", "big")) for e in rules),
            ),
            Text(
                "M8 at 1.5 diameters: 12 mm, .472 in. Count whole threads only: not the "
                "countersink, not the tip."
            ),
        ),
        told(
            [*(f"engagement:{b}" for b in held), *keyed("engagement", rules, "body")], used, rules
        ),
        "Engagement: rules",
    )


def galvanic(store: sqlite3.Connection) -> Faces:
    """How far apart two metals stand, and which pairs may get wet."""
    metals = {m.id: m for m in rows(store, Metal)}
    indices = {i.id: i for i in rows(store, AnodicIndex)}
    pairs = {frozenset((p.first, p.second)): p for p in rows(store, Pair)}
    places = {e.id: e for e in rows(store, Environment)}
    used: list[Pair] = []

    def cell(body: str, bolt: str) -> Cell:
        if body == bolt:
            return Cell("same", "small")
        pair = pairs.get(frozenset((body, bolt)))
        if pair is None:
            return Cell("", "small")
        used.append(pair)
        return Cell("NO", "big") if pair.harsh == "unfit" else Cell("ok", "plain")

    def short(id: str) -> str:
        return SHORT.get(id, id)

    def drawn(keys: Sequence[str]) -> list[tuple[str, str, float]]:
        held = [metals[k] for k in keys if k in metals]
        return [(m.id, short(m.id), indices[m.anodic_index].index_v) for m in held]

    bodies = [b for b in BODY_METALS if b in metals]
    bolts = [b for b in BOLT_METALS if b in metals]
    lines = [(Cell(short(b), "fine"), *(cell(b, bolt) for bolt in bolts)) for b in bodies]
    gaps = [(word, places[k].limit_v) for k, word in PLACES.items() if k in places]
    shown = [
        metals[m]
        for m in dict.fromkeys((*BODIES_DRAWN, *BOLTS_DRAWN, *bodies, *bolts))
        if m in metals
    ]
    return Faces(
        (
            Drawing(metal_scale(drawn(BODIES_DRAWN), drawn(BOLTS_DRAWN), gaps)),
            Text(
                "Left the body, right the bolt. Farther apart up and down than the bar: not "
                "together. The lower one goes.",
                "small",
            ),
        ),
        (
            table(("body, bolt:", *(short(b) for b in bolts)), lines),
            Text(
                "NO: outdoors, salt. Zinc on steel goes first: that is its work. Worst: a small "
                "bolt lower on the scale than a large body. Keep water out: paste, sealed washer, "
                "paint on the nobler one.",
                "small",
            ),
        ),
        practised(
            told(
                [*keyed("metal", shown), *keyed("pair", list(dict.fromkeys(used)))],
                shown,
                [indices[m.anodic_index] for m in shown],
                [places[k] for k in PLACES if k in places],
            ),
        ),
        "Which pair stays, wet?",
    )


def lockers(store: sqlite3.Connection) -> Faces:
    """What each threadlocker holds, and up to which heat."""
    compounds = {c.id: c for c in rows(store, Compound)}
    strengths = {s.compound: s for s in rows(store, LockerStrength, bolt="M10")}
    service = {c.compound: c for c in rows(store, CompoundLimit, what="service to")}
    held = [k for k in LOCKERS if k in compounds and k in strengths and k in service]

    def line(k: str) -> tuple[Cell, ...]:
        s = strengths[k]
        return (
            Cell(k.removeprefix("threadlocker-"), "head"),
            Cell(f"{s.breakaway_min_nm:g}-{s.breakaway_max_nm:g}", "big", "p"),
            Cell(f"{s.breakaway_min_nm / 1.3558:.0f}-{s.breakaway_max_nm / 1.3558:.0f}", "small"),
            num(service[k], "temperature_degc", "head"),
        )

    return Faces(
        (
            table(("strength", "M10 breaks loose, N·m", "lb·ft", "to °C"), (line(k) for k in held)),
            Steps(
                (
                    Step("1", "Clean, dry, oil-free", "Oil in the thread takes most of it."),
                    Step(
                        "2",
                        "Low: screws to M6",
                        "Medium: M6 to M20, hand tools. High: heat to undo.",
                    ),
                    Step(
                        "3", "24 h to full strength", "Slow on stainless, zinc, anodised: primer."
                    ),
                )
            ),
        ),
        (
            Text(
                "Torque while it is wet: it lubricates about as oil does. Tighten once, do not "
                "back off."
            ),
            Text(
                "149 °C are 300 °F. Above that it lets go by itself: exhaust, turbo, brakes "
                "need another lock."
            ),
            Steps(
                (
                    Step("a", "Spring washers lock nothing", "Under a hard bolt they lie flat."),
                    Step(
                        "b",
                        "A stretched bolt locks itself",
                        "Long, thin, tight: grip of five diameters.",
                    ),
                    Step(
                        "c",
                        "Castle nut, pin, wire",
                        "Where losing it hurts: fuel, steering, brakes.",
                    ),
                )
            ),
            Caution("It cracks stressed plastic, and is never used where there is oxygen gas."),
        ),
        practised(
            told(
                [f"compound:{k}" for k in held],
                [strengths[k] for k in held],
                [service[k] for k in held],
            ),
        ),
        "Locking: rules",
    )


def reuse(store: sqlite3.Connection) -> Faces:
    """What goes in again and what never does."""
    rules = [r for k in RULES if (r := row(store, ReuseRule, id=k))]
    drags = [
        d
        for k in DRAGS
        if (d := next(iter(rows(store, ReuseTorque, thread=k, nut="nylon insert or patch")), None))
    ]

    def step(rule: ReuseRule) -> Step:
        return Step(
            VERDICTS[rule.verdict], RULES[rule.id], clean(re.split("[;:.]", rule.because)[0], 80)
        )

    return Faces(
        (
            Steps(tuple(step(r) for r in rules)),
            Caution("Brakes, steering, restraint, wheels: the maker's word, not this card."),
        ),
        (
            table(
                ("used locking nut", "must drag lb·in", "N·m"),
                (
                    (
                        head(d.thread.removesuffix("-UNC")),
                        num(d, "drag_min_nm", "big", 1000 / (LBFT_NMM / 12), 1),
                        num(d, "drag_min_nm", "head", digits=2),
                    )
                    for d in drags
                ),
            ),
            Text(
                "Nylon insert or patch, turned without load. Less: a new one. Metric: card Set "
                "screws, back."
            ),
        ),
        practised(told([f"thread:{d.thread}" for d in drags], drags, rules)),
        "Does it still lock?",
    )


SKETCHES = (
    sketch("length-rule", "replace", "Which length?", "How much longer than the grip?", length),
    sketch("engagement", "replace", "Engagement", "How deep must it go in?", engagement),
    sketch("galvanic", "replace", "Metal beside metal", "How far apart may they stand?", galvanic),
    sketch("lockers", "replace", "Threadlocker", "Which strength, and how undone?", lockers),
    sketch("reuse", "replace", "New or again?", "May it go in once more?", reuse),
)
