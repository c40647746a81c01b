"""Files of data/ -> checked rows; every fault is reported, not only the first."""

import csv
import io
import math
import re
import tomllib
from collections import Counter
from collections.abc import Iterable, Iterator, Mapping, Sequence
from pathlib import Path
from typing import Any, NamedTuple

from fastkit.compiler.spec import Cell, Column, Rule, Spec, columns, file_columns
from fastkit.compiler.tables import CHILD_RULES
from fastkit.errors import Broken

NUMBER = re.compile(r"[+-]?\d+(\.\d+)?([eE][+-]?\d+)?", re.ASCII)
WHOLE = re.compile(r"[+-]?\d+", re.ASCII)
UNIT = re.compile(r"[+-]?\d+(\.\d+)?\s*[^\d\s.,+-].*", re.ASCII)


class Fault(NamedTuple):
    """One thing wrong in a data file, in the words of the build's message."""

    file: str
    line: int
    column: str
    value: object
    expected: str

    def __str__(self) -> str:
        """Return `file:line: column: 'value': expected …`, on one line."""
        value = str(self.value).encode("unicode_escape").decode("ascii")
        return f"{self.file}:{self.line}: {self.column}: '{value}': expected {self.expected}"


class BadData(Broken):
    """
    The data folder cannot be compiled.

    Attributes:
        faults: Everything found wrong, in the order of files and lines.
    """

    def __init__(self, faults: Sequence[Fault]) -> None:
        super().__init__("\n".join(map(str, faults)))
        self.faults = tuple(faults)


class Row(NamedTuple):
    """A checked row: where it stands and its cells by column."""

    file: str
    line: int
    cells: dict[str, Cell]


Tables = dict[str, list[Row]]


def read_folder(folder: Path, specs: Iterable[Spec]) -> Tables:
    """
    Rows of every file that *specs* name, by table, each cell typed and within its rule.

    References are not followed here: their targets may be computed (`check_references`).

    Raises:
        BadData: Naming every fault in every file.
    """
    tables: Tables = {}
    faults: list[Fault] = []
    for spec in specs:
        path = folder / spec.file
        if path.is_file():
            text = _text(path, faults)
            read = _read_toml if path.suffix == ".toml" else _read_csv
            rows = [] if text is None else list(read(spec, text, tables, faults))
            _check_keys(spec.key, rows, faults)
            tables.setdefault(spec.record.TABLE, []).extend(rows)
        else:
            faults.append(Fault(spec.file, 0, "-", "", "the file to exist"))
    if faults:
        raise BadData(faults)
    return tables


def check_references(
    tables: Tables, rules: Mapping[str, Mapping[str, Rule]], known: Mapping[str, set[str]]
) -> list[Fault]:
    """Faults of cells that name a row which no table holds; *known* adds computed targets."""
    targets = {f"{table}.id": _values(rows, "id") for table, rows in tables.items()}
    faults = []
    for table, columns_ in rules.items():
        for name, rule in columns_.items():
            if rule.ref is None:
                continue
            target = ".".join(rule.ref)
            if target not in targets:
                targets[target] = _values(tables.get(rule.ref[0], ()), rule.ref[1])
            held = targets[target] | known.get(target, set())
            faults += [
                Fault(row.file, row.line, name, value, f"an existing {rule.ref[0]} {rule.ref[1]}")
                for row in tables.get(table, ())
                if (value := row.cells[name]) is not None and value not in held
            ]
    return faults


def _values(rows: Iterable[Row], column: str) -> set[Cell]:
    return {row.cells.get(column) for row in rows}


def _text(path: Path, faults: list[Fault]) -> str | None:
    raw = path.read_bytes()
    try:
        text = raw.decode("utf-8")
    except UnicodeDecodeError as error:
        line = raw[: error.start].count(b"\n") + 1
        faults.append(Fault(path.name, line, "-", hex(raw[error.start]), "UTF-8 text"))
        return None
    for number, line_text in enumerate(text.split("\n"), 1):
        if odd := re.search("[\x00-\x08\x0b-\x1f\x7f\ufeff\u202a-\u202e]", line_text):
            faults.append(
                Fault(path.name, number, "-", odd[0], "printable text, lines ended by a newline")
            )
            return None
    return text


