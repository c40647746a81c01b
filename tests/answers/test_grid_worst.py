"""A class answers for its worst: whoever lies in it has no less room, no nearer neighbour."""

import pytest
from hypothesis import HealthCheck, assume, given, settings
from hypothesis import strategies as st

from fastkit.answers.facts import drive_from_size, gather
from fastkit.answers.grid_classes import ABOVE, AXES, BESIDE, DAMAGE, NEAR, SEIZURE, every
from fastkit.answers.grid_stuck import Planner
from fastkit.extraction.situation import Near, Situation
from fastkit.extraction.solving import solve, sorted_out
from fastkit.records.drive import Drive
from fastkit.records.hazard import Clearance, Neighbour
from fastkit.reference.lookup import get, many
from tests.extraction.coarse import COARSE, TINY, expected

FEW = settings(
    max_examples=40,
    deadline=None,
    suppress_health_check=[HealthCheck.function_scoped_fixture, HealthCheck.filter_too_much],
)
FORBIDDEN = ("neighbour", "veto")
SHORT = ("too_short_above", "too_narrow_beside", "swing_too_small", "side_too_small")
# rules that spare a remedy for what is not there, or does not stir under a hand
HARMLESS = ("no-bond", "sound-head", "hand-too-weak", "hand-too-weak-galled", "nothing-captive")
LIGHT = ("aluminium", "magnesium")
THINGS = (
    *("fuel", "brake-fluid", "electronics", "wiring", "rubber", "plastic", "paint", "battery"),
    *("bearing", "airbag", "refrigerant", "tyre", "pressurised", "running", "hot", "live"),
    *("implant", "lead-paint", "fluororubber", "ptfe", "sodium", "beryllium", "hollow"),
)
THREADS = {"M3x0.5": 3, "M4x0.7": 4, "M5x0.8": 5, "M6x1": 6, "1/4-20-UNC": 6.35}
THREADS |= {"5/16-18-UNC": 7.94, "M8x1.25": 8, "M10x1.5": 10, "M12x1.75": 12, "M16x2": 16}
WARMS_BETTER = 1.0001  # cast iron, the corner's body, takes heat a hair better than steel
FREE = 10_000.0  # what a length that is not named counts as


def room(least, most):
    """A length free beyond all, or some number of mm about the bounds."""
    return st.one_of(st.none(), st.floats(least, most, allow_nan=False))


STATES = (
    *(("screw", damage) for damage in ("intact", "worn", "stripped", "tool-stuck", "spinning")),
    *(("bolt", damage) for damage in ("intact", "worn", "rounded", "spinning", "nut-spinning")),
    *(("nut", damage) for damage in ("intact", "rounded", "spinning")),
    *((kind, "snapped-proud") for kind in ("screw", "bolt", "stud")),
    *(("stud", damage) for damage in ("intact", "snapped-flush", "snapped-below")),
    *(("bolt", "extractor-broken"), ("tube-nut", "rounded")),
)
SEIZED = (
    *("none", "rusted", "seized", "galled", "painted", "threadlocked-low", "threadlocked-medium"),
    "threadlocked-high",
)


@st.composite
def situations(draw):
    """A fastener in any state, anywhere, beside anything; its drive is the likeliest."""
    kind, damage = draw(st.sampled_from(STATES))
    near = st.dictionaries(st.sampled_from(THINGS), st.floats(0, 500), max_size=3)
    return Situation(
        kind=kind,
        thread=draw(st.sampled_from(sorted(THREADS))),
        damage=damage,
        seized=draw(st.sampled_from(SEIZED)),
        above_mm=draw(room(20, 400)),
        beside_mm=draw(room(5, 60)),
        swing_deg=draw(room(20, 120)),
        side_mm=draw(st.one_of(st.none(), st.tuples(st.floats(0, 80), st.floats(0, 60)))),
        near=tuple(Near(*item) for item in sorted(draw(st.one_of(st.just({}), near)).items())),
        into=draw(st.sampled_from(["steel", "cast-iron", "aluminium", "magnesium", "plastic"])),
    )


