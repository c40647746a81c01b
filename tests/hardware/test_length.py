"""Lengths and engagement: published series and rules, and the handbook's own formula."""

from math import pi, sqrt

import pytest
from hypothesis import given
from hypothesis import strategies as st

from fastkit.answers.replace_parts import rows
from fastkit.hardware.length import equal_strength, made, need, tapped, threaded_mm, through
from fastkit.joint.choice import strength_at
from fastkit.joint.strip import bolt_shear, overlap, strip_loads
from fastkit.records.grade import GradeRow
from fastkit.reference import resolve
from fastkit.reference.lookup import many

# A mechanical engineer's data handbook, table of ISO metric precision hexagon nuts and bolts
BOLTS = "20 25 30 35 40 45 50 55 60 65 70 75 80 90 100 110 120 130 140 150"
SCREWS = "10 12 16 18 20 22 25 30 35 40 45 50 55 60 70"
# the same table: threaded length of bolts up to 125 mm
THREADED = {5: 16, 6: 18, 8: 22, 10: 26, 12: 30, 16: 38, 20: 46, 24: 54}


@pytest.fixture(scope="module")
def held(store):
    return {name: rows(store, resolve.thread(store, name), ()) for name in ("M6", "M8", "M10")}


def row_of(store, grade, thread):
    return strength_at(many(store, GradeRow, grade=grade), thread)


@pytest.mark.parametrize("printed", [BOLTS, SCREWS], ids=["bolts", "screws"])
def test_published_lengths_are_made(held, printed):
    """Each length that the handbook prints is one of ours."""
    ours = {row.length_mm for row in made(held["M8"].lengths, (), (), "any", "M8")}

    assert set(map(float, printed.split())) <= ours


@pytest.mark.parametrize("d", THREADED)
def test_threaded_length_is_the_printed_one(held, d):
    """2 d + 6, as the handbook prints it by size."""
    assert THREADED[d] == threaded_mm(held["M8"].threaded, 100.0, d, "hexagon")


@pytest.mark.parametrize(
    ("body", "grade", "diameters"),
    [  # trials M6 to M16, 6g in 6H, as a fastener catalogue prints them
        ("steel", "8.8", 1.0),
        ("steel", "10.9", 1.25),
        ("steel", "12.9", 1.4),
        ("cast-iron", "8.8", 1.0),
        ("cast-iron", "10.9", 1.25),
        # TM 9-6115-604, p. 1-11
        ("aluminium", "8.8", 2.0),
    ],
)
def test_rule_is_the_published_one(held, store, body, grade, diameters):
    """The rule's length is the table's, in diameters."""
    thread = held["M10"].facts.thread
    found = need(thread, row_of(store, grade, thread), body, None, held["M10"].engagements)

    assert diameters * 10 == found.rule_mm


def test_a_fine_thread_goes_a_quarter_deeper(held, store):
    """A machine elements book, table of least engagement: 25 % more for a fine pitch."""
    thread = resolve.thread(store, "M10x1.25")
    strength = row_of(store, "8.8", thread)
    found = need(thread, strength, "steel", None, held["M10"].engagements)

    assert 1.25 * 10 == found.rule_mm


@pytest.mark.parametrize("name", ["M6", "M8", "M10", "M16", "1/4-20-UNC", "3/8-16-UNC"])
def test_formula_is_that_of_the_handbook(store, name):
    """
    FED-STD-H28/2B: Le = 2 At / (pi n Kn,max [1/(2 n) + 0.57735 (Es,min - Kn,max)]) for equal
    materials, where the external thread strips; ours is that with VDI 2230-1's factor C2 of a
    nut more than 2.2 times as strong, and 0.8 P of chamfer more.
    """
    thread = resolve.thread(store, name)
    ends = overlap(thread)
    n = 1 / thread.pitch_mm
    per_mm = pi * n * ends.d1_max * (1 / (2 * n) + (ends.d2_min - ends.d1_max) / sqrt(3))
    handbook = 2 * thread.stress_area_mm2 / per_mm
    strength = row_of(store, "8.8" if thread.family == "M" else "SAE-5", thread)
    # equal materials with half the tensile strength in shear
    equal = strength._replace(grade="any", tensile_min_mpa=2.0)
    shear = bolt_shear(equal)
    rs = 2.2
    c2 = 5.594 - 13.682 * rs + 14.107 * rs**2 - 6.057 * rs**3 + 0.9353 * rs**4
    expected = handbook / (2 * shear / 2.0) / c2 + 0.8 * thread.pitch_mm

    assert expected == pytest.approx(equal_strength(thread, equal, 10 * shear), rel=1e-6)


@given(
    engage=st.floats(2.0, 40.0),
    more=st.floats(0.0, 20.0),
    shear=st.floats(50.0, 600.0),
    name=st.sampled_from(["M6", "M8", "M10"]),
)
def test_longer_engagement_is_never_weaker(held, engage, more, shear, name):
    """Neither thread of a pair gets weaker by engaging longer."""
    thread = held[name].facts.thread
    here = strip_loads(thread, 500.0, shear, engage)
    there = strip_loads(thread, 500.0, shear, engage + more)

    assert here.internal_n <= there.internal_n * (1 + 1e-9)
    assert here.external_n <= there.external_n * (1 + 1e-9)


@given(st.floats(80.0, 400.0), st.floats(1.0, 200.0))
def test_a_stronger_body_needs_no_more(held, shear, more):
    """Equal strength is reached no later in a stronger body."""
    thread = held["M8"].facts.thread
    row = next(r for r in held["M8"].facts.strengths["8.8"] if r.size_from_mm <= 8 <= r.size_to_mm)

    here, there = (equal_strength(thread, row, s) for s in (shear, shear + more))

    assert there <= here * (1 + 1e-9)


@given(
    over=st.floats(1.0, 80.0),
    needed=st.floats(4.0, 25.0),
    depth=st.one_of(st.none(), st.floats(3.0, 40.0)),
)
def test_a_screw_never_bottoms_and_is_no_longer_than_it_must(held, over, needed, depth):
    """The made length leaves two pitches free, engages enough where it can, and says if not."""
    rows_ = held["M8"]
    lengths = made(rows_.lengths, (), rows_.ranges, "ISO 4017", "M8")
    found = tapped(lengths, rows_.facts.thread, over, needed, 0.9 * needed, depth)
    if found is None:
        return
    assert found.length_mm in {row.length_mm for row in lengths}
    assert found.engaged_mm == pytest.approx(found.length_mm - over)
    if depth is not None:
        assert found.engaged_mm <= depth - 2 * rows_.facts.thread.pitch_mm + 1e-5
    assert found.short == (found.engaged_mm < 0.9 * needed - 1e-5)
    if not found.short and not found.uncommon:
        shorter = [r.length_mm for r in lengths if not r.avoid and r.length_mm < found.length_mm]
        assert not shorter or max(shorter) < over + 0.9 * needed


@given(over=st.floats(1.0, 60.0), nut=st.floats(3.0, 12.0))
def test_two_pitches_stand_out_of_the_nut(held, over, nut):
    """At least two, and no longer than the next common length asks for."""
    rows_ = held["M8"]
    lengths = made(rows_.lengths, (), rows_.ranges, "ISO 4017", "M8")
    found = through(lengths, rows_.facts.thread, over, nut)
    if found is not None:
        assert found.protrudes_mm >= 2 * rows_.facts.thread.pitch_mm - 1e-5
