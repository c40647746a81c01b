"""A situation in words: what was said of it, and what was taken for granted."""

import re
from collections.abc import Callable, Collection, Iterable, Mapping
from typing import Any

from fastkit.answers.wording import (
    Names,
    in_sentence,
    method_title,
    show_minutes,
    thing,
)
from fastkit.extraction.result import Assumption
from fastkit.extraction.situation import Situation
from fastkit.extraction.stubs import BELOW
from fastkit.notation.entry import drive_words
from fastkit.notation.units import figures, show_mm

FEW = 4  # tools are named whole; of more, so many by their first words, and the rest counted
MOST = 40  # tools lacking beyond which all are that nobody named
_UPTO = re.compile(r"[:,(]| with | for ")

# how a value of a field is said; fields with a form of their own stand in `_SHOW`
TEXTS: Mapping[str, str] = {
    "part": "",  # told by a line of its own
    "kind": "{}",
    "thread": "{}",
    "grade": "class {}",
    "damage": "{}",
    "seized": "{}",
    "seized_at": "bonded at the {}",
    "coating": "{} finish",
    "far_side": "far side {}",
    "residue": "{} residue on it",
    "support": "rests on {}",
    "recess": "recess {}",
    "load": "load {}",
    "into": "into {}",
}
# what is not known, not there or not limited
UNKNOWN: Mapping[str, str] = {
    "drive": "drive",
    "seized_at": "where it is bonded",
    "coating": "finish",
    "load": "load on it",
    "far_side": "far side",
    "support": "what it rests on",
}
FREE: Mapping[str, str] = {
    "above_mm": "above",
    "beside_mm": "beside",
    "swing_deg": "swing",
    "side_mm": "from the side",
}
NONE: Mapping[tuple[str, Any], str] = {
    ("seized", "none"): "not seized",
    ("seized", "seized"): "seized",
    ("load", "none"): "holds nothing back",
    ("load", "spring"): "holds a spring back",
    ("load", "weight"): "holds a weight",
    ("load", "pressure"): "holds pressure back",
    ("residue", "none"): "nothing on it",
    ("damage", "intact"): "head sound",
    ("wasted_pct", 0.0): "no section lost",
    ("power", None): "all power",
    ("power", "none"): "no power",
    ("can", None): "making room possible",
    ("can", ()): "no making room",
    ("engage_mm", None): "engaged one diameter",
    ("side_mm", (0.0, 0.0)): "no way in from the side",
    ("left_hand", True): "left-hand thread",
    ("no_heat", True): "no heat",
    ("insert", True): "a wire insert in the hole",
    ("prevailing", True): "a self-locking nut",
    ("support", "stands"): "on stands",
    ("support", "jack"): "on a jack only",
    ("support", "bench"): "on the bench",
}
DESIGNATIONS = ("thread", "grade")  # as they are written, with their hyphens
MARK = "*"


def said_words(
    situation: Situation, said: Collection[str], vague: Collection[str], names: Names
) -> tuple[str, ...]:
    """Return the fields that were said, in words and order; `about`: from vague words."""
    told = (
        (field, _of_stub(situation.damage, _value(field, value, names)))
        for field, value in situation._asdict().items()
        if field in said
    )
    return tuple(("about " if field in vague else "") + text for field, text in told if text)


def assumed_words(assumed: Iterable[Assumption], names: Names, damage: str = "") -> tuple[str, ...]:
    """
    Return the assumptions in words, free and unknown ones together; `*`: changes the first.

    `damage` says what a broken shank's length is told as.
    """
    plain: list[str] = []
    free: list[str] = []
    unknown: list[str] = []
    for item in assumed:
        mark = MARK if item.changes_first_move else ""
        if item.what in FREE and item.value is None:
            free.append(FREE[item.what] + mark)
        elif item.what in UNKNOWN and item.value in ("unknown", None):
            unknown.append(UNKNOWN[item.what] + mark)
        else:
            plain.append(_of_stub(damage, _value(item.what, item.value, names)) + mark)
    if free:
        plain.append(f"free {', '.join(free)}")
    if unknown:
        plain.append(f"unknown: {', '.join(unknown)}")
    return tuple(plain)


def _of_stub(damage: str, text: str) -> str:
    """Return the length of a stub as what it is: proud, or below."""
    return text.replace("of stub", "below the face" if damage == BELOW else "proud")


def _value(field: str, value: Any, names: Names) -> str:
    if isinstance(value, list):
        value = tuple(value)
    if (field, value) in NONE:
        return NONE[(field, value)]
    if value == "unknown":
        return f"{UNKNOWN[field]} unknown"
    if value is None or value is False or value == ():
        return ""
    if field in TEXTS:
        return TEXTS[field].format(value if field in DESIGNATIONS else thing(str(value)))
    return _SHOW[field](value, names)


def _near(value: Any, _: Names) -> str:
    if isinstance(value, str):
        return value
    return "; ".join(
        f"{thing(near.thing)} {f'{show_mm(near.mm)} away' if near.mm else 'touching'}"
        for near in value
    )


def _tools(value: Any, names: Names) -> str:
    names = {**names, "tool:near": "sizes near the drive's own"}
    titles = [names.get(f"tool:{name}") or in_sentence(method_title(name, names)) for name in value]
    if len(titles) > FEW:
        short = [_UPTO.split(title)[0] for title in titles]
        return f"{', '.join(short[: FEW - 1])} and {len(short) - FEW + 1} more"
    return ", ".join(titles)


def _can(value: Any, names: Names) -> str:
    moves = (
        thing(move) + ("" if minutes is None else f" in {show_minutes(minutes)}")
        for move, minutes in value
    )
    return f"possible: {', '.join(moves)}"


_SHOW: Mapping[str, Callable[[Any, Names], str]] = {
    "grade": lambda value, _: f"class {value}",
    "drive": lambda value, _: drive_words(value),
    "wasted_pct": lambda value, _: f"{figures(value)} % of the section lost",
    "engage_mm": lambda value, _: f"{show_mm(value)} engaged",
    "stub_mm": lambda value, _: f"{show_mm(value)} of stub",
    "above_mm": lambda value, _: f"{show_mm(value)} above",
    "beside_mm": lambda value, _: f"{show_mm(value)} beside",
    "swing_deg": lambda value, _: f"{figures(value)}° swing",
    "side_mm": lambda value, _: f"side opening {show_mm(value[0])} by {show_mm(value[1])}",
    "pocket_mm": lambda value, _: (
        f"in a pocket {show_mm(value[0])} across, {show_mm(value[1])} deep"
    ),
    "near": _near,
    "power": lambda value, _: f"{value} power",
    "have": lambda value, names: f"at hand: {_tools(value, names)}",
    "lack": lambda value, names: (
        "no other tools" if len(value) > MOST else f"lacking: {_tools(value, names)}"
    ),
    "can": _can,
    "tried": lambda value, names: (
        "tried: " + ", ".join(in_sentence(method_title(name, names)) for name in value)
    ),
    "spoil_min": lambda value, _: f"a spoiled part costs {show_minutes(value)}",
}
