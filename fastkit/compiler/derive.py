"""Columns and tables that follow from the kept cells: computed when compiling, never by hand."""

from collections.abc import Iterable, Mapping
from typing import Any, NamedTuple

from fastkit.compiler import threads
from fastkit.compiler.derive_around import Computed, complete_around
from fastkit.compiler.reading import Fault, Tables
from fastkit.compiler.sense import senseless
from fastkit.compiler.spec import Cell
from fastkit.compiler.tables import SPECS
from fastkit.joint.choice import TABLED, fits, head_of, strength_at
from fastkit.joint.seat import Seat, seat
from fastkit.joint.window import table_row
from fastkit.notation.names import plain, spread
from fastkit.records.drive import Drive
from fastkit.records.friction import Friction
from fastkit.records.grade import Grade, GradeRow
from fastkit.records.head import Head
from fastkit.records.thread import ClearanceHole, Thread

Cells = dict[str, Any]
COMPUTED_WORDS = {"broken": "snapped sheared snap broke off stud screw drill", "pair": "corrosion"}
SELDOM = ("UNEF",)  # series that bolts are seldom made in: torques are computed when asked


class Entry(NamedTuple):
    """Something a user can ask for by id; `words` are what else finds it."""

    id: str
    kind: str
    title: str
    words: str
    file: str = "-"  # where its row stands; entries of computed rows have none
    line: int = 0
    serves: str = ""  # what it is for


def complete(tables: Tables) -> list[Fault]:
    """Add the derived columns to the rows of *tables*, in place; faults where they cannot be."""
    faults = [*threads.complete(tables)]
    systems = {row.cells["id"]: row.cells for row in tables.get("drive_system", ())}
    for row in tables.get("drive", ()):
        system = systems.get(row.cells["system"], {})
        row.cells.update({name: system.get(name) for name in ("external", "symmetry_deg")})
    faults += complete_around(tables)
    return faults or [*senseless(SPECS, tables)]


def entries(tables: Tables, computed: Iterable[Computed] = ()) -> list[Entry]:
    """Every entry, with the aliases that lead to it and those of its drive system as words."""
    spoken: dict[Cell, list[str]] = {}
    for row in tables.get("alias", ()):
        spoken.setdefault(row.cells["entry"], []).append(str(row.cells["words"]))
    for row in tables.get("phrase", ()):
        if row.cells["option"] == "part":
            spoken.setdefault(f"part:{row.cells['value']}", []).append(str(row.cells["words"]))
    serves: dict[Cell, list[str]] = {}
    for row in tables.get("purpose", ()):
        serves.setdefault(row.cells["entry"], []).append(str(row.cells["purpose"]))
    for row in tables.get("clearance", ()):
        harmed = f"neighbour:{row.cells['neighbour']}"
        serves.setdefault(harmed, []).append(str(row.cells["hazard"]))
    systems = {row.cells["id"]: row.cells["title"] for row in tables.get("drive_system", ())}
    recess = {r.cells["id"]: r.cells["system"] for r in tables.get("drive", ())}
    found = []
    shared: set[str] = set()
    for spec in SPECS:
        for row in tables.get(spec.record.TABLE, ()) if spec.kind else ():
            entry = f"{spec.kind}:{row.cells[spec.name]}"
            if spec.key != (spec.name,) and entry in shared:
                continue
            shared.add(entry)
            words = [*spoken.get(entry, ()), _once(spoken.get(f"system:{row.cells.get('system')}"))]
            driven = recess.get(row.cells.get("drive")) if spec.kind == "head" else None
            words += [str(driven)] if driven else []
            system = systems.get(row.cells.get("system"))
            cells = {**row.cells, "system_title": system, "thread_title": threads.title(row.cells)}
            title = spec.title.format_map(cells)
            words += [spec.words.format_map(cells)] if spec.words else []
            said = " ".join(dict.fromkeys(filter(None, words)))
            serve = " ".join(serves.get(entry, ()))
            found.append(Entry(entry, str(spec.kind), title, said, row.file, row.line, serve))
    for kind, names in ((each.kind, each.entries) for each in computed):
        for key, title in names.items():
            entry = f"{kind}:{key}"
            metals = key.split("+") if kind == "pair" else ()
            words = [*spoken.get(entry, ()), COMPUTED_WORDS.get(kind, "")]
            words += [_once(spoken.get(f"metal:{metal}")) for metal in metals]
            found.append(Entry(entry, kind, title, " ".join(filter(None, words))))
    return found


def _once(names: Iterable[str] | None) -> str:
    """The words of the names, each once."""
    return " ".join(dict.fromkeys(" ".join(names or ()).split()))


def torque_entries(rows: Iterable[Mapping[str, Any]]) -> list[Entry]:
    """One entry for each thread and grade that have torque rows."""
    pairs = dict.fromkeys((row["thread"], row["grade"]) for row in rows)
    return [
        Entry(f"torque:{thread}@{grade}", "torque", f"Tightening torque of {thread} in {grade}", "")
        for thread, grade in pairs
    ]


def torque_rows(tables: Tables) -> list[Cells]:
    """Torque range of every thread in every grade of use that covers it, by friction condition."""
    frictions = _records(tables, Friction)
    grades = [grade for grade in _records(tables, Grade) if grade.id in TABLED]
    strengths: dict[str, list[GradeRow]] = {}
    for strength in _records(tables, GradeRow):
        strengths.setdefault(strength.grade, []).append(strength)
    seats = _default_seats(tables)
    found: list[Cells] = []
    for thread in _records(tables, Thread):
        ring = seats.get(thread.size)
        if ring is None or thread.series in SELDOM:
            continue
        for grade in grades:
            row = strength_at(strengths.get(grade.id, ()), thread)
            if row is None or not fits(grade, thread):
                continue
            for friction in frictions:
                torque = table_row(thread, row, friction, ring)
                if torque is not None:
                    found.append(torque._asdict())
    return found


def spread_out(phrases: Iterable[Mapping[str, Any]]) -> list[Cells]:
    """The phrases, those of several ways of saying written out, each once."""
    found: dict[tuple[str, str, str], Cells] = {}
    for row in phrases:
        for words in spread(row["words"]):
            found.setdefault((words, row["option"], row["value"]), {**row, "words": words})
    return list(found.values())


def beside(hands_off: Iterable[Mapping[str, Any]]) -> list[Cells]:
    """The phrases by which what nobody touches at home is read where it only stands near."""
    return [
        {"words": name, "option": "near", "value": row["beside"]}
        | {column: row[column] for column in ("source", "locator", "checked")}
        for row in hands_off
        if row["beside"]
        for names in plain(row["words"])
        for name in spread(names)
    ]


def _default_seats(tables: Tables) -> dict[str, Seat]:
    """Hexagon head on a medium hole, by thread size."""
    holes = {hole.size: hole.medium_mm for hole in _records(tables, ClearanceHole)}
    flats = {drive.id: drive.across_flats_mm for drive in _records(tables, Drive)}
    heads: dict[str, list[Head]] = {}
    for head in _records(tables, Head):
        heads.setdefault(head.size, []).append(head)
    found = {}
    for size, hole in holes.items():
        chosen = head_of(heads.get(size, ()), "hexagon")
        ring = chosen and seat(chosen, hole, flats.get(chosen.drive or ""))
        if ring:
            found[size] = ring
    return found


def _records(tables: Tables, record: Any) -> list[Any]:
    """The rows of a record's table as that record."""
    return [
        record._make(row.cells[name] for name in record._fields)
        for row in tables.get(record.TABLE, ())
    ]
