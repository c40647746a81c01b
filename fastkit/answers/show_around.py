"""The values of entries on tightening, materials, coatings, compounds, tube fittings, drills."""

import sqlite3
from collections.abc import Callable, Iterable
from typing import Any

from fastkit.answers.show_parts import STANDING, Group
from fastkit.errors import NotHeld
from fastkit.records.compound import (
    Compound,
    CompoundLimit,
    CompoundNote,
    Flammability,
    LockerStrength,
)
from fastkit.records.drilling import DrillOut, DrillShare, SpiralExtractor
from fastkit.records.finish import (
    CoatingMass,
    Finish,
    FinishCorrosion,
    FinishLimit,
    FinishNote,
    FinishThickness,
)
from fastkit.records.galvanic import AnodicIndex, Environment, Metal, Pair, SeaPotential
from fastkit.records.ground import GroundLimit, GroundNote, GroundTorque
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
from fastkit.records.thread import Thread
from fastkit.records.tightening import (
    Embedding,
    MeasuredFriction,
    NutFactor,
    NutTorque,
    PrevailingTorque,
    ReuseTorque,
    SlipFriction,
    StructuralTorque,
    TighteningMethod,
    TorqueFactor,
    TurnOfNut,
    WrenchClass,
)
from fastkit.records.tube import (
    Tube,
    TubeCaution,
    TubeForm,
    TubeMismatch,
    TubeNutHex,
    TubeTorque,
)
from fastkit.reference.lookup import get, many, one

Row = dict[str, Any]
WEAKEST_LAST = ("formula", "outside", "copied", "memory", "judgement")
FAMILIES = {"cast-iron": "iron", "brass": "copper", "sheet": "steel"}  # of a body material


def _listed(rows: Iterable[Any], *left_out: str) -> tuple[Row, ...]:
    """Rows as mappings, without the columns that name the entry itself."""
    return tuple({k: v for k, v in row._asdict().items() if k not in left_out} for row in rows)


def _held(rows: list[Any], kind: str, key: str) -> list[Any]:
    if not rows:
        raise NotHeld(f"no {kind} {key[:60]!r} in the data")
    return rows


def _weakest(rows: Iterable[Any]) -> Any:
    """The row of the lowest standing: what is computed from several is no better."""
    return max(rows, key=lambda row: WEAKEST_LAST.index(row.checked))


def _plain(record: Any) -> Callable[[sqlite3.Connection, str], list[Group]]:
    """Builder of an entry that is one row."""

    def build(store: sqlite3.Connection, key: str) -> list[Group]:
        return [Group("", (get(store, record, key)._asdict(),))]

    return build


def _range(
    record: Any, column: str, low: str | None = None, high: str | None = None
) -> Callable[[sqlite3.Connection, str], list[Group]]:
    """Builder of an entry that is what several publications say, with the range of it first."""

    def build(store: sqlite3.Connection, key: str) -> list[Group]:
        rows = _held(many(store, record, **{column: key}), record.TABLE, key)
        published = Group("published", _listed(rows, column, "title"))
        if low is None or high is None:
            first = dict(rows[0]._asdict())
            return [Group("", ({name: first[name] for name in (column, *STANDING)},)), published]
        weakest = _weakest(rows)
        whole = {
            low: min(getattr(row, low) for row in rows),
            high: max(getattr(row, high) for row in rows),
            **dict(
                zip(STANDING, (weakest.source, "range over the rows", weakest.checked), strict=True)
            ),
        }
        return [Group("", (whole,)), published]

    return build


def tightening(store: sqlite3.Connection, key: str) -> list[Group]:
    """Scatter of one way of tightening; alpha_A of VDI 2230-1 as printed and from the scatter."""
    groups = _range(TighteningMethod, "method")(store, key)
    if key == "turn-of-nut":
        groups.append(Group("turns", _listed(many(store, TurnOfNut))))
    return groups


def structural(store: sqlite3.Connection, key: str) -> list[Group]:
    """Preload and torque of a structural bolt assembly."""
    row = _held(many(store, StructuralTorque, thread=key), "structural assembly", key)[0]
    return [Group("", (row._asdict(),))]


