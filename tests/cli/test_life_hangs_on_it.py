"""What a life hangs on: replace buys none of it, torque sets none of it, repair mends little."""

import json

import pytest
from click.testing import CliRunner

from fastkit.cli import cli
from fastkit.hardware.repair import NEVER_CRITICAL


def told(line):
    """What a line prints, in one line, both streams."""
    return " ".join(CliRunner().invoke(cli, line.split()).output.split())


def document(line):
    """What a line gives as JSON."""
    return json.loads(CliRunner().invoke(cli, [*line.split(), "--json"]).stdout)


@pytest.mark.parametrize(
    ("line", "says"),
    [
        ("m8 shear bolt pto with 12.9", "never a stronger one"),
        ("m10 shear bolt snow blower", "never a stronger one"),
        ("m6 shear pin mower", "never a stronger one"),
        ("shear m8 bolt for the auger gearbox", "never a stronger one"),
        ("m8 conrod bolt", "maker's torque, angle"),
        ("m9 con-rod bolt 10.9", "maker's torque, angle"),
        ("m10 propshaft bolt", "maker's part"),
        ("m10 bolts prop shaft 10.9", "maker's part"),
        ("m12 towbar bolt", "maker's part"),
        ("m12 bolt for the bar to tow", "maker's part"),
        ("m10 tow hook", "maker's part"),
        ("m12 trailer hitch ball bolt", "maker's part"),
        ("m8 mower blade bolt", "maker's part"),
        ("m10 bolt, blade of the mower", "maker's part"),
        ("m10 playground swing bolt", "lock nut where it pivots"),
        ("m10 ladder rung bolt", "lock nut where it pivots"),
        ("m10 climbing frame bolt", "lock nut where it pivots"),
        ("m12 balcony bolt outdoors", "lock nut where it pivots"),
        ("m8 bunk bed bolt", "lock nut where it pivots"),
        ("m10 bolt of the rail on a scaffold tube", "lock nut where it pivots"),
        ("m10 accumulator bracket clamp", "maker's part"),
        ("m6 busbar", "maker's screw"),
        ("m10 eye bolt", "certificate"),
        ("m20x1.5 hub nut", "maker's part"),
        ("m22x1.5 nut on the axle", "maker's part"),
        ("m8 wheelchair bolt", "lock nut where it pivots"),
        ("m8 trampoline leg bolt", "lock nut where it pivots"),
        ("m8 carbon bar stem bolt", "moulded or printed on the part"),
        ("m16 stud steam flange", "maker's part"),
        ("m8 pool roof hanger", "nothing that may fall on people"),
        ("m10 a4 hanger in the roof of a swimming pool", "nothing that may fall on people"),
        ("m10 seat belt anchor", "maker's part"),
        ("m8 roll cage harness bolt", "maker's part"),
    ],
)
def test_no_bolt_from_the_shelf(line, says):
    """Nothing is bought and nothing set by what this computes; it says whose part it is."""
    shown = told(f"replace {line}")

    assert "BUY" not in shown and "CHECK BY" not in shown and " set " not in shown
    assert says in shown
    assert document(f"replace {line}")["options"] == []
    assert "renew" in shown


@pytest.mark.parametrize(
    "line",
    [
        "m10 brake caliper bolt with stainless",
        "m10 caliper bolt 8.8 with a2-70",
        "m10 stainless brake caliper bolt",
        "m12 steering rack bolt 10.9 with A4-80",
    ],
)
def test_stainless_never_where_it_brakes_or_steers(line):
    """ISO 3506-1: A2-70 yields at 450 MPa; ISO 898-1: 8.8 at 640, 10.9 at 940."""
    shown = told(f"replace {line}")

    assert "CHECK BY" not in shown and "BUY" not in shown
    assert "stainless" in shown and "weaker" in shown and "maker's part" in shown


def test_what_is_wanted_is_not_what_it_was():
    """Behind `with` stands what somebody would like; nothing is made up of what was there."""
    old = document("replace m10 brake caliper bolt with stainless")["understood"]

    assert old["finish"] is None and old["grade"] is None
    assert old["safety"] == ["brakes"]