def _read_csv(spec: Spec, text: str, tables: Tables, faults: list[Fault]) -> Iterator[Row]:
    wanted = file_columns(spec)
    names = [column.name for column in wanted]
    lines = csv.reader(io.StringIO(text, newline=""), strict=True)
    try:
        header = next(lines, [])
        missing = [name for name in names if name not in header]
        faults += [Fault(spec.file, 1, name, "", "this column") for name in missing]
        for name, count in Counter(header).items():
            if name not in names:
                faults.append(
                    Fault(spec.file, 1, name, name, f"one of the columns {', '.join(names)}")
                )
            elif count > 1:
                faults.append(Fault(spec.file, 1, name, name, "each column once"))
        if missing or len(set(header)) != len(header):
            return
        for cells in lines:
            if len(cells) != len(header):
                expected = f"{len(header)} cells, found {len(cells)}"
                faults.append(Fault(spec.file, lines.line_num, "-", ",".join(cells), expected))
                continue
            where = spec.file, lines.line_num
            for row in _each(spec, dict(zip(header, cells, strict=True)), tables, where, faults):
                typed = {c.name: _cell(c, row[c.name], where, faults) for c in wanted}
                _check_standing(typed, where, faults)
                yield Row(*where, typed)
    except csv.Error as error:
        faults.append(Fault(spec.file, lines.line_num, "-", str(error), "well-formed CSV"))


def _each(
    spec: Spec,
    row: dict[str, str],
    tables: Tables,
    where: tuple[str, int],
    faults: list[Fault],
) -> Iterator[dict[str, str]]:
    """Return the row for each name in its cell of several; `all but` names those left out."""
    column = spec.several
    if not column:
        yield row
        return
    names = row[column].split(" ")
    rule = spec.rules[column]
    if rule.ref and (names == ["all"] or names[:2] == ["all", "but"]):
        spared = names[2:]
        held = [str(other.cells[rule.ref[1]]) for other in tables.get(rule.ref[0], ())]
        names = [name for name in held if name not in spared]
        expected = f"an existing {rule.ref[0]} {rule.ref[1]}"
        faults += [Fault(*where, column, name, expected) for name in spared if name not in held]
    yield from ({**row, column: name} for name in names)


def _cell(column: Column, text: str, where: tuple[str, int], faults: list[Fault]) -> Cell:
    """Value of a CSV cell; an unreadable one is a fault and None."""
    if text == "":
        if not column.optional:
            faults.append(Fault(*where, column.name, text, f"{_said(column)}, not empty"))
        return None
    value: Cell = text
    if column.type is str:
        if text != text.strip() or "\n" in text:
            faults.append(Fault(*where, column.name, text, "text on one line without outer blanks"))
            return None
    else:
        pattern = WHOLE if column.type is int else NUMBER
        if not pattern.fullmatch(text):
            faults.append(Fault(*where, column.name, text, _number_help(column, text)))
            return None
        value = column.type(text)
    return _ruled(column, value, text, where, faults)


def _number_help(column: Column, text: str) -> str:
    if "," in text:
        return f"{_said(column)} with a decimal point, no comma"
    if UNIT.fullmatch(text):
        return f"a bare {_said(column).removeprefix('a ')}: the unit stands in the column's name"
    return _said(column)


def _said(column: Column) -> str:
    """What a column takes, in words."""
    return {str: "text", int: "a whole number", float: "a number"}[column.type]


def _ruled(
    column: Column, value: Cell, written: object, where: tuple[str, int], faults: list[Fault]
) -> Cell:
    """The value, or a fault and None when it breaks the column's rule."""
    rule = column.rule
    expected = ""
    if rule.choices and value not in rule.choices:
        expected = f"one of {', '.join(map(str, rule.choices))}"
    elif isinstance(value, (int, float)):
        if not math.isfinite(value):
            expected = "a finite number"
        elif rule.above is not None and not value > rule.above:
            expected = f"a number above {rule.above:g}"
        elif rule.low is not None and value < rule.low:
            expected = f"a number of at least {rule.low:g}"
        elif rule.high is not None and value > rule.high:
            expected = f"a number of at most {rule.high:g}"
    if not expected:
        return value
    faults.append(Fault(*where, column.name, written, expected))
    return None


def _check_standing(cells: Mapping[str, Cell], where: tuple[str, int], faults: list[Fault]) -> None:
    """A row is judgement exactly when its source is practice."""
    source, checked = cells.get("source"), cells.get("checked")
    if source and checked and (checked == "judgement") != (source == "practice"):
        expected = "judgement with the source practice, and with no other"
        faults.append(Fault(*where, "checked", checked, expected))


