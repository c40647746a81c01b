"""A job file, TOML that the user writes: read whole, every mistake named with its line."""

import re
import sqlite3
import tomllib
from collections.abc import Callable, Iterable, Mapping, Sequence
from pathlib import Path
from typing import Any, NamedTuple

from fastkit.answers import job_values, options
from fastkit.answers.job_rows import Away, Fastener, Job, Line, Part, told
from fastkit.answers.order import SHAPES, tightening_order
from fastkit.answers.understand import understand
from fastkit.errors import FastkitError, Mistakes, Misuse
from fastkit.records.job import LineKind
from fastkit.reference import resolve
from fastkit.reference.lookup import many, nearest
from fastkit.shopbook.exchange import tables as toml_tables
from fastkit.shopbook.exchange import toml

EXAMPLE = Path(__file__).with_name("job_example.toml")
LONGEST_BYTES = 1_000_000
KEYS = {
    "pieces": "count",
    "grip_mm": "grip",
    "engage_mm": "engage",
    "stub_mm": "stub",
}  # field -> key, where they differ
MOST_SAID = 12  # mistakes named at once
MOST_ROWS = 1000  # of a kind, and fasteners of a row
SUPPORTS = options.CHOICES["support"]


class Key(NamedTuple):
    """One key of a table: the field it fills, how its value is read, whether it must stand."""

    field: str
    read: Callable[[Any], Any]
    must: bool = False


class _Faults:
    """The mistakes of a file, each with its line."""

    def __init__(self, text: str) -> None:
        self.places = _places(text)
        self.found: list[tuple[int, str]] = []

    def add(self, table: str, number: int, key: str, said: str) -> None:
        """Note a mistake at a key of the table's nth appearance, or at its head."""
        line = self.places.get((table, number, key)) or self.places.get((table, number, ""), 1)
        place = f"line {line}, {key or table}" if key or table else f"line {line}"
        self.found.append((line, f"{place}: {said}"))


def read_job(text: str, store: sqlite3.Connection) -> Job:
    """
    Read a job file.

    Args:
        text: The file's text.
        store: Open reference, against which threads, grades, materials and states are checked.

    Raises:
        Mistakes: When it is no such file; every mistake with its line and what was expected.
    """
    raw = _parsed(text)
    faults = _Faults(text)
    tables = _tables(store)
    top = {key: value for key, value in raw.items() if key not in (*tables, "away")}
    found = _fields(top, _top_keys(), tables, ("", 0), faults)
    if "away" in raw:
        away = _fields(
            _as_table(raw["away"], "away", faults), _away_keys(), (), ("away", 1), faults
        )
        found["away"] = Away(**away) if "price" in away else None
    rows: dict[str, list[dict[str, Any]]] = {}
    for table, (_, keys, _) in tables.items():
        listed = enumerate(_rows(raw.get(table, ()), table, faults), 1)
        rows[table] = [_fields(row, keys, (), (table, n), faults) for n, row in listed]
    for row in rows["fastener"]:
        if row.get("state") and "stuck" not in row:  # told, and of no number: all of them
            row["stuck"] = row.get("pieces", 1)
    _joined(rows, faults)
    if not faults.found:
        for table, (record, _, field) in tables.items():
            found[field] = tuple(record(**row) for row in rows[table])
        _understood(found["fasteners"], store, faults)
    if faults.found:
        said = [words for _, words in sorted(faults.found)]
        more = len(said) - MOST_SAID
        raise Mistakes([*said[:MOST_SAID], *([f"and {more} more"] if more > 0 else [])])
    return Job(**found)


def written_job(job: Job) -> str:
    """Return the text of a job file that reads as this job; what is empty is left out."""
    top = [_pair(name, value) for name, value in job._asdict().items() if _simple(value)]
    blocks = ["".join(top)]
    if job.away:
        blocks.append("[away]\n" + "".join(_pair(*item) for item in job.away._asdict().items()))
    for table, rows in (("line", job.lines), ("part", job.parts), ("fastener", job.fasteners)):
        for row in rows:
            pairs = ((KEYS.get(name, name), value) for name, value in row._asdict().items())
            body = "".join(
                _pair(name, value) for name, value in pairs if value not in (None, "", ())
            )
            blocks.append(f"[[{table}]]\n{body}")
    return "\n".join(blocks)


