"""Where the user's own file and the cache lie: FASTKIT_HOME, else the platform's folders."""

import os
import sys
from os import path as paths
from typing import TYPE_CHECKING

from fastkit.errors import Broken

if TYPE_CHECKING:  # every start asks `there`, which does without
    from pathlib import Path

NAME = "shopbook.db"


def folder() -> "Path":
    """
    The folder of the own file; it need not exist.

    Raises:
        Broken: When neither FASTKIT_HOME nor a home is known.
    """
    from pathlib import Path

    return Path(_folder())


def cache_folder() -> "Path":
    """
    The folder of what can be worked out again; it need not exist.

    Raises:
        Broken: When neither FASTKIT_HOME nor a home is known.
    """
    if os.environ.get("FASTKIT_HOME"):
        return folder() / "cache"
    if sys.platform == "win32":
        return folder() / "Cache"
    from pathlib import Path

    mac = sys.platform == "darwin"
    given = os.environ.get("XDG_CACHE_HOME", "").strip()
    usual = "~/Library/Caches" if mac else "~/.cache"
    return Path(_in_home(given if given.startswith("/") else usual))


def known() -> bool:
    """Whether there is a place for the own file: FASTKIT_HOME or a home."""
    try:
        _folder()
    except Broken:
        return False
    return True


def there() -> bool:
    """Whether there is an own file to look into; without a home there is none."""
    return known() and paths.exists(_file())  # False, too, where nobody may look


def file() -> "Path":
    """The own file, links followed; it need not exist."""
    from pathlib import Path

    return Path(_file())


def _file() -> str:
    return paths.realpath(paths.join(_folder(), NAME))


def _folder() -> str:
    own = os.environ.get("FASTKIT_HOME")
    if own:
        return own
    if sys.platform == "win32":
        base = os.environ.get("LOCALAPPDATA") or "~/AppData/Local"
    else:
        mac = sys.platform == "darwin"
        usual = "~/Library/Application Support" if mac else "~/.local/share"
        given = os.environ.get("XDG_DATA_HOME", "").strip()
        base = given if given.startswith("/") else usual
    return _in_home(base)


def _in_home(base: str) -> str:
    # what platformdirs does, without its cost at every start; a test compares the two
    home = paths.expanduser(base)
    if home.startswith("~"):
        raise Broken("no home folder is known for the own file: set FASTKIT_HOME")
    return paths.join(home, "fastkit")
