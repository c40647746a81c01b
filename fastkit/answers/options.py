"""The options of `extract`: how each value is read, its bounds, and the nearest valid one."""

import sqlite3
from collections.abc import Callable, Collection, Iterable, Mapping, Sequence
from typing import Any, NamedTuple

from fastkit.errors import Misuse
from fastkit.extraction.reading import DAMAGE_ORDER, SEIZED_ORDER
from fastkit.extraction.situation import Near
from fastkit.notation.units import angle_deg, figures, length_mm, minutes, percent
from fastkit.records.part import Part
from fastkit.reference import aliases, resolve
from fastkit.reference.lookup import many, nearest
from fastkit.reference.store import query

CHOICES: Mapping[str, tuple[str, ...]] = {
    "kind": ("screw", "bolt", "nut", "stud", "tube-nut"),
    "damage": DAMAGE_ORDER,
    "seized": SEIZED_ORDER,
    "seized_at": ("thread", "head", "shank", "unknown"),
    "coating": ("plain", "zinc", "cadmium", "stainless", "unknown"),
    "load": ("none", "spring", "pressure", "weight", "unknown"),
    "far_side": ("reachable", "blind", "unknown"),
    "residue": ("none", "flammable", "chlorinated"),
    "support": ("stands", "jack", "bench", "unknown"),
    "recess": ("clean", "filled"),
    "power": ("none", "electric", "air"),
}
MOVES = ("make-room", "drop-assembly", "bench")
NEAR_SIZES = "near"  # as a tool at hand: bits, keys and sockets near the drive's own size
LONGEST_MM = 10_000.0
LONGEST_NAME = 5  # words of a tool or a method
LONGEST_MINUTES = 100_000.0


class Bounds(NamedTuple):
    """Least and greatest value, and the unit they are named in."""

    low: float
    high: float
    unit: str


BOUNDS: Mapping[str, Bounds] = {
    "wasted": Bounds(0, 95, "percent"),
    "engage": Bounds(0.5, LONGEST_MM, "mm"),
    "stub": Bounds(0, LONGEST_MM, "mm"),
    "above": Bounds(0, LONGEST_MM, "mm"),
    "beside": Bounds(0, LONGEST_MM, "mm"),
    "swing": Bounds(0, 360, "degrees"),
    "spoil": Bounds(0, LONGEST_MINUTES, "minutes"),
}
READERS: Mapping[str, Callable[[str], float]] = {
    "mm": length_mm,
    "degrees": angle_deg,
    "minutes": minutes,
    "percent": percent,
}
FIELDS: Mapping[str, str] = {
    "wasted": "wasted_pct",
    "engage": "engage_mm",
    "stub": "stub_mm",
    "above": "above_mm",
    "beside": "beside_mm",
    "swing": "swing_deg",
    "side": "side_mm",
    "pocket": "pocket_mm",
    "spoil": "spoil_min",
}
NAMES = (
    *("kind", "thread", "grade", "drive", "damage", "seized", "seized_at", "left_hand", "coating"),
    *("load", "far_side", "residue", "support", "recess", "wasted", "into", "engage", "stub"),
    *("above", "beside", "swing", "side", "pocket", "near", "no_heat", "power", "have", "lack"),
    *("can", "tried", "spoil", "insert", "prevailing", "part"),
)


def fields(store: sqlite3.Connection, options: Mapping[str, Any]) -> dict[str, Any]:
    """
    Return the situation's fields that the options fill; what is None, False or empty fills none.

    Args:
        store: Open reference, against which names are checked.
        options: Values by the options' names, `_` for `-`; as typed, or numbers in mm, degrees,
            percent, minutes.

    Raises:
        Misuse: When a name or value is not valid; names what was expected and the nearest.
        NotHeld: When a designation is well formed but not in the data.
    """
    known = {FIELDS.get(name, name): name for name in NAMES}
    found: dict[str, Any] = {}
    for given, value in options.items():
        name = known.get(given, given)
        if name not in NAMES:
            raise Misuse(f"no option {given!r}; expected one of extract's", nearest(given, NAMES))
        if value is None or value is False or value == () or value == []:
            continue
        found[FIELDS.get(name, name)] = _read(store, name, value)
    return found


