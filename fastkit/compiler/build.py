"""One SQLite file from the data folder: whole or not at all, and the same bytes every time."""

import hashlib
import os
import sqlite3
from collections.abc import Iterable, Mapping, Sequence
from pathlib import Path
from typing import Any

from sqlite_utils import Database

from fastkit.compiler import derive, derive_around
from fastkit.compiler.class_limits import class_limits
from fastkit.compiler.exported import EXPORTED, is_export
from fastkit.compiler.reading import BadData, Fault, check_references, read_folder
from fastkit.compiler.spec import Rule, columns
from fastkit.compiler.tables import CHILD_KEYS, CHILD_RULES, SPECS
from fastkit.errors import Broken
from fastkit.notation.entry import key_start, letter_pairs, prominence, sound, spelt_words
from fastkit.notation.names import keys
from fastkit.records.critical import Critical
from fastkit.records.source import DangerWord, HandsOff, Phrase

SCHEMA_VERSION = "1"
SENTENCE = 3  # blanks in a cell that says something in words, at least
SQL_TYPE = {str: "TEXT", float: "REAL", int: "INTEGER"}
RULES: Mapping[str, Mapping[str, Rule]] = {
    record.TABLE: {column.name: column.rule for column in columns(record, rules)}
    for record, rules in [
        *((spec.record, spec.rules) for spec in SPECS),
        *((record, CHILD_RULES[table]) for table, (record, _) in CHILD_KEYS.items()),
    ]
}
KEYS: Mapping[str, tuple[Any, tuple[str, ...]]] = {
    **{spec.record.TABLE: (spec.record, spec.key) for spec in SPECS},
    **CHILD_KEYS,
}


def data_version(data_dir: str | Path) -> str:
    """First 12 hexadecimal digits of the SHA-256 over the data files' names and bytes, sorted."""
    digest = hashlib.sha256()
    for path in sorted(Path(data_dir).iterdir()):
        if path.suffix in (".csv", ".toml"):
            digest.update(path.name.encode() + b"\0" + path.read_bytes() + b"\0")
    return digest.hexdigest()[:12]


def compile_database(data_dir: str | Path, db_path: str | Path) -> int:
    """
    Compile *data_dir* into the database *db_path*, replacing it only once it is whole.

    A folder of exported tables compiles too, into the same rows under a data version of its own.

    Returns:
        Rows in the subject tables.

    Raises:
        BadData: Naming every fault in the data; an earlier database is left as it was.
        Broken: When there is no such folder, or the file cannot be written.
    """
    data_dir, db_path = Path(data_dir), Path(db_path)
    if not data_dir.is_dir():
        raise Broken(f"{data_dir}: expected the folder of data files")
    tables, entries = gather(data_dir)
    fresh = db_path.with_name(f"{db_path.name}.{os.getpid()}.new")
    try:
        rows = _write(fresh, tables, entries, data_version(data_dir))
        fresh.replace(db_path)
    except (OSError, sqlite3.OperationalError) as error:
        raise Broken(f"{db_path}: cannot be written: {error}") from error
    finally:
        fresh.unlink(missing_ok=True)
    return rows


def gather(data_dir: Path) -> tuple[dict[str, list[dict[str, Any]]], list[derive.Entry]]:
    """
    Complete rows of every table, and every entry.

    Raises:
        BadData: Naming every fault in the data.
    """
    if is_export(data_dir):
        tables, faults = read_folder(data_dir, EXPORTED), []
    else:
        tables = read_folder(data_dir, SPECS)
        faults = derive.complete(tables)
    computed = derive_around.computed(tables)
    entries = derive.entries(tables, computed.values())
    faults += check_references(tables, RULES, {"entry.id": {entry.id for entry in entries}})
    faults += _twice(entries)
    if faults:
        raise BadData(sorted(faults, key=lambda fault: fault[:2]))
    torque = derive.torque_rows(tables)
    entries += derive.torque_entries(torque)
    complete = {table: [row.cells for row in rows] for table, rows in tables.items()}
    complete |= {table: each.rows for table, each in computed.items()}
    complete["phrase"] = derive.spread_out(complete["phrase"])
    said = {(row["words"], row["option"]) for row in complete["phrase"]}
    more = derive.beside(complete["hands_off"])
    complete["phrase"] += [row for row in more if (row["words"], row["option"]) not in said]
    limits = list(class_limits(complete["thread"]))
    return {**complete, "class_limit": limits, "torque": torque}, entries


def _twice(entries: Iterable[derive.Entry]) -> list[Fault]:
    first: dict[str, derive.Entry] = {}
    faults = []
    for entry in entries:
        other = first.setdefault(entry.id, entry)
        if other is not entry:
            expected = f"each entry id once; it also stands in {other.file}:{other.line}"
            faults.append(Fault(entry.file, entry.line, "id", entry.id, expected))
    return faults


def schema() -> str:
    """SQL that lays out the database: a table for each record, then what stands in schema.sql."""
    made = [_create(table, *KEYS[table]) for table in KEYS]
    return "\n".join(made) + (Path(__file__).parent / "schema.sql").read_text("utf-8")


