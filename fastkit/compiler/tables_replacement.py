"""The files on what goes back in place of a fastener."""

from fastkit.compiler.spec import FLAG, NOT_NEGATIVE, POSITIVE, Rule, Spec, ref
from fastkit.records.replacement import (
    InchLength,
    Lock,
    Make,
    Offer,
    PartWord,
    ReuseRule,
)

DEGC = Rule(low=-273, high=1500)
FORMS = ("hexagon", "flange", "socket", "pan", "cheese", "button", "countersunk")

REPLACEMENT: tuple[Spec, ...] = (
    Spec("inch_lengths.csv", InchLength, ("id",), {"length_mm": POSITIVE}),
    Spec(
        "offers.csv",
        Offer,
        ("standard",),
        {
            "form": Rule(choices=FORMS),
            "load_factor": Rule(above=0, high=1),
            "cam_out": Rule(low=0, high=2),
            "partial": FLAG,
        },
    ),
    Spec(
        "makes.csv",
        Make,
        ("id",),
        {
            "finish": ref("finish"),
            "metal": ref("metal"),
            "friction": ref("friction"),
            "greased": ref("friction"),
            "serves": Rule(low=1, high=4),
            "use_max_degc": DEGC,
            "from_mm": POSITIVE,
            "tapped": FLAG,
            "plated": FLAG,
            "cost": NOT_NEGATIVE,
        },
    ),
    Spec(
        "locks.csv",
        Lock,
        ("id",),
        {
            "joint": Rule(choices=("tapped", "nut", "any")),
            "from_degc": DEGC,
            "to_degc": DEGC,
            "frees": Rule(choices=("hand", "heat")),
        },
    ),
    Spec(
        "part_words.csv",
        PartWord,
        ("words", "what", "value"),
        {
            "what": Rule(
                choices=(
                    *("form", "kind", "finish", "state", "had", "safety", "level", "flag", "heat"),
                    *("circuit", "lack", "point", "clamped"),
                )
            )
        },
    ),
    Spec(
        "reuse_rules.csv",
        ReuseRule,
        ("id",),
        {"verdict": Rule(choices=("reuse", "measure", "renew"))},
    ),
)
