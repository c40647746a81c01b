"""Emergency cards by damage state: the plan of a stated situation, its room drawn."""

import re
import sqlite3
from collections.abc import Mapping
from functools import partial
from typing import Any, NamedTuple

from fastkit.answers.cards import row
from fastkit.answers.extract import extract_course
from fastkit.answers.wording import in_sentence
from fastkit.deck import damage
from fastkit.deck.card import (
    Block,
    Card,
    Caution,
    Drawing,
    Sketch,
    Step,
    Steps,
    Text,
    clean,
    gathered,
    standing,
)
from fastkit.records.drive import Drive
from fastkit.records.method import Method, Variant

STEPS = 3
"""Ways that a front tells, the last before stopping."""

GIVEN_UP = "machine-shop"
"""The move that is no way of one's own any more."""

LAST_WAY = "Last way: "
SHOP = "Machine shop, or a new part."

TERMS = (
    "Room free, nothing beside it, no induction coil. Else: fastkit extract. The maker's "
    "specification governs."
)
STEPS_MM = 43.0
"""Height that steps may take on a sleeve-sized front [mm]."""

SENTENCES = re.compile(r"(?<=\.) ")

BACK_LINES, LINE = 22, 46
"""Small lines that a back has room for, and letters a line."""


class Case(NamedTuple):
    """One damage state: its card, its picture, and the situation the plan is made for."""

    id: str
    title: str
    question: str
    picture: str
    stated: str
    options: Mapping[str, Any]


STATED = {
    "load": "none",
    "support": "stands",
    "thread": "M8x1.25",
    "grade": "8.8",
    "lack": ("induction-heater",),
}
SCREW = {**STATED, "kind": "screw", "drive": "hex-6mm"}
BOLT = {**STATED, "kind": "bolt", "drive": "AF-13mm"}
STUB = {**STATED, "kind": "stud", "seized": "rusted", "into": "cast-iron"}
CASES = (
    Case(
        "recess-worn",
        "Recess worn",
        "The bit has begun to slip. What now? Read the back first.",
        damage.recess_worn(),
        "M8 8.8 screw, 6 mm hex socket, rusted, in steel",
        {**SCREW, "damage": "worn", "seized": "rusted"},
    ),
    Case(
        "recess-stripped",
        "Recess stripped",
        "The bit turns freely in it. What now? Read the back first.",
        damage.recess_stripped(),
        "M8 8.8 screw, 6 mm hex socket, rusted, in steel",
        {**SCREW, "damage": "stripped", "seized": "rusted"},
    ),
    Case(
        "tool-stuck",
        "Bit stuck in it",
        "The bit broke off in the recess. What now? Read the back.",
        damage.tool_stuck(),
        "M8 8.8 screw, 6 mm hex socket, rusted, in steel",
        {**SCREW, "damage": "tool-stuck", "seized": "rusted"},
    ),
    Case(
        "tool-broken-in",
        "Broken extractor",
        "A hard stub sits in the hole. What now? Read the back first.",
        damage.tool_broken(),
        "M8 8.8, rusted, in cast iron",
        {**STUB, "damage": "extractor-broken"},
    ),
    Case(
        "hexagon-rounded",
        "Hexagon rounded",
        "The wrench slips round. What now? Read the back first.",
        damage.hexagon_rounded(),
        "M8 8.8 bolt, 13 mm hexagon, rusted, in steel",
        {**BOLT, "damage": "rounded", "seized": "rusted"},
    ),
    Case(
        "bolt-seized",
        "Sound but seized",
        "It will not move. What first? Read the back.",
        damage.seized(),
        "M8 8.8 bolt, 13 mm hexagon, seized, in steel",
        {**BOLT, "damage": "intact", "seized": "seized"},
    ),
    Case(
        "bolt-galled",
        "Galled stainless",
        "It turns ever harder. What now? Read the back first.",
        damage.galled(),
        "M8 A2-70 bolt, 13 mm hexagon, galled, in steel",
        {**BOLT, "grade": "A2-70", "damage": "intact", "seized": "galled"},
    ),
    Case(
        "bolt-locked",
        "Threadlocked",
        "High-strength adhesive holds it. What first? Read the back.",
        damage.locked(),
        "M8 8.8 bolt, 13 mm hexagon, high-strength threadlocker, in steel",
        {**BOLT, "damage": "intact", "seized": "threadlocked-high"},
    ),
    Case(
        "snapped-proud",
        "Snapped, proud",
        "A stump stands out. What now? Read the back first.",
        damage.snapped(4),
        "M8 8.8, rusted, in cast iron",
        {**STUB, "damage": "snapped-proud"},
    ),
    Case(
        "snapped-flush",
        "Snapped, flush",
        "It broke level with the face. What now? Read the back first.",
        damage.snapped(0),
        "M8 8.8, rusted, in cast iron",
        {**STUB, "damage": "snapped-flush"},
    ),
    Case(
        "snapped-below",
        "Snapped, below",
        "It broke inside the hole. What now? Read the back first.",
        damage.snapped(-3),
        "M8 8.8, rusted, in cast iron",
        {**STUB, "damage": "snapped-below"},
    ),
    Case(
        "turns-along",
        "Turns but stays",
        "It spins and does not come. What now? Read the back first.",
        damage.spinning(),
        "M8 8.8 bolt, 13 mm hexagon, in steel",
        {**BOLT, "damage": "spinning"},
    ),
    Case(
        "nut-turns-along",
        "Nut spins on stud",
        "The nut turns and stays. What now? Read the back.",
        damage.nut_spinning(),
        "M8 8.8 stud and nut, 13 mm hexagon",
        {**BOLT, "kind": "nut", "damage": "nut-spinning"},
    ),
    Case(
        "tube-nut-rounded",
        "Tube nut rounded",
        "The line wrench slips. What now? Read the back first.",
        damage.tube_nut_rounded(),
        "M10x1 tube nut, rusted, in steel; brake line bled of pressure",
        {
            "load": "none",
            "support": "stands",
            "lack": ("induction-heater",),
            "kind": "tube-nut",
            "thread": "M10x1",
            "damage": "rounded",
            "seized": "rusted",
            "near": ("brake-fluid",),
        },
    ),
)


