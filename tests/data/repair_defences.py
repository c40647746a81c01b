"""What must hold among ways of repair, bodies of inserts and threads that are mixed up."""

from collections.abc import Callable, Iterator
from itertools import pairwise
from typing import Any

Tables = dict[str, list[dict[str, Any]]]
HOLES = {"stripped", "oversize", "cracked", "damaged"}


def repairs(tables: Tables) -> Iterator[str]:
    """Words of holes and bodies are those that exist; times are in order; what cracks is barred."""
    bodies = {row["id"] for row in tables["material"]}
    for row in tables["repair"]:
        if not set(row["holes"].split()) <= HOLES or not set(row["bodies"].split()) <= bodies:
            yield f"repair {row['id']}: holes or bodies that nobody can name"
        if not row["minutes_min"] < row["minutes_max"]:
            yield f"repair {row['id']}: minutes {row['minutes_min']} to {row['minutes_max']}"
        spreads = row["how"] in ("insert", "larger", "bond")
        if spreads and "cracked" in row["holes"]:
            yield f"repair {row['id']}: spreads a crack"
        if (row["bond_mpa"] is not None) != (row["how"] == "bond"):
            yield f"repair {row['id']}: a bond strength without a bond, or none with one"


def insert_bodies(tables: Tables) -> Iterator[str]:
    """The outer thread stands clear of the inner one, its drill near its core; sizes rise."""
    nominal = {row["size"]: row["nominal_mm"] for row in tables["thread"]}
    groups: dict[tuple[str, str], list[tuple[float, float]]] = {}
    for row in tables["insert_body"]:
        name, inner = f"{row['kind']} {row['size']}", nominal.get(row["size"])
        if inner is None:
            yield f"insert body {name}: no thread has that size"
            continue
        outer, pitch, drill = row["outer_mm"], row["pitch_mm"], row["drill_mm"]
        if not 1.2 <= outer / inner <= 1.9 or not outer - 1.3 * pitch > inner:
            yield f"insert body {name}: {outer} outside over {inner}"
        if not 0.75 <= (outer - drill) / pitch <= 1.25:
            yield f"insert body {name}: drill {drill} for {outer} x {pitch}"
        form = "metric" if row["size"].startswith("M") else row["size"][:4]
        groups.setdefault((row["kind"], form if form in ("metric", "plug") else "inch"), []).append(
            (inner, outer)
        )
    for (kind, form), rows in groups.items():
        for (_, smaller), (size, larger) in pairwise(sorted(rows)):
            if not smaller < larger:
                yield f"insert body {kind} {form}: outside does not grow at {size} mm"


def mix_ups(tables: Tables) -> Iterator[str]:
    """Two different threads whose diameters lie within a tenth or so, each pair once."""
    nominal = {row["id"]: row["nominal_mm"] for row in tables["thread"]}
    seen = set()
    for row in tables["mix_up"]:
        pair = frozenset((row["first"], row["second"]))
        ratio = nominal[row["first"]] / nominal[row["second"]]
        if len(pair) < 2 or pair in seen or not 0.85 < ratio < 1.18:
            yield f"mix up {row['first']} {row['second']}: the same, twice or nowhere near"
        seen.add(pair)


def usual(tables: Tables) -> Iterator[str]:
    """What is usual is held: a drive of that system, a thread about as large, a class of bolts."""
    drives = {row["id"]: row for row in tables["drive"]}
    systems = {row["system"] for row in tables["drive"]}
    forms = {row["form"] for row in tables["head"]}
    classes = {row["id"] for row in tables["grade"]}
    for row in tables["usual"]:
        what, of, value = row["what"], row["of"], row["value"]
        size = _nominal(tables, value)
        across = (drives.get(of, {}).get("across_flats_mm") or 0.0) / size if size else 0.0
        held = {
            "size-of-system": drives.get(value, {}).get("system") == of,
            "thread-of-system": of in systems and size > 0,
            "thread-of-drive": 1.4 < across < 1.75 or (across > 0 and drives[of]["external"] == 0),
            "thread-of-tube-nut": 0.99 < across < 1.4,
            "class-of-form": of in forms and value in classes,
            "class-of-steel": value in classes and value.startswith(f"{of}-"),
            "inch-for": 0.93 < size / (_nominal(tables, of) or 1.0) < 1.07,
        }
        if not held[what]:
            yield f"usual {what} {of}: {value} is held nowhere or far off"


def _nominal(tables: Tables, name: str) -> float:
    """Diameter of a thread by its id or size, a series left out or not [mm]; 0: none such."""
    named = (row for row in tables["thread"] if name in _names(row))
    return next((float(row["nominal_mm"]) for row in named), 0.0)


def _names(thread: dict[str, Any]) -> tuple[str, ...]:
    return thread["id"], thread["size"], thread["id"].rpartition("-")[0]


REPAIR_DEFENCES: tuple[Callable[[Tables], Iterator[str]], ...] = (
    *(repairs, insert_bodies, mix_ups),
    usual,
)
