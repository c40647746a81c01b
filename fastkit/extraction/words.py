"""
Free words to fields of the situation, what was only taken from vague words, and what was not read.

The phrases come from the data and are passed in. The longest phrase wins, little words between its
words do not matter, and a word that is one slip of the keyboard away from a known one is read as it.
An option that ends in `?` marks a reading of vague words, which the answer shows as assumed.
Besides the names of the situation's fields the phrases use these options:

    axis      above, beside, swing, side, pocket, engage, wasted: what a number beside it measures
    length    mm of a length said in words ("two fingers")
    distance  mm to the neighbour in the same clause ("touching")
    tool      a tool at hand, or lacking after a negation
    method    what was tried, where the clause says that something was tried
    cue       not, tried, or: what they do to the words after them
    form      socket: a hexagon's size belongs to a recess
    filler    words that say nothing about the fastener
"""

from collections.abc import Callable, Iterable, Mapping, Sequence
from typing import NamedTuple

from fastkit.extraction.tokens import Token, tokenise
from fastkit.records.source import Phrase

FILLERS = frozenset(
    "a an and are as at been bit but by does for from get got had has have he i ill im is it its "
    "ive just like me my of on only or please really s so some that the their them then there "
    "theres these they this those to too up very was we were which with you your also plus".split()
)
# the worst state said is the one the fastener is in
DAMAGE_ORDER = (
    *("intact", "worn", "rounded", "stripped", "spinning", "nut-spinning", "snapped-proud"),
    *("snapped-flush", "snapped-below", "tool-stuck", "extractor-broken"),
)
# the more particular word wins: a rusted bolt that is also "stuck" is a rusted bolt
SEIZED_ORDER = (
    *("none", "seized", "painted", "rusted", "threadlocked-low", "threadlocked-medium"),
    *("threadlocked-high", "galled"),
)
_RANKED: Mapping[str, tuple[str, ...]] = {
    "damage": DAMAGE_ORDER,
    "seized": SEIZED_ORDER,
    "residue": ("none", "flammable", "chlorinated"),
    "load": ("unknown", "none", "weight", "spring", "pressure"),
    "support": ("unknown", "bench", "stands", "jack"),
}
_FLAGS = ("left_hand", "no_heat")
_MANY = ("have", "lack", "tried")
_CAN = ("make-room", "drop-assembly", "bench")
_AXIS_UNIT = {"swing": "deg", "wasted": "%"}
_AXIS_FIELD = {
    "above": "above_mm",
    "beside": "beside_mm",
    "swing": "swing_deg",
    "engage": "engage_mm",
    "wasted": "wasted_pct",
}

Field = str | float | bool | tuple[object, ...]
Designate = Callable[[str], tuple[str, str] | None]


class Taken(NamedTuple):
    """A field filled from vague words: shown as an assumption."""

    what: str
    value: Field
    words: str


class Reading(NamedTuple):
    """What the words say: fields by the situation's names, vague readings, words left over."""

    given: Mapping[str, Field]
    taken: tuple[Taken, ...]
    left: tuple[str, ...]


class Vocabulary(NamedTuple):
    """The phrases made ready: rows by their words, first words by length, every known word."""

    rows: Mapping[tuple[str, ...], tuple[Phrase, ...]]
    longest: Mapping[str, int]
    words: frozenset[str]


class _Item(NamedTuple):
    """A stretch of the text that was understood as one thing."""

    at: int
    clause: int
    part: int
    text: str
    rows: tuple[Phrase, ...]


def vocabulary(phrases: Iterable[Phrase]) -> Vocabulary:
    """Return the phrases made ready for `read`."""
    rows: dict[tuple[str, ...], tuple[Phrase, ...]] = {}
    longest: dict[str, int] = {}
    for phrase in phrases:
        key = _bare(token.norm for token in tokenise(phrase.words))
        rows[key] = (*rows.get(key, ()), phrase)
        longest[key[0]] = max(longest.get(key[0], 0), len(key))
    return Vocabulary(rows, longest, frozenset(word for key in rows for word in key) | FILLERS)


