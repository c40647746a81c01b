"""
The files that `fastkit sources --export` writes, described so that they compile again.

Each holds a whole table under the table's name, computed columns included; what stands in lists in
data/methods.toml has files of its own.
"""

from collections.abc import Iterator
from pathlib import Path

from fastkit.compiler.spec import Spec
from fastkit.compiler.tables import CHILD_KEYS, CHILD_RULES, SPECS


def _tables() -> Iterator[Spec]:
    """A spec a table, in the order in which the kept files fill them."""
    named: set[str] = set()  # two files may fill one table
    for spec in SPECS:
        for child in spec.children:
            table = child.record.TABLE
            if table not in named:
                yield Spec(f"{table}.csv", child.record, CHILD_KEYS[table][1], CHILD_RULES[table])
            named.add(table)
        table = spec.record.TABLE
        if table not in named:
            yield spec._replace(file=f"{table}.csv", kept={}, derived=(), children=())
        named.add(table)


EXPORTED = tuple(_tables())


def is_export(folder: Path) -> bool:
    """Whether *folder* holds tables that were exported, not the files kept by hand."""
    return (folder / "source.csv").is_file() and not (folder / "sources.toml").is_file()
