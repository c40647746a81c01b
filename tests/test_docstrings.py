"""Docstrings are data: everything public has one, and those of the formulas are checked."""

import ast
import importlib
import inspect
import pkgutil
import re
from pathlib import Path

import pytest

import fastkit.mechanics

PACKAGE = Path(fastkit.mechanics.__path__[0]).parent
FILES = sorted(PACKAGE.rglob("*.py"))
UNIT = re.compile(r"\[(?:-|[\w^*/.% ·°²³]+)\]")
FUNCTIONS = [
    pytest.param(function, id=f"{info.name}.{name}")
    for info in pkgutil.walk_packages(fastkit.mechanics.__path__, "fastkit.mechanics.")
    for module in [importlib.import_module(info.name)]
    for name, function in inspect.getmembers(module, inspect.isfunction)
    if function.__module__ == info.name and not name.startswith("_")
]


def public_definitions(tree):
    """Functions and classes that others may use, methods included."""
    for node in tree.body:
        if isinstance(node, ast.FunctionDef | ast.ClassDef) and not node.name.startswith("_"):
            yield node
            if isinstance(node, ast.ClassDef):
                yield from public_definitions(node)


def section(doc, title):
    found = re.search(rf"^{title}:\n((?:[ ]+.*\n?|\n)+)", doc, re.M)
    return found.group(1) if found else ""


@pytest.mark.parametrize("path", FILES, ids=lambda path: str(path.relative_to(PACKAGE)))
def test_everything_public_says_what_it_is(path):
    """Every module, class and function has a docstring."""
    tree = ast.parse(path.read_text("utf-8"))

    assert ast.get_docstring(tree), path
    assert [] == [node.name for node in public_definitions(tree) if not ast.get_docstring(node)]


@pytest.mark.parametrize("function", FUNCTIONS)
def test_formula_is_complete(function):
    """Each number has a unit; the formula has limits, a source and an example that is run."""
    doc = inspect.getdoc(function) or ""
    args = section(doc, "Args")
    entries = dict(re.findall(r"^ {4}(\w+):\s*((?:.*\n?(?: {8}.*\n?)*))", args, re.M))

    assert list(inspect.signature(function).parameters) == list(entries)
    for name, text in entries.items():
        annotation = function.__annotations__.get(name)
        assert annotation not in (float, "float") or UNIT.search(text), f"{name}: no [unit]"
    assert UNIT.search(section(doc, "Returns"))
    assert section(doc, "References").strip()
    assert ">>> " in doc
