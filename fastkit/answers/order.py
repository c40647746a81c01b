"""In what order: the tightening sequence and stages of a joint with several fasteners."""

from math import isfinite
from typing import Any, NamedTuple

from fastkit.errors import Misuse
from fastkit.joint.order import (
    MOST,
    STAGES,
    Order,
    Point,
    circle,
    grid,
    loosening,
    once_round,
    order,
    rings,
)

SHAPES = ("circle", "line", "rectangle", "grid", "rings")
# pattern -> why, in words
WHY = {
    "cross": "opposite pairs crossed at right angles draw the parts together without tilting them",
    "star": "a star: each next one nearly opposite, so the parts tilt as little as an odd number "
    "allows",
    "ring-by-ring": "from the inner ring outward, each ring crosswise, so nothing is shut in",
    "centre-outward": "from the middle outward, each next one against the last, so that gasket and "
    "flange spread to the free edge and no bulge is shut in",
}


LOOSEN_WHY = (
    "the reverse of tightening: what was drawn up last lets go first, a little each, so that no "
    "single one is left holding the whole load and nothing bends"
)


class Stage(NamedTuple):
    """One pass: torque, the share of the final one that it is, and the order; words."""

    torque_nm: float | None
    share_pct: float | None
    order: tuple[int, ...]
    what: str


class OrderAnswer(NamedTuple):
    """Sequence by number, stages of tightening or loosening, and where the numbers sit."""

    fasteners: int
    shape: str
    pattern: str
    sequence: tuple[int, ...]
    stages: tuple[Stage, ...]
    loosening: tuple[int, ...]
    imbalance: float
    points: tuple[Point, ...]
    numbering: str
    why: str
    source: str


def tightening_order(
    n: int | None = None,
    shape: str | None = None,
    *,
    size: str | None = None,
    points: tuple[Point, ...] | None = None,
    torque_nm: float | None = None,
    loosen: bool = False,
) -> OrderAnswer:
    """
    Answer in what order and in what stages the fasteners of a joint are tightened.

    Args:
        n: How many; None where *points* are given.
        shape: circle, line, rectangle (fasteners along the edge), grid, rings (inside first).
        size: Columns by rows as `5x2`, or fasteners on each ring as `4+8`; a rectangle or grid
            left without it has two rows.
        points: Coordinates in place of a shape, in any one unit.
        torque_nm: The final torque [N·m]; without it the stages give shares only.
        loosen: Stages of loosening in place of tightening.

    Returns:
        The order.

    Raises:
        Misuse: When number, shape and size do not fit together or a value is out of its range.
    """
    if torque_nm is not None and not (isfinite(torque_nm) and 0 < torque_nm <= 1e6):
        raise Misuse(f"torque must be above 0, up to 1000000 N·m; got {torque_nm:g}")
    if points is not None:
        word, numbering = "points", "numbered as they stand in the file"
    else:
        word = (shape or "").strip().lower()
        points, numbering = _points(n, word, size)
    try:
        found = order(points)
    except ValueError as error:
        raise Misuse(str(error)) from error
    back = loosening(found.sequence)
    stages = _loosening(back) if loosen else _tightening(found, torque_nm)
    return OrderAnswer(
        len(points),
        word,
        found.layout.pattern,
        found.sequence,
        stages,
        back,
        found.imbalance,
        found.layout.points,
        numbering,
        LOOSEN_WHY if loosen else WHY[found.layout.pattern],
        "ASME PCC-1, cross pattern and stages"
        if found.layout.pattern in {"cross", "star"}
        else "common workshop practice; stages as in ASME PCC-1",
    )