def _read(store: sqlite3.Connection, name: str, value: Any) -> Any:
    if name in CHOICES:
        return _one_of(name, str(value), CHOICES[name])
    if name in _RESOLVE:
        return _RESOLVE[name](store, str(value)).id
    if name in BOUNDS:
        return _bounded(name, value)
    if name in ("left_hand", "no_heat", "insert", "prevailing"):
        return True
    if name == "into":
        return _one_of(name, str(value), _ids(store, "material"))
    if name == "part":
        return _one_of("part", str(value), [row.id for row in many(store, Part)])
    if name == "side":
        none = isinstance(value, str) and value.strip().lower() == "none"
        return (0.0, 0.0) if none else _pair(name, value)
    if name == "pocket":
        return _pair(name, value)
    listed = list(value) if isinstance(value, tuple | list) else [value]
    return _READ_LIST[name](store, listed)


def _one_of(name: str, text: str, choices: Iterable[str]) -> str:
    """Return the choice written, blanks and case forgiven."""
    choices = tuple(choices)
    plain = "-".join(text.strip().lower().replace("_", "-").split())
    if plain in choices:
        return plain
    raise Misuse(
        f"--{name.replace('_', '-')} {text[:60]!r}: expected one of {', '.join(choices)}",
        nearest(plain, choices, 1),
    )


def _bounded(name: str, value: Any) -> float:
    return in_bounds(name, READERS[BOUNDS[name].unit](str(value)))


def in_bounds(name: str, number: float) -> float:
    """
    Return the value of an option where it lies within its bounds.

    Raises:
        Misuse: When it does not; the nearest valid value is named.
    """
    low, high, unit = BOUNDS[name]
    if not low <= number <= high:
        raise Misuse(
            f"{name} {figures(number)} {unit}: expected {figures(low)} to {figures(high)} {unit}",
            (figures(min(max(number, low), high)),),
        )
    return number


def _pair(name: str, value: Any) -> tuple[float, float]:
    """Return two lengths [mm] of `30x12`; a unit behind the second counts for both."""
    expected = {"side": "none, or width by depth as 30x12", "pocket": "diameter by depth as 20x60"}
    if not isinstance(value, tuple | list):
        plain = str(value).strip().lower().replace("×", "x").replace("*", "x")
        first, times, second = plain.partition("x")
        if not times or "x" in second:
            raise Misuse(f"--{name} {plain[:60]!r}: expected {expected[name]}", ("20x60",))
        unit = second.strip().lstrip("0123456789./- ")
        if unit and first.strip()[-1:].isdigit():
            first += unit
        pair = length_mm(first), length_mm(second)
    else:
        if len(value) != 2:
            raise Misuse(f"--{name} {str(value)[:60]}: expected {expected[name]}", ("20x60",))
        pair = length_mm(str(value[0])), length_mm(str(value[1]))
    return within(name, pair)


def within(name: str, pair: tuple[float, float]) -> tuple[float, float]:
    """
    Return the two lengths [mm] of a side opening or pocket where they lie within bounds.

    Raises:
        Misuse: When they do not.
    """
    if max(pair) > LONGEST_MM or (name == "pocket" and min(pair) <= 0):
        bounds = f"{'above ' if name == 'pocket' else ''}0 to {figures(LONGEST_MM)} mm"
        shown = "x".join(map(figures, pair))
        raise Misuse(f"{name} {shown}: expected {bounds}", ("20x60",))
    return pair


def _near(store: sqlite3.Connection, values: list[Any]) -> tuple[Near, ...]:
    things = _ids(store, "neighbour")
    found = []
    for value in values:
        text, mm = value if isinstance(value, tuple) else (str(value), None)
        thing, colon, distance = str(text).partition(":")
        away = length_mm(distance if colon else str(mm or 0))
        if away > LONGEST_MM:
            raise Misuse(f"--near {text[:60]!r}: expected up to {figures(LONGEST_MM)} mm away")
        found.append(Near(_one_of("near", thing, things), away))
    return tuple(found)


