"""Cards to cut out and to write on, and those of the user's own file."""

import sqlite3
from collections.abc import Sequence

from fastkit.answers.notes import notes
from fastkit.answers.shelf import listed
from fastkit.deck import profiles
from fastkit.deck.card import Caution, Cell, Drawing, Sketch, Text, clean
from fastkit.deck.drawings import label, line, outlined, svg
from fastkit.deck.tables import Faces, lbft, practised, sketch, table, told

LABELS = "ABCDEFGH"
LABEL_W_MM, LABEL_H_MM = 27.3, 16.2
FIELDS = (
    "vehicle or machine",
    "place",
    "thread, length",
    "class, finish",
    "drive, wrench",
    "torque, angle",
    "lock, paste",
    "order, stages",
    "new parts",
)
READINGS = ("outside mm", "over ten mm", "length mm", "across flats", "recess", "head mark")
WRITTEN = practised(told(["source:practice"]))
"""What stands behind cards to write on: that it is worth noting."""

ROWS = 8
"""Values of the own file on one face."""


def labels(_: sqlite3.Connection) -> Faces:
    """Letters to cut out and lay beside what was taken off."""
    return Faces(
        (Drawing(_letters(False)),),
        (Drawing(_letters(True)),),
        WRITTEN,
        "Job labels, backs",
    )


def _letters(back: bool) -> str:
    """Eight labels; on the back each column behind its own."""
    body = ""
    for k, letter in enumerate(LABELS):
        column, place = k % 2, k // 2
        x = ((1 - column) if back else column) * LABEL_W_MM
        y = place * LABEL_H_MM
        frame = profiles.rectangle(LABEL_W_MM, LABEL_H_MM, (x + LABEL_W_MM / 2, y + LABEL_H_MM / 2))
        dashed = 'fill="none" stroke="#000" stroke-width="0.25" stroke-dasharray="1 1"'
        body += f'<path d="{frame}" {dashed}/>'
        body += label(x + 7.4, y + 13.0, letter, 14.0, bold=True)
        for down in (5.2, 9.6, 14.0):
            body += line([(x + 14.5, y + down), (x + LABEL_W_MM - 1.5, y + down)], 0.15)
    high = LABEL_H_MM * len(LABELS) / 2
    return svg(2 * LABEL_W_MM + 0.2, high + 0.2, "Labels A to H to cut out", body)


def blank_job(_: sqlite3.Connection) -> Faces:
    """One job's fasteners to write down."""
    return Faces(
        (Drawing(_ruled(FIELDS, 7.2)),),
        (
            Drawing(
                _ruled(("what went wrong", "tried, in order", "what freed it", "next time"), 15.6)
            ),
        ),
        WRITTEN,
        "What happened",
    )


def _ruled(fields: Sequence[str], step_mm: float) -> str:
    """Fields with a line to write on."""
    body = ""
    for k, name in enumerate(fields):
        y = (k + 1) * step_mm
        body += label(0, y - step_mm + 2.4, name, 2.1, "start")
        lines = max(1, int(step_mm // 7))
        for n in range(lines):
            down = y - n * step_mm / lines
            body += line([(0 if n or lines > 1 else 20, down), (54.6, down)], 0.15)
    return svg(54.8, len(fields) * step_mm + 0.4, "Fields to fill in: " + ", ".join(fields), body)


def blank_measure(_: sqlite3.Connection) -> Faces:
    """Readings to write down at the part, for each letter."""
    return Faces(
        (Drawing(_grid("ABCD")), Text("Then: fastkit identify.", "small")),
        (
            Drawing(_grid("EFGH")),
            Text("Caliper closed reads 0.00? Clean the thread first.", "small"),
        ),
        WRITTEN,
        "Readings, E to H",
    )


def _grid(letters: str) -> str:
    """A column a letter, a line a reading."""
    first, wide, tall = 15.0, 9.9, 9.0
    body = "".join(
        label(first + (k + 0.5) * wide, 5.2, letter, 5.2, bold=True)
        for k, letter in enumerate(letters)
    )
    for k, name in enumerate(READINGS):
        y = 6.6 + k * tall
        body += label(0, y + tall - 1.2, name, 2.3, "start")
        for n in range(len(letters)):
            box = profiles.rectangle(wide, tall, (first + (n + 0.5) * wide, y + tall / 2))
            body += outlined(box, 0.15)
    return svg(54.8, 6.8 + len(READINGS) * tall, "Boxes for readings", body)


def own_torques(_: sqlite3.Connection) -> Faces:
    """Makers' values that the user has noted."""
    held = list(reversed(notes().torques))
    lines = [
        (
            Cell(clean(f"{m.machine}, {m.place}", 44)),
            Cell(f"{m.torque_nm:.4g}", "big"),
            Cell(lbft(m.torque_nm), "head"),
        )
        for m in held
    ]
    heads = ("place", "N·m", "lb·ft")
    read = "; ".join(dict.fromkeys(clean(m.read_in, 40) for m in held[: 2 * ROWS]))
    return Faces(
        (
            table(heads, lines[:ROWS], "your notes"),
            Caution("As you noted them. Check against the maker's book."),
        ),
        (
            table(heads, lines[ROWS : 2 * ROWS], "your notes"),
            Text(clean(f"Read in: {read}", 300), "small"),
        ),
        told([]),
        "Your torques, more",
    )


def own_tools(_: sqlite3.Connection) -> Faces:
    """Tools at hand and the room they were measured to need."""
    held = listed("tools").rows

    def mm(value: float | None) -> str:
        return "" if value is None else f"{value:g}"

    lines = [
        (
            Cell(clean(f"{t.tool} {t.size}", 34)),
            Cell(mm(t.above_mm), "head"),
            Cell(mm(t.beside_mm), "head"),
            Cell(mm(t.swing_deg), "plain"),
        )
        for t in held
    ]
    heads = ("tool", "above mm", "beside mm", "swing °")
    return Faces(
        (table(heads, lines[: 2 * ROWS], "your tools"),),
        (
            table(heads, lines[2 * ROWS : 4 * ROWS], "your tools"),
            Text("Room as you measured it; empty: not measured. 25 mm are 1 in.", "small"),
        ),
        told([]),
        "Your tools, more",
    )


def own_sketches() -> tuple[Sketch, ...]:
    """Cards of the own file, where it holds something to print."""
    found = []
    if notes().torques:
        found.append(
            sketch("own-torques", "deck", "Your torques", "What did the maker say?", own_torques)
        )
    if listed("tools").rows:
        found.append(
            sketch("own-tools", "deck", "Your tools", "What is at hand, what room?", own_tools)
        )
    return tuple(found)


SKETCHES = (
    sketch("job-labels", "deck", "Job labels", "Which part came from where?", labels),
    sketch("blank-job", "deck", "Write it down", "What was it, for next time?", blank_job),
    sketch("blank-measure", "deck", "Readings", "What did I measure?", blank_measure),
)
