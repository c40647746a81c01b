"""What each file of data/ holds: one spec a file, from which reading, checking and SQL follow."""

from collections.abc import Mapping
from typing import Any

from fastkit.compiler.hardware_tables import HARDWARE
from fastkit.compiler.spec import (
    ANGLE,
    FLAG,
    NOT_NEGATIVE,
    POSITIVE,
    SHARE,
    Child,
    Rule,
    Spec,
    ref,
)
from fastkit.compiler.tables_around import AROUND, COMPUTED_KEYS, COMPUTED_RULES
from fastkit.compiler.tables_job import JOB
from fastkit.compiler.tables_repair import REPAIR_KEYS, REPAIR_RULES, REPAIRS
from fastkit.compiler.tables_replacement import FORMS, REPLACEMENT
from fastkit.compiler.tables_threads import THREADS
from fastkit.records.bench import BenchNumber, Usual
from fastkit.records.critical import Critical
from fastkit.records.drive import Drive, DriveSystem, DriveTorque, KeyArm
from fastkit.records.friction import Friction
from fastkit.records.grade import Grade, GradeRow
from fastkit.records.hazard import Clearance, Danger, Hazard, Neighbour
from fastkit.records.head import Head
from fastkit.records.material import Conductivity, Material
from fastkit.records.method import (
    BondEffect,
    Condition,
    HeatSource,
    Method,
    MethodHazard,
    MethodText,
    Renewal,
    RoomGain,
    StubGrip,
    ToolVeto,
    Variant,
    VariantHazard,
    Veto,
)
from fastkit.records.part import Part
from fastkit.records.seizure import DriveState, Seizure
from fastkit.records.set_screw import SetScrewTorque
from fastkit.records.source import (
    Alias,
    DangerWord,
    Erratum,
    HandsOff,
    Phrase,
    Purpose,
    Saying,
    Source,
)
from fastkit.records.thread import ClassLimit
from fastkit.records.tool import Tool
from fastkit.records.torque import TorqueRow
from fastkit.records.washer import Washer

DAMAGE = Rule(
    choices=(
        *("intact", "worn", "stripped", "rounded", "tool-stuck", "extractor-broken"),
        *("snapped-proud", "snapped-flush", "snapped-below", "spinning", "nut-spinning"),
    )
)


# what of a situation a method may ask something for
WHERE = ("into", "coating", "support", "seized", "insert")