def _tools(store: sqlite3.Connection, values: list[Any], name: str) -> tuple[str, ...]:
    held = (*_ids(store, "tool"), *_ids(store, "method"))
    found = []
    for value in values:
        text = _bare(str(value))
        plain = "-".join(text.lower().split())
        if (name, plain) == ("have", NEAR_SIZES):
            found.append(plain)
            continue
        if plain not in held:
            plain = _by_phrase(store, "tool", text) or plain
        if plain not in held:
            raise Misuse(
                f"--{name} {text[:60]!r}: no such tool or method in the data", nearest(plain, held)
            )
        found.append(plain)
    return tuple(dict.fromkeys(found))


def tool_in(store: sqlite3.Connection, words: Sequence[str]) -> tuple[str, str]:
    """
    Return the tool that a line names, its longest name first, and the words left over.

    Raises:
        Misuse: When it names none.
    """
    held = (*_ids(store, "tool"), *_ids(store, "method"))
    return _named_in(store, "tool", words, held) or (
        _tools(store, [" ".join(words)], "have")[0],
        "",
    )


def method_in(store: sqlite3.Connection, words: Sequence[str]) -> tuple[str, str]:
    """
    Return the method that a line names, its longest name first, and the words left over.

    Raises:
        Misuse: When it names none.
    """
    held = _ids(store, "method")
    found = _named_in(store, "method", words, held)
    if found is None:
        line = " ".join(words)
        raise Misuse(f"no method {line[:60]!r}; or torque, list, undo", nearest(line[:60], held))
    return found


def _named_in(
    store: sqlite3.Connection, option: str, words: Sequence[str], held: Collection[str]
) -> tuple[str, str] | None:
    for count in range(min(LONGEST_NAME, len(words)), 0, -1):
        for at in range(len(words) - count + 1):
            run = _bare(" ".join(words[at : at + count]))
            plain = "-".join(run.lower().split())
            found = plain if plain in held else _by_phrase(store, option, run)
            if found:
                return found, " ".join((*words[:at], *words[at + count :]))
    return None


def _bare(name: str) -> str:
    return name.removeprefix("tool:").removeprefix("method:")


def _can(store: sqlite3.Connection, values: list[Any]) -> tuple[tuple[str, float | None], ...]:
    found: dict[str, float | None] = {}
    for value in values:
        text, given = value if isinstance(value, tuple) else (str(value), None)
        move, colon, span = str(text).partition(":")
        name = _one_of("can", move, ("none", *MOVES))
        time = minutes(span) if colon else given
        if time is not None and not 0 <= time <= LONGEST_MINUTES:
            raise Misuse(f"--can {text[:60]!r}: expected up to {figures(LONGEST_MINUTES)} minutes")
        found[name] = time
    if "none" in found and len(found) > 1:
        raise Misuse("--can none: expected none alone, or the moves that are possible", MOVES)
    return tuple((move, time) for move, time in found.items() if move != "none")


def _tried(store: sqlite3.Connection, values: list[Any]) -> tuple[str, ...]:
    methods = _ids(store, "method")
    names = (str(value).removeprefix("method:") for value in values)
    return tuple(
        _one_of("tried", _by_phrase(store, "method", name) or name, methods) for name in names
    )


def _by_phrase(store: sqlite3.Connection, option: str, text: str) -> str | None:
    """Return what the trade means by a tool or method: `impact gun`."""
    words = aliases.readable(" ".join(text.lower().replace("-", " ").split()))
    sql = "SELECT value FROM phrase WHERE words = ? AND option = ?"
    rows = query(store, sql, (words, option))
    return str(rows[0][0]) if rows else None


def _ids(store: sqlite3.Connection, kind: str) -> tuple[str, ...]:
    rows = query(store, "SELECT id FROM entry WHERE kind = ? ORDER BY rowid", (kind,))
    return tuple(str(row[0]).partition(":")[2] for row in rows)


_RESOLVE: Mapping[str, Callable[[sqlite3.Connection, str], Any]] = {
    "thread": resolve.thread,
    "grade": resolve.grade,
    "drive": resolve.drive,
}
_READ_LIST: Mapping[str, Callable[[sqlite3.Connection, list[Any]], Any]] = {
    "near": _near,
    "have": lambda store, values: _tools(store, values, "have"),
    "lack": lambda store, values: _tools(store, values, "lack"),
    "can": _can,
    "tried": _tried,
}
