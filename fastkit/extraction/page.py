"""One text cut into words and phrases, and what of it has been used."""

from collections.abc import Iterable

from fastkit.extraction.bare_sizes import BESIDE, is_length, is_wrench
from fastkit.extraction.items import Item
from fastkit.extraction.stubs import FLUSH, SIDES
from fastkit.extraction.tokens import Token
from fastkit.extraction.vocabulary import Phrases, indexed, one_slip
from fastkit.records.source import FILLERS, Phrase

ARTICLES = ("the", "a", "an", "my", "its", "this")
STATES = ("damage", "damage?", "seized", "seized?")  # what the fastener itself suffers
SNAPPED = (*SIDES, FLUSH)
NO_PHRASES = indexed(())


class Page:
    """The words of a text, each as the known word that it is or slips from, and its phrases."""

    def __init__(self, known: frozenset[str]) -> None:
        self.known = known
        self.phrases = NO_PHRASES
        self.tokens: list[Token] = []
        self.norms: list[str] = []
        self.used: list[bool] = []
        self.items: list[Item] = []

    def add(self, tokens: Iterable[Token]) -> None:
        """Take in the words of a clause, each as the known word that it is or slips from."""
        for token in tokens:
            self.tokens.append(token)
            self.norms.append(one_slip(token.norm, self.known) or token.norm)
            self.used.append(False)

    def find_phrases(self, phrases: Phrases) -> None:
        """Read the phrases, longest first, little words inside them skipped."""
        self.phrases = phrases
        at = 0
        while at < len(self.tokens):
            found = None if self.used[at] else self._phrase(at)
            if found:
                span, rows = found
                if any(
                    row.option in ("filler", "place") for row in rows
                ):  # a tool where tools are listed
                    rows = tuple([row for row in rows if row.option != "tool"])
                self.use(span)
                token = self.tokens[at]
                words = " ".join(self.tokens[i].text for i in span)
                self.items.append(Item(at, tuple(span), token.clause, token.part, words, rows))
                at = span[-1] + 1
            else:
                at += 1

    def _phrase(self, start: int) -> tuple[list[int], tuple[Phrase, ...]] | None:
        limit = self.phrases.longest.get(self.norms[start], 0)
        span, key, best = [start], [self.norms[start]], None
        at = start
        while True:
            if rows := self.phrases.rows.get(tuple(key)):
                best = (list(span), rows)
            at += 1
            while self.same_clause(at, start) and (
                self.norms[at] in FILLERS or self._one_measure(at)
            ):
                at += 1
            if len(key) >= limit or not self.same_clause(at, start) or self.used[at]:
                return best
            span.append(at)
            key.append(self.norms[at])

    def _one_measure(self, at: int) -> bool:
        """Say whether a number stands inside a phrase: `broke 3 mm below`."""
        return self.tokens[at].measure is not None and self.tokens[at - 1].measure is None

    def same_clause(self, at: int, start: int) -> bool:
        """Say whether a place is one of the text, in the clause of another."""
        return at < len(self.tokens) and self.tokens[at].clause == self.tokens[start].clause

    def word_before(self, at: int) -> str:
        """Return the word before a place that says something; empty where there is none."""
        while at and self.same_clause(at - 1, at):
            at -= 1
            if self.norms[at] not in ARTICLES:
                return self.norms[at]
        return ""

    def after_kinds(self) -> set[int]:
        """Return the places right after the name of a fastener: `M8 bolt 13 mm`, `bolt is a 15`."""
        kinds = [item for item in self.items if any(row.option == "kind" for row in item.rows)]
        places = set()
        for item in kinds:
            at = item.span[-1] + 1
            while self.same_clause(at, item.at) and self.norms[at] in FILLERS:
                at += 1
            places.add(at)
        return places

    def use(self, span: Iterable[int], used: bool = True) -> None:
        """Count words as read, or as not read after all."""
        for at in span:
            self.used[at] = used

    def named_sizes(self, threaded: bool) -> set[int]:
        """
        Return the places of lengths behind the name or its state: `bolt seized 17 mm`.

        Where its thread is known (`threaded`), only of more lengths than there are neighbours.
        """
        states = {
            at
            for item in self.items
            if any(
                row.option in (*STATES, "left_hand") and row.value not in SNAPPED
                for row in item.rows
            )
            for at in item.span
        }
        takers = {
            item.at: {row.option.rstrip("?") for row in item.rows} & {"axis", "distance", "near"}
            for item in self.items
        }
        found = set()
        for at in self.after_kinds():
            while at in states or (at < len(self.norms) and self.norms[at] in FILLERS):
                at += 1
            if at >= len(self.norms) or not is_wrench(self.tokens[at]):
                continue
            if takers.get(at + 1, set()) & {"axis", "distance"} or self._says_where(at + 1):
                continue
            here = [place for place, one in enumerate(self.tokens) if self.same_clause(place, at)]
            lengths = sum(is_length(self.tokens[place]) for place in here)
            things = sum("near" in takers.get(place, ()) for place in here)
            if lengths > things or (at - 1 in states and not threaded):
                found.add(at)
        return found

    def measured_by_next(self, at: int) -> bool:
        """Say whether the word behind a length says what it measures: `10 mm above`."""
        options = {
            row.option.rstrip("?") for item in self.items if item.at == at + 1 for row in item.rows
        }
        return bool(options & {"axis", "distance"}) or self._says_where(at + 1)

    def _says_where(self, at: int) -> bool:
        return at < len(self.norms) and self.norms[at] in BESIDE