# the texts of a method: keys of the file, and the part that each is
TEXTS: Mapping[str, str] = {
    **{"steps": "step", "cautions": "caution", "vital": "vital", "lobed_title": "lobed-title"},
    **{"lobed_steps": "lobed-step", "lobed_cautions": "lobed-caution"},
}
SPECS: tuple[Spec, ...] = (
    Spec(
        "sources.toml",
        Source,
        ("id",),
        {
            "kind": Rule(
                choices=(
                    *("standard", "handbook", "open-library", "regulation"),
                    *("paper", "practice"),
                )
            )
        },
        kind="source",
    ),
    *THREADS,
    Spec(
        "washers.csv",
        Washer,
        ("id",),
        {
            "size": ref("thread", "size"),
            "inner_mm": POSITIVE,
            "outer_mm": POSITIVE,
            "thickness_mm": POSITIVE,
        },
        kind="washer",
        title="{standard} washer {size}, {form}",
        words="{inner_mm:g}",  # as packets have it: DIN 125 A 8.4
    ),
    Spec(
        "set_screw_torques.csv",
        SetScrewTorque,
        ("size", "grade"),
        {"size": ref("thread", "size"), "proof_torque_nm": POSITIVE},
    ),
    Spec(
        "drive_systems.csv",
        DriveSystem,
        ("id",),
        {"external": FLAG, "symmetry_deg": ANGLE},
        kind="system",
    ),
    Spec(
        "drives.csv",
        Drive,
        ("id",),
        {
            "system": ref("drive_system"),
            "external": FLAG,
            "symmetry_deg": ANGLE,
            "across_flats_mm": POSITIVE,
            "across_flats_min_mm": POSITIVE,
            "across_flats_max_mm": POSITIVE,
            "across_points_mm": POSITIVE,
            "across_valleys_mm": POSITIVE,
            "wing_mm": POSITIVE,
            "depth_mm": POSITIVE,
        },
        derived=("external", "symmetry_deg"),
        kind="drive",
        title="{system_title} {size}",
    ),
    Spec(
        "drive_torques.csv",
        DriveTorque,
        ("drive", "tool"),
        {
            "drive": ref("drive"),
            "tool": Rule(
                choices=(
                    *("key", "bit", "blade", "open wrench", "ring wrench", "socket"),
                    *("driving part", "socket square"),
                )
            ),
            "proof_torque_nm": POSITIVE,
        },
    ),
    Spec(
        "key_arms.csv",
        KeyArm,
        ("drive",),
        {"drive": ref("drive"), "short_arm_mm": POSITIVE, "long_arm_mm": POSITIVE},
    ),
    Spec(
        "heads.csv",
        Head,
        ("id",),
        {
            "form": Rule(choices=(*FORMS, "nut", "set-screw")),
            "size": ref("thread", "size"),
            "drive": ref("drive"),
            "head_diameter_mm": POSITIVE,
            "head_height_mm": POSITIVE,
            "bearing_diameter_mm": POSITIVE,
            "cone_angle_deg": Rule(above=0, high=180),
        },
        kind="head",
        title="{standard} {form} {size}",
    ),
    Spec(
        "grades.csv",
        Grade,
        ("id",),
        {"product": Rule(choices=("bolt", "nut", "set-screw"))},
        kind="grade",
        title="{system} {product} {id}",
    ),
    Spec(
        "grade_rows.csv",
        GradeRow,
        ("grade", "size_from_mm"),
        {
            "grade": ref("grade"),
            "size_from_mm": NOT_NEGATIVE,
            "size_to_mm": POSITIVE,
            "tensile_min_mpa": POSITIVE,
            "yield_min_mpa": POSITIVE,
            "proof_mpa": POSITIVE,
            "elongation_min_pct": POSITIVE,
        },
    ),
    Spec(
        "friction.csv",
        Friction,
        ("id",),
        {
            "mu_min": Rule(above=0, high=1),
            "mu_mid": Rule(above=0, high=1),
            "mu_max": Rule(above=0, high=1),
        },
        kind="friction",
    ),
    Spec(
        "materials.csv",
        Material,
        ("id",),
        {
            "shear_strength_mpa": POSITIVE,
            "bearing_limit_mpa": POSITIVE,
            "expansion_per_k": Rule(above=0, high=0.001),
            "modulus_mpa": POSITIVE,
            "brittle": FLAG,
        },
        kind="material",
    ),
    Spec(
        "conductivities.csv",
        Conductivity,
        ("material",),
        {"material": ref("material"), "conductivity_w_mk": POSITIVE},
    ),
    Spec("hazards.csv", Hazard, ("id",), kind="hazard"),
    Spec(
        "neighbours.csv",
        Neighbour,
        ("id",),
        {
            "movable": FLAG,
            "aside_mm": POSITIVE,
            "aside_min": POSITIVE,
            "undone_mm": POSITIVE,
            "undone_min": POSITIVE,
            "named": FLAG,
        },
        kind="neighbour",
    ),
    Spec(
        "clearances.csv",
        Clearance,
        ("neighbour", "hazard"),
        {
            "neighbour": ref("neighbour"),
            "hazard": ref("hazard"),
            "forbid_mm": NOT_NEGATIVE,
            "shield_mm": NOT_NEGATIVE,
        },
    ),
    Spec(
        "methods.toml",
        Method,
        ("id",),
        {
            "kind": Rule(choices=("gate", "treat", "turn", "part", "room")),
            "grip": Rule(
                choices=(
                    *("drive", "bite", "flats", "slot", "weld", "shank", "rim", "extractor"),
                    *("drill", "far-side"),
                )
            ),
            "minutes": POSITIVE,
            "restores": SHARE,
            "hold": POSITIVE,
            "chance": Rule(above=0, high=1),
            "spoils": SHARE,
            "leads_to": DAMAGE,
            "repeats": NOT_NEGATIVE,
            "residue": Rule(choices=("flammable", "chlorinated")),
        },
        kind="method",
        children=(
            *(
                Child(key, MethodText, "method", "text", {"part": part}, "n", "told")
                for key, part in TEXTS.items()
            ),
            Child("hazards", MethodHazard, "method", "hazard"),
        ),
    ),
    Spec("tools.csv", Tool, ("id",), kind="tool"),
    Spec(
        "variants.csv",
        Variant,
        ("method", "id"),
        {
            "method": ref("method"),
            "tool": ref("tool"),
            "above_mm": NOT_NEGATIVE,
            "beside_mm": NOT_NEGATIVE,
            "swing_deg": Rule(low=0, high=360),
            "side_width_mm": POSITIVE,
            "side_depth_mm": POSITIVE,
            "pocket_diameter_mm": NOT_NEGATIVE,
            "torque_nm": POSITIVE,
            "push": SHARE,
            "power": Rule(choices=("electric", "air")),
            "fits": Rule(
                choices=("recess", "flats", "hexagon", "lobes", "captive", "fitting", "struck")
            ),
            "minutes": NOT_NEGATIVE,
        },
    ),
    Spec(
        "stub_grips.csv",
        StubGrip,
        ("method", "tool", "side"),
        {
            "method": ref("method"),
            "side": Rule(choices=("proud", "below")),
            "length_d": NOT_NEGATIVE,
            "length_mm": NOT_NEGATIVE,
        },
    ),
    Spec(
        "room_gains.csv",
        RoomGain,
        ("method",),
        {
            "method": ref("method"),
            "above_mm": NOT_NEGATIVE,
            "beside_mm": NOT_NEGATIVE,
            "swing_deg": Rule(low=0, high=360),
            "side_mm": NOT_NEGATIVE,
            "distance_mm": NOT_NEGATIVE,
        },
    ),
    Spec(
        "usual.csv",
        Usual,
        ("what", "of"),
        {
            "what": Rule(
                choices=(
                    *("size-of-system", "thread-of-system", "thread-of-drive"),
                    *("thread-of-tube-nut", "class-of-form", "class-of-steel", "inch-for"),
                )
            )
        },
    ),
    Spec(
        "bench_numbers.csv",
        BenchNumber,
        ("number", "of"),
        {"value": NOT_NEGATIVE, "unit": Rule(choices=("MPa", "N", "mm", "min", "-"))},
    ),
    Spec(
        "variant_hazards.csv",
        VariantHazard,
        ("method", "variant", "hazard"),
        {"method": ref("method"), "hazard": ref("hazard")},
    ),
    Spec(
        "bond_effects.csv",
        BondEffect,
        ("method", "seizure"),
        {
            "method": ref("method"),
            "seizure": ref("seizure"),
            "factor": Rule(above=0),
            "again": Rule(above=0),
        },
    ),
    Spec(
        "heat_sources.csv",
        HeatSource,
        ("method",),
        {
            "method": ref("method"),
            "warms": Rule(choices=("screw", "body", "both")),
            "power_w": POSITIVE,
            "crust_c": Rule(low=-273, high=1500),
            "soft_c": Rule(low=-273, high=1500),
        },
    ),
    Spec(
        "vetoes.csv",
        Veto,
        ("rule", "method", "field", "op", "value"),
        {"method": ref("method"), "op": Rule(choices=("=", "in", "not", "<", ">"))},
        several="method",
    ),
    Spec(
        "tool_vetoes.csv",
        ToolVeto,
        ("rule", "method", "variant", "field", "op", "value"),
        {
            "method": ref("method"),
            "variant": Rule(),
            "op": Rule(choices=("=", "in", "not", "<", ">")),
        },
        several="variant",
    ),
    Spec(
        "conditions.csv",
        Condition,
        ("method", "field", "value"),
        {
            "method": ref("method"),
            "field": Rule(
                choices=(
                    *("kind", "damage", "into", "coating", "support", "seized"),
                    *("insert", "drive", "grade", "part", "near", "loose", "piped", "sealed"),
                    *("unnamed", "load", "residue", "tried", "hand", "touching"),
                )
            ),
        },
        several="method",
    ),
    Spec(
        "renewals.csv",
        Renewal,
        ("rule", "field", "op", "value"),
        {"op": Rule(choices=("=", "in", "not", "<", ">"))},
    ),
    Spec(
        "dangers.csv",
        Danger,
        ("hazard", "field", "value"),
        {
            "hazard": ref("hazard"),
            "field": Rule(choices=("residue", "coating", "into", "seized", "load")),
        },
    ),
    Spec(
        "seizures.csv",
        Seizure,
        ("id",),
        {
            "tau_thread_mpa": NOT_NEGATIVE,
            "tau_head_mpa": NOT_NEGATIVE,
            "tau_shank_mpa": NOT_NEGATIVE,
            "spread": NOT_NEGATIVE,
            "mu_thread": POSITIVE,
            "mu_head": POSITIVE,
            "mu_spread": NOT_NEGATIVE,
            "preload_share": SHARE,
            "galls": FLAG,
        },
        kind="seizure",
    ),
    Spec(
        "drive_states.csv",
        DriveState,
        ("damage", "system"),
        {"damage": DAMAGE, "share": SHARE, "spread": NOT_NEGATIVE},
    ),
    Spec(
        "parts.csv",
        Part,
        ("id",),
        {
            "kind": Rule(choices=("screw", "bolt", "nut", "stud", "tube-nut")),
            "thread": ref("thread"),
            "drive": ref("drive"),
            "grade": ref("grade"),
            "body": ref("material"),
            "seized": ref("seizure"),
            "seized_at": Rule(choices=("thread", "head", "shank")),
            "engage_mm": POSITIVE,
            "shank_share": Rule(above=0, high=1),
            "preload_share": SHARE,
            "opens": FLAG,
            "on_wheels": FLAG,
        },
        kind="part",
        title="{title}",
    ),
    Spec("aliases.csv", Alias, ("words", "entry"), {"entry": ref("entry")}),
    Spec("purposes.csv", Purpose, ("entry", "purpose"), {"entry": ref("entry")}),
    Spec("sayings.csv", Saying, ("words",)),
    Spec("phrases.csv", Phrase, ("words", "option", "value")),
    Spec("hands_off.csv", HandsOff, ("id",), {"beside": ref("neighbour")}),
    Spec(
        "danger_words.csv",
        DangerWord,
        ("id",),
        {"near": ref("neighbour"), "body": ref("material")},
    ),
    Spec(
        "criticals.csv",
        Critical,
        ("id",),
        {
            "replaced": Rule(choices=("check", "none", "plain")),
            "mended": Rule(choices=("bench", "renewed")),
        },
    ),
    Spec("errata.csv", Erratum, ("source", "locator", "item")),
    *AROUND,
    *HARDWARE,
    *JOB,
    *REPLACEMENT,
    *REPAIRS,
)

