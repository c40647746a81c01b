"""Cards on what a head shows: marks of strength drawn, and what stands behind them."""

import sqlite3
from collections.abc import Sequence

from fastkit.answers.cards import row, rows
from fastkit.deck import profiles
from fastkit.deck.card import Caution, Drawing, Text
from fastkit.deck.drawings import NUMERAL_MM, label, outlined, svg
from fastkit.deck.tables import Faces, sketch, told
from fastkit.records.grade import Grade, GradeRow, MarkStroke, NutRow

METRIC = ("4.6", "5.8", "8.8", "10.9", "12.9", "A2-50", "A2-70", "A4-80")
NUTS = (
    ("nut-6", "face"),
    ("nut-8", "face"),
    ("nut-10", "face"),
    ("nut-6", "clock"),
    ("nut-8", "clock"),
    ("nut-10", "clock"),
    ("nut-12", "clock"),
    ("nut-05", "face"),
)
INCH = ("SAE-2", "SAE-5", "SAE-5.2", "SAE-7", "SAE-8", "A307", "A325", "A490")
INCH_NUTS = (
    ("nut-SAE-2", "face"),
    ("nut-SAE-5", "face"),
    ("nut-SAE-8", "face"),
    ("A193-B7", "head"),
    ("A193-B8-1", "head"),
    ("A193-B8-2", "head"),
)
CELL_W_MM, CELL_H_MM, RADIUS_MM = 13.7, 21.2, 5.6
MPA_PER_KSI = 6.894757


def _stroke(s: MarkStroke, most_mm: float) -> str:
    """One stroke, line or word of a mark; y points upward in the data."""
    r = RADIUS_MM * 0.88
    x, y = s.x1 * r, -s.y1 * r
    if s.shape == "text":
        size = min(most_mm, 10.4 / max(len(s.text or ""), 1))
        return label(x, y + size * 0.35, s.text or "", size, bold=True)
    if s.shape == "dot":
        return f'<circle cx="{x:.3f}" cy="{y:.3f}" r="0.55" fill="#000"/>'
    ends = (("x1", x), ("y1", y), ("x2", (s.x2 or 0.0) * r), ("y2", -(s.y2 or 0.0) * r))
    places = " ".join(f'{name}="{value:.3f}"' for name, value in ends)
    return f'<line {places} stroke="#000" stroke-width="0.6"/>'


def _face(grade: str, strokes: Sequence[MarkStroke], nut: bool) -> str:
    """A head or nut seen from above with its mark, about (0, 0)."""
    body = outlined(profiles.regular(6, 2 * RADIUS_MM, (0, 0), 30), 0.3, "#fff")
    body += outlined(profiles.circle(2 * RADIUS_MM * (0.5 if nut else 0.94), (0, 0)), 0.15)
    shift = -0.73 * RADIUS_MM if nut and any(s.shape == "text" for s in strokes) else 0.0
    marks = "".join(_stroke(s, 2.6 if nut else 4.2) for s in strokes)
    place = f"translate(0 {profiles.number(shift)})"
    return f'{body}<g data-mark="{grade}" transform="{place}">{marks}</g>'


def _sheet(
    store: sqlite3.Connection, wanted: Sequence[tuple[str, str]], title: str
) -> tuple[Drawing, list[Grade], list[MarkStroke]]:
    """Heads in rows of four: mark drawn, class below, tensile strength or proof below that."""
    body, grades, used, place = "", [], [], 0
    for key, variant in wanted:
        grade = row(store, Grade, id=key)
        strokes = rows(store, MarkStroke, grade=key, variant=variant)
        if grade is None:
            continue
        across, down = place % 4, place // 4
        x, y = (across + 0.5) * CELL_W_MM, down * CELL_H_MM + 7.0
        nut = grade.product == "nut"
        name = key.removeprefix("nut-").removeprefix("SAE-").removeprefix("A193-")
        body += f'<g transform="translate({x:.3f} {y:.3f})">{_face(key, strokes, nut)}'
        body += label(0, RADIUS_MM + 4.9, name, NUMERAL_MM if len(name) < 5 else 4.4, bold=True)
        body += label(0, RADIUS_MM + 7.6, _strength(store, key, nut), 2.1) + "</g>"
        grades.append(grade)
        used += strokes
        place += 1
    lines = -(-place // 4)
    return Drawing(svg(4 * CELL_W_MM, lines * CELL_H_MM + 0.5, title, body)), grades, used


def _strength(store: sqlite3.Connection, grade: str, nut: bool) -> str:
    """Least tensile strength, or proof of a nut, in both systems; the least over all sizes."""
    if nut:
        values = [n.proof_mpa for n in rows(store, NutRow, grade=grade)]
    else:
        values = [g.tensile_min_mpa for g in rows(store, GradeRow, grade=grade)]
    return f"{min(values):.0f}, {min(values) / MPA_PER_KSI:.0f} ksi" if values else ""


BELOW = "Below: least tensile strength over all sizes (nuts: proof stress), MPa and ksi."


def metric(store: sqlite3.Connection) -> Faces:
    """Metric and stainless heads in front, nuts behind."""
    front, bolts, marks = _sheet(store, [(g, "head") for g in METRIC], "Marks on metric heads")
    back, nuts, others = _sheet(store, NUTS, "Marks on metric nuts")
    return Faces(
        (
            front,
            Text(BELOW, "small"),
            Text(
                "First number x 100: tensile MPa. Times the second / 10: yield. No mark: take "
                "it for soft."
            ),
            Caution("A head without a mark may be anything. Never put a softer one in."),
        ),
        (
            back,
            Text(
                "Dot at twelve, stroke at the hour of the class; 12: two marks at twelve. 05: a "
                "thin nut, half strength."
            ),
        ),
        told([f"grade:{g.id}" for g in (*bolts, *nuts)], bolts, nuts, marks, others),
        "Marks on nuts",
    )


def inch(store: sqlite3.Connection) -> Faces:
    """Inch heads in front, nuts and stud bolts behind."""
    front, bolts, marks = _sheet(store, [(g, "head") for g in INCH], "Marks on inch heads")
    back, nuts, others = _sheet(store, INCH_NUTS, "Marks on inch nuts and stud bolts")
    return Faces(
        (
            front,
            Text(BELOW, "small"),
            Text("SAE: strokes and two are the grade: three for 5, six for 8."),
            Caution("Bare head: SAE 2 at best."),
        ),
        (back, Text("B7, B8: studs for heat and pressure.", "small")),
        told([f"grade:{g.id}" for g in (*bolts, *nuts)], bolts, nuts, marks, others),
        "Marks on inch nuts",
    )


SKETCHES = (
    sketch("marks-metric", "gauge", "Head marks, metric", "How strong is this bolt?", metric),
    sketch("marks-inch", "gauge", "Head marks, inch", "How strong is this inch bolt?", inch),
)
