"""Checks on columns that the defences around the fastener share."""

from collections.abc import Iterable, Iterator
from fractions import Fraction
from itertools import pairwise
from math import log
from typing import Any

Row = dict[str, Any]
Tables = dict[str, list[Row]]
LBIN_NM = 4.4482216152605 * 0.0254  # exact


def ordered(rows: Iterable[Row], *columns: str) -> Iterator[str]:
    """Columns that must not fall from left to right."""
    for row in rows:
        values = [row[name] for name in columns if row[name] is not None]
        if values != sorted(values):
            yield f"{row}: {columns} out of order"


def between(rows: Iterable[Row], column: str, low: float, high: float) -> Iterator[str]:
    """A value that no such row has."""
    for row in rows:
        if row[column] is not None and not low - 1e-9 <= row[column] <= high + 1e-9:
            yield f"{row}: {column} outside {low:g} to {high:g}"


def stepped(rows: Iterable[Row], column: str, step: float) -> Iterator[str]:
    """A value that is no multiple of the step in which its table prints."""
    for row in rows:
        value = row[column]
        if value is not None and abs(value / step - round(value / step)) > 1e-6:
            yield f"{row}: {column} {value} in no step of {step:g}"


def growing(rows: Iterable[Row], x: str, y: str) -> Iterator[str]:
    """*y* falls where *x* grows."""
    kept = sorted(rows, key=lambda row: (row[x], row[y]))
    for small, large in pairwise(kept):
        if small[x] < large[x] and small[y] > large[y]:
            yield f"{y} falls from {small[y]} to {large[y]} between {x} {small[x]} and {large[x]}"


def even(rows: Iterable[Row], x: str, y: str, limit: float) -> Iterator[str]:
    """*y* lies further than *limit* from the line of its neighbours, both on log scales."""
    best = {row[x]: row for row in rows}
    kept = [best[value] for value in sorted(best)]
    for a, b, c in zip(kept, kept[1:], kept[2:], strict=False):
        share = log(b[x] / a[x]) / log(c[x] / a[x])
        off = log(b[y]) - log(a[y]) - share * log(c[y] / a[y])
        if abs(off) > limit:
            yield f"{y} {b[y]} at {x} {b[x]} is {off:+.3f} off its neighbours' line"


def size_mm(thread: str) -> float:
    """Diameter that a thread's id spells [mm]."""
    if thread.startswith("M"):
        return float(thread[1:].partition("x")[0])
    size = thread.rsplit("-", 2)[0]
    if size.startswith("#"):
        return (60 + 13 * int(size[1:])) / 1000 * 25.4
    return float(sum((Fraction(part) for part in size.split("-")), Fraction(0))) * 25.4
