"""`python -m fastkit`."""

from fastkit.cli import main

main()