def completed(store, situation):
    """The situation with the drive and class that are likeliest; None where data have none."""
    size = situation.thread.partition("x")[0] if situation.thread[0] == "M" else None
    size = size or situation.thread.partition("-")[0]
    drive = None
    if situation.damage not in (
        *("snapped-proud", "snapped-flush", "snapped-below", "extractor-broken"),
    ):
        drive = drive_from_size(store, situation.kind, size, None)
    grade = "8.8" if situation.thread[0] == "M" else "SAE-5"
    return situation._replace(drive=drive, grade=grade)


def wide(value):
    """A length or angle that may be free."""
    return FREE if value is None else value


def holds(each, situation, system, size_mm):
    """Whether a class takes a situation in, by what it publishes of itself."""
    have = {
        "kind": situation.kind,
        "damage": situation.damage,
        "seized": situation.seized,
        "into": situation.into,
    }
    for field, values in each.takes.items():
        if field in have:
            if have[field] not in values:
                return False
        elif field == "system":
            if system not in values:
                return False
        elif field == "near":
            if {near.thing for near in situation.near} - set(values):
                return False
        elif field == "size_mm":
            if not values[0] <= size_mm <= values[1]:
                return False
        elif field == "side_mm":
            side = situation.side_mm or (FREE, FREE)
            if side[0] < values[0] or side[1] < values[1]:
                return False
        elif wide(getattr(situation, field)) < values[0]:
            return False
    return True


def placed(store, situation):
    """The mix of classes that a careful reader picks: the widest room, the mildest of the rest."""
    system = get(store, Drive, situation.drive).system if situation.drive else None
    found = []
    for axis in AXES:
        held = [
            each
            for each in axis.classes
            if holds(each, situation, system, THREADS[situation.thread])
        ]
        if not held:
            return None
        found.append(held[-1].id if axis in (ABOVE, BESIDE) else held[0].id)
    return tuple(found)


def test_corners_lie_in_their_own_classes(store):
    """Each corner is taken in by the class it stands for; so no class answers for better."""
    planner = Planner(store)
    for picks in [mix for mix in every() if mix[0] != "tube-nut-rounded"][::7]:
        situation, facts = planner.situation(picks)
        system = facts.drive.system if facts.drive else None
        for axis, pick in zip(AXES, picks, strict=True):
            each = next(one for one in axis.classes if one.id == pick)
            assert holds(each, situation, system, facts.thread.nominal_mm), (axis.id, picks)
        near = next(one for one in NEAR.classes if one.id == picks[4])
        assert {beside.thing for beside in situation.near} == set(near.takes["near"])
        assert not any(beside.mm for beside in situation.near)


def test_what_is_worse_than_a_corner_lies_in_no_class_of_it(store):
    """A hair less room, a hair more to harm: never the plan of that corner."""
    planner = Planner(store)
    less = {
        "above": [{"above_mm": -0.1}],
        "beside": [{"beside_mm": -0.1}, {"swing_deg": -0.1}],
    }
    for axis in (ABOVE, BESIDE):
        for each in axis.classes:
            picks = tuple(each.id if one is axis else one.classes[-1].id for one in AXES)
            situation, _ = planner.situation(picks)
            for change in less[axis.id]:
                worse = situation._replace(
                    **{field: getattr(situation, field) + by for field, by in change.items()}
                )
                assert not holds(each, worse, "hexagon", 8.0)
            if axis is BESIDE and each is not BESIDE.classes[0]:
                narrow = situation._replace(side_mm=(situation.side_mm[0], 1.0))
                assert not holds(each, narrow, "hexagon", 8.0)
    for thing in THINGS:
        for each in NEAR.classes:
            if thing not in each.takes["near"]:
                near = Situation(into=each.takes["into"][0], near=(Near(thing, 9000.0),))
                assert not holds(each, near, None, 8.0)


def inside_a_class(situation, store):
    """The situation completed, the worst corner of the class it lies in, that corner's facts."""
    situation = completed(store, situation)
    picks = placed(store, situation)
    assume(picks is not None)
    return situation, *Planner(store).situation(picks)