def _parsed(text: str) -> dict[str, Any]:
    if len(text) > LONGEST_BYTES:
        raise Mistakes([f"too large: expected a job file of up to {LONGEST_BYTES // 1000} kB"])
    try:
        return toml_tables(text)
    except tomllib.TOMLDecodeError as error:
        said = re.sub(r"^(.*) \(at (line \d+), column (\d+)\)$", r"\2, column \3: \1", str(error))
        raise Mistakes([f'{said}; expected TOML such as title = "Pump"']) from error
    except RecursionError as error:
        raise Mistakes(["nested too deep; expected a job file"]) from error


def _places(text: str) -> dict[tuple[str, int, str], int]:
    """Return the line of each table's nth head and of each key under it."""
    found: dict[tuple[str, int, str], int] = {}
    seen: dict[str, int] = {}
    table, number = "", 0
    for line, content in enumerate(text.splitlines(), 1):
        head = re.match(r"\s*\[\[?\s*[\"']?([\w-]+)", content)
        if head:
            table = head[1]
            number = seen[table] = seen.get(table, 0) + 1
            found[table, number, ""] = line
            continue
        key = re.match(r"\s*[\"']?([\w-]+)[\"']?\s*=", content)
        if key:
            found.setdefault((table, number, key[1]), line)
    return found


def _tables(store: sqlite3.Connection) -> Mapping[str, tuple[Any, Mapping[str, Key], str]]:
    kinds = {row.id: row.title for row in many(store, LineKind)}
    name = {"name": Key("name", job_values.words, True)}
    after = {"after": Key("after", job_values.names)}
    return {
        "line": (
            Line,
            {**name, "kind": Key("kind", job_values.one_of(kinds), True), **after},
            "lines",
        ),
        "part": (Part, {**name, **after, "seal": Key("seal", job_values.words)}, "parts"),
        "fastener": (Fastener, {**name, **_fastener_keys(store)}, "fasteners"),
    }


def _top_keys() -> Mapping[str, Key]:
    return {
        "title": Key("title", job_values.words, True),
        "machine": Key("machine", job_values.words),
        "place": Key("place", job_values.words),
        "support": Key("support", job_values.one_of(SUPPORTS)),
        "hour": Key("hour", job_values.number(0, 1e6)),
        "again": Key("again", job_values.number(0, 0.95)),
        "parts_price": Key("parts_price", job_values.number(0, 1e9)),
    }


def _away_keys() -> Mapping[str, Key]:
    return {
        "price": Key("price", job_values.number(0, 1e9), True),
        "minutes": Key("minutes", job_values.number(0, 1e6)),
    }


def _fastener_keys(store: sqlite3.Connection) -> Mapping[str, Key]:
    def material(value: Any) -> str:
        return str(options.fields(store, {"into": job_values.words(value)})["into"])

    return {
        "holds": Key("holds", job_values.words, True),
        "thread": Key(
            "thread", lambda value: resolve.thread(store, job_values.words(value)).id, True
        ),
        "count": Key("pieces", job_values.whole_number(1, MOST_ROWS)),
        "grade": Key("grade", lambda value: resolve.grade(store, job_values.words(value)).id),
        "was": Key("was", job_values.words),
        "state": Key("state", job_values.words),
        "stuck": Key("stuck", job_values.whole_number(0, MOST_ROWS)),
        "left_hand": Key("left_hand", job_values.flag),
        "into": Key("into", material),
        "grip": Key("grip_mm", job_values.length),
        "engage": Key("engage_mm", job_values.length),
        "stub": Key("stub_mm", job_values.length),
        "maker": Key("maker", job_values.torque),
        "shape": Key("shape", job_values.one_of(SHAPES)),
        "size": Key("size", job_values.words),
        "renew": Key("renew", job_values.flag),
    }


