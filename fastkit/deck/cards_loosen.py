"""Cards on weakening a bond: what a treatment leaves of it, and what heat does on the way."""

import sqlite3

from fastkit.answers.cards import row, rows
from fastkit.deck.card import Block, Caution, Cell, Figure, Figures, Step, Steps, Text
from fastkit.deck.tables import Faces, head, keyed, num, sketch, table, told
from fastkit.mechanics.heat import gap_change, rise_for
from fastkit.records.compound import Compound, CompoundLimit, Flammability
from fastkit.records.finish import Finish, FinishLimit
from fastkit.records.material import Material
from fastkit.records.method import BondEffect, Method, MethodText
from fastkit.records.thread import Thread

TREATMENTS = (
    ("flame-heat", "flame or coil"),
    ("soak-penetrant", "soak"),
    ("shock-tap", "blows"),
    ("work-back-and-forth", "back and forth"),
    ("warm-host", "warm body"),
    ("chill-spray", "chill"),
)
SEIZED = (("rusted", "rusted"), ("galled", "galled"), ("threadlocked-high", "glued"))
TOLD = ("soak-penetrant", "shock-tap", "flame-heat")
MELTS = (
    ("zinc-plated", "melts"),
    ("cadmium-plated", "melts"),
    ("ptfe", "fume"),
    ("tin-plated", "melts"),
    ("cadmium-plated", "cracks stressed steel"),
    ("hot-dip", "service"),
    ("zinc-plated", "chromate fails"),
)
LETS_GO = ("threadlocker-high-heat", "threadlocker-high", "threadlocker-medium", "threadlocker-low")
BURNS = (
    "penetrant-aerosol",
    "penetrant-naphtha",
    "penetrant-acetone-atf",
    "cleaner-heptane",
    "cleaner-isopropyl",
    "cleaner-ethanol",
    "penetrant-dry-cleaning",
    "penetrant-kerosene",
    "penetrant-solids",
    "penetrant-ester",
)
HEATED = ("M5x0.8", "M6x1", "M8x1.25", "M10x1.5", "M12x1.75", "M16x2", "M20x2.5")
RISE_K, NUT_RISE_K, WANTED_MM = 100.0, 300.0, 0.02


def fahrenheit(celsius: float) -> str:
    """
    The same temperature in the other system.

    Args:
        celsius: Temperature [°C].
    """
    return f"{round(celsius * 9 / 5 + 32)} °F"


def bond_left(store: sqlite3.Connection) -> Faces:
    """What is left of a bond after each treatment, and how three of them are done."""
    effects = {(e.method, e.seizure): e for e in rows(store, BondEffect)}
    methods = {m.id: m for m in rows(store, Method)}
    held = [(m, word) for m, word in TREATMENTS if m in methods]
    used = [effects[m, s] for m, _ in held for s, _ in SEIZED if (m, s) in effects]

    def share(method: str, seizure: str) -> Cell:
        effect = effects.get((method, seizure))
        return num(effect, "factor", "big", 100, 0)._replace(mark="") if effect else Cell("")

    how = tuple(
        Step(str(n), methods[m].title, _way(store, m, 2), "p")
        for n, m in enumerate((m for m in TOLD if m in methods), 1)
    )
    return Faces(
        (
            table(
                (Cell("% left", mark="p"), *(word for _, word in SEIZED)),
                ((Cell(word, "plain"), *(share(m, s) for s, _ in SEIZED)) for m, word in held),
            ),
            Text("Of 100 % bond, so much is left after doing it once. Two multiply.", "small"),
            Caution("A soak that burns: no flame, spark or coil until it is cleaned off and dry."),
        ),
        (Steps(how),),
        told(keyed("method", [methods[m] for m, _ in held]), used),
        "How",
    )


def _way(store: sqlite3.Connection, method: str, most: int) -> str:
    """The first steps of a method in its own words."""
    steps = [t.text for t in rows(store, MethodText, method=method, part="step")]
    return " ".join(steps[:most])


def heat_limits(store: sqlite3.Connection) -> Faces:
    """Temperatures at which coatings give fume or fail, and at which threadlocker lets go."""
    finishes = {f.id: f for f in rows(store, Finish)}
    limits = [
        limit
        for finish, what in MELTS
        if (limit := row(store, FinishLimit, finish=finish, what=what)) and finish in finishes
    ]
    limits.sort(key=lambda limit: -limit.temperature_degc)
    compounds = {c.id: c for c in rows(store, Compound)}
    low = {c.compound: c for c in rows(store, CompoundLimit, what="lets go from")}
    high = {c.compound: c for c in rows(store, CompoundLimit, what="lets go to")}
    lockers = [c for c in LETS_GO if c in low and c in high]

    def melts(limit: FinishLimit) -> tuple[Cell, ...]:
        name = finishes[limit.finish].title.replace(" or fluoropolymer top coat", "")
        return (
            Cell(f"{name.replace(' electroplate', '')}: {limit.what}"),
            num(limit, "temperature_degc", "big"),
            Cell(fahrenheit(limit.temperature_degc), "small"),
        )

    def lets_go(id: str) -> tuple[Cell, ...]:
        name = compounds[id].title.removeprefix("Threadlocker, ")
        return (
            Cell(name.capitalize()),
            num(low[id], "temperature_degc", "big"),
            num(high[id], "temperature_degc", "big"),
        )

    return Faces(
        (
            table(("what", "°C", "°F"), (melts(limit) for limit in limits)),
            Caution("Zinc and cadmium fume makes ill or kills: grind it off first, strong air."),
        ),
        (
            table(("threadlocker", "softens from °C", "to °C"), (lets_go(c) for c in lockers)),
            Text(
                "150 °C is 302 °F, 232 is 450, 316 is 601. Turn while hot: it hardens again when "
                "cold. Rusted steel is turned after the glow has gone."
            ),
            Caution("Never above 316 °C (600 °F): hardened bolts soften."),
        ),
        told(
            [*keyed("finish", limits, "finish"), *(f"compound:{c}" for c in lockers)],
            limits,
            [low[c] for c in lockers],
            [high[c] for c in lockers],
        ),
        "Threadlocker lets go",
    )


