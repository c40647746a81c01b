"""What nobody should loosen, mend or cut at home: no plan is made for it."""

import re
import sqlite3

from fastkit.errors import NotHeld
from fastkit.records.source import HandsOff
from fastkit.reference.lookup import many
from fastkit.reference.spelling import mended

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


def refuse(store: sqlite3.Connection, words: str) -> None:
    """
    Let words pass that name nothing of the kind, or only as something that stands near.

    Raises:
        NotHeld: When they do; it says why, who does it instead and how to say that it only
            stands near.
    """
    line = f" {mended(store, words.lower().replace('-', ' '))} "
    for row in many(store, HandsOff):
        names = "|".join(re.escape(name.replace("-", " ")) for name in row.words.split("; "))
        for found in re.finditer(rf"(?<!\w)(?:{names})s?(?!\w)", line):
            if not BEFORE.search(line[: found.start()]) and not AFTER.match(line[found.end() :]):
                near = f"where it only stands near, say '{found[0]} 300 mm off'"
                raise NotHeld(f"no plan here: {row.because}; instead: {row.instead} ({near})")
