"""The files on tightening and on grades of material."""

from fastkit.compiler.spec import NOT_NEGATIVE, POSITIVE, Rule, Spec, ref
from fastkit.records.galvanic import AnodicIndex, Environment, Metal, SeaPotential
from fastkit.records.grade import Temper
from fastkit.records.set_screw import PlugTorque, PlugTurn, TappingTorque
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

FRICTION = Rule(above=0, high=1)
PER_CENT = Rule(low=0, high=90)
SEAT = Rule(choices=("flat", "conical"))
ALPHA = Rule(low=1, high=10)
FAMILY = Rule(
    choices=(
        *("steel", "stainless", "iron", "aluminium", "magnesium", "copper", "titanium", "nickel"),
        "plastic",
    )
)

TIGHTENING: tuple[Spec, ...] = (
    Spec(
        "nut_factors.csv",
        NutFactor,
        ("condition", "source", "locator"),
        {"k_min": FRICTION, "k_max": FRICTION},
        kind="nut-factor",
        name="condition",
        title="Nut factor: {title}",
        words="coefficient of torque k factor",
    ),
    Spec(
        "measured_frictions.csv",
        MeasuredFriction,
        ("id",),
        {
            f"mu_{part}{end}": FRICTION
            for part in ("", "thread_", "head_")
            for end in ("min", "max")
        },
        kind="measured",
        title="Measured friction: {title}",
    ),
    Spec(
        "slip_frictions.csv",
        SlipFriction,
        ("pair", "state"),
        {
            "state": Rule(choices=("dry", "lubricated")),
            "mu_min": FRICTION,
            "mu_max": FRICTION,
        },
        kind="slip",
        name="pair",
        title="Slip between clamped parts: {title}",
    ),
    Spec(
        "torque_factors.csv",
        TorqueFactor,
        ("id",),
        {"factor_min": Rule(above=0, high=2), "factor_max": Rule(above=0, high=2)},
        kind="torque-factor",
        title="Torque factor: {title}",
    ),
    Spec(
        "tightening_methods.csv",
        TighteningMethod,
        ("method", "source", "locator"),
        {
            "scatter_min_pct": PER_CENT,
            "scatter_max_pct": PER_CENT,
            "alpha_min": ALPHA,
            "alpha_max": ALPHA,
            "scatter_alpha_min": ALPHA,
            "scatter_alpha_max": ALPHA,
        },
        derived=("scatter_alpha_min", "scatter_alpha_max"),
        kind="tightening",
        name="method",
        title="Scatter of tightening: {title}",
        words="preload clamp load accuracy spread alpha",
    ),
    Spec(
        "turns_of_nut.csv",
        TurnOfNut,
        ("faces", "grip_from_d"),
        {
            "grip_from_d": NOT_NEGATIVE,
            "grip_to_d": POSITIVE,
            "rotation_deg": Rule(above=0, high=720),
        },
    ),
    Spec(
        "structural_torques.csv",
        StructuralTorque,
        ("thread",),
        {
            "thread": ref("thread"),
            "grade": ref("grade"),
            "preload_n": POSITIVE,
            "torque_nm": POSITIVE,
        },
        kind="structural",
        name="thread",
        title="Structural assembly {thread}, class {grade}",
        words="bolt steelwork preload torque",
    ),
    Spec(
        "plug_torques.csv",
        PlugTorque,
        ("thread", "seat", "head", "source"),
        {
            "thread": ref("thread"),
            "seat": SEAT,
            "head": Rule(choices=("cast iron", "aluminium")),
            "torque_min_nm": POSITIVE,
            "torque_max_nm": POSITIVE,
        },
    ),
    Spec("plug_turns.csv", PlugTurn, ("seat",), {"seat": SEAT}),
    Spec(
        "tapping_torques.csv",
        TappingTorque,
        ("thread",),
        {"thread": ref("thread"), "breaking_nm": POSITIVE},
    ),
    Spec(
        "tempers.csv",
        Temper,
        ("grade",),
        {"grade": ref("grade"), "temper_c": Rule(low=150, high=700)},
    ),
    Spec(
        "embeddings.csv",
        Embedding,
        ("roughness", "place", "load"),
        {
            "place": Rule(choices=("thread", "bearing face", "interface")),
            "load": Rule(choices=("axial", "shear")),
            "embedding_um": POSITIVE,
        },
        kind="embedding",
        name="roughness",
        title="Embedding after tightening: {title}",
    ),
    Spec(
        "wrench_classes.csv",
        WrenchClass,
        ("id",),
        {"small_deviation_pct": PER_CENT, "deviation_pct": PER_CENT},
        kind="wrench-class",
        title="Torque tool class: {title}",
        words="wrench accuracy tolerance calibration",
    ),
    Spec(
        "prevailing_torques.csv",
        PrevailingTorque,
        ("thread", "nut_class"),
        {
            "nut_class": Rule(choices=("04", "5, 6 and 8", "05, 10 and 12")),
            "first_on_max_nm": POSITIVE,
            "first_off_min_nm": POSITIVE,
            "fifth_off_min_nm": POSITIVE,
        },
        kind="prevailing",
        name="thread",
        title="Prevailing torque of self-locking nuts {thread}",
    ),
    Spec(
        "reuse_torques.csv",
        ReuseTorque,
        ("thread", "nut"),
        {"drag_min_inlb": POSITIVE, "drag_min_nm": POSITIVE},
        kept={"drag_min_inlb": float},
        derived=("drag_min_nm",),
        kind="prevailing",
        name="thread",
        title="Prevailing torque of self-locking nuts {thread}",
    ),
    Spec(
        "nut_torques.csv",
        NutTorque,
        ("thread", "nut"),
        {
            "nut": Rule(choices=("tension", "shear")),
            **{
                f"{name}_{unit}": POSITIVE
                for name in ("torque_min", "torque_max", "limit")
                for unit in ("inlb", "nm")
            },
        },
        kept={"torque_min_inlb": float, "torque_max_inlb": float, "limit_inlb": float},
        derived=("torque_min_nm", "torque_max_nm", "limit_nm"),
        kind="nut-torque",
        name="thread",
        title="Torque of cadmium-plated aircraft nuts {thread}",
    ),
)

