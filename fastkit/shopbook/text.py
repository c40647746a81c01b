"""What the user writes into the own file: one line that can be printed."""

from datetime import UTC, datetime

from fastkit.errors import Misuse

LONGEST = 200


def plain(text: str, what: str) -> str:
    """
    The words with single blanks between them.

    Raises:
        Misuse: When nothing is left, it is too long, or it holds what cannot be printed.
    """
    words = " ".join(text.split())
    if not words or len(words) > LONGEST or not words.isprintable():
        raise Misuse(f"{what} {text[:40]!r}: expected words, up to {LONGEST} printable characters")
    return words


def now() -> str:
    """The time as it is written beside a note, UTC."""
    return f"{datetime.now(UTC):%Y-%m-%dT%H:%M:%SZ}"
