"""The torque window: what it promises holds however the joint is made up."""

from itertools import product

import pytest
from hypothesis import assume, given
from hypothesis import strategies as st

from fastkit.joint.breakaway import breakaway_torque, loser
from fastkit.joint.breaking import breaking_torque, ratio_is_listed, torsion_ratio
from fastkit.joint.choice import fits, head_of, strength_at
from fastkit.joint.opening import of_class, openings, stretched
from fastkit.joint.seat import Seat, seat
from fastkit.joint.strip import bolt_shear, overlap, strip_loads
from fastkit.joint.window import (
    Joint,
    arm,
    limits,
    reached,
    settable,
    table_row,
    table_values,
    window,
)
from fastkit.mechanics import thread as profile
from fastkit.records.friction import Friction
from fastkit.records.grade import Grade, GradeRow
from fastkit.records.head import Head
from fastkit.records.thread import Thread

WHENCE = ("book", "p. 1", "copied")


def a_thread(d=8.0, p=1.25, family="M"):
    """A thread of any size."""
    unified = family == "UN"
    return Thread._make(
        (
            *(f"{family}{d:g}x{p:g}", family, "coarse", f"{family}{d:g}", d, p),
            *(25.4 / p if unified else None, 60.0),
            *(profile.pitch_diameter(d, p), profile.minor_diameter(d, p)),
            profile.root_diameter(d, p),
            (profile.unified_stress_area if unified else profile.stress_area)(d, p),
            *WHENCE,
        )
    )


def a_row(grade="8.8", tensile=800.0, limit=640.0, low=0.0, high=39.0):
    """The strength of a class."""
    return GradeRow._make((grade, "all", low, high, tensile, limit, None, None, *WHENCE))


def a_head(form="hexagon", standard="ISO 4014", bearing=None, diameter=14.0, cone=None):
    """A head on an M8."""
    return Head._make(("x", standard, form, "M8", "AF-13mm", diameter, 5.0, bearing, cone, *WHENCE))


SEAT = Seat(11.63, 9.0, 90.0, "printed")
M8 = Joint(a_thread(), 640.0, 800.0, SEAT, 0.08, 0.12, 0.16)
FORCES = ("strip_n", "bolt_strip_n", "nut_proof_n")
joints = st.builds(
    lambda d, share, ring, low, spread, more: Joint(
        a_thread(d, d * share),
        640.0,
        800.0,
        Seat(1.5 * d * ring, 1.1 * d, 90.0, "printed"),
        low,
        low * (1 + spread / 2),
        low * (1 + spread),
        **more,
    ),
    st.floats(2.0, 39.0),
    st.floats(0.07, 0.22),
    st.floats(0.9, 1.6),
    st.floats(0.04, 0.3),
    st.floats(0.0, 1.5),
    st.fixed_dictionaries(
        {
            "utilisation": st.floats(0.5, 1.0),
            "wrench_error": st.floats(0.0, 0.2),
            "prevailing_nmm": st.floats(0.0, 3e3),
            "strip_n": st.none() | st.floats(5e2, 1e6),
            "bearing_mpa": st.none() | st.floats(50.0, 1000.0),
            "drive_nmm": st.none() | st.floats(5e3, 1e6),
            "bolt_strip_n": st.none() | st.floats(5e2, 1e6),
            "nut_proof_n": st.none() | st.floats(5e2, 1e6),
            "mu_head": st.none()
            | st.tuples(st.floats(0.04, 0.1), st.floats(0.1, 0.2), st.floats(0.2, 0.4)),
        }
    ),
)


@given(joints, st.tuples(*[st.floats(0, 1)] * 4))
def test_every_setting_keeps_its_promise(joint, inside):
    """
    Twin: any setting inside, any friction, any wrench error, by the sum written out again here.

    Never above the weakest limit, never below the clamp: at one place inside and at every corner.
    """
    found = window(joint)
    assume(not found.empty)
    for where, friction, under, wrench in (inside, *product((0.0, 1.0), repeat=4)):
        setting = found.torque_min_nmm + where * (found.torque_max_nmm - found.torque_min_nmm)
        mu = joint.mu_min + friction * (joint.mu_max - joint.mu_min)
        head = mu
        if joint.mu_head is not None:
            head = joint.mu_head[0] + under * (joint.mu_head[2] - joint.mu_head[0])
        kept(joint, found, mu, head, setting * (1 + joint.wrench_error * (2 * wrench - 1)))


