"""An entry's values in words, in both unit systems, for screen and page alike."""

from collections.abc import Callable, Iterable
from typing import Any, NamedTuple

from fastkit.answers.show_rows import STANDING, Group
from fastkit.notation.units import figures, show_kn, show_mm, show_nm

MAKER_GOVERNS = "The vehicle or machine maker's specification governs."
GOVERNED = {
    *("torque", "grade", "method", "head", "friction", "thread", "tube", "prevailing"),
    *("nut-torque", "nut-factor", "torque-factor", "tightening", "ground", "compound"),
    *("structural", "broken"),
}
MARKS = {"memory": " memory", "judgement": " practice"}
UNSHOWN = {*STANDING, "id", "title", "size_from_mm", "size_to_mm"}  # said in other words already
FLAGS = {"external", "movable", "brittle", "galls"}
GUARDS = {"cautions", "hazards", "clearances", "notes", "never_mates"}  # never shortened
UNSAID = {"mark_strokes"}  # lists that only a drawing is made from
# of use to a plan or a gauge only; a short answer leaves them out
PLANNED = {"restores", "spoils", "repeats", "hold", "kind", "grip", "leads_to", "symmetry_deg"}
PLANNED |= {"flank_angle_deg", "root_mm", "family", "system", "external"}
Row = dict[str, Any]
HEADINGS = {"title", "size_range", "size"}  # texts that stand first in their row
SAID = {  # columns whose own name says too little
    "mu": "friction",
    "mu_thread": "friction of the thread",
    "mu_head": "friction under the head",
    "mu_spread": "spread of friction",
    "tau_thread_mpa": "bond in the thread",
    "tau_head_mpa": "bond under the head",
    "tau_shank_mpa": "bond of the shank",
    "spread": "spread of the bond",
    "preload_share": "left",
    "restores": "wins back",
    "spoils": "costs",
    "thread_mm": "thread diameter",
    "first_on": "first time on",
    "first_off": "first time off",
    "fifth_off": "fifth time off",
    "rows": "values",
}
ENDS = (("min", "max"), ("low", "high"), ("from", "to"), ("shortest", "longest"))
SHARES = {  # 0.4 is 40 % of it
    "push": "body weight",
    "restores": "the lost grip",
    "spoils": "a spoilt part's price",
    "preload_share": "the preload",
}


class Held(NamedTuple):
    """A value of the entry's own, and the row that it stands in."""

    name: str
    value: Any
    row: Row


def own_values(groups: Iterable[Group]) -> list[Held]:
    """The entry's own values that are said."""
    return [
        Held(name, value, row)
        for group in groups
        if not group.name
        for row in group.rows
        for name, value in row.items()
        if value is not None and name not in UNSHOWN
    ]


def lists(groups: Iterable[Group]) -> list[Group]:
    """The lists beside them that are said; what stays as far from a thing for one reason, once."""
    said = [group for group in groups if group.name and group.rows and group.name not in UNSAID]
    return [g._replace(rows=_alike(g.rows)) if g.name == "clearances" else g for g in said]


def _alike(rows: Iterable[Row]) -> tuple[Row, ...]:
    """Rows that differ in the hazard alone, or in the neighbour, as one that names them all."""
    found: dict[tuple[Any, ...], Row] = {}
    for row in rows:
        name = "neighbour" if "neighbour" in row else "hazard"
        key = tuple(value for column, value in row.items() if column != name)
        first = found.setdefault(key, row)
        if first is not row:
            found[key] = {**first, name: f"{first[name]}, {row[name]}"}
    return tuple(found.values())


def first_rows(group: Group, most: int) -> tuple[Row, ...]:
    """So many rows of a list; all of one that guards people."""
    return group.rows if group.name in GUARDS else group.rows[:most]


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
    "_in": lambda inch: _mm(25.4 * inch),
    "_c": _celsius,
    "_n": show_kn,
    "_h": lambda hours: f"{figures(hours)} h",
    "_v": lambda volt: f"{figures(volt)} V",
    "_d": lambda diameters: f"{figures(diameters)} d",
}


def row_words(row: Row) -> str:
    """One row of a list: what it is about, its numbers with their names, then longer words."""
    for columns, say in SENTENCES:
        if columns <= row.keys():
            return say(row)
    cells = {k: v for k, v in row.items() if v is not None and k not in UNSHOWN - {"title", "id"}}
    texts = {k: v for k, v in cells.items() if isinstance(v, str)}
    if texts.get("title"):  # which says what the id does
        texts.pop("id", None)
    names = [v for k, v in texts.items() if " " not in v or k in HEADINGS]
    prose = [v for k, v in texts.items() if " " in v and k not in HEADINGS]
    numbers = {k: v for k, v in cells.items() if not isinstance(v, str)}
    said = ", ".join([" ".join(names), *_figures(numbers)] if names else _figures(numbers))
    return ": ".join(filter(None, (said, "; ".join(prose))))