def _check_keys(key: tuple[str, ...], rows: Iterable[Row], faults: list[Fault]) -> None:
    first: dict[tuple[Cell, ...], int] = {}
    for row in rows:
        values = tuple(row.cells[name] for name in key)
        if values in first:
            said = " + ".join(map(str, values))
            expected = f"each key once; it also stands in line {first[values]}"
            faults.append(Fault(row.file, row.line, "+".join(key), said, expected))
        elif None not in values:
            first[values] = row.line


def _read_toml(spec: Spec, text: str, tables: Tables, faults: list[Fault]) -> Iterator[Row]:
    """Rows of a `[[table]]` list; the lists inside each become rows of their own tables."""
    name = spec.record.TABLE
    try:
        document = tomllib.loads(text)
    except tomllib.TOMLDecodeError as error:
        place = re.search(r"line (\d+)", str(error))
        line = int(place[1]) if place else text.count("\n") + 1
        faults.append(Fault(spec.file, line, "-", str(error), "well-formed TOML"))
        return
    lines = _toml_lines(text, name)
    faults += [
        Fault(spec.file, lines.get((-1, key), 1), key, key, f"only [[{name}]]")
        for key in document
        if key != name
    ]
    wanted = file_columns(spec)
    allowed = [c.name for c in wanted] + [child.key for child in spec.children]
    items = document.get(name, [])
    if not isinstance(items, list) or not all(isinstance(item, dict) for item in items):
        faults.append(Fault(spec.file, 1, name, items, f"[[{name}]], in double brackets"))
        return
    for n, item in enumerate(items):
        start = lines.get((n, ""), 1)
        for key in item:
            if key not in allowed:
                line = lines.get((n, key), start)
                expected = f"one of the keys {', '.join(allowed)}"
                faults.append(Fault(spec.file, line, key, key, expected))
        cells = {
            c.name: _toml_cell(c, item, (spec.file, lines.get((n, c.name), start)), faults)
            for c in wanted
        }
        _check_standing(cells, (spec.file, lines.get((n, "checked"), start)), faults)
        for child in spec.children:
            where = spec.file, lines.get((n, child.key), start)
            rows = _children(child, cells[spec.key[0]], item.get(child.key, []), where, faults)
            tables.setdefault(child.record.TABLE, []).extend(rows)
        yield Row(spec.file, start, cells)


def _toml_cell(
    column: Column, item: Mapping[str, Any], where: tuple[str, int], faults: list[Fault]
) -> Cell:
    if column.name not in item:
        if not column.optional:
            faults.append(Fault(*where, column.name, "", f"{_said(column)}: the key is missing"))
        return None
    value = item[column.name]
    fits = {str: (str,), int: (int,), float: (int, float)}[column.type]
    if type(value) not in fits or (column.type is str and value != value.strip()) or value == "":
        faults.append(Fault(*where, column.name, value, _said(column)))
        return None
    return _ruled(column, column.type(value), value, where, faults)


def _children(
    child: Any, parent: Cell, values: object, where: tuple[str, int], faults: list[Fault]
) -> Iterator[Row]:
    if not isinstance(values, list) or not all(isinstance(v, str) and v for v in values):
        faults.append(Fault(*where, child.key, values, "a list of texts"))
        return
    rules = {c.name: c for c in columns(child.record, CHILD_RULES[child.record.TABLE])}
    for n, value in enumerate(values, 1):
        cells: dict[str, Cell] = {child.parent: parent, **child.fixed, child.value: value}
        if child.tag and value.startswith("["):
            tag, _, text = value[1:].partition("] ")
            cells |= {child.tag: tag, child.value: text}
        elif child.tag:
            cells[child.tag] = None
        if child.number:
            cells[child.number] = n
        yield Row(*where, {name: cells[name] for name in rules})


def _toml_lines(text: str, name: str) -> dict[tuple[int, str], int]:
    """Line of each `key =` by item number; the item's own line under the empty key."""
    found: dict[tuple[int, str], int] = {}
    item = -1
    for number, line in enumerate(text.split("\n"), 1):
        if re.fullmatch(rf"\s*\[\[\s*{name}\s*\]\]\s*(#.*)?", line):
            item += 1
            found[item, ""] = number
        elif key := re.match(r"\s*([A-Za-z0-9_-]+)\s*=|\s*\[+\s*([A-Za-z0-9_-]+)", line):
            found.setdefault((item, key[1] or key[2]), number)
    return found
