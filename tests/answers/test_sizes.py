"""Sizes for the fastener in hand, worked by hand from the cells of published tables."""

import pytest

from fastkit.answers.extract import extract
from fastkit.cli.extract_screen import screen

FLUSH = {"damage": "snapped-flush", "thread": "M8", "seized": "painted"}
CAP = {"damage": "stripped", "thread": "M8", "drive": "hex-6mm", "seized": "painted"}
HEXAGON = {"damage": "rounded", "thread": "M8", "drive": "AF-13mm", "seized": "rusted"}

# method, situation, what: value by hand. Root of M8 6.466, its minor 6.647, cap head 13 x 8,
# hexagon head 14.38 over corners and 5.3 high, nut 6.8 high; 1/4-20 minor 4.976
BY_HAND = [
    ("left-hand-drill", FLUSH, {"pilot": 2.2, "left_drill": 4.5, "deep": 16.0}),
    ("spiral-extractor", FLUSH, {"pilot": 2.2, "spiral": 3.97, "deep": 16.0}),
    ("straight-extractor", FLUSH, {"pilot": 2.2, "straight": 4.8}),
    # (6.647 - 4.5) / 2, - 3.97, - 4.8: so far off centre and the drill meets the thread
    ("left-hand-drill", FLUSH, {"off_centre": 1.07, "insert": 8.4}),
    ("spiral-extractor", FLUSH, {"off_centre": 1.34, "insert": 8.4}),
    ("straight-extractor", FLUSH, {"off_centre": 0.92, "insert": 8.4}),
    # 9.3 over the points of E10: the hexagon next below
    ("gripping-socket", {**HEXAGON, "drive": "E10"}, {"over_head": 9.0}),
    # a fifth of the thread wide, a third of the head deep
    ("cut-slot-disc", CAP, {"slot": 1.6, "slot_deep": 2.67, "blade": 1.6}),
    ("cut-slot-disc", {**CAP, "thread": "M5", "drive": "PH2"}, {"slot": 1.0, "blade": 1.0}),
    ("drill-head-off", CAP, {"head_drill": 8.0, "head_deep": 8.0}),
    # (6.647 - 6.2) / 2
    (
        "drill-out-retap",
        FLUSH,
        {"pilot": 2.2, "step": 4.5, "last_drill": 6.2, "off_centre": 0.22, "tap_drill": 6.8},
    ),
    ("drill-out-retap", FLUSH, {"insert": 8.4}),
    (
        "drill-out-retap",
        {**FLUSH, "thread": "1/4-20"},
        {"last_drill": 4.6, "off_centre": 0.19, "tap_drill": 5.105, "insert": 6.747},
    ),
    ("weld-nut", {**FLUSH, "damage": "snapped-proud"}, {"weld_nut": 10.0}),
    ("weld-nut", {**FLUSH, "damage": "snapped-proud", "thread": "3/8-16"}, {"weld_nut": 12.7}),
    ("weld-nut", FLUSH, {"weld_washer": 6.4, "weld_nut": 8.0}),
    ("file-flats", {**HEXAGON, "power": "none"}, {"flats": 12.0, "flats_deep": 0.5}),
    ("file-flats", CAP, {"flats": 11.0, "flats_deep": 1.0}),
    # two nuts of 6.8
    ("stud-grip", {**FLUSH, "damage": "snapped-proud"}, {"two_nuts": 13.6}),
    ("next-size-socket", HEXAGON, {"near": 12.7}),
    ("gripping-socket", CAP, {"over_head": 12.7}),
    ("gripping-socket", HEXAGON, {"biting": 13.0}),
]


def sizes_of(method, **options):
    """The sizes of one method in a situation, by what they are; of several the first."""
    step = next(step for step in extract(**options).plan if step.method == method)
    return {size.what: size for size in reversed(step.sizes)}


@pytest.mark.parametrize(("method", "options", "expected"), BY_HAND)
def test_sizes_are_those_of_the_tables(method, options, expected):
    """To the digits that a drill or a file can hold."""
    found = sizes_of(method, **options)

    assert {what: found[what].mm for what in expected} == pytest.approx(expected, abs=0.011)


