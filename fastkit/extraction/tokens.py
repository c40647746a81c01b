"""Free text cut into words and measures, with the clause that each stands in."""

import re
from typing import NamedTuple

from fastkit.errors import Misuse
from fastkit.notation.units import angle_deg, length_mm, percent

_NUMBER = r"(?:\d+[- ]\d+/\d+|\d+/\d+|\d*\.\d+|\d+)"
_FAR = r"m(?=\s(?:away|off|from)\b)"  # metres by one letter; `8 m` alone may be a thread
_LENGTHS = (
    *("mm", "millimetres?", "millimeters?", "cm", "met(?:re|er)s?", _FAR),
    *("inch(?:es)?", "in", "ft", "foot", "feet", '"', "''"),
)
PRESSURE = "bar"  # the kind of a measure in whatever unit of pressure
_KINDS = {
    "mm": re.compile("|".join(_LENGTHS)),
    "deg": re.compile("deg(?:rees?|s)?|°|turns?"),
    "%": re.compile("%|percent|per cent"),
    PRESSURE: re.compile("bar|psi|kpa|mpa"),
}
_UNIT = "|".join(kind.pattern for kind in _KINDS.values())
_MEASURE = re.compile(rf"({_NUMBER})\s?({_UNIT})(?![a-z])")
_PAIR = re.compile(
    rf"({_NUMBER})\s?({_UNIT})?\s?(?:x|×|\*|by)\s?({_NUMBER})(?:\s?({_UNIT})(?![a-z]))?(?![\w/-])"
)
_BARE = re.compile(rf"({_NUMBER})(?![\w/-]|\.\d)")
_CLASSES = "4\\.6|4\\.8|5\\.6|5\\.8|6\\.8|8\\.8|9\\.8"  # ISO 898-1
_WORD = re.compile(r"[^\s,;()\[\]{}]+")
_BREAK = re.compile(r"[,;\n\r]|[.!?](?=\s|$)|[()\[\]]|\s[-–—]+\s")
# "8.8 in alloy" is no length in inches, "8.8 hex head" no size across flats
_APART = re.compile(
    r"(?<=\d)\s+(?=in\s+(?:an?|the|my|this|it|alloy|alu\w*|steel|cast|iron|brass|mag\w*|sheet)\b)"
    rf"|(?<=\b(?:{_CLASSES}))\s+(?=[a-z])(?!(?:{_UNIT})\b)"
)
_WHOLES = {"a": 1, "an": 1, "one": 1, "two": 2, "three": 3, "four": 4, "five": 5, "six": 6}
_PARTS = {"half": 0.5, "quarter": 0.25, "three quarters": 0.75}
_COUNT, _SHARE = rf"(\d+|{'|'.join(_WHOLES)})", r"(?:an? )?(half|quarter|three quarters)"
_SPOKEN = re.compile(
    rf"\b{_COUNT} (inch|inches|in|cm) and {_SHARE}\b|\b{_COUNT} and {_SHARE} (inch|inches|in|cm)\b"
)
# a size in the workshop's short for mm, `10 mil bolt`; alone it may be a thousandth of an inch
_MIL = re.compile(r"(?<=\d)\s?mil(?=\s(?:bolt|nut|head|hex|stud|screw|key|spanner|socket)s?\b)")
_SAME = {"cannot": "cant", "couldnt": "cant"}
_SOFT = frozenset({"and", "but", "then", "with", "also", "plus"})
_QUOTES = str.maketrans({"’": "'", "‘": "'", "`": "'", "“": '"', "”": '"', "″": '"', "º": "°"})


class Token(NamedTuple):
    """
    One word or measure.

    `norm` is the word without case and apostrophes; `measure` holds (values, unit) where the
    token is a number: one value, or two for a pair; unit mm, deg, %, bar (of any pressure), or ""
    for a bare number.
    `clause` counts the commas and stops before it, `part` the soft breaks (and, but, then) as well.
    """

    text: str
    norm: str
    clause: int
    part: int
    measure: tuple[tuple[float, ...], str] | None = None


def clauses(text: str) -> tuple[str, ...]:
    """Return the text in lower case, cut at commas, stops and brackets; empty clauses left out."""
    plain = re.sub(r"(?<=\d),(?=\d)", ".", text.translate(_QUOTES).lower())
    plain = _MIL.sub(" mm", _SPOKEN.sub(_figures, plain))
    pieces = _BREAK.split(_APART.sub(" , ", plain))
    return tuple(piece.strip() for piece in pieces if piece.strip())


def _figures(spoken: re.Match[str]) -> str:
    """Return a length said in words, `an inch and a half`, in figures."""
    found = spoken.groups()
    whole, unit, part = found[:3] if found[0] else (found[3], found[5], found[4])
    count = _WHOLES[whole] if whole in _WHOLES else float(whole)
    return f"{count + _PARTS[part]:g} {unit}"


def tokenise(clause: str, number: int = 0, part: int = 0) -> tuple[Token, ...]:
    """Return the tokens of one clause in order; `number` is its own, `part` its first part's."""
    tokens: list[Token] = []
    at = 0
    while at < len(clause):
        if found := _measure(clause, at):
            end, measure = found
            shown = clause[at:end].strip()
            tokens.append(Token(shown, shown, number, part, measure))
            at = end
        elif word := _WORD.match(clause, at):
            shown = word.group()
            at = word.end()
            for piece in _split(shown.strip("\"'.:=!?<>~-*")):
                part += piece in _SOFT
                norm = piece.replace("'", "")
                tokens.append(Token(piece, _SAME.get(norm, norm), number, part))
        else:
            at += 1
    return tuple(tokens)


def _measure(text: str, at: int) -> tuple[int, tuple[tuple[float, ...], str]] | None:
    """Return the end, values and unit of a pair or number that begins here."""
    if at and not text[at - 1].isspace() and text[at - 1] not in ":=~<>":
        return None
    for pattern in (_PAIR, _MEASURE, _BARE):
        if found := pattern.match(text, at):
            try:
                return found.end(), _values(found.groups())
            except Misuse:  # 1/0: no measure, so it stays a word and is shown as not understood
                return None
    return None


def _values(groups: tuple[str | None, ...]) -> tuple[tuple[float, ...], str]:
    """Return the values and the unit of number, unit, number, unit."""
    numbers = [text for text in groups[::2] if text]
    units = [groups[at] if at < len(groups) else None for at in (1, 3)][: len(numbers)]
    last = next((unit for unit in units[::-1] if unit), None)
    if last is None and not any("/" in text for text in numbers):
        return tuple(float(text) for text in numbers), ""
    kind = next((name for name, form in _KINDS.items() if last and form.fullmatch(last)), "mm")
    if kind == PRESSURE:
        return tuple(float(text) for text in numbers if "/" not in text), kind
    if kind == "%":
        return tuple(percent(text) for text in numbers), kind
    convert = angle_deg if kind == "deg" else length_mm
    return tuple(
        convert(f"{text} {unit or last or ''}") for text, unit in zip(numbers, units, strict=True)
    ), kind


def _split(word: str) -> list[str]:
    """Split a word at hyphens and slashes that stand between letters, but not an entry's id."""
    if ":" in word:
        return [word]
    return [piece for piece in re.split(r"(?<=[^\W\d])[-/](?=[^\W\d])", word) if piece]
