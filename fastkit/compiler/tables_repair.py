"""The files on telling threads apart and on making them good."""

from collections.abc import Mapping
from typing import Any

from fastkit.compiler.spec import FLAG, NOT_NEGATIVE, POSITIVE, Child, Rule, Spec, ref
from fastkit.records.identity import Commonness, MixUp
from fastkit.records.repair import InsertBody, PartHole, Repair, RepairText

REPAIRS: tuple[Spec, ...] = (
    Spec("thread_commonness.csv", Commonness, ("family", "series"), {"weight": POSITIVE}),
    Spec(
        "mix_ups.csv",
        MixUp,
        ("first", "second"),
        {
            "first": ref("thread"),
            "second": ref("thread"),
            "kind": Rule(choices=("jams", "strips", "leaks", "angle")),
        },
    ),
    Spec(
        "repairs.toml",
        Repair,
        ("id",),
        {
            "how": Rule(
                choices=("same", "deeper", "larger", "insert", "bond", "far-side", "apart")
            ),
            "strength": Rule(above=0, high=1),
            "bond_mpa": POSITIVE,
            "length_min_d": NOT_NEGATIVE,
            "wall_d": NOT_NEGATIVE,
            "above_mm": NOT_NEGATIVE,
            "minutes_min": POSITIVE,
            "minutes_max": POSITIVE,
            "trouble_min": NOT_NEGATIVE,
            "reversible": Rule(choices=("yes", "with work", "no")),
            "heat_max_c": POSITIVE,
            "keeps_screw": FLAG,
        },
        children=(
            Child("steps", RepairText, "repair", "text", {"part": "step"}, "n"),
            Child("cautions", RepairText, "repair", "text", {"part": "caution"}, "n"),
        ),
    ),
    Spec(
        "insert_bodies.csv",
        InsertBody,
        ("kind", "size"),
        {
            "kind": ref("repair"),
            "outer_mm": POSITIVE,
            "pitch_mm": POSITIVE,
            "drill_mm": POSITIVE,
        },
    ),
    Spec(
        "part_holes.csv",
        PartHole,
        ("part",),
        {
            "part": ref("part"),
            "larger": Rule(choices=("yes", "no")),
            "first": ref("repair"),
            "critical": ref("critical"),
            "engage_mm": POSITIVE,
        },
    ),
)
REPAIR_RULES: Mapping[str, Mapping[str, Rule]] = {
    "repair_text": {"repair": ref("repair"), "part": Rule(choices=("step", "caution"))}
}
REPAIR_KEYS: Mapping[str, tuple[Any, tuple[str, ...]]] = {
    "repair_text": (RepairText, ("repair", "part", "n"))
}
