"""
The house in one table: how large its modules are, what is said and typed, what it costs to load.

Run by hand: `python -m tests.bench.house`. A line for each room and one for the package: modules,
lines of code (no blanks, comments or docstrings), the median and the largest module, public
functions with a docstring, functions with a return type, comment lines a line of code, functions
of more than sixty lines, and the lines of tests a line of code. Then the cases that stand in
tables beside the tests, and what imports cost.
"""

import ast
import io
import subprocess
import sys
import tokenize
from collections.abc import Iterator, Sequence
from pathlib import Path
from statistics import median
from time import perf_counter
from typing import NamedTuple

ROOT = Path(__file__).parents[2]
PACKAGE = ROOT / "fastkit"
LONG = 60  # lines of a function, its docstring not counted
ROUNDS = 7
NO_CODE = {
    *(tokenize.COMMENT, tokenize.NL, tokenize.NEWLINE, tokenize.INDENT, tokenize.DEDENT),
    *(tokenize.ENCODING, tokenize.ENDMARKER),
}
Function = ast.FunctionDef | ast.AsyncFunctionDef


class Module(NamedTuple):
    """What is counted in one file."""

    room: str
    lines: int  # of code
    comments: int
    public: int  # functions and methods that others may use
    told: int  # of them, with a docstring
    functions: int
    typed: int  # with a return type
    long: int


def measured(path: Path) -> Module:
    """Count one file."""
    text = path.read_text("utf-8")
    tree = ast.parse(text)
    code, comments = set[int](), 0
    for token in tokenize.generate_tokens(io.StringIO(text).readline):
        comments += token.type == tokenize.COMMENT
        if token.type not in NO_CODE:
            code |= set(range(token.start[0], token.end[0] + 1))
    for node in ast.walk(tree):
        code -= set(_docstring(node))
    functions = [node for node in ast.walk(tree) if isinstance(node, Function)]
    public = list(_public(tree))
    return Module(
        path.relative_to(PACKAGE).parts[0] if PACKAGE in path.parents else "tests",
        len(code),
        comments,
        len(public),
        sum(bool(ast.get_docstring(node)) for node in public),
        len(functions),
        sum(node.returns is not None for node in functions),
        sum(_length(node) > LONG for node in functions),
    )


def _public(tree: ast.Module | ast.ClassDef) -> Iterator[Function]:
    for node in tree.body:
        if isinstance(node, Function | ast.ClassDef) and not node.name.startswith("_"):
            if isinstance(node, ast.ClassDef):
                yield from _public(node)
            else:
                yield node


def _docstring(node: ast.AST) -> range:
    """The lines of a node's docstring; none where it has none."""
    body = getattr(node, "body", None)
    if isinstance(body, list) and body and isinstance(body[0], ast.Expr):
        value = body[0].value
        if isinstance(value, ast.Constant) and isinstance(value.value, str):
            return range(value.lineno, (value.end_lineno or value.lineno) + 1)
    return range(0)


def _length(node: Function) -> int:
    return (node.end_lineno or node.lineno) - node.lineno + 1 - len(_docstring(node))


def row(name: str, modules: Sequence[Module], tests: int = 0) -> str:
    """One line of the table."""
    lines = [module.lines for module in modules]
    code = sum(lines)
    told, public = (sum(getattr(m, field) for m in modules) for field in ("told", "public"))
    typed, functions = (sum(getattr(m, field) for m in modules) for field in ("typed", "functions"))
    return (
        f"{name:11} {len(modules):4} {code:6} {median(lines):5.0f} /{max(lines):4}"
        f" {100 * told / max(public, 1):5.0f} % {100 * typed / max(functions, 1):5.0f} %"
        f" {100 * sum(m.comments for m in modules) / max(code, 1):5.1f} %"
        f" {sum(m.long for m in modules):4} of {functions:4}"
        + (f" {tests / code:6.2f}" if tests else "")
    )


def import_ms(name: str) -> float:
    """Shortest of some rounds, above Python's own start."""

    def taken(code: str) -> float:
        start = perf_counter()
        subprocess.run([sys.executable, "-c", code], check=True, cwd=ROOT)
        return 1000 * (perf_counter() - start)

    return min(taken(f"import {name}") for _ in range(ROUNDS)) - min(
        taken("pass") for _ in range(ROUNDS)
    )


def main() -> None:
    """Print the table."""
    files = sorted(path for path in PACKAGE.rglob("*.py"))
    modules = [measured(path) for path in files]
    tests = sum(measured(path).lines for path in (ROOT / "tests").rglob("*.py"))
    print("            modules code  median/max  told   typed  comment  long       tests:code")
    for room in sorted({module.room for module in modules if not module.room.endswith(".py")}):
        print(row(room, [module for module in modules if module.room == room]))
    print(row("fastkit", modules, tests))
    tables = [path for end in ("toml", "csv") for path in (ROOT / "tests").rglob(f"*.{end}")]
    cases = sum(bool(line.strip()) for path in tables for line in path.open(encoding="utf-8"))
    print(f"{len(tables)} tables of cases, {cases} lines")
    for name in ("fastkit", "fastkit.cli", "fastkit.answers.torque", "fastkit.answers.extract"):
        print(f"import {name:25} {import_ms(name):5.0f} ms")


if __name__ == "__main__":
    main()