def kept(joint, found, mu, head, true):
    """What a true torque at one friction gives lies between the clamp and every limit."""
    thread, ring = joint.thread, joint.seat
    lever = (
        0.159155 * thread.pitch_mm
        + 0.57735 * mu * thread.pitch_diameter_mm
        + head * (ring.d_w_mm + ring.d_h_mm) / 4
    )
    force = (true - joint.prevailing_nmm) / lever

    assert found.preload_min_n * (1 - 1e-4) <= force <= found.preload_max_n * (1 + 1e-4)
    for stands in (joint.strip_n, joint.bolt_strip_n, joint.nut_proof_n):
        assert stands is None or force <= stands * (1 + 1e-4)
    assert joint.drive_nmm is None or true <= joint.drive_nmm * (1 + 1e-6)
    stress = force / thread.stress_area_mm2
    d_s = (4 * thread.stress_area_mm2 / 3.14159265) ** 0.5
    torsion = (
        12
        * force
        * (0.159155 * thread.pitch_mm + 0.57735 * mu * thread.pitch_diameter_mm)
        / (3.14159265 * d_s**3)
    )
    assert (stress**2 + 3 * torsion**2) ** 0.5 <= joint.utilisation * 640 * (1 + 1e-4)


@given(joints, st.floats(1.0, 1.5), st.floats(0.0, 0.1))
def test_scatter_and_wrench_error_shrink_it(joint, wider, worse):
    """More friction scatter or a worse wrench: lowest up, highest down."""
    clamp = 0.3 * table_values(joint)[1]
    before = window(joint._replace(clamp_n=clamp))
    after = window(
        joint._replace(
            clamp_n=clamp,
            mu_min=joint.mu_min / wider,
            mu_max=min(joint.mu_max * wider, 1.0),
            wrench_error=joint.wrench_error + worse,
        )
    )

    assert after.torque_min_nmm >= before.torque_min_nmm * (1 - 1e-9)
    assert after.torque_max_nmm <= before.torque_max_nmm * (1 + 1e-9)


@given(joints)
def test_doubled_lengths_quadruple_forces_and_octuple_torques(joint):
    """The whole window scales, its governing limit stays."""
    thread, ring = joint.thread, joint.seat

    def times(value, factor):
        return None if value is None else value * factor

    lengths = ("nominal_mm", "pitch_mm", "pitch_diameter_mm", "minor_mm", "root_mm")
    double = joint._replace(
        thread=thread._replace(
            **{name: 2 * getattr(thread, name) for name in lengths},
            stress_area_mm2=4 * thread.stress_area_mm2,
        ),
        seat=ring._replace(d_w_mm=2 * ring.d_w_mm, d_h_mm=2 * ring.d_h_mm),
        **{name: times(getattr(joint, name), 4) for name in FORCES},
        prevailing_nmm=8 * joint.prevailing_nmm,
        drive_nmm=times(joint.drive_nmm, 8),
    )
    one, two = window(joint), window(double)

    assert 8 * one.torque_min_nmm == pytest.approx(two.torque_min_nmm)
    assert 8 * one.torque_max_nmm == pytest.approx(two.torque_max_nmm)
    assert 4 * one.preload_max_n == pytest.approx(two.preload_max_n)
    assert one.nut_factor == pytest.approx(two.nut_factor)


@given(joints)
def test_limits_come_lowest_first_and_bound_the_top(joint):
    """The first limit is the one that governs; every other is above it."""
    found = limits(joint)

    assert list(found) == sorted(found, key=lambda limit: limit.torque_nmm)
    assert window(joint).torque_max_nmm * (1 + joint.wrench_error) == pytest.approx(
        found[0].torque_nmm
    )
    assert {"yield"} <= {limit.name for limit in found}


@given(joints, st.floats(1e3, 1e5))
def test_what_is_reached_rises_as_friction_falls(joint, setting):
    """Least first: highest friction with the wrench low, to lowest friction with it high."""
    low, middle, high = reached(joint, setting)

    assert low.preload_n <= middle.preload_n <= high.preload_n
    assert low.utilisation <= high.utilisation * (1 + 1e-9)


