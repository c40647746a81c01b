"""An entry's values in words, in both unit systems, for screen and page alike."""

from collections.abc import Callable
from typing import Any

from fastkit.answers.show_rows import STANDING
from fastkit.notation.units import figures, show_kn, show_nm

MAKER_GOVERNS = "The vehicle or machine maker's specification governs."
GOVERNED = {
    *("torque", "grade", "method", "head", "friction", "thread", "tube", "prevailing"),
    *("nut-torque", "nut-factor", "torque-factor", "tightening", "ground", "compound"),
    *("structural", "broken"),
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


def row_words(row: Row) -> str:
    """One row of a list: what it is about, its numbers with their names, then longer words."""
    if "torque_nm" in row and "mu" in row:
        return _torque_row(row)
    cells = {k: v for k, v in row.items() if v is not None and k not in UNSHOWN - {"title", "id"}}
    texts = {k: v for k, v in cells.items() if isinstance(v, str)}
    names = [v for k, v in texts.items() if " " not in v or k in HEADINGS]
    prose = [v for k, v in texts.items() if " " in v and k not in HEADINGS]
    figures_ = [
        f"{label(k)} {value_words(k, v)}" for k, v in cells.items() if not isinstance(v, str)
    ]
    said = ", ".join([" ".join(names), *figures_] if names else figures_)
    return ": ".join(filter(None, (said, "; ".join(prose))))


def _torque_row(row: Row) -> str:
    low = row["torque_min_nm"]
    window = f"{_nm(low)} to {_nm(row['torque_max_nm'])}" if low else "no window"
    friction = f"{row['friction']}, mu {row['mu_min']:g} to {row['mu_max']:g}"
    return f"{friction}: {_nm(row['torque_nm'])}; window {window}; {show_kn(row['preload_n'])}"


def label(name: str) -> str:
    """A column's name in words, without its unit."""
    ending = next((ending for ending in UNITS if name.endswith(ending)), "")
    return name.removesuffix(ending).replace("_", " ")


def value_words(name: str, value: Any) -> str:
    """A value in words; the ending of its column's name says the unit."""
    if isinstance(value, str):
        return value
    if name in FLAGS:
        return "yes" if value else "no"
    for ending, write in UNITS.items():
        if name.endswith(ending):
            return write(float(value))
    return figures(float(value), 4)
