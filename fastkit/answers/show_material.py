"""The values of body materials and of metals in contact."""

import sqlite3
from collections.abc import Mapping

from fastkit.answers.show_rows import (
    STANDING,
    Builder,
    Group,
    Row,
    listed,
    plain,
    ranged,
    standing,
    weakest,
)
from fastkit.records.galvanic import AnodicIndex, Environment, Metal, Pair, SeaPotential
from fastkit.records.material import Material
from fastkit.records.stuff import (
    Boss,
    Elasticity,
    Engagement,
    Expansion,
    PressureLimit,
    ShearRatio,
    ShearStrength,
    Stuff,
)
from fastkit.reference.lookup import get, many, one

FAMILIES = {"cast-iron": "iron", "brass": "copper", "sheet": "steel"}  # of a body material


def material(store: sqlite3.Connection, key: str) -> list[Group]:
    """A body material with its grades, or one grade with all that is known of it."""
    body = one(store, Material, id=key)
    if body is not None:
        family = FAMILIES.get(key, key)
        grades = [{"material": f"material:{row.id}"} for row in many(store, Stuff, family=family)]
        ratios = listed(many(store, ShearRatio, family=family), "id", "family")
        return [
            Group("", (body._asdict(),)),
            Group("shear_to_tensile", ratios),
            Group("grades", tuple(grades)),
        ]
    row = get(store, Stuff, key)
    return [
        Group("", (row._asdict(),)),
        Group("pressure_limits", listed(many(store, PressureLimit, stuff=key), "stuff")),
        Group("expansion", listed(many(store, Expansion, stuff=key), "stuff")),
        Group("elasticity", listed(many(store, Elasticity, stuff=key), "stuff")),
        Group("shear_strength", listed(many(store, ShearStrength, stuff=key), "stuff")),
        Group(
            "shear_to_tensile", listed(many(store, ShearRatio, family=row.family), "id", "family")
        ),
        Group("boss", listed(many(store, Boss, stuff=key), "stuff")),
    ]


def metal(store: sqlite3.Connection, key: str) -> list[Group]:
    """A metal in the galvanic series, and every pair that it makes."""
    row = get(store, Metal, key)
    index = get(store, AnodicIndex, row.anodic_index)
    pairs = [*many(store, Pair, first=key), *many(store, Pair, second=key)]
    return [
        Group("", (row._asdict(),)),
        Group("index", listed([index], "id")),
        Group("pairs", tuple(_pair_row(store, pair) for pair in pairs)),
    ]


def _pair_row(store: sqlite3.Connection, pair: Pair) -> Row:
    metals = [get(store, Metal, pair.first), get(store, Metal, pair.second)]
    least = weakest(metals)
    checked = least.checked if least.checked in ("memory", "judgement") else "formula"
    said = pair._asdict()
    return {
        "pair": f"pair:{said.pop('id')}",
        "difference_v": said["difference_v"],
        "corrodes": said["corrodes"] or "neither",
        **{name: said[name] for name in ("harsh", "normal", "controlled")},
        **dict(zip(STANDING, (least.source, "difference of the indices", checked), strict=True)),
    }


def pair(store: sqlite3.Connection, key: str) -> list[Group]:
    """Two metals in contact: which corrodes, where the pair is fit; the indices and the limits."""
    row = get(store, Pair, key)
    metals = [get(store, Metal, name) for name in (row.first, row.second)]
    indices = [get(store, AnodicIndex, each.anodic_index) for each in metals]
    shown = [
        {"metal": f"metal:{each.id}", "index_v": index.index_v, **standing(index)}
        for each, index in zip(metals, indices, strict=True)
    ]
    main = _pair_row(store, row)
    del main["pair"]
    limits = listed(many(store, Environment), "id")
    return [Group("", (main,)), Group("indices", tuple(shown)), Group("limits", limits)]


KINDS: Mapping[str, Builder] = {
    "material": material,
    "engagement": ranged(Engagement, "body"),
    "metal": metal,
    "environment": plain(Environment),
    "potential": ranged(SeaPotential, "metal"),
    "pair": pair,
}
