"""
Slips of the pen, planted one at a time in parsed rows, to see whether a defence complains.

A slip is made of cells that are printed somewhere: rows of judgement are left alone. Five kinds:
a digit replaced by another, a value in its neighbour's row, a column printed a row too high over
some rows, a value in another column of its row, a value in another unit.
"""

import random
from collections.abc import Callable, Iterator, Mapping, Sequence
from math import pi
from typing import Any, NamedTuple

from fastkit.compiler.spec import Column
from tests.data.defences import DEFENCES
from tests.data.parsed import Row, Tables, completed, numbers

BIG = 0.05  # a digit that moves its value by no more is a small slip
UNITS = {  # what one takes for the other: inches, centimetres; foot-pounds, inch-pounds; ksi …
    "_mm": (25.4, 1 / 25.4, 10, 0.1),
    "_in": (25.4, 1 / 25.4),
    "_nm": (1.355818, 1 / 1.355818, 8.850746, 1 / 8.850746, 10),
    "_n": (4.448222, 1 / 4.448222, 1000, 0.001),
    "_mpa": (6.894757, 1 / 6.894757, 145.0377, 0.001, 9.80665),
    "_deg": (180 / pi, pi / 180),
    "_per_k": (1.8, 1 / 1.8, 10),
    "_pct": (0.01, 100),
    "_mm2": (645.16, 1 / 645.16, 0.01),
}
ELSE = (10, 0.1)  # of a bare number: the point a place off


class Slip(NamedTuple):
    """One slip: the wrong values by row and column; `big` says that it must be caught."""

    kind: str
    table: str
    where: str
    wrong: tuple[tuple[int, str, Any], ...]
    big: bool


def plant(tables: Tables, table: str, count: int, chance: random.Random) -> Iterator[Slip]:
    """Up to *count* slips of each kind in *table*; kinds that it has no room for are left out."""
    columns = numbers()[table]
    rows = tables[table]
    for kind, make in KINDS.items():
        made, tries = 0, 0
        while made < count and tries < 20 * count:
            tries += 1
            wrong = make(rows, columns, chance)
            if wrong is None:
                continue
            (n, column, value), *more = wrong
            right = rows[n][column]
            moved = kind != "digit" or abs(value - right) > BIG * abs(right)
            where = f"{name(rows[n])} {column} {right:g} -> {value:g}" + " …" * bool(more)
            yield Slip(kind, table, where, tuple(wrong), moved)
            made += 1


def name(row: Row) -> str:
    """What identifies a row to a reader: its first texts."""
    return " ".join(str(value) for value in list(row.values())[:2] if isinstance(value, str))


Wrong = list[tuple[int, str, Any]]


def filled(rows: Sequence[Row], column: Column) -> list[int]:
    """Rows with a printed value in *column*."""
    return [
        n
        for n, row in enumerate(rows)
        if row[column.name] is not None and row["checked"] != "judgement"
    ]


def digit(rows: Sequence[Row], columns: Sequence[Column], chance: random.Random) -> Wrong | None:
    """One digit of one value is another."""
    column = chance.choice(columns)
    cells = filled(rows, column)
    if not cells:
        return None
    n = chance.choice(cells)
    printed = f"{rows[n][column.name]:.10g}"
    if "e" in printed:
        printed = f"{rows[n][column.name]:.12f}".rstrip("0")
    significant = [i for i, sign in enumerate(printed) if sign.isdigit() and sign != "0"]
    if not significant:
        return None
    at = chance.choice([i for i in range(significant[0], len(printed)) if printed[i] != "."])
    other = chance.choice([sign for sign in "0123456789" if sign != printed[at]])
    return [(n, column.name, column.type(printed[:at] + other + printed[at + 1 :]))]


