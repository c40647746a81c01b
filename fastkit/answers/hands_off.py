"""What nobody should loosen, mend or cut at home: no plan is made for it."""

import re
import sqlite3

from fastkit.errors import NotHeld
from fastkit.notation.names import named
from fastkit.records.source import HandsOff
from fastkit.reference.names import nameable

ARTICLE = r"(?:(?:the|a|an|my|its) )?"
NEAR = r"near|next to|close to|away from|clear of|beside|behind|above|below|by|under"
LENGTH = r"\d[\d.,/]* ?(?:mm|cm|m|in|inch|inches|ft|feet)"
# "beside the", "beside the line and the", "300 mm from the", "got no"
BEFORE = re.compile(
    rf"\b(?:(?:{NEAR}) {ARTICLE}(?:(?:\w+ ){{1,3}}and {ARTICLE})?"
    rf"|{LENGTH} (?:off|from|to) {ARTICLE}"
    rf"|(?:no|without) {ARTICLE})$"
)
# "at 300 mm", "300 mm off", "touching"
AFTER = re.compile(
    rf"[ ,]*(?:is )?(?:at {LENGTH}\b|{LENGTH} (?:off|away|from|beside|behind|above|below)\b"
    r"|(?:touching|away|nearby|close|near|beside|behind|above|below)\b)"
)


def refuse(store: sqlite3.Connection, line: str) -> None:
    """
    Let a line pass that names nothing of the kind, or only as something that stands near.

    Args:
        store: Open reference.
        line: From `reference.spelling.heard`.

    Raises:
        NotHeld: When it does; it says why, who does it instead and how to say that it only
            stands near.
    """
    for row in nameable(store, HandsOff, line):
        if found := _touched(row, line):
            near = f" (where it only stands near, say '{found} 300 mm off')" if row.beside else ""
            raise NotHeld(f"no plan here: {row.because}; instead: {row.instead}{near}")


def _touched(row: HandsOff, line: str) -> str | None:
    """Return the name of the kind by which a line says that it is what is worked at."""
    for name, places in named(line, row.words):
        if all(any(not row.beside or not _near(line, *span) for span in place) for place in places):
            return name.replace(" + ", " ")
    return None


def _near(line: str, start: int, end: int) -> bool:
    """Say whether words from start to end only name what stands near."""
    return bool(BEFORE.search(line[:start]) or AFTER.match(line[end:]))