def _fields(
    raw: Mapping[str, Any],
    keys: Mapping[str, Key],
    tables: Iterable[str],
    where: tuple[str, int],
    faults: _Faults,
) -> dict[str, Any]:
    """Return the fields that a table fills; what it lacks or has too much is a mistake."""
    found: dict[str, Any] = {}
    for name, value in raw.items():
        if name not in keys:
            known = (*keys, *tables)
            near = nearest(name[:60], known, 1) or known[:1]
            at = (name, 1) if isinstance(value, list | dict) and not where[0] else where
            faults.add(
                *at,
                name[:60] or "''",
                f"no such key; expected one of {', '.join(known)}; nearest: {near[0]}",
            )
            continue
        try:
            found[keys[name].field] = keys[name].read(value)
        except FastkitError as error:
            near_ = f"; nearest: {', '.join(error.nearest)}" if error.nearest else ""
            faults.add(*where, name, f"{error}{near_}")
            found[keys[name].field] = None
    for name, key in keys.items():
        if key.must and name not in raw:
            faults.add(*where, "", f"expected {name}")
    return found


def _as_table(value: Any, name: str, faults: _Faults) -> Mapping[str, Any]:
    if isinstance(value, dict):
        return value
    faults.add(name, 1, "", f"expected a table [{name}]")
    return {}


def _rows(value: Any, table: str, faults: _Faults) -> list[Mapping[str, Any]]:
    rows = list(value) if isinstance(value, list | tuple) else [value]
    if not all(isinstance(row, dict) for row in rows):
        faults.add(table, 1, "", f"expected tables [[{table}]]")
        return []
    if len(rows) > MOST_ROWS:
        faults.add(table, MOST_ROWS + 1, "", f"more than {MOST_ROWS} of them; expected fewer")
        return []
    return rows


def _joined(rows: Mapping[str, list[dict[str, Any]]], faults: _Faults) -> None:
    """Check what rows say of one another: names, what is held, what comes before what."""
    items = [
        (table, n, row)
        for table in ("line", "part")
        for n, row in enumerate(rows[table], 1)
        if row.get("name")
    ]
    after = {row["name"]: row.get("after") or () for _, _, row in items}
    first = set[str]()
    for table, n, row in items:
        name = row["name"]
        if name in first:
            faults.add(table, n, "name", f"{name!r} stands there twice; expected one each")
        first.add(name)
        for other in row.get("after") or ():
            if other == name:
                faults.add(table, n, "after", f"{name!r} cannot come after itself")
            elif other not in after:
                faults.add(table, n, "after", _unknown(other, after))
    ring = _ring(after)
    for table, n, row in items:
        if ring and row["name"] == ring[0]:
            told = ", ".join(ring)
            faults.add(table, n, "after", f"{told} come after each other; expected an order")
    parts = [row["name"] for row in rows["part"] if row.get("name")]
    for n, row in enumerate(rows["fastener"], 1):
        if row.get("holds") and row["holds"] not in parts:
            faults.add("fastener", n, "holds", _unknown(row["holds"], parts))
        pieces, stuck = row.get("pieces", 1), row.get("stuck", 0)
        if pieces is not None and stuck is not None and stuck > pieces:
            faults.add("fastener", n, "stuck", f"{stuck}: expected 0 to {pieces}")


def _unknown(name: str, known: Iterable[str]) -> str:
    near = nearest(name[:60], sorted(known), 3)
    told = f"; nearest: {', '.join(near)}" if near else ""
    return f"nothing is named {name[:60]!r}; expected the name of a line or part{told}"


def _ring(after: Mapping[str, Sequence[str]]) -> list[str]:
    """Return the names that wait for one another, in order of the file; empty where none do."""
    left = {name: {other for other in others if other != name} for name, others in after.items()}
    while free := [name for name, others in left.items() if not others & left.keys()]:
        for name in free:
            del left[name]
    return list(left)


def _understood(rows: tuple[Fastener, ...], store: sqlite3.Connection, faults: _Faults) -> None:
    """Check that each state says something, and that shapes fit their numbers."""
    for n, row in enumerate(rows, 1):
        if row.shape:
            try:
                tightening_order(row.pieces, row.shape, size=row.size or None)
            except Misuse as error:
                faults.add("fastener", n, "shape", str(error))
        if row.state:
            try:
                understand(store, row.state, told(row))
            except FastkitError as error:
                faults.add("fastener", n, "state", str(error))


def _simple(value: Any) -> bool:
    return isinstance(value, str | float) and value != ""


def _pair(name: str, value: Any) -> str:
    return f"{name} = {toml(value)}\n"