MATERIALS: tuple[Spec, ...] = (
    Spec(
        "stuffs.csv",
        Stuff,
        ("id",),
        {"family": FAMILY},
        kind="material",
        words="thermal expansion shear tensile strength young modulus bearing pressure boss hole",
    ),
    Spec(
        "pressure_limits.csv",
        PressureLimit,
        ("stuff", "edition"),
        {
            "stuff": ref("stuff"),
            "edition": Rule(choices=("1986", "2003")),
            "tensile_mpa": POSITIVE,
            "pressure_mpa": POSITIVE,
        },
    ),
    Spec(
        "expansions.csv",
        Expansion,
        ("stuff", "source"),
        {"stuff": ref("stuff"), "expansion_per_k": Rule(above=0, high=0.001)},
    ),
    Spec(
        "elasticities.csv",
        Elasticity,
        ("stuff", "source"),
        {
            "stuff": ref("stuff"),
            "modulus_mpa": POSITIVE,
            "shear_modulus_mpa": POSITIVE,
            "poisson": Rule(above=0, high=0.5),
        },
    ),
    Spec(
        "shear_strengths.csv",
        ShearStrength,
        ("stuff", "source"),
        {"stuff": ref("stuff"), "tensile_mpa": POSITIVE, "shear_mpa": POSITIVE},
    ),
    Spec(
        "shear_ratios.csv",
        ShearRatio,
        ("id",),
        {"family": FAMILY, "ratio": Rule(above=0, high=1.5)},
    ),
    Spec(
        "engagements.csv",
        Engagement,
        ("body", "bolts", "series", "source"),
        {
            "tensile_min_mpa": POSITIVE,
            "series": Rule(choices=("coarse", "fine")),
            "length_d": POSITIVE,
        },
        kind="engagement",
        name="body",
        title="Least engagement: {title}",
        words="minimum thread length depth",
    ),
    Spec(
        "bosses.csv",
        Boss,
        ("stuff",),
        {
            "stuff": ref("stuff"),
            "hole_d": Rule(above=0, high=1),
            "outer_d": POSITIVE,
            "length_d": POSITIVE,
        },
    ),
    Spec("anodic_indices.csv", AnodicIndex, ("id",), {"index_v": NOT_NEGATIVE}),
    Spec(
        "metals.csv",
        Metal,
        ("id",),
        {"anodic_index": ref("anodic_index")},
        kind="metal",
        title="In a galvanic pair: {title}",
        words="corrosion index",
    ),
    Spec(
        "environments.csv",
        Environment,
        ("id",),
        {"limit_v": POSITIVE},
        kind="environment",
        title="Galvanic limit: {title}",
    ),
    Spec(
        "sea_potentials.csv",
        SeaPotential,
        ("metal", "electrode"),
        {
            "electrode": Rule(choices=("saturated calomel", "silver chloride")),
            "potential_v": Rule(low=-3, high=1),
        },
        kind="potential",
        name="metal",
        title="Galvanic series in sea water: {title}",
        words="potential salt",
    ),
)