@given(situation=situations())
@FEW
def test_corner_has_no_more_room_and_no_further_neighbour(situation, store):
    """On every axis, whatever the class says of itself."""
    situation, corner, _ = inside_a_class(situation, store)

    assert corner.above_mm <= wide(situation.above_mm)
    assert corner.beside_mm <= wide(situation.beside_mm)
    assert corner.swing_deg <= wide(situation.swing_deg)
    side = situation.side_mm or (FREE, FREE)
    assert corner.side_mm[0] <= side[0] and corner.side_mm[1] <= side[1]
    at = {near.thing: near.mm for near in corner.near}
    assert all(at[near.thing] <= near.mm for near in situation.near)
    assert corner.into == ("magnesium" if situation.into in LIGHT else "cast-iron")


@given(situation=situations())
@FEW
def test_nothing_offered_at_the_corner_is_forbidden_inside(situation, store):
    """No neighbour, rule or want of room bars what the plan of the class offers."""
    situation, corner, facts = inside_a_class(situation, store)
    offered = {choice.move for choice in sorted_out(solve(corner, facts, *COARSE))[0]}
    solved = solve(situation, gather(store, situation), *COARSE)
    state = solved.state
    out = solved.options.shut(state.damage, state.residue, state.room)

    barred = {
        row.method
        for row in out
        if row.because.code in (*FORBIDDEN, *SHORT)
        and not str(row.because.values[0]).endswith(HARMLESS)
    }
    assert not offered & barred


@given(data=st.data())
@FEW
def test_nobody_inside_is_worse_off_than_the_corner(data, store):
    """More room, fewer neighbours, milder damage, bond and metal: never a longer way out."""
    planner = Planner(store)
    picks = data.draw(st.sampled_from(list(every())))
    corner, facts = planner.situation(picks)
    classes = [
        next(one for one in axis.classes if one.id == pick)
        for axis, pick in zip(AXES, picks, strict=True)
    ]
    inside = corner._replace(
        damage=data.draw(st.sampled_from(classes[0].takes["damage"])),
        seized=data.draw(st.sampled_from(classes[1].takes["seized"])),
        above_mm=data.draw(st.sampled_from([corner.above_mm, corner.above_mm + 40, None])),
        beside_mm=data.draw(st.sampled_from([corner.beside_mm, corner.beside_mm + 6, None])),
        swing_deg=data.draw(st.sampled_from([corner.swing_deg, None])),
        near=data.draw(st.sets(st.sampled_from(corner.near)).map(tuple)) if corner.near else (),
        into=data.draw(st.sampled_from(classes[4].takes["into"])),
    )

    if expected(inside, facts) > expected(corner, facts) + TINY:  # or the grid is too coarse
        assert expected(inside, facts, ()) <= expected(corner, facts, ()) * WARMS_BETTER


def test_every_neighbour_is_in_a_class_or_named_as_outside(store):
    """What the data knows as a neighbour counts somewhere, or is sent to the command line."""
    known = {row.id for row in many(store, Neighbour)}
    inside = {thing for each in NEAR.classes for thing in each.takes["near"]}

    assert set(THINGS) == known
    danger = {"running", "hot", "live", "implant"}
    poison = {"lead-paint", "fluororubber", "ptfe", "sodium", "beryllium"}
    named = {"bearing", "airbag", "battery", "pressurised", "refrigerant", "hollow"}
    assert known - inside == named | danger | poison
    for word in (
        "bearing",
        "airbag",
        "battery",
        "pressure",
        "refrigerant",
        "hollow",
        "running",
        "poison",
    ):
        assert word in NEAR.outside[0].lower()


def test_nearest_neighbours_forbid_most(store):
    """Touching is the worst place: no clearance forbids further off what it allows nearer."""
    assert all(0 <= row.forbid_mm <= row.shield_mm for row in many(store, Clearance))


@pytest.mark.parametrize("axis", [DAMAGE, SEIZURE], ids=lambda axis: axis.id)
def test_each_state_lies_in_a_class_or_outside(axis):
    """Every damage and bond of the command line is in a class of its axis."""
    from fastkit.answers.options import CHOICES

    field = {"damage": "damage", "seizure": "seized"}[axis.id]
    assert set(CHOICES[field]) == {one for each in axis.classes for one in each.takes[field]}
