"""Readings typed in a hurry: `7.85 x 1.25`, `hole 6.75 18 tpi`, `13 flats 5.3 high`."""

import re
from collections.abc import Iterable, Mapping
from typing import Any

from fastkit.answers.refused import TUBE_NUTS
from fastkit.answers.said import BODIES
from fastkit.errors import Misuse
from fastkit.notation.units import length_mm
from fastkit.reference.aliases import first_meant
from fastkit.reference.lookup import nearest
from fastkit.reference.store import connect

NUMBER = r"(?:\d+[ -])?\d+/\d+|\d+(?:\.\d+)?|\.\d+"
VALUE = rf"({NUMBER})\s*(mm|in|inch|\")?"
FLAGS: Mapping[str, tuple[str, bool]] = {
    **dict.fromkeys(("internal", "inside", "hole", "nut", "female"), ("internal", True)),
    **dict.fromkeys(
        ("bolt", "screw", "stud", "pipe", "external", "outside", "male"), ("internal", False)
    ),
    **dict.fromkeys(("worn", "rusty", "rusted", "used"), ("worn", True)),
    **dict.fromkeys(("taper", "tapered", "conical"), ("taper", True)),
    **dict.fromkeys(("parallel", "straight"), ("taper", False)),
}
MARKS = {"marked", "marking", "mark", "marks", "stamped", "lines", "dashes", "embossed"}
BESIDE_MARKS = {"marked", "stamped", "embossed", "bolt", "screw", "nut", "head", "on", "the"}
BESIDE_MARKS |= {"with", "a", "has", "its", "and", "is"}
LINES = dict.fromkeys(("marks", "dashes"), "lines")
PITCHED = re.compile(r"\btpi\b|\dtpi\b|\bpitch\b|^[\d.,]+\s*[x× ]\s*[\d.,]+$")
# what stands beside a number; the first group of each is the number
NAMED: Mapping[str, tuple[tuple[str, str], ...]] = {
    "thread": (
        ("over_ten_mm", rf"(?:over |across )?(?:ten|10)(?: pitches| threads)?\s+{VALUE}"),
        # behind a diameter, a word or nothing: `7.9 tpi 18`, not `18 tpi 7.9`
        ("tpi", r"(?:(?<=\.\d )|(?<=\.\d\d )|(?<=[a-z] )|(?<=^ ))tpi (\d+)"),
        ("tpi", r"(\d+(?:\.\d+)?)\s*(?:tpi|threads? (?:per|an|to the) inch|per inch)"),
        ("pitch_mm", rf"(?:pitch|x)\s*{VALUE}"),
        ("pitch_mm", rf"{VALUE}\s*pitch"),
        ("minor_mm", rf"(?:minor|bore)\s*{VALUE}"),
        ("major_mm", rf"(?:major|crests?|diameter|dia)\s*{VALUE}"),
    ),
    "drive": (
        ("lobes", r"(\d+)\s*(?:lobes?|lobed|points?|pointed|corners?|sides?|arms?)"),
        ("across_mm", rf"(?:across|over)\s*{VALUE}"),
    ),
    "head": (
        ("flats_mm", rf"{VALUE}\s*(?:across(?: flats)?|a/?f|flats)"),
        ("height_mm", rf"{VALUE}\s*(?:high|tall|height)"),
        ("height_mm", rf"(?:height)\s*{VALUE}"),
        ("diameter_mm", rf"{VALUE}\s*(?:diameter|dia|wide)"),
    ),
}
BARE: Mapping[str, tuple[str, ...]] = {
    "thread": ("diameter", "pitch_mm"),
    "drive": ("across_mm",),
    "head": ("diameter_mm", "height_mm"),
}
IDLE = {"mm", "and", "by", "x", "with", "a", "the", "is", "of", "read", "reads", "thread", "drive"}
IDLE |= {"round", "brake", "metal", "socket", "spanner", "size", "on"}
IDLE |= {"across", "over", "flats", "what", "this", "it", "i", "have", "got", "my", *BODIES}
IDLE |= {"head", "recess", "hex", "hexagon", "about", "in", "pitch", "measures", "-", ","}
TUBE_NUT = re.compile(rf" ({TUBE_NUTS}) nut ")
COARSEST_MM = 6.5  # no pitch is coarser
KINDS = ("thread", "drive", "grade", "head")
LONGEST = 300


