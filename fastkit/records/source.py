"""Published sources."""

from typing import NamedTuple


class Source(NamedTuple):
    """One published source, or `practice`."""

    TABLE = "source"

    id: str
    title: str
    edition: str
    kind: str  # standard, handbook, open-library, regulation, paper, practice


class Alias(NamedTuple):
    """Another way people say an entry."""

    TABLE = "alias"

    words: str
    entry: str  # full entry id, kind:key
    source: str
    locator: str
    checked: str


class Phrase(NamedTuple):
    """Words of a situation and the option they fill."""

    TABLE = "phrase"

    words: str
    option: str  # damage, seized, into, near, power …
    value: str
    source: str
    locator: str
    checked: str


class Erratum(NamedTuple):
    """A printed value that its formula or its neighbours contradict: both values, and why."""

    TABLE = "erratum"

    item: str  # what the value belongs to, in words
    as_printed: str
    as_used: str
    evidence: str
    source: str
    locator: str
    checked: str
