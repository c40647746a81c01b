"""Lines of the screens of `extract`."""

from collections.abc import Iterator

from fastkit.cli.output import wrap as wrap_words

INDENT = "  "


def wrap(text: str, columns: int, first: str = "", rest: str | None = None) -> Iterator[str]:
    """Wrap; nothing for an empty text."""
    if text:
        yield from wrap_words(text, columns, first, rest)
