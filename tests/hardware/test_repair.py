"""Repairs: drills as printed, strengths against a twin, and what may never come about."""

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from fastkit.answers.repair import repair
from fastkit.errors import FastkitError, Misuse, NotHeld
from tests.hardware import twin

ALUMINIUM, CAST_IRON, STEEL = 126.0, 275.0, 211.0  # shear strengths of the data's bodies [MPa]
CLASS_88, CLASS_109 = 0.65 * 800, 0.62 * 1040  # VDI 2230-1, share of tensile strength [MPa]

# hole of a wire thread insert as tables print it: DIN 8140 (M), ASME B18.29.1 drills (inch)
INSERT_DRILLS = {
    "M4": 4.2,
    "M5": 5.2,
    "M6": 6.3,
    "M8": 8.4,
    "M10": 10.5,
    "M12": 12.5,
    "M8x1": 8.3,
    "M10x1.25": 10.4,
    "M12x1.5": 12.5,
    "M14x1.25": 14.4,
    "1/4-20": 17 / 64 * 25.4,
    "5/16-18": 0.332 * 25.4,
    "3/8-16": 0.397 * 25.4,
    "1/2-13": 17 / 32 * 25.4,
}
TAP_DRILLS = {"M5": ("M6", 5.0), "M6": ("M8", 6.8), "M8": ("M10", 8.5), "M10": ("M12", 10.2)}


def of(answer, method):
    found = [option for option in answer.options if option.method == method]
    assert found, (method, answer.ruled_out)
    return found[0]


def deep(thread, **more):
    return repair(thread, **{"into": "aluminium", "depth_mm": 40.0, "hole": "stripped", **more})


@pytest.mark.parametrize("thread", INSERT_DRILLS)
def test_insert_drills(store, thread):
    """Drill of the hole that takes the wire insert."""
    option = of(deep(thread, store=store), "wire-insert")

    assert option.drill_mm == pytest.approx(INSERT_DRILLS[thread], abs=0.06)


def test_insert_tap(store):
    """The insert's tap is the thread's own pitch on d + 1.299 P: M6 wants 7.3 over the crests."""
    option = of(deep("M6", store=store), "wire-insert")

    assert "M6" in option.tap and "insert" in option.tap
    assert option.outer_mm == pytest.approx(7.299, abs=0.001)


@pytest.mark.parametrize("thread", TAP_DRILLS)
def test_next_size(store, thread):
    """The next size that shops have, and its tap drill by ISO 2306."""
    option = of(deep(thread, store=store), "next-size")
    size, drill = TAP_DRILLS[thread]

    assert option.tap.startswith(size) and option.drill_mm == pytest.approx(drill, abs=0.051)


@pytest.mark.parametrize(
    ("thread", "into", "grade", "engage", "pair", "body", "screw", "d"),
    [
        ("M6", "aluminium", "8.8", 9.0, twin.M6, ALUMINIUM, CLASS_88, 6.0),
        ("M6", "aluminium", "8.8", 6.0, twin.M6, ALUMINIUM, CLASS_88, 6.0),
        ("M8", "aluminium", "8.8", 16.0, twin.M8, ALUMINIUM, CLASS_88, 8.0),
        ("M8", "cast-iron", "10.9", 12.0, twin.M8, CAST_IRON, CLASS_109, 8.0),
        ("M10", "steel", "10.9", 10.0, twin.M10, STEEL, CLASS_109, 10.0),
    ],
)
def test_before_against_the_twin(store, thread, into, grade, engage, pair, body, screw, d):
    """Strip of the sound thread, hole and screw, within 2 % of the summed patches."""
    answer = repair(thread, into=into, grade=grade, depth_mm=40.0, engage_mm=engage, store=store)
    hole, outside = twin.strengths(pair, engage, body, screw)
    rm = {"8.8": 800.0, "10.9": 1040.0}[grade]

    assert answer.before.thread_n == pytest.approx(hole, rel=0.02)
    weakest = min(hole, outside, twin.tensile(pair.pitch, d, rm))
    assert answer.before.strength_n == pytest.approx(weakest, rel=0.02)


