"""Tools and stock as TOML or CSV and back, nothing lost on the way."""

import csv
import io
import tomllib
from collections.abc import Iterable, Mapping
from pathlib import Path
from typing import Any

from fastkit.errors import Misuse
from fastkit.shopbook.rows import FLOATS, TABLES
from fastkit.shopbook.text import plain

MOST_BYTES = 5_000_000
MOST_DOTS = 500  # on one line
LARGEST = {"amount": 1_000_000, "_deg": 360.0, "_mm": 10_000.0}
MUST = ("tool", "what")  # columns that no row may leave empty
SUFFIXES = (".toml", ".csv")


def written(kind: Any, rows: Iterable[Any], suffix: str) -> str:
    """The rows without their numbers, as the text of a .toml or .csv file."""
    fields = kind._fields[1:]
    if suffix == ".csv":
        out = io.StringIO()
        pen = csv.writer(out, lineterminator="\n")
        pen.writerow(fields)
        pen.writerows(row[1:] for row in rows)
        return out.getvalue()
    blocks = []
    for row in rows:
        pairs = zip(fields, row[1:], strict=True)
        lines = [f"{name} = {toml(value)}\n" for name, value in pairs if value is not None]
        blocks.append(f"[[{TABLES[kind]}]]\n{''.join(lines)}")
    return "\n".join(blocks)


def toml(value: str | float | tuple[str, ...]) -> str:
    """A value as a TOML file writes it; what cannot be printed by its number."""
    if isinstance(value, bool):
        return str(value).lower()
    if isinstance(value, tuple):
        return f"[{', '.join(map(toml, value))}]"
    if not isinstance(value, str):
        return repr(value)
    escaped = value.replace("\\", "\\\\").replace('"', '\\"')
    return '"' + "".join(c if c.isprintable() else f"\\U{ord(c):08x}" for c in escaped) + '"'


def tables(text: str) -> dict[str, Any]:
    """
    What a TOML file says.

    Raises:
        TOMLDecodeError: When it is none.
        RecursionError: When it is nested deeper, or a key has more parts, than anyone writes by
            hand; the time they take grows with their square.
    """
    if any(line.count(".") > MOST_DOTS for line in text.splitlines()):
        raise RecursionError("nested too deep")
    return tomllib.loads(text)


def parsed(kind: Any, text: str, suffix: str) -> list[Any]:
    """
    The rows of such a text, numbered 0.

    Raises:
        Misuse: When the text is not such a file; the place and what was expected are named.
    """
    rows = _of_csv(text) if suffix == ".csv" else _of_toml(kind, text)
    return [checked(kind, values, f"{place}: ") for place, values in rows]


def checked(kind: Any, values: Mapping[str, Any], place: str = "") -> Any:
    """
    A row to be kept, numbered 0, each value within its bounds.

    Args:
        kind: Owned or Stocked.
        values: By column; what is left out is empty.
        place: Where they stand, in front of what is wrong with them.

    Raises:
        Misuse: When a column or value is not valid; what was expected is named.
    """
    fields = kind._fields[1:]
    for name in values:
        if name not in fields:
            raise Misuse(f"{place}no column {str(name)[:40]!r}; expected {', '.join(fields)}")
    try:
        return kind._make((0, *(_cell(name, values.get(name)) for name in fields)))
    except ValueError as error:
        raise Misuse(f"{place}{error}") from error


def suffix_of(path: Path) -> str:
    """
    The kind of file that a name asks for.

    Raises:
        Misuse: When it is neither .toml nor .csv.
    """
    if path.suffix.lower() not in SUFFIXES:
        raise Misuse(f"{path.name[:60]!r}: expected a name that ends in .toml or .csv", SUFFIXES)
    return path.suffix.lower()


def content(path: Path, wanted: str = "one of yours") -> str:
    """
    The text of a file that the user wrote; *wanted* says what was expected where there is none.

    Raises:
        Misuse: When it cannot be read, is too large or not UTF-8, or no file can have the name.
    """
    if "\0" in str(path):
        raise Misuse(f"{str(path)[:60]!r}: no file has such a name; expected a file")
    try:
        if not path.is_file():
            what = "not a plain file" if path.exists() else "no such file"
            raise Misuse(f"cannot read {path}: {what}; expected {wanted}")
        if path.stat().st_size > MOST_BYTES:
            raise Misuse(f"{path} is too large: expected up to {MOST_BYTES // 1_000_000} MB")
        return path.read_bytes().decode("utf-8-sig")
    except UnicodeDecodeError as error:
        raise Misuse(f"{path}: byte {error.start} is not UTF-8; expected text") from error
    except OSError as error:
        raise Misuse(
            f"cannot read {path}: {error.strerror or error}; expected a file of yours"
        ) from error


def _of_csv(text: str) -> Iterable[tuple[str, Mapping[str, Any]]]:
    reader = csv.reader(io.StringIO(text, newline=""), strict=True)
    try:
        head = next(reader, [])
        for cells in reader:
            if not cells:
                continue
            place = f"line {reader.line_num}"
            if len(cells) != len(head):
                raise Misuse(f"{place}: {len(cells)} cells; expected {len(head)}, as the head has")
            named = dict(zip(head, cells, strict=True))
            yield place, {name: cell for name, cell in named.items() if cell}
    except csv.Error as error:
        raise Misuse(f"line {reader.line_num}: {error}; expected CSV") from error


def _of_toml(kind: Any, text: str) -> Iterable[tuple[str, Mapping[str, Any]]]:
    try:
        found = tables(text.replace("\r\n", "\n"))
    except (tomllib.TOMLDecodeError, RecursionError) as error:
        raise Misuse(f"{str(error)[:100]}; expected TOML") from error
    table = TABLES[kind]
    listed = found.pop(table, [])
    if found or not isinstance(listed, list) or not all(isinstance(row, dict) for row in listed):
        raise Misuse(f"expected [[{table}]] and nothing else", (f"[[{table}]]",))
    for number, row in enumerate(listed, 1):
        yield f"[[{table}]] number {number}", row


def _cell(name: str, value: Any) -> Any:
    if name.endswith(FLOATS) or name == "amount":
        return _number(name, value)
    if value is None or value == "":
        if name in MUST:
            raise ValueError(f"{name} is missing")
        return ""
    if not isinstance(value, str):
        raise ValueError(f"{name} {str(value)[:40]!r}: expected text")
    return plain(value, name)


def _number(name: str, value: Any) -> float | int | None:
    if value is None:
        if name == "amount":
            return 1
        return None
    least, kind = (1, int) if name == "amount" else (0, float)
    largest = next(bound for end, bound in LARGEST.items() if name.endswith(end))
    expected = f"{name} {str(value)[:40]!r}: expected {least} to {largest:.0f}"
    if isinstance(value, bool) or not isinstance(value, str | int | float):
        raise ValueError(expected)
    try:
        number = kind(value)
    except (ValueError, OverflowError) as error:
        raise ValueError(expected) from error
    if not least <= number <= largest or (kind is int and str(number) != str(value).strip()):
        raise ValueError(expected)
    return number