def walked(case: Case, store: sqlite3.Connection) -> tuple[list[Any], str]:
    """
    What the plan does first, what it does first once that has failed, and so on; the last way.

    Each move stands with the chance that it has by then.
    """
    way: list[Any] = []
    last = ""
    while len(way) < STEPS:
        tried = tuple(move.method for move in way)
        answer, _ = extract_course("", most=1, store=store, tried=tried, **case.options)
        move: Any = answer.plan[0] if answer.plan else None
        if move is None or move.method == GIVEN_UP:
            break
        way.append(move)
        last = answer.stop_when[0].partition(". ")[0]
    return way, last


def card(case: Case, store: sqlite3.Connection) -> Card:
    """The card of one damage state."""
    way, last = walked(case, store)
    methods = [m for move in way if (m := row(store, Method, id=move.method))]
    variants = [row(store, Variant, method=move.method, id=move.variant) for move in way]
    steps = [
        Step(str(n), _title(methods, n), _how(move, variant, method), standing(method.checked))
        for n, (move, variant, method) in enumerate(zip(way, variants, methods, strict=True), 1)
    ]
    shown = _fitting(steps, last)
    way, methods = way[: len(shown) - 1], methods[: len(shown) - 1]
    front: tuple[Block, ...] = (
        Drawing(case.picture + _room(store, case, variants), _room_words(variants)),
        Steps(shown),
    )
    left = BACK_LINES - _lines(f"For: {case.stated}")
    caution = _caution(way, left - _lines(_told(way, 0)))
    left -= _lines(caution)
    back: list[Block] = []
    for n, move in enumerate(way):
        if move.method in {before.method for before in way[:n]}:
            continue
        if back and _lines(_told(way, n)) > left:
            break
        back.append(Text(_told(way, n), "small"))
        left -= _lines(_told(way, n))
    return Card(
        case.id,
        "emergency",
        case.title,
        case.question,
        front=front,
        back=(
            *back,
            Caution(caution),
            Text(f"For: {case.stated}. {TERMS}", "small"),
        ),
        back_title="How",
        **gathered("method", methods, [v for v in variants if v]),
    )


