"""What the deck asks: rows by record, and what the reference says about itself."""

import sqlite3
from typing import Any, TypeVar

from fastkit.reference import lookup, store

R = TypeVar("R", bound=tuple[Any, ...])


def opened() -> sqlite3.Connection:
    """The compiled reference, read-only."""
    return store.connect()


def rows(connection: sqlite3.Connection, record: type[R], **equal: str | float | None) -> list[R]:
    """All rows of a record whose columns equal the values given."""
    return lookup.many(connection, record, **equal)


def row(connection: sqlite3.Connection, record: type[R], **equal: str | float | None) -> R | None:
    """The first such row, or None."""
    return lookup.one(connection, record, **equal)


def data_version(connection: sqlite3.Connection) -> str:
    """The content hash that the compiled reference carries."""
    return store.meta(connection)["data_version"]
