"""data/README.md documents each file as it is."""

import re
from pathlib import Path

from fastkit.compiler.spec import file_columns
from fastkit.compiler.tables import SPECS

README = Path(__file__).parents[2] / "data" / "README.md"


def test_readme_lists_every_file_with_its_columns() -> None:
    """Each file has a section whose first line names its columns, optional ones and the key."""
    told = {
        section[1]: (
            {name.strip("*?") for name in section[2].split(", ")},
            {name.strip("*?") for name in section[2].split(", ") if name.endswith("?")},
            {name.strip("*?") for name in section[2].split(", ") if name.startswith("**")},
        )
        for section in re.finditer(r"^### (\S+)\n\n(.+)$", README.read_text("utf-8"), re.MULTILINE)
    }
    held = {
        spec.file: (
            {column.name for column in file_columns(spec)},
            {column.name for column in file_columns(spec) if column.optional},
            set(spec.key),
        )
        for spec in SPECS
    }
    assert held == told


def test_data_holds_nothing_else() -> None:
    """Every file in data/ is read by the compiler, the README aside."""
    files = {path.name for path in README.parent.iterdir()} - {"README.md"}
    assert {spec.file for spec in SPECS} == files
