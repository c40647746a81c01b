"""A line may speak of several rows of another file, or of all but some: a row for each."""

from pathlib import Path
from typing import NamedTuple

import pytest

from fastkit.compiler.reading import BadData, read_folder
from fastkit.compiler.spec import Spec, ref


class Held(NamedTuple):
    """What is spoken of."""

    TABLE = "held"

    id: str
    source: str
    locator: str
    checked: str


class Said(NamedTuple):
    """What is said of it."""

    TABLE = "said"

    held: str
    word: str
    source: str
    locator: str
    checked: str


SPECS = (
    Spec("held.csv", Held, ("id",)),
    Spec("said.csv", Said, ("held", "word"), {"held": ref("held")}, several="held"),
)


def read(folder: Path, cell: str) -> list[object]:
    """Who a cell comes to, where a saw, a file and a drill are held."""
    held = "".join(f"{name},book,-,copied\n" for name in ("saw", "file", "drill"))
    (folder / "held.csv").write_text(f"id,source,locator,checked\n{held}")
    (folder / "said.csv").write_text(
        f"held,word,source,locator,checked\n{cell},never,book,-,copied\n"
    )
    rows = read_folder(folder, SPECS)["said"]
    assert {(row.line, row.cells["word"]) for row in rows} == {(2, "never")}
    return [row.cells["held"] for row in rows]


@pytest.mark.parametrize(
    ("cell", "those"),
    [
        ("saw", ["saw"]),
        ("drill saw", ["drill", "saw"]),
        ("all but file", ["saw", "drill"]),
        ("all but file saw", ["drill"]),
        ("all", ["saw", "file", "drill"]),
    ],
)
def test_a_row_for_each(tmp_path: Path, cell: str, those: list[str]) -> None:
    assert read(tmp_path, cell) == those


@pytest.mark.parametrize(
    ("cell", "fault"),
    [
        ("saw saw", "said.csv:2: held+word: 'saw + never': expected each key once"),
        ("saw  file", "said.csv:2: held: '': expected text, not empty"),
        ("all but axe", "said.csv:2: held: 'axe': expected an existing held id"),
        ("", "said.csv:2: held: '': expected text, not empty"),
    ],
)
def test_what_names_nobody_is_told(tmp_path: Path, cell: str, fault: str) -> None:
    with pytest.raises(BadData) as told:
        read(tmp_path, cell)
    assert fault in str(told.value)
