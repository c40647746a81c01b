"""
What a material is by its designation: the numbering of EN, ISO, ANSI, ASTM, SAE and UNS.

Plastics go by ISO 1043-1.
"""

import re
from collections.abc import Iterator
from typing import Any

Row = dict[str, Any]
FAMILIES = (  # designation in an id, and the family of materials it stands for
    (r"en-gj[ls]-.+|gg-\d\d", "iron"),  # EN 1560; DIN 1691
    (r"[se]\d{3}", "steel"),  # EN 10027-1: structural, engineering steel by its yield point
    (r"cq?\d\d", "steel"),  # EN 10027-1: carbon, in hundredths of a per cent
    (r"\d\d(cr|mn)[a-z]*\d*", "steel"),  # EN 10027-1: alloyed below 5 %
    (r"x\d+cr[a-z]+\d\d-\d+", "stainless"),  # EN 10027-1: alloyed above, chromium first
    (r"1\.4\d{3}", "stainless"),  # EN 10027-2
    (r"2\.4\d{3}", "nickel"),  # EN 10027-2
    (r"[1-8]\d{3}(-[fhot]\d*)?", "aluminium"),  # EN 573, ANSI H35.1: wrought, and its temper
    (r"a?[1-8]\d\d\.0(-.+)?", "aluminium"),  # ANSI H35.1: cast
    (r"g[dk]-al.+", "aluminium"),  # DIN 1725-2
    (r"(dg|gk)-mg.+|az\d\d[a-z]?", "magnesium"),  # DIN 1729-2; ASTM B275
    (r"c\d{5}", "copper"),  # UNS
    (r"ti-\d.+", "titanium"),  # by its alloying metals
    (r"steel-(a36|1\d{3}|4[13]\d\d)", "steel"),  # ASTM A36; SAE J403 and J404
    (r"stainless-[34]\d\d[a-z]?|stainless-17-7ph|stainless-18-8", "stainless"),  # SAE J405
    (r"ductile-\d\d-\d\d-\d\d|grey-iron(-any)?", "iron"),  # ASTM A536
    (r"abs(-pc-blend)?|asa|san|p[a-z]{1,3}\d*(-(ld|hd|gf\d\d|rigid|talc-\d\d))?", "plastic"),
    (r"(brass|bronze|copper|phosphor-bronze|beryllium-copper)(-any)?", "copper"),
    (r"nickel-(\d{3}|copper|chromium)|iron-nickel-\d\d", "nickel"),
    (r"aluminium-alloys|magnesium-any|titanium-(unalloyed|alloys|grade-\d)", ""),
    (r"(carbon|nickel)-steel", "steel"),
)
CAST = {"gk": "permanent mould", "gd": "die cast", "dg": "die-cast"}  # DIN 1725-2, 1729-2


def stuff(row: Row, tables: dict[str, list[Row]]) -> Iterator[tuple[str, str]]:
    """The family that the designation in the id stands for."""
    for pattern, family in FAMILIES:
        if re.fullmatch(pattern, row["id"]):
            yield "family", family or row["id"].partition("-")[0]
            return


def stuff_titles(tables: dict[str, list[Row]]) -> Iterator[str]:
    """A title that does not hold the designation it is the title of."""
    for row in tables["stuff"]:
        title = re.sub(r"[^a-z0-9.]", "", row["title"].lower())
        parts = row["id"].split("-")
        if parts[0] in CAST and CAST[parts[0]] not in row["title"].lower():
            yield f"{row['id']}: {row['title']} is not {CAST[parts[0]]}"
        for part in parts:
            old = "ggg" in title  # DIN 1693 counted otherwise
            if any(sign.isdigit() for sign in part) and part not in title and not old:
                yield f"{row['id']}: no {part} in {row['title']}"