def prevailing(store: sqlite3.Connection, key: str) -> list[Group]:
    """Prevailing torque of new nuts by class, and what a used one must still have."""
    new = many(store, PrevailingTorque, thread=key)
    used = many(store, ReuseTorque, thread=key)
    first = _held([*new, *used], "prevailing torque", key)[0]._asdict()
    return [
        Group("", ({name: first[name] for name in ("thread", *STANDING)},)),
        Group("new_nuts", _listed(new, "thread")),
        Group("used_nuts", _listed(used, "thread")),
    ]


def material(store: sqlite3.Connection, key: str) -> list[Group]:
    """A body material with its grades, or one grade with all that is known of it."""
    body = one(store, Material, id=key)
    if body is not None:
        family = FAMILIES.get(key, key)
        grades = [{"material": f"material:{row.id}"} for row in many(store, Stuff, family=family)]
        ratios = _listed(many(store, ShearRatio, family=family), "id", "family")
        return [
            Group("", (body._asdict(),)),
            Group("shear_to_tensile", ratios),
            Group("grades", tuple(grades)),
        ]
    row = get(store, Stuff, key)
    return [
        Group("", (row._asdict(),)),
        Group("pressure_limits", _listed(many(store, PressureLimit, stuff=key), "stuff")),
        Group("expansion", _listed(many(store, Expansion, stuff=key), "stuff")),
        Group("elasticity", _listed(many(store, Elasticity, stuff=key), "stuff")),
        Group("shear_strength", _listed(many(store, ShearStrength, stuff=key), "stuff")),
        Group(
            "shear_to_tensile", _listed(many(store, ShearRatio, family=row.family), "id", "family")
        ),
        Group("boss", _listed(many(store, Boss, stuff=key), "stuff")),
    ]


def metal(store: sqlite3.Connection, key: str) -> list[Group]:
    """A metal in the galvanic series, and every pair that it makes."""
    row = get(store, Metal, key)
    index = get(store, AnodicIndex, row.anodic_index)
    pairs = [*many(store, Pair, first=key), *many(store, Pair, second=key)]
    return [
        Group("", (row._asdict(),)),
        Group("index", _listed([index], "id")),
        Group("pairs", tuple(_pair_row(store, pair) for pair in pairs)),
    ]


def _pair_row(store: sqlite3.Connection, pair: Pair) -> Row:
    metals = [get(store, Metal, pair.first), get(store, Metal, pair.second)]
    weakest = _weakest(metals)
    checked = weakest.checked if weakest.checked in ("memory", "judgement") else "formula"
    said = pair._asdict()
    return {
        "pair": f"pair:{said.pop('id')}",
        "difference_v": said["difference_v"],
        "corrodes": said["corrodes"] or "neither",
        **{name: said[name] for name in ("harsh", "normal", "controlled")},
        **dict(zip(STANDING, (weakest.source, "difference of the indices", checked), strict=True)),
    }


def pair(store: sqlite3.Connection, key: str) -> list[Group]:
    """Two metals in contact: which corrodes, where the pair is fit; the indices and the limits."""
    row = get(store, Pair, key)
    metals = [get(store, Metal, name) for name in (row.first, row.second)]
    indices = [get(store, AnodicIndex, each.anodic_index) for each in metals]
    shown = [
        {"metal": f"metal:{each.id}", "index_v": index.index_v, **_standing(index)}
        for each, index in zip(metals, indices, strict=True)
    ]
    main = _pair_row(store, row)
    del main["pair"]
    limits = _listed(many(store, Environment), "id")
    return [Group("", (main,)), Group("indices", tuple(shown)), Group("limits", limits)]


def _standing(row: Any) -> Row:
    return {name: getattr(row, name) for name in STANDING}


