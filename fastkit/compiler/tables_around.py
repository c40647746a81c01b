"""The files on coatings, compounds, grounds, tube fittings and broken bolts; all around it."""

from collections.abc import Mapping
from typing import Any

from fastkit.compiler.spec import NOT_NEGATIVE, POSITIVE, SHARE, Rule, Spec, ref
from fastkit.compiler.tables_tightening import MATERIALS, TIGHTENING
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
from fastkit.records.galvanic import Pair
from fastkit.records.ground import GroundLimit, GroundNote, GroundTorque
from fastkit.records.source import Alias
from fastkit.records.tube import (
    Tube,
    TubeCaution,
    TubeForm,
    TubeMismatch,
    TubeNutHex,
    TubeTorque,
)

PER_CENT = Rule(low=0, high=90)
CELSIUS = Rule(low=-273, high=2000)
FIT = Rule(choices=("fit", "unfit"))

COATINGS: tuple[Spec, ...] = (
    Spec(
        "finishes.csv",
        Finish,
        ("id",),
        {"metal": ref("metal"), "friction": ref("friction")},
        kind="finish",
        title="Finish: {title}",
        words="coating thickness salt spray hours corrosion temperature limit max melting fume",
    ),
    Spec(
        "finish_thicknesses.csv",
        FinishThickness,
        ("finish", "variant"),
        {"finish": ref("finish"), "thickness_min_um": POSITIVE, "thickness_max_um": POSITIVE},
    ),
    Spec(
        "coating_masses.csv",
        CoatingMass,
        ("finish", "variant"),
        {
            "finish": ref("finish"),
            "mass_g_m2": POSITIVE,
            "density_g_cm3": POSITIVE,
            "thickness_um": POSITIVE,
        },
        derived=("thickness_um",),
    ),
    Spec(
        "finish_corrosion.csv",
        FinishCorrosion,
        ("finish", "variant"),
        {
            "finish": ref("finish"),
            "thickness_um": POSITIVE,
            "white_rust_h": POSITIVE,
            "red_rust_h": POSITIVE,
        },
    ),
    Spec(
        "finish_limits.csv",
        FinishLimit,
        ("finish", "what"),
        {
            "finish": ref("finish"),
            "what": Rule(
                choices=("service", "chromate fails", "cracks stressed steel", "fume", "melts")
            ),
            "temperature_degc": CELSIUS,
        },
    ),
    Spec(
        "finish_notes.csv",
        FinishNote,
        ("finish", "topic", "text"),
        {"finish": ref("finish")},
    ),
    Spec(
        "compounds.csv",
        Compound,
        ("id",),
        {
            "sort": Rule(
                choices=(
                    *("threadlocker", "sealant", "anti-seize", "penetrant", "cleaner", "grease"),
                    "dry film",
                )
            )
        },
        kind="compound",
        words="temperature limit maximum max flash point flammable burns release removal strength",
    ),
    Spec(
        "locker_strengths.csv",
        LockerStrength,
        ("compound", "bolt"),
        {
            "compound": ref("compound"),
            "breakaway_min_nm": POSITIVE,
            "breakaway_max_nm": POSITIVE,
            "turning_min_nm": POSITIVE,
            "turning_max_nm": POSITIVE,
        },
    ),
    Spec(
        "compound_limits.csv",
        CompoundLimit,
        ("compound", "what"),
        {
            "compound": ref("compound"),
            "what": Rule(
                choices=(
                    *("service from", "service to", "lets go from", "lets go to"),
                    *("gives fume from", "grease burns off at", "solids to at most", "cools to"),
                )
            ),
            "temperature_degc": CELSIUS,
        },
    ),
    Spec(
        "flammabilities.csv",
        Flammability,
        ("compound", "source"),
        {
            "compound": ref("compound"),
            "flash_min_degc": CELSIUS,
            "flash_max_degc": CELSIUS,
            "ignition_degc": CELSIUS,
            "lower_limit_pct": PER_CENT,
            "upper_limit_pct": PER_CENT,
        },
    ),
    Spec(
        "compound_notes.csv",
        CompoundNote,
        ("compound", "topic", "text"),
        {"compound": ref("compound")},
    ),
    Spec(
        "ground_limits.csv",
        GroundLimit,
        ("joint", "part"),
        {"resistance_max_ohm": POSITIVE, "drop_max_v": NOT_NEGATIVE},
        kind="ground",
        name="joint",
        title="Electrical ground: {title}",
        words="voltage drop resistance strap cable bolt torque earth",
    ),
    Spec(
        "ground_torques.csv",
        GroundTorque,
        ("joint", "size"),
        {
            "joint": ref("ground_limit", "joint"),
            "torque_min_nm": POSITIVE,
            "torque_max_nm": POSITIVE,
        },
    ),
    Spec(
        "ground_notes.csv",
        GroundNote,
        ("joint", "topic", "text"),
        {"joint": ref("ground_limit", "joint")},
    ),
)

