"""
How one file of data/ is described, and what follows from that for its columns.

Names, types and optionality of the columns come from the record itself; a spec only adds what a
tuple cannot say: bounds, choices, references, keys, and which columns are kept in another form.
"""

from collections.abc import Mapping
from typing import Any, NamedTuple, get_args, get_type_hints

from fastkit.records.source import Source

Cell = str | float | int | None


class Rule(NamedTuple):
    """Bounds of one column beyond its type; every bound given must hold."""

    above: float | None = None
    low: float | None = None
    high: float | None = None
    choices: tuple[str | int, ...] = ()
    ref: tuple[str, str] | None = None  # table, column


class Column(NamedTuple):
    """One column: name, type (`str`, `float` or `int`), whether it may be empty, its rule."""

    name: str
    type: type
    optional: bool
    rule: Rule


class Child(NamedTuple):
    """A list inside a TOML table that becomes rows of another table, in order."""

    key: str
    record: Any
    parent: str  # column that names the row the list stands in
    value: str  # column that takes each element
    fixed: Mapping[str, str] = {}
    number: str | None = None  # column that counts from 1
    tag: str | None = None  # column that takes what stands in brackets before an element


class Spec(NamedTuple):
    """
    One file of data/ and the table made from it.

    `kept` are columns that the file holds in place of `derived` ones (`fastkit.compiler.derive`).
    `kind`, `name` and `title` make the entry of a row: kind:key, the key from the column `name`,
    and a title from its cells; rows that share a name share the entry. `words` find all of them.
    A cell of the column `several` may name some rows of another table, or all but some: a row each.
    """

    file: str
    record: Any
    key: tuple[str, ...]
    rules: Mapping[str, Rule] = {}
    kept: Mapping[str, Any] = {}
    derived: tuple[str, ...] = ()
    kind: str | None = None
    name: str = "id"
    title: str = "{title}"
    words: str = ""
    children: tuple[Child, ...] = ()
    several: str = ""


POSITIVE = Rule(above=0)
NOT_NEGATIVE = Rule(low=0)
SHARE = Rule(low=0, high=1)
FLAG = Rule(choices=(0, 1))
ANGLE = Rule(above=0, high=360)
CHECKED = Rule(choices=("formula", "outside", "copied", "memory", "judgement"))


def ref(table: str, column: str = "id") -> Rule:
    """Rule of a column that names a row of another table."""
    return Rule(ref=(table, column))


def columns(record: Any, rules: Mapping[str, Rule]) -> tuple[Column, ...]:
    """Columns of a record's table; `source` and `checked` carry the same rule everywhere."""
    everywhere = {"source": ref("source"), "checked": CHECKED} if record is not Source else {}
    return tuple(
        _column(name, kind, {**everywhere, **rules})
        for name, kind in get_type_hints(record).items()
    )


def file_columns(spec: Spec) -> tuple[Column, ...]:
    """Columns as the file holds them: those of the record less the derived, plus the kept."""
    held = [c for c in columns(spec.record, spec.rules) if c.name not in spec.derived]
    kept = [_column(name, kind, spec.rules) for name, kind in spec.kept.items()]
    return (*held, *kept)


def _column(name: str, kind: Any, rules: Mapping[str, Rule]) -> Column:
    alternatives = get_args(kind)
    optional = type(None) in alternatives
    base = next(a for a in alternatives if a is not type(None)) if optional else kind
    return Column(name, base, optional, rules.get(name, Rule()))