def test_the_blade_is_one_of_the_standard_with_its_test_torque():
    """ISO 2380-1: a 10 x 1.6 blade is tested at 25.6 N·m."""
    says = sizes_of("cut-slot-disc", **CAP)["blade"].says

    assert "10 x 1.6" in says
    assert "26 N·m" in says


def test_the_extractor_is_named_by_its_number():
    """As its chart numbers it, and with what wall is left: (6.466 - 3.97) / 2."""
    says = sizes_of("spiral-extractor", **FLUSH)["spiral"].says

    assert "no. 3" in says
    assert "1.25 mm" in says


def test_a_bar_is_held_below_what_the_shank_stands():
    """Three quarters of the 33 N·m at which M8 8.8 breaks (ISO 898-7), on 450 mm: 55 N."""
    size = sizes_of("steady-bar", thread="M8", grade="8.8", drive="AF-13mm", seized="rusted")

    assert size["bar_pull"].values[0] == pytest.approx(55, rel=0.03)


@pytest.mark.parametrize(
    ("seized", "celsius", "seconds"),
    # 0.866 x 13^2 x 5.3 mm3 of head, 8 mm of shank: 9.25 g at 0.486 J/(g K), 4.50 J/K; 800 W go in,
    # and 0.51 W/K into steel: 273 mm2 touch at 0.003 W/K each, then a disc of 13 mm, 2 D k = 1.35;
    # 4.50/0.51 x -ln(1 - 0.51 x 230/800), and 580 K for the other
    [("threadlocked-high", 250, 1.4), ("rusted", 600, 4.1)],
)
def test_heat_is_named_with_what_it_takes(seized, celsius, seconds):
    """Temperature by what holds it, and the least time a coil needs for piece and losses."""
    heat = sizes_of("induction-heat", thread="M8", drive="AF-13mm", seized=seized)["heat"]

    assert heat.values[0] == celsius
    assert heat.values[1] == pytest.approx(seconds, rel=0.05)


def test_no_red_heat_in_a_light_body():
    """Cast aluminium melts from 557 °C on (356.0, materials-science-9), before steel glows."""
    for method in ("flame-heat", "induction-heat"):
        heat = sizes_of(method, thread="M8", drive="AF-13mm", seized="rusted", into="aluminium")
        assert heat["heat"].values[0] == 250
        assert "no higher" in heat["heat"].says


def test_a_warm_body_grows_away_from_its_screw():
    """(21.5 - 11.7) 1e-6 x 8 mm x 80 K = 6.3 um: alloy 356.0, materials-science-9 Table B.6."""
    size = sizes_of("warm-host", thread="M8", drive="AF-13mm", seized="seized", into="aluminium")

    assert size["grows"].mm == pytest.approx(0.0063, rel=0.02)


def test_every_size_says_where_it_comes_from():
    """A source and a standing with each, in the document and in the answer."""
    answer = extract(**FLUSH)
    document = answer.document()
    seen = 0
    for step, row in zip(answer.plan, document["plan"], strict=True):
        assert [size["what"] for size in row["sizes"]] == [size.what for size in step.sizes]
        for size in row["sizes"]:
            seen += 1
            assert set(size) == {"what", "mm", "says", "source", "checked"}
            assert size["says"]
            assert size["source"]
            assert size["checked"] in ("formula", "outside", "copied", "memory", "judgement")
    assert seen > 10


def test_the_first_screen_shows_the_sizes_of_its_first_move():
    """With the thread they hold for where it was only assumed."""
    said = "\n".join(screen(extract("M8 snapped flush, painted, no welder, fuel 100 mm off"), 80))
    assumed = "\n".join(screen(extract("snapped flush, painted, no welder, fuel 100 mm off"), 80))

    assert "pilot 2.2 mm" in said
    assert "4.5 mm" in said
    assert "if it is M8" not in said
    assert "if it is M8" in assumed