def finish(store: sqlite3.Connection, key: str) -> list[Group]:
    """A finish: thickness, hours of salt spray, temperatures, hydrogen, fume."""
    return [
        Group("", (get(store, Finish, key)._asdict(),)),
        Group("temperatures", _listed(many(store, FinishLimit, finish=key), "finish")),
        Group("notes", _listed(many(store, FinishNote, finish=key), "finish")),
        Group("thickness", _listed(many(store, FinishThickness, finish=key), "finish")),
        Group("mass", _listed(many(store, CoatingMass, finish=key), "finish")),
        Group("salt_spray", _listed(many(store, FinishCorrosion, finish=key), "finish")),
    ]


def compound(store: sqlite3.Connection, key: str) -> list[Group]:
    """A compound: strength, temperatures, how it burns, what to know."""
    return [
        Group("", (get(store, Compound, key)._asdict(),)),
        Group("strength", _listed(many(store, LockerStrength, compound=key), "compound")),
        Group("temperatures", _listed(many(store, CompoundLimit, compound=key), "compound")),
        Group("flammability", _listed(many(store, Flammability, compound=key), "compound")),
        Group("notes", _listed(many(store, CompoundNote, compound=key), "compound")),
    ]


def ground(store: sqlite3.Connection, key: str) -> list[Group]:
    """A ground joint: limits, torques, how to make it."""
    limits = _held(many(store, GroundLimit, joint=key), "ground joint", key)
    first = {name: getattr(limits[0], name) for name in ("joint", *STANDING)}
    return [
        Group("", (first,)),
        Group("limits", _listed(limits, "joint", "title")),
        Group("torques", _listed(many(store, GroundTorque, joint=key), "joint")),
        Group("notes", _listed(many(store, GroundNote, joint=key), "joint")),
    ]


def tube(store: sqlite3.Connection, key: str) -> list[Group]:
    """A tube fitting: tube, thread, hexagon, flare, torque; what never mates; cautions."""
    row = get(store, Tube, key)
    form = get(store, TubeForm, row.form)
    return [
        Group("", (row._asdict(),)),
        Group("flare", _listed([form], "id")),
        Group("nut_hexagon", _listed(many(store, TubeNutHex, tube=key), "tube")),
        Group("torques", _listed(many(store, TubeTorque, tube=key), "tube")),
        Group("never_mates", _listed(many(store, TubeMismatch, form=row.form), "form")),
        Group("cautions", _listed(many(store, TubeCaution), "n")),
    ]


def drill_out(store: sqlite3.Connection, key: str) -> list[Group]:
    """Drills into a broken bolt of one thread, smallest first, each with the rule it stands on."""
    rows = _held(many(store, DrillOut, thread=key), "drill for a thread", key)
    thread = get(store, Thread, key)
    shares = {share.purpose: share for share in many(store, DrillShare)}
    drills = [
        {
            "purpose": row.purpose,
            "drill_mm": row.drill_mm,
            "wall_mm": row.wall_mm,
            "extractor": f"extractor:{row.extractor}" if row.extractor else None,
            "for": shares[row.purpose].title,
            **_standing(shares[row.purpose]),
        }
        for row in sorted(rows, key=lambda row: row.drill_mm)
    ]
    root = {"thread": f"thread:{key}", "root_mm": thread.root_mm, **_standing(thread)}
    return [Group("", (root,)), Group("drills", tuple(drills))]


Builder = Callable[[sqlite3.Connection, str], list[Group]]
KINDS: dict[str, Builder] = {
    "nut-factor": _range(NutFactor, "condition", "k_min", "k_max"),
    "measured": _plain(MeasuredFriction),
    "slip": _range(SlipFriction, "pair", "mu_min", "mu_max"),
    "torque-factor": _plain(TorqueFactor),
    "tightening": tightening,
    "structural": structural,
    "embedding": _range(Embedding, "roughness"),
    "wrench-class": _plain(WrenchClass),
    "prevailing": prevailing,
    "nut-torque": _range(NutTorque, "thread"),
    "material": material,
    "engagement": _range(Engagement, "body"),
    "metal": metal,
    "environment": _plain(Environment),
    "potential": _range(SeaPotential, "metal"),
    "pair": pair,
    "finish": finish,
    "compound": compound,
    "ground": ground,
    "tube": tube,
    "broken": drill_out,
    "extractor": _plain(SpiralExtractor),
}
