"""Build hook: compiles `data/` into the package, for a wheel and for an editable install alike."""

import sys
from pathlib import Path
from typing import Any

from hatchling.builders.hooks.plugin.interface import BuildHookInterface


class CompileData(BuildHookInterface):  # type: ignore[type-arg]
    """Runs the compiler before the files of a wheel are gathered."""

    def initialize(self, version: str, build_data: dict[str, Any]) -> None:
        """
        Compile the database where the package looks for it.

        Args:
            version: Kind of build, `standard` or `editable`; both need the database.
            build_data: What the builder knows; left as it is.
        """
        sys.path.insert(0, self.root)  # the package is not installed yet, only its source is here
        try:
            from fastkit.compiler.build import compile_database
        finally:
            sys.path.remove(self.root)
        root = Path(self.root)
        compile_database(root / "data", root / "fastkit" / "reference" / "reference.db")
