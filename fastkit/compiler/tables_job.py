"""The files on a whole job: lines that come off, handwork, spares."""

from fastkit.compiler.spec import NOT_NEGATIVE, POSITIVE, Rule, Spec, ref
from fastkit.records.job import HandWork, LineKind, Spare

MINUTES = ("off_quick_min", "off_min", "off_slow_min", "on_quick_min", "on_min", "on_slow_min")

JOB: tuple[Spec, ...] = (
    Spec(
        "line_kinds.csv",
        LineKind,
        ("id",),
        {**dict.fromkeys(MINUTES, NOT_NEGATIVE), "beside": ref("neighbour")},
    ),
    Spec(
        "hand_works.csv",
        HandWork,
        ("id",),
        {"quick_min": NOT_NEGATIVE, "usual_min": NOT_NEGATIVE, "slow_min": POSITIVE},
    ),
    Spec("spares.csv", Spare, ("up_to_mm",), {"up_to_mm": POSITIVE, "for_every": Rule(low=1)}),
)
