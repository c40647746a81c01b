"""What the user's own notes say of a method, counted."""

from typing import NamedTuple


class OwnTries(NamedTuple):
    """Attempts with one method in one damage state and seizure class, and how many did it."""

    method: str
    damage: str
    seizure: str  # class: rusted, threadlocked …
    ok: int
    of: int