def flash_points(store: sqlite3.Connection) -> Faces:
    """From which temperature a soak or cleaner gives off vapour that lights."""
    compounds = {c.id: c for c in rows(store, Compound)}
    lowest: list[Flammability] = []
    for key in BURNS:
        found = [
            f
            for f in rows(store, Flammability, compound=key)
            if f.flash_min_degc is not None and key in compounds
        ]
        if found:
            lowest.append(min(found, key=lambda f: f.flash_min_degc or 0.0))
    lowest.sort(key=lambda f: f.flash_min_degc or 0.0)

    def name(key: str) -> str:
        said = compounds[key].title.partition(": ")[2] or compounds[key].title
        said = said.split(", brake")[0].replace("automatic transmission fluid, 1 to 1", "oil")
        return said[:1].upper() + said[1:]

    def line(f: Flammability) -> tuple[Cell, ...]:
        return (
            Cell(name(f.compound)),
            num(f, "flash_min_degc", "big"),
            Cell(fahrenheit(f.flash_min_degc or 0.0), "small"),
        )

    heads = ("vapour lights from", "°C", "°F")
    return Faces(
        (
            table(heads, (line(f) for f in lowest[:8])),
            Caution("Below room temperature it always lights. No flame, iron, coil or spark."),
        ),
        (
            table(heads, (line(f) for f in lowest[8:])),
            Text(
                "Clean it off and let it dry in moving air before any heat or spark. Rags burn "
                "too: outside, in a closed metal can."
            ),
            Caution(
                "Chlorinated cleaner, even dry: no heat, arc or grinding near it at all. It makes "
                "phosgene, which kills hours later."
            ),
        ),
        told(keyed("compound", lowest, "compound"), lowest),
    )


def heat_gap(store: sqlite3.Connection) -> Faces:
    """How far heat opens a joint, by thread."""
    steel = row(store, Material, id="steel")
    light = row(store, Material, id="aluminium")
    threads = {t.id: t for t in rows(store, Thread)}
    held = [threads[k] for k in HEATED if k in threads]
    if steel is None or light is None or not steel.expansion_per_k or not light.expansion_per_k:
        return Faces((), (), told(()))
    alpha_steel, alpha_light = steel.expansion_per_k, light.expansion_per_k

    def line(t: Thread) -> tuple[Cell, ...]:
        body = gap_change(t.nominal_mm, alpha_light, RISE_K, alpha_steel, RISE_K)
        nut = gap_change(t.nominal_mm, alpha_steel, NUT_RISE_K, alpha_steel, 0.0)
        return (
            head(t.size),
            Cell(f"{body:.3f}", "big"),
            Cell(f"{nut:.3f}", "big"),
        )

    front: tuple[Block, ...] = (
        table(
            ("thread", "aluminium body +100 K", "nut alone +300 K"),
            (line(t) for t in held),
        ),
        Text("Growth of the gap across, mm. 0.025 mm is .001 in; 100 K are 180 °F.", "small"),
    )
    eight = next((t for t in held if t.size == "M8"), held[0])
    rise = rise_for(WANTED_MM, eight.nominal_mm, alpha_steel)
    return Faces(
        front,
        (
            Figures(
                (
                    Figure(
                        f"Steel nut {eight.size}: {WANTED_MM:g} mm (.0008 in) wants it hotter by",
                        f"{rise:.0f}",
                        "K",
                        f"{rise * 9 / 5:.0f} °F",
                    ),
                )
            ),
            Steps(
                (
                    Step("1", "Heat what is outside", "The nut or body, not the bolt: fast, hot."),
                    Step("2", "Aluminium: warm it all", "100 °C (212 °F) does it, no flame."),
                    Step("3", "Then chill the bolt", "Spray on its end, turn at once."),
                )
            ),
            Caution(
                "A closed hollow part bursts. Seals, hoses, bearings and temper near it go first."
            ),
        ),
        told((f"material:{m.id}" for m in (steel, light)), steel, light, held),
        "Heat: the figures",
    )


SKETCHES = (
    sketch("bond-left", "loosen", "Soak, blows, heat", "How much bond is left?", bond_left),
    sketch(
        "heat-limits", "loosen", "How hot is too hot?", "What melts, fumes, lets go?", heat_limits
    ),
    sketch(
        "flash-points", "loosen", "What burns in a soak", "From when does it light?", flash_points
    ),
    sketch(
        "heat-gap", "loosen", "How far heat opens it", "What does heat gain, by thread?", heat_gap
    ),
)
