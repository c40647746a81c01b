"""The rows of the file whose names a line may say, without a look at the others."""

import re
import sqlite3
from typing import Any, TypeVar

from fastkit.reference.store import query

R = TypeVar("R", bound=tuple[Any, ...])  # a record with names


def nameable(store: sqlite3.Connection, record: type[R], line: str) -> list[R]:
    """Return the records that a line in small letters may name, in the order of the data."""
    shape: Any = record  # no type says that a record's class knows its table
    words = set(re.findall(r"\w+", line))
    words |= {word.removesuffix("s") for word in words}
    sql = (
        f"SELECT {', '.join(shape._fields)} FROM {shape.TABLE} WHERE rowid IN (SELECT row FROM "
        f"name_key WHERE word IN ({', '.join('?' * len(words))}) AND of = ?) ORDER BY rowid"
    )
    return [shape._make(row) for row in query(store, sql, (*sorted(words), shape.TABLE))]
