"""How the values of a job file are read; a wrong one is told with what was expected."""

from collections.abc import Callable, Iterable
from math import isfinite
from typing import Any

from fastkit.answers.options import LONGEST_MM
from fastkit.errors import Misuse
from fastkit.notation.units import length_mm, torque_nmm
from fastkit.reference.lookup import nearest

LONGEST_WORDS = 500


def words(value: Any) -> str:
    """Return words on one line."""
    if not isinstance(value, str):
        raise Misuse(f"{str(value)[:40]}: expected words in quotes")
    words = " ".join(value.split())
    if not words or len(words) > LONGEST_WORDS or not words.isprintable():
        raise Misuse(f"{value[:40]!r}: expected words, up to {LONGEST_WORDS} printable characters")
    return words


def names(value: Any) -> tuple[str, ...]:
    """Return a list of names."""
    if not isinstance(value, list):
        raise Misuse(f"{str(value)[:40]}: expected a list of names")
    return tuple(words(name) for name in value)


def flag(value: Any) -> bool:
    """Return true or false."""
    if not isinstance(value, bool):
        raise Misuse(f"{str(value)[:40]}: expected true or false")
    return value


def one_of(known: Iterable[str]) -> Callable[[Any], str]:
    """Return a reader of one of some words."""

    def read(value: Any) -> str:
        word = words(value)
        if word not in known:
            near = nearest(word[:60], tuple(known), 1)
            raise Misuse(f"{word[:40]!r}: expected one of {', '.join(known)}", near)
        return word

    return read


def number(low: float, high: float) -> Callable[[Any], float]:
    """Return a reader of a number from low to high."""

    def read(value: Any) -> float:
        if isinstance(value, bool) or not isinstance(value, int | float) or not isfinite(value):
            raise Misuse(f"{str(value)[:40]}: expected a number from {low:g} to {high:g}")
        if not low <= value <= high:
            raise Misuse(f"{value:g}: expected a number from {low:g} to {high:g}")
        return float(value)

    return read


def whole_number(low: int, high: int) -> Callable[[Any], int]:
    """Return a reader of a whole number from low to high."""

    def read(value: Any) -> int:
        if isinstance(value, bool) or not isinstance(value, int) or not low <= value <= high:
            raise Misuse(f"{str(value)[:40]}: expected a whole number, {low} to {high}")
        return value

    return read


def length(value: Any) -> float:
    """Return a length [mm], from a number of mm or words with a unit."""
    found = length_mm(value) if isinstance(value, str) else number(0, 1e4)(value)
    if not 0 < found <= LONGEST_MM:
        raise Misuse(f"{str(value)[:40]}: expected a length above 0")
    return found


def torque(value: Any) -> str:
    """Return a torque as it was written; a bare number is N·m."""
    text = value if isinstance(value, str) else f"{number(0, 1e5)(value):g} N·m"
    if torque_nmm(text) <= 0:
        raise Misuse(f"{text[:40]!r}: expected a torque above 0 such as 18 N·m")
    return text
