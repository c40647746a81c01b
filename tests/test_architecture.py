"""Imports point one way; the pure rooms do no I/O; start-up stays light."""

import ast
import importlib
import os
import subprocess
import sys
from collections.abc import Iterator
from pathlib import Path

import pytest

PACKAGE = Path(__file__).parents[1] / "fastkit"
# room -> rooms it may import besides itself; a room that stands in no row fails the test
NOTATION = {"notation"}
FACTS = {"mechanics", "records"} | NOTATION
JUDGEMENT = {"joint", "reach"} | FACTS
MAY_IMPORT = {
    "notation": set(),
    "mechanics": NOTATION,
    "records": NOTATION,
    "joint": FACTS,
    "reach": FACTS,
    "extraction": JUDGEMENT,
    "hardware": JUDGEMENT,
    "reference": {"records"} | NOTATION,
    "shopbook": {"records"} | NOTATION,
    "compiler": {"joint"} | FACTS,
    "answers": {"extraction", "hardware", "reference", "shopbook"} | JUDGEMENT,
    "deck": {"answers"} | FACTS,
    "cli": {"deck", "answers"} | NOTATION,
}
EVERYBODYS = {"errors", "version"}
PURE = {"extraction", "hardware"} | JUDGEMENT
NOT_PURE = {
    "asyncio",
    "click",
    "csv",
    "datetime",
    "http",
    "io",
    "json",
    "logging",
    "os",
    "pathlib",
    "pickle",
    "random",
    "rapidfuzz",
    "secrets",
    "shutil",
    "socket",
    "sqlite3",
    "sqlite_utils",
    "subprocess",
    "sys",
    "tempfile",
    "time",
    "tomllib",
    "urllib",
    "uuid",
    "weasyprint",
}
HEAVY = {
    "dataclasses",
    "importlib.metadata",
    "jinja2",
    "numpy",
    "pandas",
    "platformdirs",
    "rich",
    "sqlite_utils",
    "weasyprint",
}
# what a quick answer does without: each costs a twentieth and more of the bare imports
SLOW_TO_START = {
    "argparse",
    "decimal",
    "fractions",
    "ipaddress",
    "pathlib",
    "random",
    "statistics",
    "urllib",
}
FILES = [path for path in sorted(PACKAGE.rglob("*.py")) if path.parent != PACKAGE]


def imports(path: Path) -> Iterator[str]:
    """Every module that a file names, also inside its functions."""
    for node in ast.walk(ast.parse(path.read_text("utf-8"))):
        if isinstance(node, ast.Import):
            yield from (alias.name for alias in node.names)
        elif isinstance(node, ast.ImportFrom):
            assert 0 == node.level, f"{path}: use absolute imports"
            assert node.module is not None
            yield node.module
            yield from (f"{node.module}.{alias.name}" for alias in node.names)


def room_of(dotted: str) -> str | None:
    parts = dotted.split(".")
    return parts[1] if parts[0] == "fastkit" and len(parts) > 1 else None


def test_every_room_is_on_the_map():
    """A new folder needs a row in the table above, and with it a place in the order."""
    rooms = {path.parent.name for path in PACKAGE.glob("*/__init__.py")}

    assert set() == rooms - set(MAY_IMPORT)


@pytest.mark.parametrize("path", FILES, ids=lambda path: str(path.relative_to(PACKAGE)))
def test_imports_point_one_way(path):
    """No module reaches up or sideways, and pure rooms import nothing that reads or writes."""
    room = path.relative_to(PACKAGE).parts[0]
    for dotted in imports(path):
        target = room_of(dotted)
        if target and target != room and target not in EVERYBODYS:
            assert target in MAY_IMPORT[room], f"{path}: {room} must not import {target}"
        if room in PURE:
            assert dotted.split(".")[0] not in NOT_PURE, f"{path}: a pure room imports {dotted}"


@pytest.mark.parametrize("path", FILES, ids=lambda path: str(path.relative_to(PACKAGE)))
def test_every_module_can_be_imported(path):
    """Also those that no test of a room happens to touch."""
    if path.name != "__main__.py":
        name = path.relative_to(PACKAGE.parent).with_suffix("").as_posix().replace("/", ".")
        importlib.import_module(name.removesuffix(".__init__"))


def test_top_modules_import_no_room():
    """The package itself, its errors and its version stand below every room."""
    for path in PACKAGE.glob("*.py"):
        if path.name != "__main__.py":
            assert [] == [name for name in imports(path) if room_of(name)], path


@pytest.mark.parametrize("room", sorted(PURE))
def test_pure_rooms_never_open_or_print(room):
    """open(), print() and input() stay out of the pure rooms, as does evaluating text."""
    for path in (PACKAGE / room).rglob("*.py"):
        called = {
            node.func.id
            for node in ast.walk(ast.parse(path.read_text("utf-8")))
            if isinstance(node, ast.Call) and isinstance(node.func, ast.Name)
        }
        assert set() == called & {"open", "print", "input", "eval", "exec", "__import__"}, path


# A real question for each command, and `--help`; what the child has loaded when it has answered.
QUESTIONS = {
    "help": ["--help"],
    "find": ["find", "m8", "8.8", "torque"],
    "find fuzzy": ["find", "hexalobullar"],
    "show": ["show", "thread:M8x1.25"],
    "torque": ["torque", "M8", "8.8"],
    "extract": ["extract", "6 mm hex socket rounded out, M8 into cast iron, rusted"],
}
CHILD = """
import sys
from fastkit.cli import cli
try:
    cli.main(prog_name="fastkit")
except SystemExit as stop:
    print(stop.code or 0, *sys.modules, file=sys.stderr)
"""


@pytest.mark.parametrize("name", QUESTIONS)
def test_start_up_is_light(name, tmp_path):
    """
    A command answers without loading a library that only another command needs.

    The import graph is looked at, not the clock, which would make the test fail by chance.
    """
    child = subprocess.run(
        [sys.executable, "-c", CHILD, *QUESTIONS[name]],
        capture_output=True,
        text=True,
        check=True,
        cwd=PACKAGE.parent,
        env={**os.environ, "FASTKIT_HOME": str(tmp_path)},
    )
    status, *loaded = child.stderr.splitlines()[-1].split()

    assert "0" == status, child.stderr
    assert "fastkit.cli" in loaded
    assert set() == {name for name in loaded if name in HEAVY or name.split(".")[0] in HEAVY}
    assert set() == SLOW_TO_START & set(loaded)
    assert not {"fastkit.shopbook.store", "fastkit.shopbook.rows"} & set(loaded), "no own file yet"
    if name == "help":
        assert "sqlite3" not in loaded
