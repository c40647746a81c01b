"""Published sources."""

from typing import NamedTuple

# say nothing, wherever they stand in a phrase
FILLERS = frozenset(
    "a an and are as at be been but does for from get got had has have he i ill im is it "
    "its ive like me my of or please really s so some that the their them then there theres "
    "these they this those to too very was we were which will with you your also plus".split()
)


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


class Purpose(NamedTuple):
    """What an entry is for: by those words it is found, and its page says them."""

    TABLE = "purpose"

    entry: str  # full entry id, kind:key
    purpose: str
    source: str
    locator: str
    checked: str


class Saying(NamedTuple):
    """What people say, also in other tongues, and the words by which the file knows it."""

    TABLE = "saying"

    words: str
    written: str
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

    @property
    def key(self) -> tuple[str, ...]:
        """The words that count; all of them where none does."""
        words = self.words.split()
        return tuple([word for word in words if word not in FILLERS]) or tuple(words)


class HandsOff(NamedTuple):
    """What nobody should loosen, mend or cut at home: its names (`notation.names`), why, who."""

    TABLE = "hands_off"

    id: str
    words: str
    beside: str | None  # the neighbour it is where it only stands near
    because: str
    instead: str
    source: str
    locator: str
    checked: str


class DangerWord(NamedTuple):
    """Words that tell of danger in anybody's mouth, and what must be so before any work."""

    TABLE = "danger_word"

    id: str
    title: str  # what threatens: height, confined space …
    words: str  # its names (`notation.names`)
    near: str | None  # the neighbour that it is, touching
    body: str | None  # the material that it says
    first: str  # what must be so first
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
