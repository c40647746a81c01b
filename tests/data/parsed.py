"""The rows of data/ in memory, as the files hold them and as the compiler completes them."""

from collections.abc import Mapping, Sequence
from pathlib import Path
from typing import Any

from fastkit.compiler import derive
from fastkit.compiler.reading import Row as FileRow
from fastkit.compiler.reading import read_folder
from fastkit.compiler.spec import Column, file_columns
from fastkit.compiler.tables import SPECS

DATA = Path(__file__).parents[2] / "data"
Row = dict[str, Any]
Tables = dict[str, list[Row]]
WORDS = ("alias", "saying", "phrase")  # tables of words: no number in them


def read() -> Tables:
    """Rows as the files hold them, by table, nothing derived."""
    return {table: [row.cells for row in rows] for table, rows in read_folder(DATA, SPECS).items()}


def completed(kept: Mapping[str, Sequence[Row]]) -> Tables:
    """
    Copies of *kept* rows with what the compiler computes beside them.

    Raises:
        ValueError: Where the compiler would refuse a row.
    """
    rows = {
        table: [FileRow("-", n, dict(cells)) for n, cells in enumerate(held)]
        for table, held in kept.items()
        if table not in WORDS
    }
    if faults := derive.complete(rows):
        raise ValueError("\n".join(map(str, faults)))
    return {table: [row.cells for row in held] for table, held in rows.items()}


def numbers() -> dict[str, tuple[Column, ...]]:
    """Columns by table that hold a measured number: no flag, no choice."""
    found = {
        spec.record.TABLE: tuple(
            column
            for column in file_columns(spec)
            if column.type is not str and not column.rule.choices
        )
        for spec in SPECS
    }
    return {table: columns for table, columns in found.items() if columns}