@pytest.mark.parametrize(
    ("thread", "pair", "wire"),
    [("M6", twin.M6, twin.M6_WIRE), ("M8", twin.M8, twin.M8_WIRE)],
)
def test_wire_insert_against_the_twin(store, thread, pair, wire):
    """The insert's outer thread in aluminium, over the length that is recommended."""
    option = of(deep(thread, store=store), "wire-insert")
    hole, _ = twin.strengths(pair, option.length_mm, ALUMINIUM, CLASS_88, wire)

    assert option.thread_n == pytest.approx(hole, rel=0.02)


def test_next_size_against_the_twin(store):
    """M6 to M8: the thread of the larger screw over the same hole."""
    option = of(deep("M6", store=store), "next-size")
    hole, _ = twin.strengths(twin.M8, option.length_mm, ALUMINIUM, CLASS_88)

    assert option.thread_n == pytest.approx(hole, rel=0.02)


def test_an_insert_is_stronger_than_what_stripped(store):
    """Common knowledge of the trade: at the same length the insert's larger thread holds more."""
    for thread in ("M5", "M6", "M8", "M10", "1/4-20", "5/16-18"):
        answer = deep(thread, engage_mm=10.0, store=store)
        option = of(answer, "wire-insert")
        if option.length_mm >= 10.0:
            assert option.share_pct > 100


THREADS = ("M4", "M5", "M6", "M8", "M8x1", "M10", "M12", "1/4-20", "5/16-18", "3/8-16")
SITUATIONS = {
    "thread": st.sampled_from(THREADS),
    "into": st.sampled_from(["steel", "cast-iron", "aluminium", "magnesium", "brass"]),
    "hole": st.sampled_from(["stripped", "oversize:1.08", "cracked", "damaged"]),
    "grade": st.sampled_from(["4.8", "8.8", "10.9"]),
}


def ask(store, thread, hole, **given):
    """Repair with an oversize said as a multiple of the diameter; None where nothing is held."""
    if hole.startswith("oversize"):
        nominal = {"1/4-20": 6.35, "5/16-18": 7.94, "3/8-16": 9.525}.get(
            thread, float(thread.strip("M").partition("x")[0] if thread[0] == "M" else 0)
        )
        hole = f"oversize:{nominal * float(hole.partition(':')[2]):.2f}"
    try:
        return repair(thread, hole=hole, store=store, **given)
    except NotHeld:
        return None


@given(**SITUATIONS, depth=st.floats(4, 40), more=st.floats(0.1, 20))
@settings(max_examples=60)
def test_a_deeper_hole_is_never_weaker(store, thread, into, hole, grade, depth, more):
    """More depth never removes an option nor lowers what its thread holds."""
    common = {"into": into, "hole": hole, "grade": grade, "engage_mm": 4.0}
    shallow = ask(store, thread, depth_mm=depth, **common)
    deeper = ask(store, thread, depth_mm=depth + more, **common)
    if shallow is None:
        return
    after = {option.method: option.thread_n for option in deeper.options}
    for option in shallow.options:
        assert option.method in after, option.method
        if option.thread_n is not None:
            assert after[option.method] >= option.thread_n * (1 - 1e-9), option.method


@given(**SITUATIONS, wall=st.floats(0.2, 20), more=st.floats(0.0, 20))
@settings(max_examples=60)
def test_a_thicker_wall_never_removes_an_option(store, thread, into, hole, grade, wall, more):
    """What was possible beside a thin wall is possible beside a thicker one."""
    common = {"into": into, "hole": hole, "grade": grade, "depth_mm": 25.0}
    thin = ask(store, thread, wall_mm=wall, **common)
    thick = ask(store, thread, wall_mm=wall + more, **common)
    if thin is not None:
        assert {o.method for o in thin.options} <= {o.method for o in thick.options}


@given(
    thread=st.sampled_from(THREADS),
    pair=st.sampled_from([("aluminium", "brass"), ("aluminium", "steel"), ("brass", "steel")]),
    depth=st.floats(4, 40),
)
@settings(max_examples=40)
def test_weaker_metal_never_claims_more(store, thread, pair, depth):
    """At the same depth the thread in the weaker metal holds no more, before and after."""
    weak, strong = (
        ask(store, thread, "stripped", into=into, depth_mm=depth, engage_mm=4.0) for into in pair
    )
    if weak is None or strong is None:
        return
    assert weak.before.thread_n <= strong.before.thread_n
    holds = {option.method: option.thread_n for option in strong.options}
    for option in weak.options:
        if option.thread_n is not None and holds.get(option.method) is not None:
            assert option.thread_n <= holds[option.method] * (1 + 1e-9), option.method