def _first(variants: list[Variant | None]) -> Variant | None:
    """The tool of the first move that needs room."""
    return next((v for v in variants if v and (v.above_mm or v.beside_mm)), None)


def _swing(store: sqlite3.Connection, case: Case, variant: Variant) -> float | None:
    """Arc that the tool needs [deg]; where the tool leaves it open, the drive's own."""
    if variant.swing_deg is not None:
        return variant.swing_deg or None
    drive = row(store, Drive, id=case.options.get("drive", ""))
    return drive.symmetry_deg if drive else None


def _room(store: sqlite3.Connection, case: Case, variants: list[Variant | None]) -> str:
    """The room of the first move, drawn."""
    v = _first(variants)
    return damage.room(v.above_mm, v.beside_mm, _swing(store, case, v)) if v else ""


def _room_words(variants: list[Variant | None]) -> str:
    """The drawn room in inches, and which step it is for."""
    v = _first(variants)
    if v is None:
        return "No room needed beyond the tool."
    above, beside = (f"{mm / 25.4:.1f} in" for mm in (v.above_mm, v.beside_mm))
    return f"{variants.index(v) + 1} needs {above} above, {beside} beside"


def _title(methods: list[Method], n: int) -> str:
    """The title of the nth move; one that has been made above is made once more."""
    *above, method = methods[:n]
    return f"{method.title}, once more" if method in above else method.title


def _how(move: Any, variant: Variant | None, method: Method) -> str:
    """Chance, minutes and tool of a move; a treatment has no chance of its own."""
    chance = f"chance {move.chance * 100:.0f} %" if method.kind != "treat" else "weakens the bond"
    tool = f": {variant.title}" if variant else ""
    return clean(f"{chance}, {move.minutes:.0f} min{tool}", 80)


def _fitting(steps: list[Step], last: str) -> tuple[Step, ...]:
    """As many steps as a front has room for, the sign to stop last."""
    shown = (*steps, _stop(steps, last))
    if len(steps) > 1 and sum(map(_height, shown)) > STEPS_MM:
        return _fitting(steps[:-1], last)
    return shown


def _stop(steps: list[Step], last: str) -> Step:
    """When to stop: after the last way, which is named where it is none of the steps."""
    named = last.removeprefix(LAST_WAY) not in {in_sentence(step.title) for step in steps}
    return Step("STOP", "The last way failed too", clean(f"{last}.", 60) if named else SHOP)


def _height(step: Step) -> float:
    """About how tall a step stands on a sleeve-sized card [mm]."""
    bold = -(-len(step.title) // (24 if len(step.tag) > 1 else 27))
    return 3.35 * bold + 2.8 * -(-len(step.text) // 44) + 1.0


def _told(way: list[Any], n: int) -> str:
    """How a move is done, by its number on the front."""
    return f"{n + 1}: {' '.join(way[n].steps)}"


def _caution(way: list[Any], lines: int) -> str:
    """
    As many cautions of the moves, the first move's first, as fit, no sentence twice; how to do it
    comes after.
    """
    words = ""
    for text in dict.fromkeys(t for move in way for t in move.cautions):
        new = " ".join(said for said in SENTENCES.split(text) if said not in words)
        if _lines(f"{words} {new}") <= lines:
            words = f"{words} {new}".strip()
    return words


def _lines(words: str) -> int:
    """Small lines that words take."""
    return -(-len(words) // LINE)


SKETCHES = tuple(
    Sketch(case.id, "emergency", case.title, case.question, partial(card, case)) for case in CASES
)