def swap(rows: Sequence[Row], columns: Sequence[Column], chance: random.Random) -> Wrong | None:
    """Two neighbouring rows have each other's value."""
    column = chance.choice(columns)
    cells = filled(rows, column)
    if len(cells) < 2:
        return None
    i = chance.randrange(len(cells) - 1)
    first, second = cells[i], cells[i + 1]
    a, b = rows[first][column.name], rows[second][column.name]
    return None if a == b else [(first, column.name, b), (second, column.name, a)]


def shift(rows: Sequence[Row], columns: Sequence[Column], chance: random.Random) -> Wrong | None:
    """Over some rows a column stands a row too high."""
    column = chance.choice(columns)
    cells = filled(rows, column)
    if len(cells) < 3:
        return None
    length = min(chance.randint(2, 6), len(cells) - 1)
    start = chance.randrange(len(cells) - length)
    wrong = [
        (cells[i], column.name, rows[cells[i + 1]][column.name])
        for i in range(start, start + length)
        if rows[cells[i]][column.name] != rows[cells[i + 1]][column.name]
    ]
    return wrong or None


def cross(rows: Sequence[Row], columns: Sequence[Column], chance: random.Random) -> Wrong | None:
    """Two values of a row stand in each other's column."""
    if len(columns) < 2:
        return None
    first, second = chance.sample(columns, 2)
    cells = set(filled(rows, first)) & set(filled(rows, second))
    if not cells:
        return None
    n = chance.choice(sorted(cells))
    a, b = rows[n][first.name], rows[n][second.name]
    if a == b or first.type is not second.type:
        return None
    return [(n, first.name, b), (n, second.name, a)]


def unit(rows: Sequence[Row], columns: Sequence[Column], chance: random.Random) -> Wrong | None:
    """A value stands in another unit than its column says."""
    column = chance.choice(columns)
    cells = filled(rows, column)
    if not cells:
        return None
    n = chance.choice(cells)
    factors = next((UNITS[end] for end in UNITS if column.name.endswith(end)), ELSE)
    value = rows[n][column.name]
    wrong = column.type(float(f"{value * chance.choice(factors):.5g}"))
    return None if wrong == value else [(n, column.name, wrong)]


KINDS: Mapping[str, Callable[[Sequence[Row], Sequence[Column], random.Random], Wrong | None]] = {
    "digit": digit,
    "swap": swap,
    "shift": shift,
    "column": cross,
    "unit": unit,
}


def with_slip(tables: Tables, slip: Slip) -> Tables:
    """*tables* with the slip in it; the tables themselves are left as they are."""
    rows = list(tables[slip.table])
    for n, column, value in slip.wrong:
        rows[n] = {**rows[n], column: value}
    return {**tables, slip.table: rows}


# Most slips are seen by the first that looks at their table: the two that read everything wait.
QUICKEST_FIRST = sorted(DEFENCES, key=lambda defence: defence.__name__ in ("copies", "formulas"))


def caught(tables: Tables, slip: Slip) -> bool:
    """Whether a bound, the compiler or a defence complains about *tables* with the slip in it."""
    wrong = with_slip(tables, slip)
    if any(out_of_bounds(column, row[column.name]) for column, row in changed(wrong, slip)):
        return True
    try:
        whole = completed(wrong)
        return any(True for defence in QUICKEST_FIRST for _ in defence(whole))
    except ValueError:  # the compiler refuses the row, or a value has no logarithm
        return True


def changed(tables: Tables, slip: Slip) -> Iterator[tuple[Column, Row]]:
    """Columns and rows that a slip touches."""
    columns = {column.name: column for column in numbers()[slip.table]}
    return ((columns[column], tables[slip.table][n]) for n, column, _ in slip.wrong)


def out_of_bounds(column: Column, value: float) -> bool:
    """Whether the compiler refuses *value* by the column's bounds."""
    rule = column.rule
    return (
        (rule.above is not None and value <= rule.above)
        or (rule.low is not None and value < rule.low)
        or (rule.high is not None and value > rule.high)
    )
