"""In what order the fasteners of one joint are tightened, and in what stages."""

from collections.abc import Sequence
from math import atan2, cos, dist, hypot, pi, sin
from typing import NamedTuple

Point = tuple[float, float]

MOST = 500  # more fasteners than any joint has; a typing error
# ASME PCC-1, legacy cross pattern: 20 to 30 %, 50 to 70 %, then all of it, then once round.
STAGES = (0.3, 0.7, 1.0)
SAME_RING = 0.02  # distances from the centre that differ by less are one ring (practice)
EVEN_STEP = 0.05  # angles that differ from an even spacing by less than this share of it


class Layout(NamedTuple):
    """Where the fasteners sit: their points, numbered from 1 in this order, and the pattern."""

    points: tuple[Point, ...]
    pattern: str  # cross, star, centre-outward, ring-by-ring


class Order(NamedTuple):
    """Numbers of the fasteners in the order of tightening, and how even that is."""

    layout: Layout
    sequence: tuple[int, ...]
    imbalance: float  # largest distance of the load's resultant from the centre, over the radius


def circle(n: int) -> tuple[Point, ...]:
    """*n* points on the unit circle, the first at the top, clockwise."""
    return tuple((sin(2 * pi * i / n), cos(2 * pi * i / n)) for i in range(n))


def grid(columns: int, rows: int, edge_only: bool = False) -> tuple[Point, ...]:
    """Points a unit apart, row by row from the top left; *edge_only* leaves the inside out."""
    return tuple(
        (float(x), float(-y))
        for y in range(rows)
        for x in range(columns)
        if not edge_only or x in {0, columns - 1} or y in {0, rows - 1}
    )


def rings(counts: Sequence[int]) -> tuple[Point, ...]:
    """Several circles about one centre, the innermost first, radii 1, 2, 3."""
    return tuple(
        (radius * x, radius * y) for radius, n in enumerate(counts, 1) for x, y in circle(n)
    )


