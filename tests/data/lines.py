"""
Columns that grow evenly with the size.

A value that leaves the line of its neighbours is complained about: `LINES` says for which column
of which rows, and how far the printed tables themselves leave it.
"""

from collections.abc import Callable, Iterable, Iterator, Mapping
from math import log
from typing import Any, NamedTuple

from tests.data.thread_defences import rising

Row = dict[str, Any]
Tables = dict[str, list[Row]]


class Line(NamedTuple):
    """
    One column that grows with the size.

    Attributes:
        limit: How far the logarithm of a value may lie off the line through its neighbours.
        ratio: Least and largest quotient of value and size.
        rows: Which rows of the table; None for all.
    """

    table: str
    group: tuple[str, ...]
    column: str
    limit: float
    ratio: tuple[float, float]
    rows: Callable[[Row], bool] | None = None


LINES = (
    Line("key_arm", (), "short_arm_mm", 0.081, (4.5, 10.4), lambda row: row["drive"] not in FINE),
    Line("key_arm", (), "long_arm_mm", 0.048, (10, 32), lambda row: row["drive"] not in FINE),
)
FINE = ("hex-0.7mm", "hex-0.9mm")  # keys of one length for their strength's sake


def lines(tables: Tables) -> Iterator[str]:
    """Columns that fall where the size grows, that bend, or that are not in proportion to it."""
    sizes = nominal_sizes(tables)
    for line in LINES:
        groups: dict[tuple[Any, ...], list[Row]] = {}
        for row in tables.get(line.table, ()):
            if row[line.column] is None or (line.rows and not line.rows(row)):
                continue
            size = sizes[row["size"] if "size" in row else row["drive"]]
            groups.setdefault(tuple(row[name] for name in line.group), []).append(
                {"size": size, line.column: row[line.column]}
            )
        for group, rows in groups.items():
            where = " ".join((line.table, *map(str, group)))
            for complaint in (*rising(rows, "size", line.column), *bent(rows, line)):
                yield f"{where}: {complaint}"


def bent(rows: Iterable[Row], line: Line) -> Iterator[str]:
    """Complaints about unevenness and proportion of one group."""
    kept = list(rows)
    yield from smooth(kept, "size", line.column, line.limit)
    yield from carried_on(kept, "size", line.column, 3 * line.limit)
    for row in kept:
        if not line.ratio[0] <= row[line.column] / row["size"] <= line.ratio[1]:
            yield f"{line.column} {row[line.column]:g} at {row['size']:g}: out of proportion"


def nominal_sizes(tables: Tables) -> Mapping[str, float]:
    """Millimetres of what a `size` or `drive` cell names."""
    sizes = {row["size"]: row["nominal_mm"] for row in tables["thread"]}
    for row in tables["drive"]:
        across = row["across_flats_mm"] or row["across_points_mm"] or row["wing_mm"]
        if across is not None:
            sizes[row["id"]] = across
    return sizes


def smooth(rows: Iterable[Row], x: str, y: str, limit: float) -> Iterator[str]:
    """*y* lies further than *limit* from the line through its neighbours, both on log scales."""
    best = {row[x]: row for row in rows if row.get(y) is not None}
    kept = [best[value] for value in sorted(best)]
    for a, b, c in zip(kept, kept[1:], kept[2:], strict=False):
        share = (log(b[x]) - log(a[x])) / (log(c[x]) - log(a[x]))
        line = log(a[y]) + share * (log(c[y]) - log(a[y]))
        if abs(log(b[y]) - line) > limit:
            yield f"{y} {b[y]} at {x} {b[x]} is {log(b[y]) - line:+.3f} off its neighbours' line"


def carried_on(rows: Iterable[Row], x: str, y: str, limit: float) -> Iterator[str]:
    """The first or last *y* lies further than *limit* from the line through the next two."""
    best = {row[x]: row for row in rows}
    kept = [best[value] for value in sorted(best)]
    for a, b, c in (kept[:3], kept[:-4:-1]) if len(kept) > 2 else ():
        share = (log(a[x]) - log(b[x])) / (log(c[x]) - log(b[x]))
        line = log(b[y]) + share * (log(c[y]) - log(b[y]))
        if abs(log(a[y]) - line) > limit:
            yield f"{y} {a[y]} at {x} {a[x]} is {log(a[y]) - line:+.3f} off the next two"


def set_screws(tables: Tables) -> Iterator[str]:
    """A set screw's socket is proved to 1.05 to 1.45 of what its key is (ISO 898-5, ISO 2936)."""
    socket = {row["size"]: row["drive"] for row in tables["head"] if row["standard"] == "ISO 4026"}
    key = {
        row["drive"]: row["proof_torque_nm"]
        for row in tables["drive_torque"]
        if row["tool"] == "key"
    }
    for row in tables.get("set_screw_torque", ()):
        proved = key.get(socket.get(row["size"]))
        if proved and not 1.05 < row["proof_torque_nm"] / proved < 1.45:
            yield f"set screw {row['size']}: {row['proof_torque_nm']} N·m, its key {proved}"
