"""Free text cut into words and measures, with the clause that each stands in."""

import re
from typing import NamedTuple

MM_PER_INCH = 25.4

_NUMBER = r"(?:\d+[- ]\d+/\d+|\d+/\d+|\d*\.\d+|\d+)"
_UNITS = {
    "mm": ("mm", 1.0),
    "millimetre": ("mm", 1.0),
    "millimeter": ("mm", 1.0),
    "cm": ("mm", 10.0),
    "in": ("mm", MM_PER_INCH),
    "inch": ("mm", MM_PER_INCH),
    "inches": ("mm", MM_PER_INCH),
    '"': ("mm", MM_PER_INCH),
    "''": ("mm", MM_PER_INCH),
    "ft": ("mm", 12 * MM_PER_INCH),
    "deg": ("deg", 1.0),
    "degs": ("deg", 1.0),
    "degree": ("deg", 1.0),
    "degrees": ("deg", 1.0),
    "°": ("deg", 1.0),
    "%": ("%", 1.0),
    "percent": ("%", 1.0),
    "min": ("min", 1.0),
    "mins": ("min", 1.0),
    "minutes": ("min", 1.0),
}
_UNIT = "|".join(sorted(map(re.escape, _UNITS), key=len, reverse=True))
_MEASURE = re.compile(rf"({_NUMBER})\s?({_UNIT})(?![a-z])")
_PAIR = re.compile(
    rf"({_NUMBER})\s?({_UNIT})?\s?(?:x|×|\*|by)\s?({_NUMBER})(?:\s?({_UNIT}))?(?![\w./-])"
)
_BARE = re.compile(rf"({_NUMBER})(?![\w/.-])")
_WORD = re.compile(r"[^\s,;()\[\]{}]+")
_BREAK = re.compile(r"[,;\n\r]|[.:!?](?=\s|$)|[()\[\]]|\s[-–—]+\s")
_SOFT = frozenset({"and", "but", "then", "with", "also", "plus"})
_QUOTES = str.maketrans({"’": "'", "‘": "'", "`": "'", "“": '"', "”": '"', "″": '"', "º": "°"})


class Token(NamedTuple):
    """
    One word or measure.

    `norm` is the word without case and apostrophes; `measure` holds (values, unit) where the
    token is a number: one value, or two for a pair; unit mm, deg, %, min or "" for a bare number.
    `clause` counts the commas and stops before it, `part` the soft breaks (and, but, then) as well.
    """

    text: str
    norm: str
    clause: int
    part: int
    measure: tuple[tuple[float, ...], str] | None = None


def number(text: str) -> float:
    """Return the value of `1-1/2`, `3/8`, `.5` or `12`; a zero denominator raises ValueError."""
    whole, _, rest = text.replace("-", " ").rpartition(" ")
    top, slash, bottom = rest.partition("/")
    if slash and float(bottom) == 0:
        raise ValueError(f"{text!r} divides by zero")
    return (float(whole) if whole else 0.0) + (float(top) / float(bottom) if slash else float(top))


def tokenise(text: str) -> tuple[Token, ...]:
    """Return the tokens of a text in order; punctuation only opens a new clause."""
    text = re.sub(r"(?<=\d),(?=\d)", ".", text.translate(_QUOTES).lower())
    tokens: list[Token] = []
    clause = part = at = 0
    while at < len(text):
        if stop := _BREAK.match(text, at):
            # "clearance above: 40" is one clause
            if stop.group() != ":":
                clause, part = clause + 1, part + 1
            at = stop.end()
        elif text[at].isspace() or text[at] in "{}=~<>:":
            at += 1
        elif found := _measure(text, at):
            end, measure = found
            shown = text[at:end].strip()
            tokens.append(Token(shown, shown, clause, part, measure))
            at = end
        elif word := _WORD.match(text, at):
            shown = word.group().rstrip(".!?:=\"'") or word.group()
            at += len(shown)
            for norm in _split(shown):
                part += norm in _SOFT
                tokens.append(Token(norm, norm.replace("'", ""), clause, part))
        else:
            at += 1
    return tuple(tokens)


def _measure(text: str, at: int) -> tuple[int, tuple[tuple[float, ...], str]] | None:
    """Return the end, values and unit of a pair or number that begins here."""
    try:
        if pair := _PAIR.match(text, at):
            first, unit_1, second, unit_2 = pair.groups()
            kind, factor = _UNITS[unit_2 or unit_1] if unit_2 or unit_1 else ("", 1.0)
            own = _UNITS[unit_1][1] if unit_1 else factor
            return pair.end(), ((number(first) * own, number(second) * factor), kind)
        if single := _MEASURE.match(text, at):
            kind, factor = _UNITS[single.group(2)]
            return single.end(), ((number(single.group(1)) * factor,), kind)
        if bare := _BARE.match(text, at):
            return bare.end(), ((number(bare.group(1)),), "")
    except ValueError:  # 1/0: no measure, so it is kept as a word and shown as not understood
        return None
    return None


def _split(word: str) -> list[str]:
    """Split a word at hyphens and slashes that stand between letters."""
    return [piece for piece in re.split(r"(?<=[^\W\d])[-/](?=[^\W\d])", word) if piece]