def cross(n: int) -> tuple[int, ...]:
    """
    Sequence for *n* fasteners evenly on a circle, numbered round it.

    A multiple of four: opposite pairs crossed at right angles (ASME PCC-1, legacy pattern); even:
    opposite pairs; odd: a star. The resultant of what has been tightened leaves the centre by at
    most 1/cos(pi/2n) radii where n is odd, by at most one where it is even, and from five up no
    two neighbours follow each other.

    Args:
        n: Number of fasteners, at least 1.

    Returns:
        Numbers from 1.

    Raises:
        ValueError: When *n* is out of range.
    """
    if not 1 <= n <= MOST:
        raise ValueError(f"n must be 1 to {MOST}, got {n}")
    if n % 2:
        return tuple(i * (n // 2) % n + 1 for i in range(n)) if n > 1 else (1,)
    half = n // 2
    if n % 4:
        starts = [i * max(half // 2, 1) % half for i in range(half)]
        return tuple(1 + start + more for start in starts for more in (0, half))
    quarter = n // 4
    if quarter % 2:
        starts = [i * max(quarter // 2, 1) % quarter for i in range(quarter)]
    else:
        starts = [start for i in range(quarter // 2) for start in (i, i + quarter // 2)]
    return tuple(1 + s + more for s in starts for more in (0, half, quarter, half + quarter))


def bound(n: int) -> float:
    """Largest imbalance that *cross* may show on a circle of *n*, in radii, from geometry."""
    return 1.0 if n % 2 == 0 or n == 1 else 1 / cos(pi / (2 * n))


def order(points: Sequence[Point]) -> Order:
    """
    The order of tightening for fasteners anywhere.

    Evenly on one circle: crosswise. On several circles about one centre: ring by ring from the
    inside. Else from the centre outward, each next one where it best balances those before it.

    Args:
        points: Coordinates in any one unit, each place once.

    Returns:
        The order.

    Raises:
        ValueError: When there are none, too many, or two in one place.
    """
    if not 1 <= len(points) <= MOST:
        raise ValueError(f"points must be 1 to {MOST}, got {len(points)}")
    centre = _centroid(points)
    radius = max(dist(point, centre) for point in points)
    for i, point in enumerate(points):
        for j in range(i):
            if dist(point, points[j]) <= 1e-6 * max(radius, 1e-9):
                raise ValueError(f"points must differ, got {j + 1} and {i + 1} in one place")
    shells = _shells(points, centre, radius)
    even = [_around(points, shell, centre) for shell in shells]
    if len(shells) == 1 and even[0] is not None and len(points) > 2:
        pattern = "star" if len(points) % 2 else "cross"
    elif all(found is not None for found in even) and any(len(shell) > 4 for shell in shells):
        pattern = "ring-by-ring"
    else:
        pattern = "centre-outward"
    sequence: list[int] = []
    for shell, around in zip(shells, even, strict=True):
        if pattern != "centre-outward" and around is not None:
            sequence += [around[place - 1] for place in cross(len(around))]
        else:
            _balance(points, centre, shell, sequence)
    numbers = tuple(i + 1 for i in sequence)
    layout = Layout(tuple(points), pattern)
    return Order(layout, numbers, imbalance(points, numbers))


def imbalance(points: Sequence[Point], sequence: Sequence[int]) -> float:
    """
    How far the resultant of what has been tightened leaves the centre at most, over the radius.

    Sum of the vectors from the centroid to the fasteners done, each counted once.
    """
    centre = _centroid(points)
    radius = max(dist(point, centre) for point in points)
    x = y = most = 0.0
    for number in sequence:
        x += points[number - 1][0] - centre[0]
        y += points[number - 1][1] - centre[1]
        most = max(most, hypot(x, y))
    return most / radius if radius > 0 else 0.0


def loosening(sequence: Sequence[int]) -> tuple[int, ...]:
    """The order of loosening: what was tightened last is let go first."""
    return tuple(reversed(sequence))


def once_round(found: Order) -> tuple[int, ...]:
    """The last check: round the circle, or along the rows, neighbour by neighbour."""
    return tuple(range(1, len(found.sequence) + 1))


def _centroid(points: Sequence[Point]) -> Point:
    n = len(points)
    return sum(x for x, _ in points) / n, sum(y for _, y in points) / n


def _shells(points: Sequence[Point], centre: Point, radius: float) -> list[list[int]]:
    """Indices grouped by their distance from the centre, nearest first."""
    ranked = sorted(range(len(points)), key=lambda i: (round(dist(points[i], centre), 9), i))
    found: list[list[int]] = []
    last = -1.0
    for i in ranked:
        far = dist(points[i], centre)
        if found and far - last <= SAME_RING * radius:
            found[-1].append(i)
        else:
            found.append([i])
            last = far
    return found


def _around(points: Sequence[Point], shell: list[int], centre: Point) -> list[int] | None:
    """The shell in its own order round the centre, from its first; None if not evenly spaced."""
    n = len(shell)
    if n < 2:
        return shell
    first = min(shell)
    start = _angle(points[first], centre)
    turned = sorted(
        ((start - _angle(points[i], centre)) % (2 * pi) if i != first else 0.0, i) for i in shell
    )
    step = 2 * pi / n
    if any(abs(turn - k * step) > EVEN_STEP * step for k, (turn, _) in enumerate(turned)):
        return None
    found = [i for _, i in turned]
    if n > 2 and found[-1] < found[1]:  # numbered the other way round
        found = [found[0], *reversed(found[1:])]
    return found


def _angle(point: Point, centre: Point) -> float:
    return atan2(point[1] - centre[1], point[0] - centre[0])


def _balance(points: Sequence[Point], centre: Point, shell: list[int], sequence: list[int]) -> None:
    """Add a shell to the sequence, each next one where it best balances those before it."""
    left = sorted(shell)
    pull = (
        sum(points[i][0] - centre[0] for i in sequence),
        sum(points[i][1] - centre[1] for i in sequence),
    )
    while left:
        last = points[sequence[-1]] if sequence else centre
        after = {
            i: (pull[0] + points[i][0] - centre[0], pull[1] + points[i][1] - centre[1])
            for i in left
        }
        ranks = {i: (round(hypot(*after[i]), 9), -round(dist(points[i], last), 9), i) for i in left}
        best = min(left, key=ranks.__getitem__)
        left.remove(best)
        sequence.append(best)
        pull = after[best]
