"""What the notes in the user's own file say of the methods, counted for a plan."""

from fastkit.errors import Broken
from fastkit.extraction.learned import seizure_class
from fastkit.records.own import OwnTries
from fastkit.shopbook.rows import Attempt
from fastkit.shopbook.store import read


def own_tries(seized: str) -> tuple[tuple[OwnTries, ...], tuple[str, ...]]:
    """
    Return what the notes say of each method and damage at a kind of seizure, and what is wrong
    with the own file, which keeps no answer from being given.
    """
    try:
        held = read()
    except Broken as error:
        return (), (str(error),)
    counts: dict[tuple[str, str], list[bool]] = {}
    wanted = seizure_class(seized)
    for row in held.of(Attempt):
        if row.damage and seizure_class(row.seized) == wanted:
            counts.setdefault((row.method, row.damage), []).append(row.outcome == "ok")
    rows = tuple(
        OwnTries(method, damage, wanted, sum(found), len(found))
        for (method, damage), found in counts.items()
    )
    return rows, (held.trouble,) if held.trouble else ()
