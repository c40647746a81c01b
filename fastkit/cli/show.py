"""`fastkit show`."""

from collections.abc import Callable, Iterator, Mapping
from typing import Any

import click

from fastkit.answers.show import ShowAnswer, show, sources
from fastkit.answers.show_rows import STANDING, Standing, standing_of
from fastkit.cli.output import answering, bold, clean, emit, wrap
from fastkit.notation.units import figures, show_kn, show_nm

EMPTY = {"id": None, "title": None, "source": None, "locator": None, "checked": None}
GOVERNED = {
    *("torque", "grade", "method", "head", "friction", "thread", "tube", "prevailing"),
    *("nut-torque", "nut-factor", "torque-factor", "tightening", "ground", "compound"),
    *("structural", "broken"),
}
WORDS = {
    "formula": "by formula",
    "outside": "compared with a second copy",
    "copied": "copied",
    "memory": "from memory, not yet confirmed",
    "judgement": "workshop practice, judgement",
}
MARKS = {"memory": " memory", "judgement": " practice"}
UNSHOWN = {*STANDING, "id", "title", "size_from_mm", "size_to_mm"}  # said in other words already
FLAGS = {"external", "movable", "brittle", "galls"}
Row = dict[str, Any]
HEADINGS = {"title", "size_range", "rule", "size"}  # texts that stand first in their row


def _mm(mm: float) -> str:
    inch = f"{mm / 25.4:.{4 if abs(mm) < 25 else 2}f}"
    return f"{_trimmed(f'{mm:.3f}')} mm ({_trimmed(inch)} in)"


def _trimmed(number: str) -> str:
    return number.rstrip("0").rstrip(".") if "." in number else number


def _nm(nm: float) -> str:
    return show_nm(1000 * nm)


def _mm2(mm2: float) -> str:
    return f"{figures(mm2, 4)} mm² ({mm2 / 25.4**2:.4f} in²)"


def _mpa(mpa: float) -> str:
    return f"{figures(mpa)} MPa ({figures(mpa / 6.894757)} ksi)"  # 1 ksi = 6.894757 MPa


def _celsius(celsius: float) -> str:
    return f"{figures(celsius)} °C ({figures(1.8 * celsius + 32)} °F)"


# ending of a column's name -> how its value is written in both systems; the longest fits first
UNITS: dict[str, Callable[[float], str]] = {
    "_per_k": lambda per_k: f"{figures(1e6 * per_k)} µm/(m·K)",
    "_g_cm3": lambda density: f"{figures(density)} g/cm³",
    "_g_m2": lambda mass: f"{figures(mass)} g/m²",
    "_degc": _celsius,
    "_ohm": lambda ohm: f"{figures(1000 * ohm)} mΩ",
    "_mm2": _mm2,
    "_mpa": _mpa,
    "_deg": lambda deg: f"{figures(deg)}°",
    "_pct": lambda pct: f"{figures(pct)} %",
    "_mm": _mm,
    "_nm": _nm,
    "_um": lambda um: f"{figures(um)} µm ({figures(um / 25.4, 2)} mil)",
    "_n": show_kn,
    "_h": lambda hours: f"{figures(hours)} h",
    "_v": lambda volt: f"{figures(volt)} V",
    "_d": lambda diameters: f"{figures(diameters)} d",
}


@click.command()
@click.argument("id", metavar="ID")
@click.option("--json", "as_json", is_flag=True, help="Print one JSON document.")
def command(id: str, as_json: bool) -> None:
    """
    Show one entry whole, each value with its source.

    ID is an entry's id as `find` prints it: thread:M8x1.25, drive:T20, method:weld-nut.
    """
    with answering(as_json, EMPTY):
        answer = show(id)
    emit(answer.document, as_json, lambda columns: _lines(answer, columns))


def _lines(answer: ShowAnswer, columns: int) -> Iterator[str]:
    yield bold("\n".join(wrap(answer.title, columns)))
    yield from wrap(answer.id, columns)
    numbers = {standing: n for n, (_, standing) in enumerate(sources(answer.groups), 1)}
    own = [group.rows[0] for group in answer.groups if not group.name]
    names = [name for row in own for name in row if name not in UNSHOWN and row[name] is not None]
    wide = min(max((len(_label(name)) for name in names), default=0), 24) + 2
    if names:
        yield ""
    for row in own if names else ():
        yield from _values(row, numbers, columns, wide)
    for group in answer.groups:
        if group.name and group.rows:
            yield ""
            yield bold(_label(group.name))
            for row in group.rows:
                yield from wrap(f"{_row(row)}{_mark(row, numbers)}", columns, "  ", "    ")
    if numbers:
        yield ""
        yield bold("sources")
    for standing, n in numbers.items():
        title = answer.titles.get(standing.source, standing.source)
        where = "" if standing.locator == "-" else f"; {standing.locator}"
        yield from wrap(f"{title}{where} ({WORDS[standing.checked]})", columns, f"[{n}] ")
    if answer.kind in GOVERNED:
        yield ""
        yield from wrap("The vehicle or machine maker's specification governs.", columns)


def _values(row: Row, numbers: Mapping[Standing, int], columns: int, wide: int) -> Iterator[str]:
    """The entry's own values, one a line; lists of sentences under their name."""
    shown = {k: v for k, v in row.items() if v is not None and k not in UNSHOWN}
    for name, value in shown.items():
        if isinstance(value, list):
            if value:
                yield ""
                yield bold(_label(name))
            for n, text in enumerate(value, 1):
                yield from wrap(text, columns, f"  {n}. ")
        else:
            text = f"{_value(name, value)}{_mark(row, numbers)}"
            yield from wrap(text, columns, _label(name).ljust(wide), " " * wide)


def _row(row: Row) -> str:
    """One row of a list: what it is about, its numbers with their names, then longer words."""
    if "torque_nm" in row and "mu" in row:
        return _torque_row(row)
    cells = {k: v for k, v in row.items() if v is not None and k not in UNSHOWN - {"title", "id"}}
    texts = {k: v for k, v in cells.items() if isinstance(v, str)}
    names = [v for k, v in texts.items() if " " not in v or k in HEADINGS]
    prose = [v for k, v in texts.items() if " " in v and k not in HEADINGS]
    figures_ = [f"{_label(k)} {_value(k, v)}" for k, v in cells.items() if not isinstance(v, str)]
    said = ", ".join([" ".join(names), *figures_] if names else figures_)
    return ": ".join(filter(None, (said, "; ".join(prose))))


def _torque_row(row: Row) -> str:
    low = row["torque_min_nm"]
    window = f"{_nm(low)} to {_nm(row['torque_max_nm'])}" if low else "no window"
    friction = f"{row['friction']}, mu {row['mu_min']:g} to {row['mu_max']:g}"
    return f"{friction}: {_nm(row['torque_nm'])}; window {window}; {show_kn(row['preload_n'])}"


def _mark(row: Row, numbers: Mapping[Standing, int]) -> str:
    """Number of the row's source, and a word where the value is not from a published copy."""
    standing = standing_of(row)
    if standing is None:
        return ""
    return f"  [{numbers[standing]}{MARKS.get(standing.checked, '')}]"


def _label(name: str) -> str:
    """A column's name in words, without its unit."""
    ending = next((ending for ending in UNITS if name.endswith(ending)), "")
    return clean(name.removesuffix(ending).replace("_", " "))


def _value(name: str, value: Any) -> str:
    if isinstance(value, str):
        return value
    if name in FLAGS:
        return "yes" if value else "no"
    for ending, write in UNITS.items():
        if name.endswith(ending):
            return write(float(value))
    return figures(float(value), 4)