def _create(table: str, record: Any, key: tuple[str, ...]) -> str:
    lines = []
    for column in columns(record, RULES[table]):
        words = [f'"{column.name}"', SQL_TYPE[column.type], "" if column.optional else "NOT NULL"]
        words += [f"CHECK ({check})" for check in _checks(column.name, column.type, column.rule)]
        target = column.rule.ref
        # SQLite can only point at a unique column; the others are checked before this.
        if target and (target[0] == "entry" or KEYS[target[0]][1] == (target[1],)):
            words.append(f"REFERENCES {target[0]}({target[1]})")
        lines.append("    " + " ".join(word for word in words if word))
    lines.append(f"    PRIMARY KEY ({', '.join(key)})")
    body = ",\n".join(lines)
    return f"CREATE TABLE {table} (\n{body}\n) STRICT;\n"


def _checks(name: str, kind: type, rule: Rule) -> list[str]:
    """CHECK conditions of a column: what its rule says, and no empty text."""
    checks = [f"{name} <> ''"] if kind is str else []
    if rule.choices:
        listed = ", ".join(f"'{c}'" if isinstance(c, str) else str(c) for c in rule.choices)
        checks.append(f"{name} IN ({listed})")
    for sign, bound in ((">", rule.above), (">=", rule.low), ("<=", rule.high)):
        checks += [] if bound is None else [f"{name} {sign} {bound:g}"]
    return checks


def _write(
    path: Path,
    tables: Mapping[str, list[dict[str, Any]]],
    entries: Sequence[derive.Entry],
    version: str,
) -> int:
    """
    Write the database; returns the rows of its subject tables.

    Entries are written in the order of their prominence: a search that meets more than it can
    weigh takes the first.
    """
    entries = sorted(entries, key=lambda entry: prominence(entry.id))
    count = sum(map(len, tables.values()))
    meta = {"schema_version": SCHEMA_VERSION, "data_version": version, "rows": str(count)}
    connection = sqlite3.connect(path)
    try:
        # A read-only folder cannot open a write-ahead log, so the file keeps a plain journal.
        connection.execute("PRAGMA journal_mode = DELETE")
        connection.execute("PRAGMA foreign_keys = ON")
        connection.executescript(schema())
        database = Database(connection)
        with database.atomic():
            # Tables are filled in any order; the commit refuses a reference that leads nowhere.
            connection.execute("PRAGMA defer_foreign_keys = ON")
            database.table("meta").insert_all({"key": k, "value": v} for k, v in meta.items())
            database.table("entry").insert_all(
                {"id": entry.id, "kind": entry.kind, "title": entry.title} for entry in entries
            )
            database.table("search").insert_all(map(_search_row, entries))
            connection.execute("CREATE VIRTUAL TABLE temp.words USING fts5vocab(main, search, row)")
            _index_words(connection, [row["words"] for row in tables.get("saying", ())])
            _keep_plain(connection, tables)
            found = connection.execute("SELECT rowid, words FROM search").fetchall()
            keys = [(key_start(words), place) for place, words in found]
            connection.executemany("INSERT INTO search_key VALUES (?, ?)", keys)
            for table, rows in tables.items():
                database.table(table).insert_all(rows)
            _index_phrases(connection)
            _index_names(connection)
        connection.execute("VACUUM")
    finally:
        connection.close()
    return count


def _index_words(connection: sqlite3.Connection, sayings: Iterable[str]) -> None:
    held = dict(connection.execute("SELECT term, doc FROM temp.words").fetchall())
    held = dict.fromkeys((word for said in sayings for word in spelt_words(said)), 0) | held
    rows = [(word, entries, sound(word)) for word, entries in held.items()]
    connection.executemany("INSERT INTO search_word VALUES (?, ?, ?)", rows)
    pairs = [(pair, word) for word in held for pair in sorted(letter_pairs(word))]
    connection.executemany("INSERT INTO search_pair VALUES (?, ?)", pairs)


def _keep_plain(connection: sqlite3.Connection, tables: Mapping[str, list[dict[str, Any]]]) -> None:
    cells = (
        cell
        for table, rows in tables.items()
        if table not in {"alias", "saying"}
        for row in rows
        for cell in row.values()
        if isinstance(cell, str) and (table == "phrase" or cell.count(" ") >= SENTENCE)
    )
    words = {word for cell in cells for word in spelt_words(cell) if len(word) > 3}
    held = {word for (word,) in connection.execute("SELECT term FROM search_word")}
    rows = [(word,) for word in sorted(words - held)]
    connection.executemany("INSERT INTO plain_word VALUES (?)", rows)


def _index_phrases(connection: sqlite3.Connection) -> None:
    columns = ", ".join(Phrase._fields)
    rows = connection.execute(f"SELECT rowid, {columns} FROM phrase").fetchall()
    held = [(rowid, Phrase._make(row)) for rowid, *row in rows]
    words = sorted({word for _, phrase in held for word in phrase.words.split()})
    connection.executemany("INSERT INTO phrase_word VALUES (?)", [(word,) for word in words])
    starts = sorted((phrase.key[0], rowid) for rowid, phrase in held)
    connection.executemany("INSERT INTO phrase_start VALUES (?, ?)", starts)


def _index_names(connection: sqlite3.Connection) -> None:
    for table in (record.TABLE for record in (HandsOff, DangerWord, Critical)):
        rows = connection.execute(f"SELECT rowid, words FROM {table}").fetchall()
        held = [(word, table, row) for row, words in rows for word in sorted(keys(words))]
        connection.executemany("INSERT INTO name_key VALUES (?, ?, ?)", held)


def _search_row(entry: derive.Entry) -> dict[str, str]:
    key = entry.id.partition(":")[2]
    return {
        "entry": entry.id,
        "kind": entry.kind,
        "title": entry.title,
        "words": f"{key} {entry.words}".strip(),
        "serves": entry.serves,
    }
