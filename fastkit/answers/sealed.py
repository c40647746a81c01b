"""Parts whose hole must seal, by the words that people have for them."""

import sqlite3

from fastkit.records.repair import PartHole
from fastkit.records.source import Phrase
from fastkit.reference.lookup import many


def sealed_names(store: sqlite3.Connection) -> dict[str, PartHole]:
    """Return the hole of each part that must seal, by each of its names in lower case."""
    holes = {row.part: row for row in many(store, PartHole)}
    names = many(store, Phrase, option="part")
    return {name.words: holes[name.value] for name in names if name.value in holes}
