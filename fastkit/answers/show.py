"""One entry whole: every value it has, each group of values with its source and its standing."""

import re
import sqlite3
from collections.abc import Sequence
from importlib import import_module
from typing import Any, NamedTuple

from fastkit.answers.show_rows import STANDING, Builder, Group, Standing, listed, plain, standing_of
from fastkit.errors import Misuse, NotHeld
from fastkit.notation.entry import split_id
from fastkit.records.source import Purpose, Source
from fastkit.reference.lookup import many
from fastkit.reference.store import connect, query

LEFT_HAND = re.compile(r"[-\s]*\b(?:lh|left[- ]?hand(?:ed)?)\b", re.IGNORECASE)
SURE = 99.0  # a search that scores this much has named its entry


class ShowAnswer(NamedTuple):
    """
    One entry.

    `groups` hold the values, the main ones first; `titles` name the sources by their keys.
    `document` is the answer as one mapping, by the names that scripts use.
    """

    id: str
    kind: str
    title: str
    groups: tuple[Group, ...]
    titles: dict[str, str]

    @property
    def document(self) -> dict[str, Any]:
        """The values under their names; lists of rows under the name of their group."""
        said: dict[str, Any] = {"title": self.title}
        for group in self.groups:
            if group.name:
                said[group.name] = [_rounded(row) for row in group.rows]
            else:
                row = _rounded(group.rows[0])
                said |= {k: v for k, v in row.items() if k not in STANDING}
        said["id"] = self.id
        main = self.groups[0].rows[0]
        said |= {name: main.get(name) for name in STANDING}
        said["sources"] = [
            {
                "values": list(values),
                **standing._asdict(),
                "title": self.titles.get(standing.source),
            }
            for values, standing in sources(self.groups)
        ]
        return said


def _rounded(row: dict[str, Any]) -> dict[str, Any]:
    """The row without the noise of binary fractions: 9.525, not 9.524999999999999."""
    return {k: round(v, 6) if isinstance(v, float) else v for k, v in row.items()}


def sources(groups: Sequence[Group]) -> list[tuple[tuple[str, ...], Standing]]:
    """Each source of an entry once, with the values or groups that stand on it."""
    found: dict[Standing, dict[str, None]] = {}
    for group in groups:
        for row in group.rows:
            standing = standing_of(row)
            if standing:
                named = [group.name] if group.name else [n for n in row if n not in STANDING]
                found.setdefault(standing, {}).update(dict.fromkeys(named))
    return [(tuple(values), standing) for standing, values in found.items()]


def show(id: str, *, store: sqlite3.Connection | None = None) -> ShowAnswer:
    """
    One entry whole.

    Args:
        id: An entry id, `thread:M8x1.25`; what names one entry without doubt will do.
        store: The compiled file; opened here if left out.

    Raises:
        NotHeld: When there is no such entry; `nearest` holds ids near to it.
        Misuse: When *id* is empty.
    """
    if not id.strip():
        raise Misuse("no entry named; expected an id such as thread:M8x1.25")
    held = store or connect()
    left = _left_hand(held, id)
    entry_id, kind, title = _entry(held, left or id.strip())
    if left:
        title = f"{title}; left-hand: the same sizes, loosened clockwise"
    groups = tuple(_builder(kind)(held, entry_id.partition(":")[2]))
    purposes = listed(many(held, Purpose, entry=entry_id), "entry")
    groups += (Group("serves", purposes),) if purposes else ()
    used = {standing.source for _, standing in sources(groups)}
    titles = {
        source.id: source.title if source.edition == "-" else f"{source.title}, {source.edition}"
        for source in many(held, Source)
        if source.id in used
    }
    return ShowAnswer(entry_id, kind, title, groups, titles)


def _left_hand(store: sqlite3.Connection, text: str) -> str | None:
    """Id of the thread that *text* names as left-hand, `M8x1-LH`; None where it names none."""
    if not LEFT_HAND.search(text):
        return None
    from fastkit.notation.designation import parse
    from fastkit.reference.threads import threads

    parts = parse(LEFT_HAND.sub("", text))
    if [part.kind for part in parts] != ["thread"]:
        return None
    return next((f"thread:{row.id}" for row in threads(store, parts[0].key)), None)


def _entry(store: sqlite3.Connection, text: str) -> tuple[str, str, str]:
    """Id, kind and title of the entry that was named."""
    sql = "SELECT id, kind, title FROM entry WHERE id = ?"
    split = split_id(text)
    spellings = [text, f"{split[0]}:{split[1]}", text.lower()] if split else [text]
    if split and split[0] == "pair":
        spellings.append(f"pair:{'+'.join(sorted(split[1].lower().split('+')))}")
    if split and split[0] == "torque" and "@" in split[1]:
        spellings.append(_torque_id(store, split[1]))
    for spelling in spellings:
        row = query(store, sql, (spelling.encode("utf-8", "replace").decode(),))
        if row:
            return row[0]
    if torque := _thread_and_grade(text):
        return _entry(store, f"torque:{torque}")
    from fastkit.reference.search import search

    found = search(store, text, 3, split[0] if split else None)
    if found.hits and found.hits[0].score >= SURE:
        return found.hits[0][:3]
    near = found.nearest or tuple(hit.id for hit in found.hits)
    if not near:
        near = search(store, text.partition(":")[2], 3).nearest
    raise NotHeld(f"no entry {text[:60]!r} in the data", near)


def _thread_and_grade(text: str) -> str:
    """Key of the torque entry that `m8 8.8` names; empty where it says anything else."""
    from fastkit.notation.designation import parse

    named = {part.kind: part.key for part in parse(text) if part.key != "torque"}
    both = named.keys() == {"thread", "grade"}
    return f"{named['thread']}@{named['grade']}" if both else ""


def _torque_id(store: sqlite3.Connection, key: str) -> str:
    """The torque entry of a thread and a grade as people write them."""
    from fastkit.reference import resolve

    thread, _, grade = key.partition("@")
    return f"torque:{resolve.thread(store, thread).id}@{resolve.grade(store, grade).id}"


def _builder(kind: str) -> Builder:
    """What makes the groups of a kind; only the module that holds it is loaded."""
    if kind == "source":
        return plain(Source)
    module = next(module for module, kinds in MODULES.items() if kind in kinds)
    builder: Builder = import_module(f"fastkit.answers.{module}").KINDS[kind]
    return builder


# the module of each kind: an entry of one loads no more records than it shows
MODULES = {
    "show_thread": ("thread", "insert", "left-hand"),
    "show_drive": ("drive", "system"),
    "show_part": ("grade", "head", "screw-end", "washer", "hardware"),
    "show_torque": ("torque", "friction"),
    "show_method": ("method", "hazard", "neighbour", "seizure", "tool", "part"),
    "show_material": ("material", "engagement", "metal", "environment", "potential", "pair"),
    "show_coat": ("finish", "compound", "ground"),
    "show_tube": ("tube", "broken", "extractor"),
    "show_tightening": (
        *("nut-factor", "measured", "slip", "torque-factor", "tightening", "structural"),
        *("embedding", "wrench-class", "prevailing", "nut-torque"),
    ),
}