@given(st.floats(1.0, 1e7))
def test_settable_is_a_mark_below(torque):
    """Rounded down, by less than a twentieth from 0.2 N·m up."""
    mark = settable(torque)

    assert mark <= torque * (1 + 1e-9)
    assert torque < 200 or mark >= 0.95 * torque
    assert settable(torque, torque) == torque or settable(torque, torque) >= torque


def test_single_friction_true_wrench_is_the_table():
    """Without scatter the highest torque is what tables print; M8 8.8: 24.6 N·m in VDI 2230-1."""
    joint = M8._replace(mu_min=0.12, mu_max=0.12, wrench_error=0.0)
    torque, preload = table_values(joint)

    assert 24.6e3 == pytest.approx(torque, rel=0.01)
    assert 18.6e3 == pytest.approx(preload, rel=0.01)
    assert torque == pytest.approx(window(joint).torque_max_nmm)
    assert 0.4 * preload == pytest.approx(window(joint).preload_min_n)


def test_each_limit_governs_in_its_turn():
    """Its name, and what gives way when overdone."""
    strip = window(M8._replace(strip_n=8e3, clamp_n=1e3))
    seat_ = window(M8._replace(bearing_mpa=100.0, clamp_n=1e3))
    spread = window(M8._replace(bearing_mpa=100.0, spread_mm=30.0, clamp_n=1e3))
    drive = window(M8._replace(drive_nmm=5e3, clamp_n=1e3))
    bolt = window(M8._replace(bolt_strip_n=8e3, strip_n=9e3, clamp_n=1e3))
    nut = window(M8._replace(nut_proof_n=8e3, clamp_n=1e3))

    assert ("thread-strip", "internal-thread") == (strip.limits[0].name, strip.weakest_part)
    assert ("bearing-pressure", "shank") == (seat_.limits[0].name, seat_.weakest_part)
    assert "yield" == spread.limits[0].name
    assert ("bolt-thread-strip", "external-thread") == (bolt.limits[0].name, bolt.weakest_part)
    assert "thread-strip" == bolt.limits[1].name
    assert ("nut-proof", "shank") == (nut.limits[0].name, nut.weakest_part)
    assert ("drive", "drive") == (drive.limits[0].name, drive.weakest_part)
    assert 5e3 == pytest.approx(drive.torque_max_nmm * 1.04)


@pytest.mark.parametrize(
    ("change", "argument"),
    [
        ({"mu_min": 0.0}, "mu_min"),
        ({"mu_min": 0.2}, "mu_mid"),
        ({"mu_max": 0.1}, "mu_max"),
        ({"mu_max": 1.2}, "mu_max"),
        ({"utilisation": 0.0}, "utilisation"),
        ({"utilisation": 1.1}, "utilisation"),
        ({"wrench_error": -0.1}, "wrench_error"),
        ({"wrench_error": 0.6}, "wrench_error"),
        ({"prevailing_nmm": -1.0}, "prevailing_nmm"),
        ({"clamp_n": float("nan")}, "clamp_n"),
        ({"mu_head": (0.0, 0.1, 0.2)}, "mu_head"),
        ({"mu_head": (0.2, 0.1, 0.3)}, "mu_head"),
    ],
)
def test_bad_joints_are_refused(change, argument):
    """Argument, value and bound are named."""
    with pytest.raises(ValueError, match=f"{argument} must be"):
        window(M8._replace(**change))


@given(joints, st.floats(0.5, 0.99))
def test_what_opens_it_does(joint, asked):
    """Each way named opens the window by itself; an open one needs none."""
    joint = joint._replace(clamp_n=asked * table_values(joint)[1])
    classes = [a_row("10.9", 1040.0, 940.0), a_row("12.9", 1220.0, 1100.0)]
    ways = openings(joint, classes)

    assert (
        window(joint).empty == bool(ways)
        or window(joint).torque_max_nmm * (1 - joint.wrench_error) <= joint.prevailing_nmm
    )
    for way in ways:
        higher = next((row for row in classes if row.grade == way.name), classes[0])
        change = {
            "known-lubricant": {"mu_min": 0.08, "mu_mid": 0.10, "mu_max": 0.12, "mu_head": None},
            "finer-wrench": {"wrench_error": 0.01},
            "longer-engagement": stretched(joint, way.value or 1.0)._asdict(),
            "insert": {"strip_n": (joint.strip_n or 0) * (way.value or 0)},
            "higher-class": of_class(joint, higher)._asdict(),
            "stronger-nut": {"nut_proof_n": None},
            "washer": {"bearing_mpa": None},
            "other-drive": {"drive_nmm": None},
            "less-clamp": {"clamp_n": (way.value or 0) * (1 - 1e-9)},
        }[way.code]
        assert not window(joint._replace(**change)).empty, way


