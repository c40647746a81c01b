"""In what order, asked in a hurry: `8 bolts circle 25 Nm`, `5 wheel`, `10 in a grid of 5 by 2`."""

import re
from collections.abc import Iterable, Mapping
from typing import NamedTuple

from fastkit.answers.order import SHAPES
from fastkit.answers.said import with_units
from fastkit.errors import Misuse
from fastkit.notation.units import quantity, torque_nmm
from fastkit.reference.lookup import resembling

# what parts are bolted in which shape
AS: Mapping[str, str] = {
    **dict.fromkeys(("wheel", "hub", "flange", "round", "ring", "pulley"), "circle"),
    **dict.fromkeys(("row", "straight", "manifold", "caliper"), "line"),
    **dict.fromkeys(("cover", "square", "sump", "pan"), "rectangle"),
    **dict.fromkeys(("cylinder", "head"), "grid"),  # of an engine: two rows
}
IDLE = {"bolt", "bolts", "nut", "nuts", "screw", "screws", "stud", "studs", "fasteners", "holes"}
IDLE |= {"on", "in", "a", "an", "the", "of", "at", "to", "with", "around", "by", "tighten"}
IDLE |= {"rocker", "valve", "timing", "oil", "intake", "inlet", "exhaust", "carb", "engine"}
SIZE = re.compile(r"\d+(?:[x+]\d+)+")
MOST_DIGITS = 8


class Asked(NamedTuple):
    """What a line says of a joint; None where it does not."""

    number: int | None = None
    shape: str | None = None
    size: str | None = None  # 5x2, or 4+8 of rings
    torque_nm: float | None = None


def read_line(words: Iterable[str]) -> Asked:
    """
    Return what a line says, in any order.

    A size alone is that of a grid, or of rings.

    Raises:
        Misuse: When a word is not understood.
    """
    line = re.sub(r"(?<=\d) ?(?:by|x|×) ?(?=\d)", "x", " ".join(words).lower())
    asked = Asked()
    for word in with_units(line.replace(",", " ").split()):
        if quantity(word) == "torque":
            asked = asked._replace(torque_nm=torque_nmm(word) / 1000)
        elif SIZE.fullmatch(word):
            asked = asked._replace(size=word)
        elif word.isascii() and word.isdigit() and len(word) <= MOST_DIGITS:
            if asked.number is not None:
                raise Misuse(f"{asked.number} and {word}: expected one number of fasteners")
            asked = asked._replace(number=int(word))
        elif word in SHAPES:
            asked = asked._replace(shape=word)
        elif word in AS:
            asked = asked._replace(shape=asked.shape or AS[word])
        elif word not in IDLE:
            raise Misuse(
                f"{word[:40]!r} is not understood; expected a number of fasteners and a shape of "
                f"{', '.join(SHAPES)}, such as 8 circle",
                resembling(word, SHAPES),
            )
    if asked.size and asked.shape is None:
        asked = asked._replace(shape="rings" if "+" in asked.size else "grid")
    return asked
