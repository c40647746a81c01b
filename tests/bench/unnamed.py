"""
What a search finds of a line for which nobody has put a name into the data.

Run by hand: `python -m tests.bench.unnamed`. Each open line (`tests/reference`) is asked twice: of
the data as they are, and less every other name that makes up more than half of its words. The
second says what new lines will get, before any is written.
"""

import sqlite3
from collections.abc import Collection, Iterator
from contextlib import contextmanager
from unittest.mock import patch

from fastkit.reference import search as searching
from fastkit.reference.search import search
from fastkit.reference.spelling import EMPTY_WORDS, cut
from fastkit.reference.store import connect
from tests.reference.test_measured_phrasings import TUNED, phrasings


def stems(text: str) -> frozenset[str]:
    """The words of a text that ask for something, less an s at the end."""
    return frozenset(word.removesuffix("s") for word in cut(text) if word not in EMPTY_WORDS)


def names_it(alias: str, line: Collection[str]) -> bool:
    """Whether another name, all of it said, makes up more than half of a line."""
    words = stems(alias)
    return len(words) > 1 and words <= set(line) and 2 * len(words) > len(line)


@contextmanager
def without_names(line: Collection[str]) -> Iterator[None]:
    """Search less the names that make up the line."""
    spoken, aliases = searching.spoken, searching._aliases

    def fewer(store: sqlite3.Connection, text: str) -> dict[str, tuple[str, ...]]:
        found = spoken(store, text)
        return {alias: ids for alias, ids in found.items() if not names_it(alias, line)}

    def fewer_of(
        store: sqlite3.Connection, pool: Collection[str], asked: Collection[str]
    ) -> dict[str, list[str]]:
        found = aliases(store, pool, asked)
        return {id_: [a for a in held if not names_it(a, line)] for id_, held in found.items()}

    with patch.object(searching, "spoken", fewer), patch.object(searching, "_aliases", fewer_of):
        yield


def place(store: sqlite3.Connection, words: str, right: Collection[str]) -> int:
    """The place of the first right entry, from 0; 99 if not found."""
    ids = [hit.id for hit in search(store, words).hits]
    return next((n for n, id_ in enumerate(ids) if id_ in right), 99)


def main() -> None:
    """Print how many of the open lines have the right entry first, and within three."""
    store = connect()
    lines = [line for name in TUNED for line in phrasings(name)]
    named = [place(store, words, right) for words, right in lines]
    unnamed = []
    for words, right in lines:
        with without_names(stems(words)):
            unnamed.append(place(store, words, right))
    for what, places in (("as they are", named), ("without its names", unnamed)):
        first, three = sum(n == 0 for n in places), sum(n < 3 for n in places)
        print(f"{what:18} {first} first, {three} within three, of {len(lines)}")


if __name__ == "__main__":
    main()