def test_every_way_is_named_somewhere():
    """Strip, pressure and drive each have their own."""
    asked = {"clamp_n": 8e3}
    codes = {
        way.code
        for joint in (
            M8._replace(**asked, strip_n=12e3),
            M8._replace(**asked, strip_n=14e3),
            M8._replace(**asked, bearing_mpa=230.0),
            M8._replace(**asked, drive_nmm=12e3),
            M8._replace(**asked, nut_proof_n=11e3),
            M8._replace(clamp_n=11e3),
            M8._replace(clamp_n=9.8e3, wrench_error=0.1),
        )
        for way in openings(joint, [a_row("10.9", 1040.0, 940.0)])
    }

    assert codes == {
        *("known-lubricant", "finer-wrench", "longer-engagement", "washer", "other-drive"),
        *("insert", "higher-class", "stronger-nut", "less-clamp"),
    }


@given(st.floats(2, 39), st.floats(0.08, 0.2), st.floats(50, 500), st.floats(10, 60))
def test_strip_loads_rise_with_all_they_depend_on(d, share, shear, engage):
    """With strength and the engagement that carries; more for a larger thread; both threads."""
    thread = a_thread(d, d * share)
    found = strip_loads(thread, 2 * shear, shear, engage)
    longer = strip_loads(thread, 2 * shear, shear, 2 * engage - 0.8 * thread.pitch_mm)
    more = 0.8 * 0.2 * thread.pitch_mm
    larger = strip_loads(a_thread(d * 1.2, d * share * 1.2), 2 * shear, shear, engage + more)

    assert (2 * found.internal_n, 2 * found.external_n) == pytest.approx(longer[:2])
    assert larger.internal_n > found.internal_n
    assert found.ratio * 2 == pytest.approx(strip_loads(thread, shear, shear, engage).ratio)
    assert strip_loads(thread, 4 * shear, 2 * shear, engage)[:2] == pytest.approx(
        (2 * found.internal_n, 2 * found.external_n)
    )


def test_strip_load_of_an_inch_thread():
    """5/16-18 UNC 2A/2B: 0.682 and 0.470 in2 an inch that carries (FED-STD-H28/2B)."""
    thread = a_thread(7.9375, 25.4 / 18, "UN")
    found = strip_loads(thread, 1.0, 1.0, 25.4 + 0.8 * thread.pitch_mm)
    c2 = 5.594 - 13.682 * found.ratio + 14.107 * found.ratio**2
    c2 += -6.057 * found.ratio**3 + 0.9353 * found.ratio**4

    assert 0.682 / 0.470 == pytest.approx(found.ratio, rel=2e-3)
    assert 0.682 * 25.4**2 * 0.897 == pytest.approx(found.internal_n, rel=2e-3)
    assert 0.470 * 25.4**2 * c2 == pytest.approx(found.external_n, rel=2e-3)


def test_strip_is_for_sixty_degree_threads():
    """Other families' tolerances are not known here, so nothing is claimed."""
    thread = a_thread()._replace(family="BSW")

    assert overlap(thread) is None and strip_loads(thread, 400.0, 200.0, 10.0) is None
    assert 0.65 * 800 == bolt_shear(a_row()) and 0.60 * 700 == bolt_shear(a_row("A2-70", 700.0))


def test_table_row_states_its_inputs():
    """The row says what it stands on; no yield strength, no row; an empty window has no lowest."""
    friction = Friction._make(("class-b", "B", 0.08, 0.12, 0.16, *WHENCE))
    row = table_row(a_thread(), a_row(), friction, SEAT)
    none = table_row(a_thread(), a_row(limit=None), friction, SEAT)
    empty = table_row(a_thread(), a_row(), friction._replace(mu_max=0.6), SEAT)

    assert (0.08, 0.12, 0.16, 90, 11.63, 9.0, 4) == row[3:10]
    assert row.torque_min_nm < row.torque_nm <= row.torque_max_nm
    assert none is None
    assert empty.torque_min_nm is None and empty.torque_nm == empty.torque_max_nm