def read(text: str, known: Vocabulary, designate: Designate) -> Reading:
    """
    Return what a text says of a fastener that will not move.

    Args:
        text: Words as people type them.
        known: The phrases, from `vocabulary`.
        designate: Gives (kind, key) of a designation such as `M8` or `6 mm hex socket`, kind one of
            thread, drive, grade; None where the text is none.

    >>> read("nothing known", vocabulary(()), lambda text: None).left
    ('nothing', 'known')
    """
    page = _Page(tokenise(text), known)
    page.find_designations(designate)
    page.find_phrases()
    page.say_not()
    page.measure()
    page.fill()
    return page.reading()


def _bare(words: Iterable[str]) -> tuple[str, ...]:
    """Return the words without the little ones, or all of them where nothing else is there."""
    words = tuple(words)
    return tuple(word for word in words if word not in FILLERS) or words


def _one_slip(word: str, known: frozenset[str]) -> str | None:
    """Return the one known word that a single slip (wrong, missing, extra, swapped) makes of it."""
    if len(word) < 5 or word in known or not word.isalpha():
        return None
    letters = "abcdefghijklmnopqrstuvwxyz"
    cuts = [(word[:i], word[i:]) for i in range(len(word) + 1)]
    slips = {
        *(a + b[1:] for a, b in cuts if b),
        *(a + b[1] + b[0] + b[2:] for a, b in cuts if len(b) > 1),
        *(a + c + b[1:] for a, b in cuts if b for c in letters),
        *(a + c + b for a, b in cuts for c in letters),
    }
    found = sorted(slip for slip in slips & known if len(slip) > 4)
    return found[0] if len(found) == 1 else None


