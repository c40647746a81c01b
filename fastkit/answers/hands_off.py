"""What nobody should loosen, mend or cut at home: no plan is made for it."""

import re
import sqlite3

from fastkit.errors import NotHeld
from fastkit.records.source import HandsOff
from fastkit.reference.lookup import many

NEARBY = r"(?:near|beside|behind|above|below|by|to|off|of|from|under|and) (?:the |a |an )?"
AWAY = r"[ ,]*(?:at |is |touching|away|nearby|close|\d)"


def refuse(store: sqlite3.Connection, words: str) -> None:
    """
    Let words pass that name nothing of the kind, or only as something that stands near.

    Raises:
        NotHeld: When they do; it says why, and who does it instead.
    """
    line = f" {words.lower()} "
    for row in many(store, HandsOff):
        names = "|".join(re.escape(name) for name in row.words.split("; "))
        for found in re.finditer(rf"(?<![\w-])(?:{names})(?![\w-])", line):
            near = re.search(rf"\b{NEARBY}$", line[: found.start()])
            if not near and not re.match(AWAY, line[found.end() :]):
                raise NotHeld(f"no plan here: {row.because}; instead: {row.instead}")