def test_breaking_torque_of_listed_and_other_classes():
    """The standard's ratio, else the next harder class's; a bore weakens by the fourth power."""
    soft, odd = a_row("A2-70", 700.0, 450.0), a_row("X", 1300.0, 1200.0)
    whole = breaking_torque(a_thread(10.0, 1.5), a_row())

    assert 66e3 == pytest.approx(whole, rel=0.01)  # ISO 898-7 Table 2
    assert ratio_is_listed(a_row()) and not ratio_is_listed(soft)
    assert [0.84, 0.815, 0.79, 0.75] == [
        torsion_ratio(a_row("X", tensile)) for tensile in (827.0, 890.0, 1034.0, 1300.0)
    ]
    assert torsion_ratio(odd) == 0.75
    assert breaking_torque(a_thread(10.0, 1.5), a_row(), 4.0) == pytest.approx(
        whole * (1 - (4 / 7.938) ** 4), rel=1e-3
    )
    assert breaking_torque(a_thread(7.9375, 25.4 / 18, "UN"), a_row()) > 0


@given(st.floats(0, 5e4), st.floats(0.02, 0.5), st.floats(0, 1e4), st.floats(0, 1e4))
def test_breakaway_without_a_head_has_no_preload(force, mu, bonds, prevailing):
    """Only bonds and prevailing torque hold once nothing clamps."""
    whole = breakaway_torque(a_thread(), force, mu, mu, 10.3, bonds, prevailing)
    headless = breakaway_torque(a_thread(), force, mu, mu, None, bonds, prevailing)

    assert headless.total == pytest.approx(bonds + prevailing)
    assert whole.helix <= 0 <= whole.thread
    assert whole.total - headless.total == pytest.approx(
        force * (arm(M8._replace(seat=Seat(11.6, 9.0, 90.0, "")), mu) - 2 * 1.25 / 6.2831853),
        abs=1e-4,
    )


@pytest.mark.parametrize(
    ("required", "part"), [(29.0, None), (30.0, None), (30.1, "drive"), (99.0, "drive")]
)
def test_who_loses(required, part):
    """The weakest, on both sides of what it carries; nobody where nothing is loaded."""
    assert part == loser(required, {"shank": 33.0, "drive": 30.0})
    assert loser(required, {}) is None


def test_seats():
    """Printed, by the ISO and inch rules for hexagons, cones, round heads, and not at all."""
    assert Seat(11.7, 9.0, 90.0, "printed") == seat(a_head(bearing=11.7), 9.0)
    assert 11.63 == pytest.approx(seat(a_head(), 9.0, 13.0).d_w_mm)
    assert 0.95 * 13 == pytest.approx(seat(a_head(standard="ASME B18.2.1"), 9.0, 13.0).d_w_mm)
    assert 45.0 == seat(a_head("countersunk", "ISO 10642", cone=90.0), 9.0).cone_half_angle_deg
    assert "round-rule" == seat(a_head("button", "ISO 7380-1"), 9.0).rule
    assert seat(a_head(), 9.0, 2.0) is None
    assert seat(a_head("button", diameter=None), 9.0) is None
    assert seat(a_head(bearing=8.0), 9.0) is None


def test_choices():
    """Families keep to their grades; the size picks the row; the first standard held is taken."""
    metric = Grade._make(("8.8", "ISO 898-1", "bolt", None, *WHENCE))
    inch = metric._replace(id="SAE-5", system="SAE J429")
    both = metric._replace(id="A2-70", system="ISO 3506-1")
    rows = [a_row(high=16.0), a_row(tensile=830.0, low=16.01)]

    assert fits(metric, a_thread()) and not fits(inch, a_thread())
    assert fits(both, a_thread()) and fits(both, a_thread(family="UN"))
    assert [800.0, 800.0, 830.0, None] == [
        row and row.tensile_min_mpa
        for row in (strength_at(rows, a_thread(d, 1.0)) for d in (8.0, 16.0, 20.0, 42.0))
    ]
    heads = [a_head(standard="DIN 933"), a_head(standard="ISO 4014")]
    assert "ISO 4014" == head_of(heads, "hexagon").standard
    assert head_of([a_head("nut", "DIN 934", 9.5)], "hexagon").bearing_diameter_mm is None
    assert head_of(heads, "flange") is None