def read_points(text: str) -> tuple[Point, ...]:
    """
    Read coordinates: a fastener a line, x and y with a blank, comma or semicolon between.

    Raises:
        Misuse: When a line is not two numbers; names the line.
    """
    found: list[Point] = []
    for number, line in enumerate(text.splitlines(), 1):
        words = line.partition("#")[0].replace(",", " ").replace(";", " ").split()
        if not words:
            continue
        try:
            x, y = map(float, words)
        except ValueError as error:
            raise Misuse(
                f"line {number}: cannot read {line.strip()[:40]!r}; expected x and y such as 10 20"
            ) from error
        if not (isfinite(x) and isfinite(y) and max(abs(x), abs(y)) <= 1e9):
            raise Misuse(f"line {number}: coordinates must be finite, up to 1e9 either way")
        found.append((x, y))
    if not 1 <= len(found) <= MOST:
        raise Misuse(f"the file must hold 1 to {MOST} fasteners, one a line; got {len(found)}")
    return tuple(found)


def document(answer: OrderAnswer) -> dict[str, Any]:
    """The answer as the JSON document."""
    return {
        **answer._asdict(),
        "sequence": list(answer.sequence),
        "loosening": list(answer.loosening),
        "imbalance": round(answer.imbalance, 6),
        "points": [[round(x, 6), round(y, 6)] for x, y in answer.points],
        "stages": [{**stage._asdict(), "order": list(stage.order)} for stage in answer.stages],
    }


def _points(n: int | None, shape: str, size: str | None) -> tuple[tuple[Point, ...], str]:
    """Where the fasteners of a shape sit, and how they are numbered."""
    if shape not in SHAPES:
        from fastkit.reference.lookup import nearest

        expected = ", ".join(SHAPES)
        message = f"unknown shape {shape[:40]!r}; expected one of {expected}"
        raise Misuse(message, nearest(shape, SHAPES, 1))
    if n is None or not 1 <= n <= MOST:
        raise Misuse(f"number of fasteners must be 1 to {MOST}, got {n}")
    if size is not None and shape in {"circle", "line"}:
        raise Misuse(f"a {shape} takes no size, got {size[:20]!r}; expected the number alone")
    if shape == "circle":
        return circle(n), "numbered clockwise from any one"
    if shape == "line":
        return grid(n, 1), "numbered from left to right"
    if shape == "rings":
        counts = _counts(size, "+", "fasteners on each ring, inside first, such as 4+8")
        _fits(n, sum(counts), size)
        return rings(counts), "numbered ring by ring from the inside, each clockwise from the top"
    if size is None:
        if n % 2:
            raise Misuse(f"{n} fasteners do not make two rows; expected columns by rows as 5x2")
        columns, rows = n // 2, 2
    else:
        sides = _counts(size, "x", "columns by rows such as 5x2")
        if len(sides) != 2:
            raise Misuse(f"cannot read {size[:20]!r}; expected columns by rows such as 5x2")
        columns, rows = sides
    found = grid(columns, rows, edge_only=shape == "rectangle")
    _fits(n, len(found), f"{columns}x{rows}")
    return found, "numbered row by row, from left to right"


def _counts(text: str | None, sign: str, expected: str) -> list[int]:
    words = (text or "").lower().replace("×", "x").split(sign)
    if not all(word.isascii() and word.isdigit() and 1 <= int(word[:9]) <= MOST for word in words):
        raise Misuse(f"cannot read {(text or '')[:20]!r}; expected {expected}")
    return [int(word) for word in words]


def _fits(n: int, made: int, size: str | None) -> None:
    if n != made:
        raise Misuse(f"{size} makes {made} fasteners, not {n}; expected {made}")


def _tightening(found: Order, torque_nm: float | None) -> tuple[Stage, ...]:
    passes = [
        Stage(
            None if torque_nm is None else share * torque_nm,
            share * 100,
            found.sequence,
            "all by hand first, then in this order" if share == STAGES[0] else "in the same order",
        )
        for share in STAGES
    ]
    again = Stage(torque_nm, 100.0, once_round(found), "once round, until none moves any more")
    return (*passes, again)


def _loosening(back: tuple[int, ...]) -> tuple[Stage, ...]:
    """A little each before any comes out, the last tightened first."""
    return (
        Stage(None, None, back, "an eighth to a quarter turn each"),
        Stage(None, None, back, "the same again, until none is under load"),
        Stage(None, None, back, "out; the last one held until the part is carried"),
    )