@pytest.mark.parametrize("line", ["m8 stud 600 °C", "m10 exhaust stud 650 °C into cast iron"])
def test_no_stud_is_bought_for_a_heat_that_no_class_held_is_for(line):
    shown = told(f"replace {line}")

    assert "BUY" not in shown and "heat-resistant" in shown


@pytest.mark.parametrize("line", ["m8 stud into alu", "m6 grub screw", "m14x1.5 drain plug"])
def test_what_is_bought_is_not_denied_beside_it(line):
    shown = told(f"replace {line}")

    assert "BUY" in shown and "from the shelf" not in shown


@pytest.mark.parametrize(
    "line",
    [
        "m6 plastic fuel tank",
        "m6 petrol tank plastic boss stripped",
        "tank for petrol m8 stripped",
        "m10 seat belt anchor",
        "m10 child seat anchor stripped",
        "m12 tow bar hole stripped",
        "m10 towing eye thread pulled",
        "m8 carbon frame insert pulled",
        "m8 conrod thread stripped",
    ],
)
def test_not_mended_at_a_bench(line):
    """Refused in a line; nothing is assumed of a body that nobody named."""
    result = CliRunner().invoke(cli, ["repair", *line.split()])

    assert result.exit_code == 1
    assert result.stdout == "" and result.stderr.count("\n") == 1
    assert "aluminium" not in result.stderr and "renewed" in result.stderr


@pytest.mark.parametrize(
    "line",
    [
        "replace m8 sling shackle pin",
        "replace m10 hydraulic accumulator clamp",
        "replace m10 stair lift rail bolt",
        "replace m6 hv busbar",
        "torque m20 10.9 crane slew ring",
        "torque m12 8.8 scaffolding",
        "repair m10 stair lift rail steel",
        "repair m12 crane slew ring hole",
    ],
)
def test_what_is_left_alone_altogether_is_refused_first(line):
    """No command plans for it: one line, and who does it."""
    result = CliRunner().invoke(cli, line.split())

    assert result.exit_code == 1 and result.stdout == ""
    assert "no plan here" in result.stderr


@pytest.mark.parametrize(
    ("line", "seat"),
    [
        ("m10x1 brake bleed hole", "cone"),
        ("m10x1 hole of the bleeder in the brake stripped", "cone"),
        ("brake bleed hole", "cone"),
        ("m8 bleed port of the brake cylinder stripped", "cone"),
        ("m16x1.5 hydraulic port", "face or cone"),
        ("m16x1.5 port in the hydraulic block stripped steel", "face or cone"),
    ],
)
def test_a_port_under_pressure_takes_no_insert(line, seat):
    """Only where its maker says so; where it seals stands on the screen."""
    shown = told(f"repair {line}")
    methods = {option["method"] for option in document(f"repair {line}")["options"]}

    assert seat in shown
    assert not methods & {"wire-insert", "solid-insert", "keyed-insert"}
    assert "maker" in shown


@pytest.mark.parametrize(
    "line",
    [
        "m8 wheelchair frame",
        "m10 playground swing steel stripped",
        "m8 ladder rung alu stripped",
        "m8 bunk bed steel stripped",
        "m10 balcony rail steel stripped",
        "m8 trampoline frame steel stripped",
        "m8 propshaft flange steel stripped",
        "m8 mower blade boss steel stripped",
    ],
)
def test_neither_welded_nor_glued_where_people_sit_climb_or_swing(line):
    shown = told(f"repair {line}")
    methods = {option["method"] for option in document(f"repair {line}")["options"]}

    assert "Stop:" in shown
    assert methods and not methods & set(NEVER_CRITICAL)


@pytest.mark.parametrize(
    "line",
    [
        "m12x1.5 wheel hub steel stripped",
        "m12x1.5 wheel hub cast iron stripped 18 deep",
        "m14x1.5 wheel hub steel stripped 15 deep hole 13.5",
        "m10 brake bracket steel stripped 12 deep",
        "m10x1.25 caliper bracket cast iron stripped 20 deep",
        "m12 suspension arm steel stripped 20 deep",
    ],
)
def test_nothing_weaker_stands_under_nothing_weaker_is_offered(line):
    for option in document(f"repair {line}")["options"]:
        assert option["share_pct"] is None or option["share_pct"] >= 97


