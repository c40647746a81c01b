"""What a life hangs on, or a machine: by its names, and what each command leaves to its maker."""

from typing import NamedTuple


class Critical(NamedTuple):
    """Something that hangs on a thread; `words` are its names (`notation.names`)."""

    TABLE = "critical"

    id: str  # brakes, lifting, people …
    words: str
    replaced: str  # check: shown to check the maker's part by; none; plain: like any other
    mended: str  # bench: where the maker allows it, never weaker; renewed: by no repair
    because: str
    instead: str
    loosened: str | None  # what must be so before it is loosened
    source: str
    locator: str
    checked: str
