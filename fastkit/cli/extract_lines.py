"""Lines of the screens of `extract`: wrapped, a number and its unit on one line."""

import re
from collections.abc import Iterator

from fastkit.cli.output import wrap as wrap_words

INDENT = "  "
JOINT = "\N{CURRENCY SIGN}"  # keeps a number and its unit on one line
_UNIT = re.compile(r"(?<=\d) (?=(?:mm|in|N·m|lb·ft|lb·in|min|h|%|°C)\b|%)")


def wrap(text: str, columns: int, first: str = "", rest: str | None = None) -> Iterator[str]:
    """Wrap, numbers and their units kept together; nothing for an empty text."""
    if not text:
        return
    for line in wrap_words(_UNIT.sub(JOINT, text), columns, first, rest):
        yield line.replace(JOINT, " ")
