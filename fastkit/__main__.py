"""`python -m fastkit` and the `fastkit` command; an interrupt while it loads is one line, too."""

import _thread
import sys
from typing import Any


def main() -> None:
    """Load the command line and run it."""
    sys.unraisablehook = _heard
    try:
        from fastkit.cli import main as run

        run()
    except (KeyboardInterrupt, RuntimeError) as error:  # Python 3.11 wraps one in a class's making
        if not isinstance(error.__cause__ or error, KeyboardInterrupt):
            raise
        sys.stderr.write("fastkit: interrupted\n")
        sys.exit(130)


def _heard(ignored: Any) -> None:
    """Raise an interrupt again that fell into a callback, where Python only prints it."""
    if ignored.exc_type is KeyboardInterrupt:
        _thread.start_new_thread(_thread.interrupt_main, ())  # once this has returned
    else:
        sys.__unraisablehook__(ignored)


if __name__ == "__main__":
    main()
