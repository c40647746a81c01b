"""What the files of grades, heads, washers and other hardware hold beyond the first ones."""

from fastkit.compiler.spec import FLAG, NOT_NEGATIVE, POSITIVE, Rule, Spec, ref
from fastkit.records.drive import CrossTip, DrivePin, WrenchOpening
from fastkit.records.grade import GradeLimit, GradePair, Hardness, MarkStroke, NutRow
from fastkit.records.hardware import Hardware, HardwareDim
from fastkit.records.length import LengthRange, NominalLength, ScrewEnd, ThreadLength
from fastkit.records.recess import RecessDim

HARDWARE: tuple[Spec, ...] = (
    Spec(
        "nut_rows.csv",
        NutRow,
        ("grade", "style", "series", "size_from_mm"),
        {
            "grade": ref("grade"),
            "style": Rule(choices=("1", "2", "thin")),
            "series": Rule(choices=("coarse", "fine", "any")),
            "size_from_mm": NOT_NEGATIVE,
            "size_to_mm": POSITIVE,
            "proof_mpa": POSITIVE,
        },
    ),
    Spec(
        "grade_hardness.csv",
        Hardness,
        ("grade", "size_from_mm", "scale"),
        {
            "grade": ref("grade"),
            "size_from_mm": NOT_NEGATIVE,
            "scale": Rule(choices=("HV", "HBW", "HRB", "HRC")),
            "low": POSITIVE,
            "high": POSITIVE,
        },
    ),
    Spec(
        "grade_limits.csv",
        GradeLimit,
        ("grade",),
        {
            "grade": ref("grade"),
            "use_min_c": Rule(low=-273),
            "use_max_c": Rule(high=1000),
            "embrittlement": Rule(choices=("none", "care", "risk")),
        },
    ),
    Spec(
        "grade_pairs.csv",
        GradePair,
        ("grade", "mate"),
        {
            "grade": ref("grade"),
            "mate": ref("grade"),
            "how": Rule(choices=("highest-bolt", "like-strength", "like-hardness")),
        },
    ),
    Spec(
        "grade_marks.csv",
        MarkStroke,
        ("grade", "variant", "n"),
        {
            "grade": ref("grade"),
            "variant": Rule(choices=("head", "underlined", "face", "clock")),
            "n": Rule(low=1),
            "shape": Rule(choices=("line", "dot", "text")),
            "x1": Rule(low=-1, high=1),
            "y1": Rule(low=-1, high=1),
            "x2": Rule(low=-1, high=1),
            "y2": Rule(low=-1, high=1),
        },
    ),
    Spec(
        "drive_pins.csv",
        DrivePin,
        ("drive",),
        {"drive": ref("drive"), "hole_mm": POSITIVE},
    ),
    Spec(
        "cross_tips.csv",
        CrossTip,
        ("drive",),
        {"drive": ref("drive"), "tip_mm": POSITIVE},
    ),
    Spec(
        "wrench_openings.csv",
        WrenchOpening,
        ("drive",),
        {"drive": ref("drive"), "opening_min_in": POSITIVE, "opening_max_in": POSITIVE},
    ),
    Spec(
        "hardware.csv",
        Hardware,
        ("id",),
        {"thread": ref("thread", "size")},
        kind="hardware",
    ),
    Spec(
        "hardware_dims.csv",
        HardwareDim,
        ("hardware", "dimension"),
        {
            "hardware": ref("hardware"),
            "value_mm": POSITIVE,
            "low_mm": POSITIVE,
            "high_mm": POSITIVE,
        },
    ),
    Spec(
        "nominal_lengths.csv",
        NominalLength,
        ("length_mm",),
        {"length_mm": POSITIVE, "avoid": FLAG},
    ),
    Spec(
        "length_ranges.csv",
        LengthRange,
        ("standard", "size"),
        {
            "size": ref("thread", "size"),
            "shortest_mm": ref("nominal_length", "length_mm"),
            "longest_mm": ref("nominal_length", "length_mm"),
        },
    ),
    Spec(
        "thread_lengths.csv",
        ThreadLength,
        ("rule", "over_mm"),
        {
            "rule": Rule(choices=("hexagon", "socket")),
            "over_mm": NOT_NEGATIVE,
            "to_mm": POSITIVE,
            "diameters": POSITIVE,
            "plus_mm": POSITIVE,
        },
    ),
    Spec(
        "screw_ends.csv",
        ScrewEnd,
        ("id",),
        kind="screw-end",
        title="{title} of a screw ({id}, ISO 4753)",
    ),
    Spec(
        "recess_dims.csv",
        RecessDim,
        ("standard", "size", "system", "dimension"),
        {
            "size": ref("thread", "size"),
            "system": ref("drive_system"),
            "drive": ref("drive"),
            "dimension": Rule(
                choices=("diameter", "penetration", "depth", "slot_width", "slot_depth")
            ),
            "value_mm": POSITIVE,
            "low_mm": POSITIVE,
            "high_mm": POSITIVE,
        },
    ),
)
