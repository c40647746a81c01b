"""Where the user's own file lies: FASTKIT_HOME, else the platform's data folder."""

import os
import sys
from pathlib import Path

from fastkit.errors import Broken

NAME = "shopbook.db"


def folder() -> Path:
    """
    The folder of the own file; it need not exist.

    Raises:
        Broken: When neither FASTKIT_HOME nor a home is known.
    """
    own = os.environ.get("FASTKIT_HOME")
    if own:
        return Path(own)
    if sys.platform == "win32":
        base = os.environ.get("LOCALAPPDATA") or "~/AppData/Local"
    else:
        mac = sys.platform == "darwin"
        usual = "~/Library/Application Support" if mac else "~/.local/share"
        given = os.environ.get("XDG_DATA_HOME", "").strip()
        base = given if given.startswith("/") else usual
    # what platformdirs does, without its cost at every start; a test compares the two
    try:
        return Path(base).expanduser() / "fastkit"
    except RuntimeError as error:
        raise Broken("no home folder is known for the own file: set FASTKIT_HOME") from error


def there() -> bool:
    """Whether there is an own file to look into; without a home there is none."""
    try:
        return os.path.exists(file())  # noqa: PTH110 - False, too, where nobody may look
    except Broken:
        return False


def file() -> Path:
    """The own file, links followed; it need not exist."""
    return Path(os.path.realpath(folder() / NAME))