def _figures(numbers: Row) -> list[str]:
    """Numbers with their names; the two ends of one range as a range."""
    said, tops = [], set()
    for name, value in numbers.items():
        of, top = _range(name)
        words = value_words(name, value)
        if numbers.get(top) is not None:
            tops.add(top)
            name, high = of, value_words(top, numbers[top])
            words = words if words == high else f"{words} to {high}"
        if name not in tops:
            said.append(f"{label(name)} {words}".strip())
    return said


def _range(name: str) -> tuple[str, str]:
    """What a column is the lower end of, and the upper end's name; both empty where it is none."""
    words = name.split("_")
    for low, high in ENDS:
        if low in words:
            n = words.index(low)
            before, after = words[:n], words[n + 1 :]
            return "_".join([*before, *after] if n else []), "_".join([*before, high, *after])
    return "", ""


def _torque(row: Row) -> str:
    low = row["torque_min_nm"]
    window = f"{_nm(low)} to {_nm(row['torque_max_nm'])}" if low else "no window"
    friction = f"{row['friction']}, friction {row['mu_min']:g} to {row['mu_max']:g}"
    return f"{friction}: {_nm(row['torque_nm'])}; window {window}; {show_kn(row['preload_n'])}"


def _hazard(row: Row) -> str:
    return f"{row['id']}: {row['caution']}"


def _far(mm: float) -> str:
    """A distance to be kept, from a metre on in metres and feet."""
    return show_mm(mm) if mm < 1000 else f"{figures(mm / 1000)} m ({figures(mm / 304.8)} ft)"


def _clearance(row: Row) -> str:
    near = [f"none within {_far(row['forbid_mm'])}"] if row["forbid_mm"] else []
    if row["shield_mm"]:
        how = row["condition"] or "a shield between"
        near.append(f"within {_far(row['shield_mm'])} only with {how}")
    return f"{row.get('neighbour') or row['hazard']}: {'; '.join([*near, row['because']])}"


def _bond(row: Row) -> str:
    left, again = (figures(100 * row[name]) for name in ("factor", "again"))
    return f"{row.get('method') or row['seizure']}: leaves {left} % of the bond, again {again} %"


def _pair(row: Row) -> str:
    volt = value_words("difference_v", row["difference_v"])
    places = [f"{place} {row[place]}" for place in ("harsh", "normal", "controlled")]
    corrodes = "neither corrodes" if row["corrodes"] == "neither" else f"{row['corrodes']} corrodes"
    return f"{row['pair']}: {', '.join([volt, corrodes, *places])}"


OPERATORS = {"=": "is", "in": "is", "not": "is not", "<": "is under", ">": "is over"}
FIELDS = {"size_mm": "the size", "no_heat": "heat"}


def _rule(row: Row) -> str:
    """Where a method is out, why, and what brings it in."""
    *most, last = row["value"].split()
    value = f"{', '.join(most)} or {last}" if most else last
    if row["field"].endswith("_mm"):
        value += " mm"
    if row["field"] == "no_heat":
        value = "barred"
    field = FIELDS.get(row["field"], row["field"].replace("_", " "))
    said = f"{row['rule']}: where {field} {OPERATORS[row['op']]} {value}: {row['because']}"
    return f"{said}; else: {row['opens_it']}" if row["opens_it"] else said


def _tool(row: Row) -> str:
    """The tool of a method, or the method of a tool, with the room that it takes."""
    about = " ".join(filter(None, (row.get("method"), row["title"])))
    room = {k: v for k, v in row.items() if isinstance(v, (int, float)) and v}
    only = [f"{row['power']} power"] if row["power"] else []
    only += [f"only for {row['fits']}"] if row["fits"] else []
    return ", ".join([about, *_figures(room), *only])


# columns that a row must have -> the sentence it is then told in
SENTENCES: tuple[tuple[set[str], Callable[[Row], str]], ...] = (
    ({"torque_nm", "mu"}, _torque),
    ({"forbid_mm", "because"}, _clearance),
    ({"rule", "op", "because"}, _rule),
    ({"pair", "corrodes"}, _pair),
    ({"factor", "again"}, _bond),
    ({"above_mm", "beside_mm", "push"}, _tool),
    ({"id", "caution"}, _hazard),
)


def label(name: str) -> str:
    """A column's name in words, without its unit."""
    if name in SAID:
        return SAID[name]
    ending = next((ending for ending in UNITS if name.endswith(ending)), "")
    short = name.removesuffix(ending)
    return SAID.get(short) or short.replace("_", " ")


def value_words(name: str, value: Any) -> str:
    """A value in words; the ending of its column's name says the unit."""
    if isinstance(value, str):
        return value
    if name in FLAGS:
        return "yes" if value else "no"
    if name in SHARES:
        return f"{figures(100 * float(value))} % of {SHARES[name]}"
    for ending, write in UNITS.items():
        if name.endswith(ending):
            return write(float(value))
    return figures(float(value), 4)