@pytest.mark.parametrize(
    ("given", "error", "said"),
    [
        ({"thread": "M6", "hole": "bent"}, Misuse, "stripped"),
        ({"thread": "M6", "hole": "oversize"}, Misuse, "oversize:"),
        ({"thread": "M6", "hole": "oversize:3"}, Misuse, "oversize"),
        ({"thread": "M6", "depth_mm": -1.0}, Misuse, "depth"),
        ({"thread": "M6", "wall_mm": float("inf")}, Misuse, "wall"),
        ({"thread": "M6", "into": "chesse"}, Misuse, "nearest"),
        ({"thread": "M6x0.1"}, NotHeld, "M6"),
        ({"thread": "1/4-18-NPT"}, NotHeld, "taper"),
    ],
)
def test_bad_input(store, given, error, said):
    with pytest.raises(error) as told:
        repair(given.pop("thread"), store=store, **given)
    assert said in f"{told.value}; nearest: {', '.join(told.value.nearest)}"


def test_short_by(store):
    """What a wall rules out says by how much."""
    answer = repair("M6", into="aluminium", depth_mm=15.0, wall_mm=1.2, store=store)
    ruled = {r.method: r for r in answer.ruled_out}
    assert ruled["keyed-insert"].short_by["axis"] == "wall_mm"
    assert 0 < ruled["keyed-insert"].short_by["amount"] < 4
    assert ruled["keyed-insert"].opens_it


def test_nothing_raises_anything_else(store):
    """Every thread of the data is answered or refused in one line."""
    from fastkit.records.thread import Thread
    from fastkit.reference.lookup import many

    for row in many(store, Thread)[::7]:
        try:
            answer = repair(row.id, store=store)
        except FastkitError:
            continue
        assert answer.options


def test_brittle_bodies_want_more_wall(store):
    """Cast iron and magnesium crack where steel only bulges; common practice."""
    needs = {
        body: of(deep("M8", into=body, store=store), "wire-insert").wall_needed_mm
        for body in ("steel", "aluminium", "cast-iron", "magnesium")
    }
    assert needs["steel"] == needs["aluminium"]
    assert needs["cast-iron"] == needs["magnesium"] >= 1.25 * needs["steel"]


def test_sheet_is_taken_as_thin(store):
    """Where nobody says how thick: 1 to 2 mm, as body panels and brackets are; common practice."""
    taken = {row["what"]: row["value"] for row in repair("M6", into="sheet", store=store).assumed}

    assert 1.0 <= taken["engage_mm"] == taken["depth_mm"] <= 2.0


def test_solid_insert_against_the_twin(store):
    """M8 in a bush of M12x1.5: the bush's outer thread in aluminium, 6H, over its length."""
    option = of(deep("M8", store=store), "solid-insert")
    bush = twin.M8._replace(pitch=1.5, screw_d=12.0, hole_d2=11.026 + 0.190)
    carried = option.length_mm - 0.8 * 1.25
    shear = ALUMINIUM * twin.area(bush, carried, internal=True)
    screw = CLASS_88 * twin.area(twin.M8, carried, internal=False)
    ratio = shear / screw
    c3 = 0.897 if ratio > 1 else 0.728 + ratio * (1.769 + ratio * (-2.896 + ratio * 1.296))

    assert option.thread_n == pytest.approx(c3 * shear, rel=0.02)


def test_a_hole_that_is_there_is_not_drilled(store):
    """6.9 mm wide already: M8's 6.8 mm tap drill has nothing to do, the bush's 8 mm has."""
    answer = repair("M6", hole="oversize:6.9", depth_mm=20.0, store=store)
    assert of(answer, "next-size").drill_mm is None
    assert of(answer, "solid-insert").drill_mm == pytest.approx(8.0)
