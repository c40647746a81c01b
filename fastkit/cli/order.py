"""`fastkit order`."""

from collections.abc import Iterator
from math import dist
from pathlib import Path

import click

from fastkit.answers.order import OrderAnswer, Stage, document, read_points, tightening_order
from fastkit.answers.order_read import read_line
from fastkit.cli.helped import Command
from fastkit.cli.output import drawn, emit, wrap
from fastkit.errors import Misuse
from fastkit.notation.units import show_nm, torque_nmm

CAUTION = (
    "The vehicle or machine maker's own order and stages govern. Pressure, lifting, brakes and "
    "steering: qualified hands."
)
TALL = 0.5  # a character is about twice as high as wide
WIDEST, HIGHEST = 60, 33


@click.command(cls=Command)
@click.argument("words", nargs=-1, metavar="[N] [SHAPE] [SIZE]")
@click.option(
    "--at",
    "file",
    metavar="FILE",
    type=click.Path(exists=True, dir_okay=False, path_type=Path),
    help="Coordinates in place of a shape: x and y, a fastener a line.",
)
@click.option("--torque", metavar="TORQUE", help="Final torque, for the stages.")
@click.option("--loosen", is_flag=True, help="The order of loosening.")
@click.option("--why", is_flag=True, help="Why in this order, and how even it is.")
@click.option("--json", "as_json", is_flag=True, help="Print one JSON document.")
def command(
    words: tuple[str, ...],
    file: Path | None,
    torque: str | None,
    loosen: bool,
    why: bool,
    as_json: bool,
) -> None:
    """
    In what order to tighten: sequence, stages and a drawing.

    N fasteners on a circle, line, rectangle, grid or rings; SIZE as 5x2, or 4+8 for rings. In any
    order and with the torque: 8 bolts circle 25 Nm, 5 wheel.
    """
    said = read_line(words)
    if torque is not None:
        said = said._replace(torque_nm=torque_nmm(torque) / 1000)
    if file is not None:
        if said.number is not None or said.shape is not None:
            raise Misuse("both a shape and --at given; expected one of them")
        answer = tightening_order(points=_read(file), torque_nm=said.torque_nm, loosen=loosen)
    else:
        if said.number is None or said.shape is None:
            raise Misuse("expected a number and a shape such as 8 circle, or --at FILE")
        answer = tightening_order(
            said.number, said.shape, size=said.size, torque_nm=said.torque_nm, loosen=loosen
        )
    emit(document(answer), as_json, lambda columns: _lines(answer, loosen, why, columns))


def _read(file: Path) -> tuple[tuple[float, float], ...]:
    from fastkit.answers.job_kept import text_of

    return read_points(text_of(file, "a file of points, x and y a line"))


def _lines(answer: OrderAnswer, loosen: bool, why: bool, columns: int) -> Iterator[str]:
    order = answer.loosening if loosen else answer.sequence
    word = "Loosen" if loosen else "Tighten"
    yield from wrap(f"{word} in this order: {_listed(order)}", columns)
    where = {"rings": "on rings", "points": "at given points"}.get(
        answer.shape, f"on a {answer.shape}"
    )
    yield from wrap(f"({answer.fasteners} {where}, {answer.numbering})", columns)
    drawing = list(drawn(draw(answer.points, order, columns)))
    if drawing:
        yield ""
        yield from drawing
        yield ""
        yield from wrap("In the drawing each fastener shows when its turn comes.", columns)
    yield ""
    for number, stage in enumerate(answer.stages, 1):
        yield from wrap(_stage(stage, order), columns, f"{number}. ")
    if why:
        yield ""
        yield from wrap(
            f"Why: {answer.why}. The pull of those already tight leaves the centre by at most "
            f"{answer.imbalance:.2f} of the outermost distance.",
            columns,
        )
    yield ""
    yield from wrap(f"source: {answer.source}", columns)
    yield from wrap(CAUTION, columns)


def _stage(stage: Stage, order: tuple[int, ...]) -> str:
    if stage.share_pct is None:
        return stage.what
    torque = "" if stage.torque_nm is None else f"{show_nm(stage.torque_nm * 1000)}, "
    told = "" if stage.order == order else f": {_listed(stage.order)}"
    return f"{torque}{stage.share_pct:g} % of the final torque, {stage.what}{told}"


def _listed(order: tuple[int, ...]) -> str:
    return ", ".join(map(str, order))


def draw(
    points: tuple[tuple[float, float], ...], order: tuple[int, ...], columns: int
) -> list[str]:
    """Draw each fastener where it sits, as its place in the order; empty where it does not fit."""
    turn = {number: str(place) for place, number in enumerate(order, 1)}
    cell = max(map(len, turn.values())) + 1
    xs, ys = [x for x, _ in points], [y for _, y in points]
    wide, high = max(xs) - min(xs), max(ys) - min(ys)
    nearest = min((dist(a, b) for i, a in enumerate(points) for b in points[:i]), default=1.0)
    # large enough that neighbours do not touch, small enough for the screen
    scale = min(
        (min(columns, WIDEST) - 2 - cell) / wide if wide else 1e9,
        (HIGHEST - 1) / (high * TALL) if high else 1e9,
        2.5 * cell / nearest,
    )
    canvas: dict[tuple[int, int], str] = {}
    for number, (x, y) in enumerate(points, 1):
        row = round((max(ys) - y) * scale * TALL)
        column = round((x - min(xs)) * scale)
        text = turn[number].rjust(cell - 1)
        places = [(row, column + i) for i in range(-1, len(text))]
        if any(place in canvas for place in places):
            return []
        canvas |= {(row, column + i): sign for i, sign in enumerate(text)}
    rows = max(row for row, _ in canvas) + 1
    lines = []
    for row in range(rows):
        filled = {column: sign for (r, column), sign in canvas.items() if r == row}
        wide_row = max(filled, default=-1) + 1
        lines.append(("  " + "".join(filled.get(c, " ") for c in range(wide_row))).rstrip())
    return lines
