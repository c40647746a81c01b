"""Files of data/ about threads: sizes, limits, drills, holes, inserts."""

from fastkit.compiler.spec import POSITIVE, Rule, Spec, ref
from fastkit.records.left_hand import LeftHand
from fastkit.records.thread import (
    ClearanceHole,
    FormDrill,
    Insert,
    PipeGauge,
    TapDrill,
    Thread,
    ThreadLimit,
)

PERCENT = Rule(above=0, high=100)
THREADS: tuple[Spec, ...] = (
    Spec(
        "threads.csv",
        Thread,
        ("id",),
        {
            "family": Rule(
                choices=("M", "UN", "plug", "BS", "BA", "G", "R", "NPT", "ST", "PG"),
            ),
            "nominal_mm": POSITIVE,
            "nominal_in": POSITIVE,
            "core_mm": POSITIVE,
            "pitch_mm": POSITIVE,
            "tpi": POSITIVE,
        },
        kept={
            "nominal_mm": float | None,
            "nominal_in": float | None,
            "pitch_mm": float | None,
            "core_mm": float | None,
        },
        derived=(
            *("nominal_mm", "pitch_mm", "flank_angle_deg", "pitch_diameter_mm", "minor_mm"),
            *("root_mm", "stress_area_mm2"),
        ),
        kind="thread",
        title="{id}, {thread_title}",
    ),
    Spec(
        "pipe_gauges.csv",
        PipeGauge,
        ("thread",),
        {"thread": ref("thread"), "gauge_mm": POSITIVE, "gauge_in": POSITIVE},
        kept={"gauge_mm": float | None, "gauge_in": float | None},
        derived=("gauge_mm",),
    ),
    Spec(
        "thread_limits.csv",
        ThreadLimit,
        ("thread", "tolerance", "side", "dimension"),
        {
            "thread": ref("thread"),
            "side": Rule(choices=("external", "internal")),
            "dimension": Rule(choices=("major", "pitch", "minor")),
            "min_mm": POSITIVE,
            "max_mm": POSITIVE,
        },
    ),
    Spec(
        "tap_drills.csv",
        TapDrill,
        ("thread", "drill_mm"),
        {"thread": ref("thread"), "drill_mm": POSITIVE, "thread_pct": PERCENT},
        derived=("thread_pct",),
    ),
    Spec(
        "form_drills.csv",
        FormDrill,
        ("thread", "thread_pct"),
        {"thread": ref("thread"), "drill_mm": POSITIVE, "thread_pct": PERCENT},
    ),
    Spec(
        "clearance_holes.csv",
        ClearanceHole,
        ("size",),
        {
            "size": ref("thread", "size"),
            "close_mm": POSITIVE,
            "medium_mm": POSITIVE,
            "coarse_mm": POSITIVE,
        },
    ),
    Spec(
        "inserts.csv",
        Insert,
        ("id",),
        {"id": ref("thread"), "drill_mm": POSITIVE},
        derived=("tap_major_mm", "tap_pitch_diameter_mm", "hole_min_mm"),
        kind="insert",
        title="Wire thread insert for {id}",
    ),
    Spec("left_hand.csv", LeftHand, ("id",), kind="left-hand", title="Left-hand thread: {title}"),
)
