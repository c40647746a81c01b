"""A ruined thread told in a hurry: `aluminium stripped 15 deep wall 3`."""

import re
from collections.abc import Iterable, Mapping
from typing import Any

from fastkit.errors import Misuse
from fastkit.notation.units import length_mm

NUMBER = r"((?:\d+[ -])?\d+/\d+|\d+(?:\.\d+)?)\s*(mm|in|inch|\")?"
BESIDE: Mapping[str, tuple[str, str]] = {
    "depth_mm": (rf"{NUMBER}\s*(?:deep|depth|thick)", rf"(?:depth|deep|thick)\s*{NUMBER}"),
    "wall_mm": (rf"{NUMBER}\s*wall", rf"wall\s*{NUMBER}"),
    "edge_mm": (rf"{NUMBER}\s*(?:edge|from edge)", rf"edge\s*{NUMBER}"),
    "above_mm": (rf"{NUMBER}\s*above", rf"above\s*{NUMBER}"),
    "engage_mm": (rf"{NUMBER}\s*(?:engaged|engagement)", rf"(?:engaged|engagement)\s*{NUMBER}"),
    "oversize": (rf"{NUMBER}\s*(?:hole|bore|oversize)", rf"(?:oversize|hole|bore)\s*{NUMBER}"),
}
HOLES: Mapping[str, str] = {
    **dict.fromkeys(("stripped", "strip", "pulled", "torn"), "stripped"),
    **dict.fromkeys(("cracked", "crack", "split"), "cracked"),
    **dict.fromkeys(
        ("damaged", "nicked", "rusty", "rusted", "crossed", "cross-threaded", "dirty", "burred"),
        "damaged",
    ),
}
BODIES: Mapping[str, str] = {
    **dict.fromkeys(("aluminium", "aluminum", "alu", "ally", "alloy"), "aluminium"),
    **{"steel": "steel", "iron": "cast-iron", "cast-iron": "cast-iron", "castiron": "cast-iron"},
    **{"magnesium": "magnesium", "mag": "magnesium", "brass": "brass", "bronze": "brass"},
    **dict.fromkeys(("plastic", "nylon"), "plastic"),
    **dict.fromkeys(("sheet", "panel", "tin"), "sheet"),
}
SIDES: Mapping[str, str] = {"blind": "blind", "reachable": "reachable", "through": "reachable"}
IDLE = {"in", "into", "the", "a", "is", "out", "mm", "cast", "thread", "metal", "body", "with"}


def read_words(words: Iterable[str]) -> dict[str, Any]:
    """
    What the words say, by the names of `repair`'s arguments.

    Raises:
        Misuse: When a word is not understood.
    """
    text = f" {' '.join(words).lower()[:300]} "
    found: dict[str, Any] = {}
    for name, patterns in BESIDE.items():
        for pattern in patterns:
            match = re.search(rf"(?<=\s){pattern}(?=\s)", text)
            if match and name not in found:
                inch = match[2] in ("in", "inch", '"') or (match[2] is None and "/" in match[1])
                found[name] = length_mm(f"{match[1]}{'in' if inch else 'mm'}")
                text = f"{text[: match.start()]} {text[match.end() :]}"
    if "oversize" in found:
        found["hole"] = f"oversize:{found.pop('oversize'):g}"
    for word in text.replace(",", " ").split():
        if word in HOLES:
            found.setdefault("hole", HOLES[word])
        elif word.startswith("oversize:"):
            found["hole"] = word
        elif word in BODIES:
            found["into"] = BODIES[word]
        elif word in SIDES:
            found["far_side"] = SIDES[word]
        elif word not in IDLE:
            raise Misuse(
                f"{word[:40]!r} is not understood; expected a material, stripped, cracked, "
                "damaged, 15 deep, wall 3, edge 8, above 60, blind"
            )
    return found
