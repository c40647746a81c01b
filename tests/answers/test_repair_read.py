"""A ruined thread told in a hurry: what the words say, and what they do not."""

import pytest

from fastkit.answers.repair import repair
from fastkit.answers.repair_read import read_line
from fastkit.errors import Misuse


@pytest.mark.parametrize(
    ("said", "read"),
    [
        ("m8 aluminium stripped 15 deep wall 3", ("aluminium", "stripped", 15.0, 3.0)),
        (
            "m8 alloy housing, pulled out, depth 15 mm, 3mm wall",
            ("aluminium", "stripped", 15.0, 3.0),
        ),
        ("m8 torn cast-iron 20 thick", ("cast-iron", "stripped", 20.0, None)),
        ("m8 cracked magnesium casing 12 deep", ("magnesium", "cracked", 12.0, None)),
        ("m8 rusty steel thread in the frame 1/2in deep", ("steel", "damaged", 12.7, None)),
        ("m8 tin panel 1 thick stripped", ("sheet", "stripped", 1.0, None)),
    ],
)
def test_material_state_and_sizes(said, read):
    found = read_line(said.split())

    assert read == tuple(found.get(name) for name in ("into", "hole", "depth_mm", "wall_mm"))


@pytest.mark.parametrize(
    ("said", "name", "value"),
    [
        ("m8 hole 6.9", "hole", "oversize:6.9"),
        ("m8 6.9 bore", "hole", "oversize:6.9"),
        ("m8 edge 8", "edge_mm", 8.0),
        ("m8 60 above", "above_mm", 60.0),
        ("m8 12 engaged", "engage_mm", 12.0),
        ("m8 blind", "far_side", "blind"),
        ("m8 through", "far_side", "reachable"),
        ("m8 caliper bracket", "critical", "brakes"),
        ("m8 seat belt anchorage", "critical", "restraint"),
        ("m8 hydraulic block", "critical", "pressure"),
    ],
)
def test_what_else_may_be_said(said, name, value):
    assert value == read_line(said.split())[name]


@pytest.mark.parametrize("said", ["m8 aluminium 15", "m8 steel 15 3 deep", "m8 15 wobbly"])
def test_nothing_is_guessed(said):
    with pytest.raises(Misuse, match="xpected"):
        read_line(said.split())


@pytest.mark.parametrize(
    "said", ["m6 alu stripped", "alu m6 stripped", "stripped in alu 1/4-20", "3/8-16 pulled"]
)
def test_the_thread_may_stand_anywhere(said):
    assert read_line(said.split())["thread"] in {"m6", "1/4-20", "3/8-16"}


@pytest.mark.parametrize(
    ("said", "read"),
    [
        (
            "spark plug thread stripped m14x1.25 alu head",
            {"part": "spark-plug", "into": "aluminium", "hole": "stripped"},
        ),
        ("m18x1.5 oxygen sensor bung stripped", {"part": "exhaust-sensor", "hole": "stripped"}),
        ("m12x1.5 sump plug thread gone alu pan", {"part": "drain-plug", "into": "aluminium"}),
        ("brake bleeder m10x1 stripped caliper", {"part": "bleed-screw", "critical": "brakes"}),
        ("m16x1.5 hydraulic fitting thread torn steel", {"part": "hydraulic-fitting"}),
        ("sump plug stripped", {"part": "drain-plug", "hole": "stripped"}),
        ("m6 in plastic brass insert pulled out", {"into": "plastic", "hole": "stripped"}),
    ],
)
def test_what_sat_in_it_is_read(said, read):
    """What screwed into the hole decides what may be done to it; an insert is no body."""
    found = read_line(said.split())

    assert read == {name: found.get(name) for name in read}
    assert not found.get("not_understood")


def test_the_thread_of_a_part_is_assumed(store):
    """A part named without its thread has the usual one, and that is said."""
    found = repair(**read_line(["spark", "plug", "stripped"], store), store=store)

    assert found.thread == "thread:plug-M14x1.25"
    assert {"what": "thread", "value": "plug-M14x1.25"} in found.assumed