FITTINGS: tuple[Spec, ...] = (
    Spec(
        "tube_forms.csv",
        TubeForm,
        ("id",),
        {"flare_deg": Rule(above=0, high=90), "seat_deg": Rule(above=0, high=90)},
    ),
    Spec(
        "tubes.csv",
        Tube,
        ("id",),
        {
            "form": ref("tube_form"),
            "tube_mm": POSITIVE,
            "thread_mm": POSITIVE,
            "pitch_mm": POSITIVE,
        },
        derived=("thread_mm", "pitch_mm"),
        kind="tube",
        words="torque size thread hexagon spanner wrench brake fuel line pipe union",
    ),
    Spec(
        "tube_nut_hexes.csv",
        TubeNutHex,
        ("tube", "hexagon"),
        {"tube": ref("tube"), "across_flats_mm": POSITIVE},
        derived=("across_flats_mm",),
    ),
    Spec(
        "tube_torques.csv",
        TubeTorque,
        ("tube", "source"),
        {"tube": ref("tube"), "torque_min_nm": POSITIVE, "torque_max_nm": POSITIVE},
    ),
    Spec("tube_mismatches.csv", TubeMismatch, ("form", "never"), {"form": ref("tube_form")}),
    Spec("tube_cautions.csv", TubeCaution, ("n",), {"n": POSITIVE}),
    Spec(
        "drill_shares.csv",
        DrillShare,
        ("purpose",),
        {"share_max": SHARE, "wall_min_mm": POSITIVE},
    ),
    Spec(
        "spiral_extractors.csv",
        SpiralExtractor,
        ("id",),
        {"bolt_from_mm": POSITIVE, "bolt_to_mm": POSITIVE, "drill_mm": POSITIVE},
        kind="extractor",
    ),
)

WORDS = Spec("aliases_around.csv", Alias, ("words", "entry"), {"entry": ref("entry")})
AROUND: tuple[Spec, ...] = (*TIGHTENING, *MATERIALS, *COATINGS, *FITTINGS, WORDS)

COMPUTED_RULES: Mapping[str, Mapping[str, Rule]] = {
    "pair": {
        "first": ref("metal"),
        "second": ref("metal"),
        "difference_v": NOT_NEGATIVE,
        "corrodes": ref("metal"),
        "harsh": FIT,
        "normal": FIT,
        "controlled": FIT,
    },
    "drill_out": {
        "thread": ref("thread"),
        "purpose": ref("drill_share", "purpose"),
        "drill_mm": POSITIVE,
        "wall_mm": POSITIVE,
        "extractor": ref("spiral_extractor"),
    },
}
COMPUTED_KEYS: Mapping[str, tuple[Any, tuple[str, ...]]] = {
    "pair": (Pair, ("id",)),
    "drill_out": (DrillOut, ("thread", "purpose")),
}
