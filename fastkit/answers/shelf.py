"""The tools at hand and the stock in the drawers: added, removed, listed, written out, read in."""

from collections import Counter
from collections.abc import Mapping, Sequence
from pathlib import Path
from typing import Any, NamedTuple

from fastkit.answers import options
from fastkit.errors import Broken, Misuse, NotHeld
from fastkit.reference.store import connect
from fastkit.shopbook.exchange import checked, content, parsed, suffix_of, written
from fastkit.shopbook.rows import Owned, Stocked
from fastkit.shopbook.store import Pen, read, writing

KINDS: Mapping[str, Any] = {"tools": Owned, "stock": Stocked}


class Shelf(NamedTuple):
    """The rows that are there, those that changed, what was said about the file itself."""

    rows: tuple[Any, ...]
    changed: tuple[Any, ...]
    said: tuple[str, ...]


def listed(name: str, words: str = "") -> Shelf:
    """
    Return the rows of `tools` or `stock` in which all words stand, in the order of writing.

    Raises:
        NotHeld: When words are given and no row has them.
        Broken: When the own file cannot be read.
    """
    kind, held = KINDS[name], read()
    wanted = words.casefold().split()
    rows: list[Any] = [
        row for row in held.of(kind) if all(word in _told(row).casefold() for word in wanted)
    ]
    if wanted and not rows:
        raise NotHeld(f"nothing with {words[:60]!r} in your {name}")
    return Shelf(tuple(rows), (), (held.trouble,) if held.trouble else ())


def add_tool(
    tool: str,
    size: str = "",
    *,
    above_mm: float | None = None,
    beside_mm: float | None = None,
    swing_deg: float | None = None,
    note: str = "",
) -> Shelf:
    """
    Keep a tool at hand.

    Args:
        tool: Id or trade name of a tool in the data.
        size: Its sizes, in the user's words.
        above_mm: Height over the head that it needs, as measured [mm].
        beside_mm: Room beside the head that it needs, as measured [mm].
        swing_deg: Arc that it needs for the next bite, as measured [deg].
        note: Anything else.

    Raises:
        Misuse: When the tool is not in the data, or a word or measure cannot be kept.
        Broken: When the own file cannot be written.
    """
    kept = checked(
        Owned,
        {
            "tool": tool_of((tool,))[0],
            "size": size,
            "above_mm": above_mm,
            "beside_mm": beside_mm,
            "swing_deg": swing_deg,
            "note": note,
        },
    )
    with writing() as pen:
        added = pen.add(kept)
        return _after(pen, Owned, added)


def add_stock(what: str, amount: int = 1, place: str = "") -> Shelf:
    """
    Put something into stock; the same thing in the same place is counted together.

    Raises:
        Misuse: When a word cannot be kept, or it would be more than a million pieces.
        Broken: When the own file cannot be written.
    """
    given = {"what": what, "amount": amount, "place": place}
    kept = checked(Stocked, given)
    with writing() as pen:
        for row in pen.held().of(Stocked):
            if (row.what, row.place) == (kept.what, kept.place):
                kept = checked(Stocked, given | {"amount": kept.amount + row.amount})
                pen.drop(Stocked, row.id)
        return _after(pen, Stocked, pen.add(kept))


def remove(name: str, id: int, amount: int | None = None) -> Shelf:
    """
    Take a row out, or so many pieces of it.

    Raises:
        NotHeld: When no row has that number.
        Misuse: When fewer pieces are there.
        Broken: When the own file cannot be written.
    """
    kind = KINDS[name]
    rows: list[Any] = read().of(kind)
    _numbered(name, rows, id)  # asked first, so that a wrong number writes nothing
    with writing() as pen:
        row = _numbered(name, pen.held().of(kind), id)
        if amount is not None and amount > row.amount:
            raise Misuse(f"{amount} of number {id}: expected 1 to {row.amount}", (f"{row.amount}",))
        pen.drop(kind, id)
        if amount is not None and amount < row.amount:
            row = pen.add(row._replace(amount=row.amount - amount))
        return _after(pen, kind, row)


def export(name: str, path: Path, force: bool = False) -> Shelf:
    """
    Write all rows to a .toml or .csv file.

    Raises:
        Misuse: When the name says neither, or the file is there and `force` is not set.
        Broken: When it cannot be written.
    """
    suffix = suffix_of(path)
    if path.exists() and not force:
        raise Misuse(f"{path} is there already; expected another name, or --force")
    shelf = listed(name)
    beside = path.with_name(f".{path.name}.new")
    try:
        beside.write_text(written(KINDS[name], shelf.rows, suffix), "utf-8", newline="")
        beside.replace(path)
    except OSError as error:
        raise Broken(f"cannot write {path}: {error.strerror or error}") from error
    return shelf


def take_in(name: str, path: Path) -> Shelf:
    """
    Add the rows of a .toml or .csv file that are not there yet, all or none.

    Raises:
        Misuse: When the file holds a mistake, which is named with its place.
        Broken: When it cannot be read, or the own file cannot be written.
    """
    kind, suffix = KINDS[name], suffix_of(path)
    text = content(path)
    try:
        rows = parsed(kind, text, suffix)
    except Misuse as mistake:
        raise Misuse(f"{path.name}: {mistake}", mistake.nearest) from mistake
    if kind is Owned:
        rows = [row._replace(tool=tool_of((row.tool,))[0]) for row in rows]
    with writing() as pen:
        have = Counter(row[1:] for row in pen.held().of(kind))
        new = []
        for row in rows:
            if have[row[1:]]:
                have[row[1:]] -= 1
            else:
                new.append(pen.add(row))
        return _after(pen, kind, *new)


def amount_of(text: str) -> int:
    """
    Return a number of pieces, or of a row, as typed.

    Raises:
        Misuse: When it is not a whole number from 1 up.
    """
    return int(checked(Stocked, {"what": "x", "amount": text}).amount)


def _after(pen: Pen, kind: Any, *changed: Any) -> Shelf:
    return Shelf(tuple(pen.held().of(kind)), changed, pen.said)


def _numbered(name: str, rows: list[Any], id: int) -> Any:
    for row in rows:
        if row.id == id:
            return row
    numbers = tuple(str(row.id) for row in sorted(rows, key=lambda row: abs(row.id - id))[:3])
    raise NotHeld(f"no number {id} in your {name}", numbers)


def tool_of(words: Sequence[str]) -> tuple[str, str]:
    """
    Return the tool that words name, and the others: its sizes.

    Raises:
        Misuse: When they name no tool of the data.
    """
    try:
        return options.tool_in(connect(), words)
    except Misuse as error:
        raise Misuse(str(error).removeprefix("--have "), error.nearest) from error


def _told(row: Any) -> str:
    return " ".join(str(value) for value in row[1:] if value is not None)