CHILD_RULES: Mapping[str, Mapping[str, Rule]] = {
    **COMPUTED_RULES,
    **REPAIR_RULES,
    "method_text": {"method": ref("method"), "part": Rule(choices=(*TEXTS.values(),))},
    "method_hazard": {"method": ref("method"), "hazard": ref("hazard")},
    "class_limit": {
        "thread": ref("thread"),
        "side": Rule(choices=("external", "internal")),
        "dimension": Rule(choices=("major", "pitch", "minor")),
        "min_mm": POSITIVE,
        "max_mm": POSITIVE,
    },
    "torque": {
        "thread": ref("thread"),
        "grade": ref("grade"),
        "friction": ref("friction"),
        "torque_nm": POSITIVE,
        "torque_max_nm": POSITIVE,
        "preload_n": POSITIVE,
    },
}
CHILD_KEYS: Mapping[str, tuple[Any, tuple[str, ...]]] = {
    **COMPUTED_KEYS,
    **REPAIR_KEYS,
    "method_text": (MethodText, ("method", "part", "n")),
    "method_hazard": (MethodHazard, ("method", "hazard")),
    "class_limit": (ClassLimit, ("thread", "tolerance", "side", "dimension")),
    "torque": (TorqueRow, ("thread", "grade", "friction")),
}
