"""The ways an answer can fail, each with the exit status that the command line gives it."""


class FastkitError(Exception):
    """
    Base of every refusal that a user may see: one line, naming what was expected.

    Attributes:
        status: Exit status of the command line.
        nearest: Nearest valid values, best first; may be empty.
    """

    status = 3

    def __init__(self, message: str, nearest: tuple[str, ...] = ()) -> None:
        super().__init__(message)
        self.nearest = nearest


class NotHeld(FastkitError, LookupError):
    """A well-formed question that the data does not hold an answer to."""

    status = 1


class Misuse(FastkitError, ValueError):
    """An option, word or value that is not valid; the message names the bound or the nearest."""

    status = 2


class Broken(FastkitError, RuntimeError):
    """The installation or a data file is wrong, or a file cannot be written."""

    status = 3


class Mistakes(Misuse):
    """
    Several mistakes in one file, each on its own line and naming what was expected.

    Attributes:
        lines: The mistakes, in the order of the file.
    """

    def __init__(self, lines: list[str]) -> None:
        super().__init__("; ".join(lines))
        self.lines = tuple(lines)
