"""Jobs as text: read from a file, kept under a name, found again."""

from pathlib import Path

from fastkit.answers.kept_rows import keep, latest
from fastkit.shopbook.exchange import content
from fastkit.shopbook.rows import KeptJob
from fastkit.shopbook.text import now

EXPECTED = "a job file, such as fastkit job --example prints"


def text_of(file: Path, wanted: str = EXPECTED) -> str:
    """
    Return the text of a file of the user's; *wanted* says what was expected where there is none.

    Raises:
        Misuse: When it cannot be read, is too large or not text.
    """
    return content(file, wanted)


def save(name: str, text: str) -> tuple[str, ...]:
    """
    Keep a job under a name; the latest of a name counts.

    Returns:
        What had to be done to the own file first.

    Raises:
        Misuse: When the name cannot be kept.
        Broken: When the own file cannot be written.
    """
    return keep(KeptJob(0, now(), name, text))


def recall(name: str) -> tuple[str, tuple[str, ...]]:
    """
    Return the text of a job kept under a name, and what is wrong with the own file.

    Raises:
        NotHeld: When none is; the nearest are named.
        Broken: When the own file cannot be read.
    """
    found, held = latest(KeptJob, name, "no job")
    return found.text, (held.trouble,) if held.trouble else ()