@pytest.mark.parametrize(
    ("line", "hangs"),
    [
        ("m10 8.8 seat belt", "restraint"),
        ("m10 10.9 child seat", "restraint"),
        ("m10 8.8 roll cage harness", "restraint"),
        ("m10 10.9 brake caliper", "brakes"),
        ("m12 8.8 eyebolt", "lifting"),
        ("m20x1.5 8.8 hub nut", "hubs"),
        ("m6 8.8 bike stem", "steering"),
        ("m12 8.8 towbar", "towing"),
        ("m12 bar tow 8.8", "towing"),
        ("m12 8.8 propeller nut", "blades"),
        ("m10 8.8 mower blade", "blades"),
        ("m10 8.8 swing", "people"),
        ("m6 8.8 busbar", "current"),
        ("m12 A4-80 climbing anchor", "people"),
        ("m8 8.8 shear bolt", "shear"),
        ("m6 8.8 carbon handlebar stem", "carbon"),
        ("m6 carbon stem bolt 8 Nm ok?", "carbon"),
        ("m5 stem carbon 4 Nm?", "carbon"),
        ("m12 towbar bolt", "towing"),
        ("m10 caliper bolt", "brakes"),
    ],
)
def test_the_makers_value_alone_is_set(line, hangs):
    """The stop comes first, whether or not a class was said; no number stands for a setting."""
    shown = told(f"torque {line}")

    assert shown.startswith(f"Stop: {hangs}")
    assert "Set " not in shown and "set this" not in shown and "GRADE" not in shown
    assert "Window" not in shown and "N·m" not in shown
    found = document(f"torque {line}")
    assert found["critical"] == hangs
    assert found["torque_nm"] is None and found["torque_max_nm"] is None


@pytest.mark.parametrize(
    "line", ["m10 10.9 caliper bolt --why", "m10 10.9 caliper bolt maker 35 Nm"]
)
def test_what_is_reckoned_there_is_told_as_no_setting(line):
    """Walked through when asked for, or beside the maker's value; never as what to set."""
    shown = told(f"torque {line}")

    assert shown.startswith("Stop: brakes")
    assert "not to set by" in shown
    assert "Set " not in shown and "set this" not in shown


@pytest.mark.parametrize(
    "line",
    [
        "radiator plastic drain plug",
        "m14 8.8 radiator plastic drain plug",
        "m10 drain plug plastic 4.8",
        "m12 nylon drain plug into aluminium",
    ],
)
def test_a_plastic_plug_has_its_makers_value_only(line):
    shown = told(f"torque {line}")

    assert "N·m" not in shown and "quarter" not in shown
    assert "plastic" in shown and "maker's value" in shown


@pytest.mark.parametrize(
    "line",
    [
        "replace m8 alternator bracket bolt",
        "replace m6 fuel tank strap bolt",
        "replace m8 swing gate hinge bolt",
        "replace m8 carbon steel bolt bracket",
        "replace m6 ladder frame body mount",
        "replace m6 wheel arch liner screw",
        "replace m6 wiper blade arm screw",
        "replace m8 valve seat cover bolt",
        "replace m6 tailgate lift strut bracket",
        "replace m6 wiring harness clip",
        "replace m8 sheared off bolt flush",
        "torque m8 8.8 pressure plate cover",
        "torque m8 8.8 alternator bracket into alloy",
        "torque m6 8.8 wheel arch liner",
        "torque m6 8.8 wiring harness bracket",
        "torque m6 8.8 fuel tank strap",
        "torque m8 8.8 fan blade shroud",
        "torque m6 8.8 brake light bracket",
        "torque m12 8.8 jack screw of the table",
        "repair m8 steel fuel tank skid plate",
    ],
)
def test_what_hangs_on_nothing_is_answered_as_ever(line):
    shown = told(line)

    assert "BUY" in shown or "Set " in shown or "1 Wire thread insert" in shown
    assert "Stop:" not in shown
