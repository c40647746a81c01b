"""What no rule of one column can see: columns out of order, values in another unit than theirs."""

from collections.abc import Iterable, Iterator, Mapping
from typing import Any

from fastkit.compiler.reading import Fault, Row, Tables
from fastkit.compiler.spec import Spec, file_columns

PAIRS = (("min", "max"), ("low", "high"), ("from", "to"))  # ends, by a word of the column's name
MORE = {  # columns that do not fall from left to right
    "clearance_hole": ("close_mm", "medium_mm", "coarse_mm"),
    "friction": ("mu_min", "mu_mid", "mu_max"),
    "washer": ("inner_mm", "outer_mm"),
    "length_range": ("shortest_mm", "longest_mm"),
    "key_arm": ("short_arm_mm", "long_arm_mm"),
}
# Column that names the size or the thread, and the least and greatest of others over its diameter:
# wide enough for every standard, too narrow for inches in place of millimetres.
SPANS: Mapping[str, tuple[str, Mapping[str, tuple[float, float]]]] = {
    "tap_drill": ("thread", {"drill_mm": (0.7, 1)}),
    "form_drill": ("thread", {"drill_mm": (0.8, 1)}),
    "wire_insert": ("id", {"drill_mm": (1, 1.2)}),
    "clearance_hole": (
        "size",
        {"close_mm": (1, 1.2), "medium_mm": (1, 1.4), "coarse_mm": (1, 1.7)},
    ),
    "washer": (
        "size",
        {"inner_mm": (0.99, 1.4), "outer_mm": (1.1, 5), "thickness_mm": (0.03, 0.6)},
    ),
    "head": (
        "size",
        {
            **{"head_diameter_mm": (1.2, 4), "head_height_mm": (0.2, 3)},
            "bearing_diameter_mm": (1.1, 4),
        },
    ),
    "thread_limit": ("thread", {"min_mm": (0.5, 1), "max_mm": (0.55, 1.01)}),
    "length_range": ("size", {"shortest_mm": (0.5, 12), "longest_mm": (1.5, 15)}),
}


def senseless(specs: Iterable[Spec], tables: Tables) -> Iterator[Fault]:
    """Faults of rows whose columns contradict one another or the size that they are about."""
    for spec in specs:
        table = spec.record.TABLE
        more = MORE.get(table, ())
        runs = [more, *(pair for pair in ends(spec) if not {*pair} <= {*more})]
        for row in tables.get(table, ()):
            for run in runs:
                yield from falling(row, run)
    yield from disproportionate(tables)


def ends(spec: Spec) -> Iterator[tuple[str, str]]:
    """Pairs of the file's columns that are the two ends of a range."""
    names = [column.name for column in file_columns(spec) if column.type is not str]
    for name in names:
        words = name.split("_")
        for low, high in PAIRS:
            other = "_".join(high if word == low else word for word in words)
            if low in words and other in names:
                yield name, other


def falling(row: Row, run: tuple[str, ...]) -> Iterator[Fault]:
    """The first column of *run* that is less than one before it."""
    before: tuple[str, Any] | None = None
    for name in run:
        value: Any = row.cells.get(name)
        if value is None:
            continue
        if before and value < before[1]:
            expected = f"a number of at least {before[0]}, {before[1]:g}"
            yield Fault(row.file, row.line, name, f"{value:g}", expected)
            return
        before = name, value


def disproportionate(tables: Tables) -> Iterator[Fault]:
    """Values that are not in proportion to the diameter of the size that their row names."""
    across: dict[Any, Any] = {}
    for row in tables.get("thread", ()):
        for name in ("id", "size"):
            across.setdefault(row.cells[name], row.cells.get("nominal_mm"))
    for table, (key, spans) in SPANS.items():
        for row in tables.get(table, ()):
            diameter = across.get(row.cells[key]) or 0.0
            for name, (low, high) in spans.items() if diameter else ():
                value: Any = row.cells.get(name)
                if value is not None and not low * diameter <= value <= high * diameter:
                    expected = f"{low:g} to {high:g} times the {diameter:g} mm of {row.cells[key]}"
                    yield Fault(row.file, row.line, name, f"{value:g}", expected)