class _Page:
    """One text being read: its tokens, what has been made of them, the fields so far."""

    def __init__(self, tokens: Sequence[Token], known: Vocabulary) -> None:
        self.tokens = tokens
        self.known = known
        self.norms = [_one_slip(token.norm, known.words) or token.norm for token in tokens]
        self.used = [False] * len(tokens)
        self.items: list[_Item] = []
        self.near: list[tuple[str, float]] = []
        self.given: dict[str, Field] = {}
        self.taken: list[Taken] = []

    # -- designations

    def find_designations(self, designate: Designate) -> None:
        """Read threads, drives and grades, longest stretch of a clause first."""
        for at in range(len(self.tokens)):
            for length in (5, 4, 3, 2, 1):
                span = range(at, at + length)
                if self._together(span) and (found := designate(self._text(span))):
                    kind, key = found
                    if kind not in self.given:
                        self._use(span)
                        self.given[kind] = key
                    break

    # -- phrases

    def find_phrases(self) -> None:
        """Read the phrases, longest first, little words inside them skipped."""
        at = 0
        while at < len(self.tokens):
            found = None if self.used[at] else self._phrase(at)
            if found:
                span, rows = found
                self._use(span)
                token = self.tokens[at]
                words = " ".join(self.tokens[i].text for i in span)
                self.items.append(_Item(at, token.clause, token.part, words, rows))
                at = span[-1] + 1
            else:
                at += 1

    def _phrase(self, start: int) -> tuple[list[int], tuple[Phrase, ...]] | None:
        limit = self.known.longest.get(self.norms[start], 0)
        span, key, best = [start], [self.norms[start]], None
        at = start
        while True:
            if rows := self.known.rows.get(tuple(key)):
                best = (list(span), rows)
            at += 1
            while self._same_clause(at, start) and self.norms[at] in FILLERS:
                at += 1
            if len(key) >= limit or not self._same_clause(at, start) or self.used[at]:
                return best
            span.append(at)
            key.append(self.norms[at])

    def _same_clause(self, at: int, start: int) -> bool:
        return at < len(self.tokens) and self.tokens[at].clause == self.tokens[start].clause

    # -- negation and attempts

    def say_not(self) -> None:
        """Turn round what a negation stands before, and keep apart what was tried."""
        kept: list[_Item] = []
        denied: tuple[int, int] | None = None
        tried_clause: int | None = None
        said_tried = {item.clause for item in self.items if _is(item, "cue", "tried")}
        for item in self.items:
            if _is(item, "cue", "not"):
                denied = (item.clause, item.part)
                continue
            negated = denied == (item.clause, item.part)
            tried = item.clause in said_tried or (
                tried_clause == item.clause - 1 and self._goes_on(item)
            )
            tried_clause = item.clause if tried else tried_clause
            options = {row.option.rstrip("?") for row in item.rows}
            if tried and "method" in options:
                rows = [row for row in item.rows if row.option.startswith("method")]
            else:
                rows = [row for row in item.rows if not row.option.startswith("method")]
            if negated:
                rows = [_denied(row) for row in rows if row.option in ("tool", "can")]
            elif tried and "tool" in options and "method" not in options:
                rows = []
            kept.append(item._replace(rows=tuple(rows)))
        self.items = kept

    def _goes_on(self, item: _Item) -> bool:
        first = next(t.norm for t in self.tokens if t.clause == item.clause)
        return first in ("then", "and", "also")

    # -- numbers

    def measure(self) -> None:
        """Give every number to the axis or neighbour of its own stretch of the text."""
        for part in sorted({token.part for token in self.tokens}):
            _Stretch(self, part).read()

    # -- the rest

    def fill(self) -> None:
        """Fill the plain fields: ranked ones by the worst word, lists in order, others by the first."""
        can: list[str] = []
        cannot: list[str] = []
        socket = False
        for item in self.items:
            for row in item.rows:
                option, vague = row.option.rstrip("?"), row.option.endswith("?")
                if option == "form":
                    socket = True
                elif option == "can":
                    can.append(row.value)
                elif option == "cannot":
                    cannot.append(row.value)
                elif option in ("tool", "lack", "method"):
                    field = {"tool": "have", "lack": "lack", "method": "tried"}[option]
                    self._add(field, row.value, vague, item.text)
                elif option in _FLAGS:
                    self.put(option, True, vague, item.text)
                elif option in _RANKED:
                    self._rank(option, row.value, vague, item.text)
                elif option in _AXIS_FIELD.values():
                    self.put(option, float(row.value), vague, item.text)
                elif option == "side_mm":
                    width, _, depth = row.value.partition("x")
                    self.put(option, (float(width), float(depth)), vague, item.text)
                elif option not in ("axis", "length", "distance", "near", "cue", "filler"):
                    self.put(option, row.value, vague, item.text)
        if cannot and not can:
            can = [move for move in _CAN if move not in cannot] or ["none"]
        if can:
            self.given["can"] = tuple((move, None) for move in dict.fromkeys(can))
        if self.near:
            self.given["near"] = tuple(self.near)
        drive = self.given.get("drive")
        if socket and isinstance(drive, str) and drive.startswith("AF-"):
            self.given["drive"] = "hex-" + drive.removeprefix("AF-")

    def put(self, field: str, value: Field, vague: bool, words: str) -> None:
        """Fill a field once; plain words win over vague ones."""
        known = next((taken for taken in self.taken if taken.what == field), None)
        if field in self.given and not (known and not vague):
            return
        if known:
            self.taken.remove(known)
        self.given[field] = value
        if vague:
            self.taken.append(Taken(field, value, words))

    def _rank(self, field: str, value: str, vague: bool, words: str) -> None:
        order = _RANKED[field]
        have = self.given.get(field)
        if have is None or order.index(value) > order.index(str(have)):
            self.taken = [taken for taken in self.taken if taken.what != field]
            self.given[field] = value
            if vague:
                self.taken.append(Taken(field, value, words))

    def _add(self, field: str, value: str, vague: bool, words: str) -> None:
        have = self.given.get(field, ())
        if isinstance(have, tuple) and value not in have:
            self.given[field] = (*have, value)
            if vague:
                self.taken.append(Taken(field, value, words))

    def reading(self) -> Reading:
        """Return the fields, with everything that nobody could use."""
        left = tuple(
            token.text
            for i, token in enumerate(self.tokens)
            if not self.used[i] and token.norm not in FILLERS
        )
        return Reading(self.given, tuple(self.taken), left)

    # -- small helpers

    def use(self, at: int) -> None:
        """Mark a token as understood."""
        self.used[at] = True

    def _use(self, span: Iterable[int]) -> None:
        for at in span:
            self.used[at] = True

    def _together(self, span: range) -> bool:
        return (
            span[-1] < len(self.tokens)
            and self.tokens[span[0]].clause == self.tokens[span[-1]].clause
            and not any(self.used[at] for at in span)
        )

    def _text(self, span: Iterable[int]) -> str:
        return " ".join(self.norms[at] for at in span)


def _is(item: _Item, option: str, value: str) -> bool:
    return any(row.option == option and row.value == value for row in item.rows)


def _denied(row: Phrase) -> Phrase:
    return row._replace(option={"tool": "lack", "can": "cannot"}[row.option])
