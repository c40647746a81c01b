"""The first cards: what to settle before the first pull, and what not to do beside what."""

import sqlite3

from fastkit.answers.cards import row, rows
from fastkit.deck.card import (
    Card,
    Caution,
    Cell,
    Sketch,
    Step,
    Steps,
    Table,
    Text,
    gathered,
    standing,
)
from fastkit.deck.tables import num
from fastkit.records.hazard import Clearance, Hazard, Neighbour
from fastkit.records.method import Method

BEFORE = ("before-the-first-pull", "start", "Before the first pull", "What must be known first?")
BESIDE = ("beside-what", "start", "Beside what, how far?", "Nearer than this: not that method.")
GATES = ("unload", "isolate", "clean-recess")
FRONT = 8
SHOWN = ("flame", "sparks", "heat")
ORDER = (
    "fuel",
    "brake-fluid",
    "rubber",
    "wiring",
    "electronics",
    "plastic",
    "battery",
    "airbag",
    "refrigerant",
    "tyre",
    "pressurised",
)


def before(store: sqlite3.Connection) -> Card:
    """What would make every number wrong if it went unasked."""
    gates = [m for key in GATES if (m := row(store, Method, id=key))]
    return Card(
        *BEFORE,
        front=(
            Steps(
                (
                    Step(
                        "1",
                        "What does it hold back?",
                        "Spring, weight, pressure: take it off first.",
                    ),
                    Step("2", "What does the vehicle rest on?", "Stands, never only a jack."),
                    Step(
                        "3",
                        "Which way does it turn?",
                        "Left-hand threads: every direction reversed.",
                    ),
                    Step("4", "Can the far side be reached?", "Nut held, end cleaned, driven out."),
                    Step(
                        "5",
                        "Is the recess clean?",
                        "Paint and dirt out to the floor, then a new bit.",
                    ),
                    Step(
                        "6", "What stands beside it?", "Heat, sparks, current: see the next card."
                    ),
                )
            ),
            Caution(
                "Brakes, steering, restraint, fuel, pressure: qualified hands and the maker's "
                "specification."
            ),
        ),
        back=(
            Steps(
                tuple(
                    Step(str(n), m.title, f"about {m.minutes:g} min", standing(m.checked))
                    for n, m in enumerate(gates, 1)
                )
            ),
            Text(
                "Then, in this order: clean the thread that shows, soak, shock, try the right "
                "tool at full depth. A recess that has just begun to slip is worth more than "
                "one that is gone: making room first is often faster.",
                "plain",
            ),
            Text(
                "Coated? Zinc and cadmium give off toxic fume when heated. Stainless galls: "
                "slow, small arcs, never power.",
                "plain",
            ),
        ),
        back_title="Before the first pull",
        **gathered("method", gates),
    )


def beside(store: sqlite3.Connection) -> Card:
    """Least distances between a hazard and what stands beside the work."""
    hazards = {h.id: h for h in rows(store, Hazard)}
    neighbours = {n.id: n for n in rows(store, Neighbour)}
    limits = {(c.neighbour, c.hazard): c for c in rows(store, Clearance)}
    shown = [h for h in SHOWN if h in hazards]
    names = [n for n in ORDER if n in neighbours]

    def cell(neighbour: str, hazard: str) -> Cell:
        found = limits.get((neighbour, hazard))
        if found is None:
            return Cell("no limit", "small")
        return num(found, "forbid_mm", "big" if hazard == SHOWN[0] else "plain")

    used = [c for (n, h), c in limits.items() if n in names and h in shown]
    tables = [
        Table(
            ("beside, mm", *shown),
            tuple((Cell(n.replace("-", " "), "small"), *(cell(n, h) for h in shown)) for n in part),
        )
        for part in (names[:FRONT], names[FRONT:])
    ]
    arc = [c for n in names if (c := limits.get((n, "current")))]
    arcs = Table(
        ("welding current", "mm"),
        tuple(
            (
                Cell(c.neighbour.replace("-", " "), "plain"),
                num(c, "forbid_mm", "big"),
            )
            for c in arc[:4]
        ),
    )
    return Card(
        *BESIDE,
        front=(
            tables[0],
            Text(f"25 mm are 1 in, 300 mm 12 in. {_shielded(limits)}", "small"),
            Caution("Not sure what runs there? Take it for fuel."),
        ),
        back=(
            tables[1],
            arcs,
            Text("Move it, drain it or make room first. A wet rag is no shield for fuel."),
        ),
        back_title="Beside what, how far?",
        **gathered("neighbour", [neighbours[n] for n in names], [*used, *arc]),
    )


def _shielded(limits: dict[tuple[str, str], Clearance]) -> str:
    """How far off fuel still asks for a shield against a flame."""
    found = limits.get(("fuel", "flame"))
    if found is None:
        return ""
    metres = found.shield_mm / 1000
    return f"Fuel: shield and watch up to {metres:g} m ({metres / 0.3048:.0f} ft)."


SKETCHES = (Sketch(*BEFORE, before), Sketch(*BESIDE, beside))
