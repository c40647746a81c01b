"""`python -m fastkit` and the `fastkit` command; an interrupt while it loads is one line, too."""

import sys


def main() -> None:
    """Load the command line and run it."""
    try:
        from fastkit.cli import main as run

        run()
    except KeyboardInterrupt:
        sys.stderr.write("fastkit: interrupted\n")
        sys.exit(130)


if __name__ == "__main__":
    main()