def what_of(words: Iterable[str]) -> tuple[str, tuple[str, ...]]:
    """
    Return what a line asks to identify, and its other words.

    Said first, or by what is named: `7.9 bolt 1.25` is a thread, `hex head 13 across` a head,
    `nut 12.7 across` and whatever names a system a drive, what is marked a grade.

    Raises:
        Misuse: When nothing of the kind is named.
    """
    every = tuple(" ".join(words).lower().split())
    if every[:1] and every[0] in KINDS:
        return every[0], every[1:]
    if not MARKS.isdisjoint(every):
        return "grade", tuple(LINES.get(word, word) for word in every if word not in BESIDE_MARKS)
    if "head" in every:
        return "head", tuple(word for word in every if word != "head")
    said, system = system_of(every)
    if system:
        return "drive", tuple(" ".join(every).replace(said, f"system:{system}").split())
    if not {"nut", "bolt"}.isdisjoint(every) and "across" in every:
        return "drive", (*(word for word in every if word not in FLAGS), "outside")
    if any(word in FLAGS for word in every) or PITCHED.search(" ".join(every)):
        return "thread", every
    first = next(iter(every), "")
    raise Misuse(
        f"cannot identify {first[:40]!r}; expected {', '.join(KINDS[:-1])} or {KINDS[-1]}",
        nearest(first, KINDS, 1),
    )


def system_of(words: Iterable[str]) -> tuple[str, str]:
    """Return the words that name a system of drives, the longest, and its id; else two empty."""
    line = " ".join(words)
    if given := re.search(r"(?<!\S)system:(\S+)", line):  # asked before
        return given[0], given[1]
    named = {
        words: what
        for words, what in first_meant(connect(), line).items()
        if what.startswith("system:") and not any(map(str.isdigit, words))  # `6 lobes` is a count
    }
    named |= {word: f"system:{word}" for word in line.split() if word in ("square", "slot")}
    said = max(named, key=len, default="")
    return said, named.get(said, "").removeprefix("system:")


def readings(what: str, words: Iterable[str]) -> dict[str, Any]:
    """
    Readings of words, by the names of the Python functions' arguments.

    Raises:
        Misuse: When a word is not understood.
    """
    text = f" {' '.join(words).lower().replace('×', ' x ').replace(',', '.')[:LONGEST]} "
    found: dict[str, Any] = {}
    if what == "drive":
        said, system = system_of(text.split())
        text = text.replace(said, " ") if said else text
        found |= {"system": system} if system else {}
    if what == "thread":
        text = re.sub(r" m(?=\d)", " ", text)
        text = re.sub(rf" in (?={'|'.join(BODIES)})", " ", text)  # no inches of plastic
        text = TUBE_NUT.sub(" bolt ", text)  # whose thread is outside
    for name, pattern in NAMED[what]:
        match = re.search(rf"(?<=[\s]){pattern}(?=[\s])", text)
        if match and name not in found:
            found[name] = _value(name, match)
            text = f"{text[: match.start()]} {text[match.end() :]}"
    bare = [name for name in BARE[what] if name not in found]
    for match in re.finditer(rf"(?<=[\s]){VALUE}(?=[\s])", text):
        if not bare:
            raise Misuse(f"one number too many: {match[0].strip()[:40]!r}; name it by its option")
        name, value = bare.pop(0), _value("", match)
        counted = name == "pitch_mm" and value > COARSEST_MM  # 12.7 13: crests over an inch
        found["tpi" if counted else name] = value
    text = re.sub(rf"(?<=[\s]){VALUE}(?=[\s])", " ", text)
    for word in text.split():
        if what == "drive" and word in ("external", "outside", "internal", "inside"):
            found["external"] = word in ("external", "outside")
        elif what == "thread" and word in FLAGS:
            name, value = FLAGS[word]
            found[name] = value
        elif word not in IDLE:
            raise Misuse(
                f"{word[:40]!r} is not understood; expected numbers with tpi, pitch, hole, worn, "
                "taper, lobes, flats, high"
            )
    if "diameter" in found:
        internal = found.get("internal", False)
        found["minor_mm" if internal else "major_mm"] = found.pop("diameter")
    return found


def _value(name: str, match: re.Match[str]) -> float | int:
    if name == "lobes":
        return int(match[1])
    if name == "tpi":
        return float(match[1])
    unit = match[2] if match.lastindex and match.lastindex > 1 else None
    inch = unit in ("in", "inch", '"') or (unit is None and "/" in match[1])
    return length_mm(f"{match[1]}{'in' if inch else 'mm'}")
