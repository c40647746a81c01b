"""Cards to convert by: torque and length, both ways."""

import sqlite3
from collections.abc import Sequence
from fractions import Fraction

from fastkit.deck.card import Caution, Cell, Gathered, Text
from fastkit.deck.tables import Faces, head, sketch, table
from fastkit.notation.units import LBFT_NMM, LBIN_NMM

INCH_MM = 25.4
NM = (1, 2, 5, 10, 15, 20, 25, 30, 40, 50, 60, 80, 100, 120, 150, 200)
LBFT = (1, 5, 10, 15, 20, 25, 30, 40, 50, 60, 75, 80, 100, 120, 150, 200)
FRACTIONS = 16  # sixteenths in front
SI = Gathered(entries=("source:iso-80000-1",), sources=("iso-80000-1",), marks="")


def _three(value: float) -> str:
    """Three figures."""
    return f"{value:.3g}" if value < 1000 else f"{value:.0f}"


def _halves(lines: Sequence[tuple[Cell, ...]]) -> list[tuple[Cell, ...]]:
    """Rows side by side, the second half beside the first."""
    half = len(lines) // 2
    return [(*a, *b) for a, b in zip(lines[:half], lines[half:], strict=True)]


def torque(_: sqlite3.Connection) -> Faces:
    """N·m in lb·ft in front, lb·ft in N·m behind."""
    front = [(head(f"{n}"), Cell(_three(n * 1000 / LBFT_NMM), "big")) for n in NM]
    back = [(head(f"{n}"), Cell(_three(n * LBFT_NMM / 1000), "big")) for n in LBFT]
    inch = 1000 / LBIN_NMM
    return Faces(
        (
            table(("N·m", "lb·ft", "N·m", "lb·ft"), _halves(front)),
            Text(f"1 N·m = {inch:.2f} lb·in. 1 kgf·m = 9.81 N·m. 1 lb·ft = 12 lb·in."),
        ),
        (
            table(("lb·ft", "N·m", "lb·ft", "N·m"), _halves(back)),
            Text(
                "1 lb·ft = 1.356 N·m. 1 kN = 225 lbf. 1 MPa = 145 psi = 0.145 ksi. 1 bar = 14.5 "
                "psi."
            ),
            Caution("N·m read as lb·ft is a third too much: it tears."),
        ),
        SI,
        "lb·ft to N·m",
    )


def length(_: sqlite3.Connection) -> Faces:
    """Fractions of an inch in mm."""

    def name(part: Fraction) -> str:
        return f"{part.numerator}/{part.denominator}" if part < 1 else "1"

    def line(part: Fraction) -> tuple[Cell, ...]:
        mm = float(part) * INCH_MM
        return head(name(part)), Cell(f"{round(mm + 1e-9, 2):g}", "big")

    sixteenths = [line(Fraction(n, 16)) for n in range(1, 17)]
    thirty = [line(Fraction(n, 32)) for n in range(1, 33, 2)]
    return Faces(
        (
            table(("inch", "mm", "inch", "mm"), _halves(sixteenths)),
            Text("1 in = 25.4 mm exactly. .001 in = 0.0254 mm. 0.1 mm = .004 in."),
        ),
        (
            table(("inch", "mm", "inch", "mm"), _halves(thirty)),
            Text("1/64 in = 0.397 mm. 1 ft = 304.8 mm."),
        ),
        SI,
        "Inch to mm, by 1/32",
    )


SKETCHES = (
    sketch("units-torque", "deck", "N·m and lb·ft", "How much is it in the other one?", torque),
    sketch("units-length", "deck", "Inch and mm", "How much is it in the other one?", length),
)
