"""What must hold of the formulas whatever the numbers: limits, monotony, scaling, twins."""

import inspect
import math

import pytest
from hypothesis import assume, given
from hypothesis import strategies as st

from fastkit.mechanics import (
    bearing,
    bounds,
    elastic,
    extractor,
    heat,
    nut_factor,
    screw,
    strength,
    strip,
    thread,
    tightening,
    tolerance,
    tolerance_classes,
    wrench,
)

SOUND = {  # one sound value for every float argument by name
    "d_mm": 10.0,
    "pitch_mm": 1.5,
    "area_mm2": 58.0,
    "preload_n": 30e3,
    "d2_mm": 9.026,
    "d_km_mm": 12.8,
    "mu_thread": 0.12,
    "mu_head": 0.12,
    "flank_half_angle_deg": 30.0,
    "cone_half_angle_deg": 90.0,
    "torque_nmm": 48e3,
    "yield_mpa": 640.0,
    "utilisation": 0.9,
    "d_s_mm": 8.593,
    "d_w_mm": 14.6,
    "d_h_mm": 11.0,
    "k": 0.2,
    "proof_mpa": 580.0,
    "share": 0.75,
    "load_n": 10e3,
    "lead_mm": 1.5,
    "wrench_mm": 400.0,
    "adapter_mm": 50.0,
    "angle_deg": 0.0,
    "across_flats_mm": 16.0,
    "tensile_mpa": 800.0,
    "ratio": 0.84,
    "tau_mpa": 400.0,
    "outer_mm": 10.0,
    "inner_mm": 4.0,
    "width_mm": 8.0,
    "thickness_mm": 1.2,
    "stress_mpa": 1000.0,
    "engage_mm": 10.0,
    "d_min_mm": 9.732,
    "d2_internal_max_mm": 9.206,
    "d1_internal_max_mm": 8.676,
    "d2_external_min_mm": 8.862,
    "engaged_pitches": 9.0,
    "root_mm": 8.16,
    "shank_mm": 20.0,
    "free_thread_mm": 10.0,
    "head_share": 0.5,
    "engaged_share": 0.4,
    "modulus_mpa": 205e3,
    "body_modulus_mpa": 71e3,
    "grip_mm": 30.0,
    "outside_mm": 40.0,
    "small_mm": 15.0,
    "half_deg": 30.0,
    "length_mm": 20.0,
    "first": 1e5,
    "loss_w_k": 0.5,
    "capacity_j_k": 4.5,
    "disc_mm": 10.0,
    "conductivity_w_mk": 50.0,
    "bolt_n_mm": 3e5,
    "parts_n_mm": 1e6,
    "compliance_mm_n": 4e-6,
    "grip_over_d": 3.0,
    "strength_ratio": 1.2,
    "stress_area_mm2": 58.0,
    "area_per_mm": 15.0,
    "strength_over_shear": 1.6,
    "arm_mm": 300.0,
    "force_n": 80.0,
    "efficiency": 0.9,
    "shear_modulus_mpa": 79e3,
    "alpha_per_k": 1.17e-5,
    "rise_k": 100.0,
    "change_mm": 0.02,
    "diameter_mm": 10.0,
    "alpha_hole_per_k": 2.15e-5,
    "rise_hole_k": 100.0,
    "alpha_pin_per_k": 1.17e-5,
    "rise_pin_k": 100.0,
    "alpha_parts_per_k": 2.15e-5,
    "rise_parts_k": 100.0,
    "alpha_bolt_per_k": 1.17e-5,
    "rise_bolt_k": 100.0,
    "gap_mm": 0.005,
    "joint_mm": 20.0,
    "bore_mm": 5.0,
    "inner_modulus_mpa": 205e3,
    "outer_modulus_mpa": 71e3,
    "inner_poisson": 0.3,
    "outer_poisson": 0.33,
    "interference_mm": 0.02,
    "compliance_mm_mpa": 4e-4,
    "pressure_mpa": 50.0,
    "mu": 0.15,
    "wall_mm": 1.5,
    "off_centre_mm": 0.2,
    "end_mm": 4.0,
    "flute_share": 0.8,
    "leg_mm": 2.0,
    "throat_mm": 1.5,
    "um": 104.0,
    "d_in": 0.5,
    "pitch_in": 0.0625,
    "drills_mm": (3.0, 4.0),
    "volume_mm3": 1178.0,
    "density_g_mm3": 0.00785,
    "specific_heat_j_gk": 0.486,
    "power_w": 500.0,
}
NAMED = {  # class names, which each function has its own of
    "iso_class": {"text": "6g", "internal": False},
    "iso_external_class": {"name": "4h"},
    "iso_internal_class": {"name": "7H"},
    "unified_external_class": {"name": "3A"},
    "unified_internal_class": {"name": "3B"},
}
SPECIAL = {"bending_factors", "iso_class"}  # tested by themselves
# Where the sound value above does not suit: its own.
OWN = {"multiplier_setting": {"ratio": 5.0}}
FORMULAS = [
    function
    for module in (
        *(bearing, elastic, extractor, heat, nut_factor, screw, strength, strip, thread),
        *(tightening, tolerance, tolerance_classes, wrench),
    )
    for name, function in inspect.getmembers(module, inspect.isfunction)
    if function.__module__ == module.__name__ and not name.startswith("_")
]
ARGUMENTS = [
    pytest.param(function, name, id=f"{function.__name__}-{name}")
    for function in FORMULAS
    for name in inspect.signature(function).parameters
    if name in SOUND and name != "drills_mm"
]
diameters = st.floats(1.6, 64.0)
shares = st.floats(0.06, 0.25)  # pitch over diameter, finer than the finest to the coarsest
frictions = st.floats(0.03, 0.4)


def sound(function):
    """Sound arguments of a formula."""
    given = {name: SOUND[name] for name in inspect.signature(function).parameters if name in SOUND}
    return {**given, **OWN.get(function.__name__, {}), **NAMED.get(function.__name__, {})}


@pytest.mark.parametrize(("function", "name"), ARGUMENTS)
@pytest.mark.parametrize("bad", [math.nan, math.inf, -math.inf, -1e9])
def test_bad_arguments_are_named(function, name, bad):
    """Nothing is clamped: argument, value and bound stand in the message."""
    with pytest.raises(ValueError, match=r"must be|pitch_mm") as refused:
        function(**{**sound(function), name: bad})

    assert name in str(refused.value) or "pitch_mm" in str(refused.value)


@pytest.mark.parametrize("function", FORMULAS, ids=lambda f: f.__name__)
def test_sound_arguments_give_a_finite_answer(function):
    """The values above are in range, so that the test before means something."""
    found = function(**sound(function))

    for value in found if isinstance(found, tuple) else (found,):
        assert isinstance(value, str) or math.isfinite(value)


def test_bounds_between_arguments():
    """A hole in the head, a bore in the shank, an adapter on the wrench, a pitch on the thread."""
    with pytest.raises(ValueError, match="d_h_mm must be < d_w_mm 10"):
        bearing.mean_bearing_diameter(10.0, 10.0)
    with pytest.raises(ValueError, match="inner_mm must be < outer_mm 10"):
        strength.hollow_shaft_torque(10.0, 10.0, 400.0)
    with pytest.raises(ValueError, match="adapter_mm must be < 300"):
        wrench.wrench_setting(1.0, 300.0, 300.0, 180.0)
    with pytest.raises(ValueError, match="pitch_mm must be <"):
        thread.root_diameter(1.0, 1.0)
    with pytest.raises(ValueError, match="d_min_mm must be >"):
        strength.internal_shear_area(10.0, 1.5, 5.0, 9.2)
    with pytest.raises(ValueError, match="d1_internal_max_mm must be <"):
        strength.external_shear_area(10.0, 1.5, 12.0, 8.9)
    with pytest.raises(ValueError, match="mu_thread must be <"):
        screw.screw_torque(1.0, 30.0, 10.0, 1.2)
    assert 0.0 == bounds.within(0.0, "x", 0.0, 1.0)


@given(diameters, shares)
def test_diameters_stand_in_order(d, share):
    """Root, minor, pitch and nominal diameter; the stress area lies between root and pitch."""
    p = d * share
    root, minor = thread.root_diameter(d, p), thread.minor_diameter(d, p)
    pitch = thread.pitch_diameter(d, p)

    assert 0 < root < minor < pitch < d
    assert root < thread.stress_diameter(thread.stress_area(d, p)) < pitch
    assert minor > thread.unified_root_diameter(d, p) > root
    assert thread.stress_area(d, p) > thread.unified_stress_area(d, p)


@given(diameters, shares)
def test_doubled_lengths_quadruple_areas(d, share):
    """Dimension scaling of the profile."""
    p = d * share

    assert 2 * thread.pitch_diameter(d, p) == pytest.approx(thread.pitch_diameter(2 * d, 2 * p))
    assert 4 * thread.stress_area(d, p) == pytest.approx(thread.stress_area(2 * d, 2 * p))


@given(diameters, shares, frictions, st.floats(1.2, 2.0))
def test_doubled_lengths_quadruple_forces_and_octuple_torques(d, share, mu, washer):
    """Dimension scaling of preload, torque, bearing pressure, breaking torque."""

    def size(scale):
        p, d2 = scale * d * share, thread.pitch_diameter(scale * d, scale * d * share)
        d_s = thread.stress_diameter(thread.stress_area(scale * d, p))
        force = tightening.preload_at_utilisation(640.0, 0.9, d_s, p, d2, mu)
        return (
            force,
            tightening.torque(force, p, d2, scale * d * washer, mu, mu),
            bearing.bearing_pressure(force, scale * d * 2, scale * d),
            strength.hollow_shaft_torque(scale * d, scale * d / 3, 400.0),
        )

    single, double = size(1), size(2)

    assert [4, 8, 1, 8] == pytest.approx([b / a for a, b in zip(single, double, strict=True)])


@given(diameters, shares, frictions, frictions, st.floats(1.0, 1e6))
def test_torque_and_preload_undo_each_other(d, share, mu_thread, mu_head, force):
    """Torque of the preload of a torque."""
    p = d * share
    rest = (p, thread.pitch_diameter(d, p), 1.3 * d, mu_thread, mu_head, 30.0, 45.0)

    assert force == pytest.approx(tightening.preload(tightening.torque(force, *rest), *rest))


@given(diameters, shares, frictions, st.floats(0.1, 1.0))
def test_stress_and_preload_undo_each_other(d, share, mu, utilisation):
    """Utilisation of the preload of a utilisation."""
    p = d * share
    rest = (thread.stress_diameter(thread.stress_area(d, p)), p, thread.pitch_diameter(d, p), mu)
    force = tightening.preload_at_utilisation(940.0, utilisation, *rest)

    assert utilisation * 940 == pytest.approx(tightening.equivalent_stress(force, *rest))


@given(diameters, shares, frictions, st.floats(1.01, 1.5))
def test_monotone_in_friction_diameter_and_pitch(d, share, mu, more):
    """More friction: more torque and less preload; a larger thread holds more, a coarser less."""
    p = d * share
    d2, d_s = thread.pitch_diameter(d, p), thread.stress_diameter(thread.stress_area(d, p))
    force = tightening.preload_at_utilisation(640.0, 0.9, d_s, p, d2, mu)

    assert tightening.torque(1e3, p, d2, 1.3 * d, mu * more, mu) > tightening.torque(
        1e3, p, d2, 1.3 * d, mu, mu
    )
    assert force > tightening.preload_at_utilisation(640.0, 0.9, d_s, p, d2, mu * more)
    assert thread.stress_area(d * more, p) > thread.stress_area(d, p)
    assume(share * more < 0.3)
    assert thread.stress_area(d, p * more) < thread.stress_area(d, p)


@given(diameters, shares, frictions)
def test_loosening_takes_less_than_tightening(d, share, mu):
    """By twice the helix term, at the same friction."""
    p = d * share
    rest = (p, thread.pitch_diameter(d, p), 1.3 * d, mu, mu)
    helix = 1e4 * tightening.lever_arms(*rest)[0]

    assert 2 * helix == pytest.approx(
        tightening.torque(1e4, *rest) - tightening.breakaway(1e4, *rest)
    )


@given(diameters, st.floats(0.06, 0.16), frictions)
def test_first_order_sum_follows_the_exact_wedge(d, share, mu):
    """The three-term sum leaves the exact screw by the product of lead and friction angle only."""
    p = d * share
    d2 = thread.pitch_diameter(d, p)
    exact = screw.screw_torque(1e4, p, d2, mu)
    helix, flank, _ = tightening.lever_arms(p, d2, 0.0, mu, 0.0)

    product = p / (math.pi * d2) * mu / math.cos(math.radians(30))

    assert exact * (1 - product) == pytest.approx(1e4 * (helix + flank))
    assert product < 0.03


@given(st.floats(1, 1000), st.floats(100, 1000), st.floats(0, 99))
def test_adapter_at_0_and_180_degrees(nmm, length, adapter):
    """Straight out it lowers the reading, folded back it raises it, square it changes nothing."""
    out = wrench.wrench_setting(nmm, length, adapter, 0.0)
    back = wrench.wrench_setting(nmm, length, adapter, 180.0)

    assert out <= nmm * (1 + 1e-12) and nmm <= back * (1 + 1e-12)
    assert nmm == pytest.approx(wrench.wrench_setting(nmm, length, adapter, 90.0))
    assert 2 / nmm == pytest.approx(1 / out + 1 / back)


@given(st.floats(1.0, 64.0), shares)
def test_limits_never_cross(d, share):
    """External thread below basic, internal at or above it, so they always assemble."""
    p = d * share
    outside, inside = tolerance.iso_external(d, p), tolerance.iso_internal(d, p)
    assume(inside.d1_max < outside.d_min)  # toleranced series only: others lose their overlap

    assert outside.d_min < outside.d_max <= d
    assert outside.d2_min < outside.d2_max <= thread.pitch_diameter(d, p) == inside.d2_min
    assert inside.d1_min == thread.minor_diameter(d, p) < inside.d1_max
    assert inside.d2_min < inside.d2_max


def test_limits_keep_to_their_range():
    """ISO 965-1 gives no tolerance outside its diameter steps."""
    with pytest.raises(ValueError, match=r"d_mm must be 0\.99 to 355"):
        tolerance.iso_external(0.9, 0.2)
    with pytest.raises(ValueError, match=r"pitch_mm must be 0 to 6\.35"):
        tolerance.unified_internal(50.8, 7.0)


@given(st.floats(0.01, 0.999))
def test_a_bore_weakens_little_until_it_is_large(bore):
    """Fourth-power law: hollow over solid is 1 - (d/D)^4."""
    whole = strength.hollow_shaft_torque(10.0, 0.0, 400.0)

    assert 1 - bore**4 == pytest.approx(
        strength.hollow_shaft_torque(10.0, 10 * bore, 400.0) / whole
    )


SIZES = st.sampled_from([4.0, 6.0, 8.0, 10.0, 16.0, 24.0])


def ridge(z, p, d2):
    """Diameter of a sharp 60-degree screw of pitch diameter d2 at a place along its axis."""
    return d2 + 2 * (p / 4 - abs(z % p - p / 2)) / math.tan(math.radians(30))


@given(SIZES, st.floats(0.08, 0.2), st.floats(0.0, 0.03), st.floats(0.0, 0.03))
def test_shear_areas_are_those_of_the_profile(d, share, small, wide):
    """
    Twin: walked along the axis over one pitch, the share of it that is metal, wound on a cylinder.

    The screw's tooth where the nut's crest cuts it, the nut's where the screw's crest does; screw
    smaller and nut larger than the basic profile by any tolerance.
    """
    p, steps = d * share, 20_000
    crest, screw_d2 = d - small * p, thread.pitch_diameter(d, p) - small * p
    bore, nut_d2 = thread.minor_diameter(d, p) + wide * p, thread.pitch_diameter(d, p) + wide * p
    places = [(i + 0.5) * p / steps for i in range(steps)]
    of_screw = sum(ridge(z, p, screw_d2) >= bore for z in places) / steps
    of_nut = sum(ridge(z, p, nut_d2) <= crest for z in places) / steps

    assert 10.0 * math.pi * bore * of_screw == pytest.approx(
        strength.external_shear_area(10.0, p, bore, screw_d2), rel=1e-3
    )
    assert 10.0 * math.pi * crest * of_nut == pytest.approx(
        strength.internal_shear_area(10.0, p, crest, nut_d2), rel=1e-3
    )


@given(diameters, st.floats(0.0, 100.0), st.floats(0.1, 100.0), st.floats(1.1, 3.0))
def test_a_longer_or_thinner_bolt_is_softer(d, shank, free, more):
    """Compliance rises with length, falls with diameter; scaling lengths by two halves it."""
    one = elastic.bolt_compliance(d, 0.8 * d, shank, free)

    assert elastic.bolt_compliance(d, 0.8 * d, shank, free * more) > one
    assert elastic.bolt_compliance(d * more, 0.8 * d * more, shank, free) < one
    assert one / 2 == pytest.approx(elastic.bolt_compliance(2 * d, 1.6 * d, 2 * shank, 2 * free))


@given(st.floats(0.2, 12.0), st.floats(1.4, 2.0), st.booleans())
def test_parts_compliance_is_that_of_the_cone(grip, ring, tapped):
    """
    Twin: discs of the deformation cone in series, cut thin and added up.

    A through bolt has two cones that meet in the middle, a tapped one a single cone.
    """
    d_h, d_w, length = 11.0, 11.0 * ring, 11.0 * grip
    outside = 3 * d_w
    for _ in range(60):
        slope = elastic.cone_slope(length, d_w, outside, tapped)
        outside = d_w + (2 if tapped else 1) * length * slope
    n = 4000
    total = 0.0
    for i in range(n):
        z = (i + 0.5) / n * length
        depth = z if tapped else min(z, length - z)
        across = d_w + 2 * depth * slope
        total += length / n / (2e5 * math.pi / 4 * (across**2 - d_h**2))

    assert total == pytest.approx(
        elastic.parts_compliance(d_w, d_h, length, 2e5, tapped=tapped), rel=2e-3
    )


def test_a_narrow_sleeve_is_softer_than_a_wide_part():
    """Down to a sleeve no wider than the head, which is a plain tube."""
    wide = elastic.parts_compliance(15.0, 11.0, 30.0, 2e5)
    some = elastic.parts_compliance(15.0, 11.0, 30.0, 2e5, 20.0)
    tube = elastic.parts_compliance(15.0, 11.0, 30.0, 2e5, 15.0)

    assert wide < some < tube
    assert 30 / (2e5 * math.pi / 4 * (15**2 - 11**2)) == pytest.approx(tube)


def test_bending_factors_join_and_stay_near_one():
    """Both are 0.897 where the threads are equally strong; ends are held outside the fit."""
    c2, c3 = strip.bending_factors(1.0)

    assert 0.897 == c2 and 0.897 == pytest.approx(c3, abs=1e-3)
    assert 0.897 == pytest.approx(strip.bending_factors(1.0001)[0], abs=2e-3)
    assert strip.bending_factors(5.0) == strip.bending_factors(2.2)
    assert strip.bending_factors(0.1) == strip.bending_factors(0.4)
    with pytest.raises(ValueError, match="strength_ratio must be"):
        strip.bending_factors(-1.0)


@pytest.mark.parametrize("name", ["", "6", "6x", "6H", "2g", "6g6", "5g6h", "99g", "6g6g6g"])
def test_no_such_class(name):
    """Named in the message, for every kind of thread."""
    for of_class in (
        tolerance_classes.iso_external_class,
        tolerance_classes.unified_external_class,
        tolerance_classes.unified_internal_class,
    ):
        with pytest.raises(ValueError, match="class must be"):
            of_class(10.0, 1.5, name)
    with pytest.raises(ValueError, match="class must be"):
        tolerance_classes.iso_internal_class(10.0, 1.5, name.lower() + "g")


@given(st.floats(1.7, 64.0), shares)
def test_usual_classes_are_those_of_the_plain_formulas(d, share):
    """6g, 6H, 2A and 2B come out the same either way; finer classes lie within coarser ones."""
    p = min(d * share, 6.0)

    assert tolerance.iso_external(d, p) == tolerance_classes.iso_external_class(d, p, "6g")
    assert tolerance.iso_internal(d, p) == tolerance_classes.iso_internal_class(d, p, "6H")
    assert tolerance.unified_external(d, p) == pytest.approx(
        tolerance_classes.unified_external_class(d, p, "2A")
    )
    assert tolerance.unified_internal(d, p) == pytest.approx(
        tolerance_classes.unified_internal_class(d, p, "2B")
    )
    fine, coarse = (tolerance_classes.iso_internal_class(d, p, name) for name in ("4H", "7H"))
    assert fine.d2_max < coarse.d2_max and fine.d1_max < coarse.d1_max
    fine, coarse = (tolerance_classes.unified_external_class(d, p, name) for name in ("3A", "1A"))
    assert fine.d2_min > coarse.d2_min and fine.d_max == pytest.approx(d)


@given(st.floats(3.0, 30.0), st.floats(100.0, 900.0), st.floats(0.0, 1.0))
def test_the_largest_bore_leaves_what_was_asked(d, tau, share):
    """Drilled so, the shank carries just the torque; asked for more than it has, none is left."""
    asked = share * strength.round_bar_torque(d, tau)
    bore = extractor.largest_bore(d, tau, asked)

    assert 0 <= bore <= d
    if 1e-6 < share < 0.999:
        assert asked == pytest.approx(strength.hollow_shaft_torque(d, bore, tau), rel=1e-6)
    assert 0.0 == extractor.largest_bore(d, tau, 1.01 * strength.round_bar_torque(d, tau))
    assert extractor.drill_at_most(2.0, (3.0, 4.0)) is None


@given(st.floats(1, 1e6), st.floats(0.5, 3.0), st.floats(1e-6, 1e-4))
def test_angle_and_preload_undo_each_other(force, pitch, compliance):
    """Angle of the preload of an angle."""
    angle = elastic.turning_angle(force, pitch, compliance)

    assert force == pytest.approx(elastic.preload_by_angle(angle, pitch, compliance))


def test_heat_opens_a_press_fit():
    """A body warmed until its hole has grown by the interference lets go: no pressure, no grip."""
    rise = heat.rise_for(0.02, 20.0, 2.15e-5)
    left = 0.02 - heat.gap_change(20.0, 2.15e-5, rise, 1.17e-5, 0.0)

    assert 0.0 == pytest.approx(heat.press_pressure(left, 4e-4), abs=1e-9)
    assert 0.0 == heat.blocked_force(200.0, 1.1e-5, 10.0, 1.0, 2e5, 100.0)
    with pytest.raises(ValueError, match="outside_mm must be >"):
        heat.press_compliance(20.0, 0.0, 20.0, 2e5, 2e5)
    with pytest.raises(ValueError, match="bore_mm must be <"):
        heat.press_compliance(20.0, 20.0, 30.0, 2e5, 2e5)


def test_bounds_of_elastic_parts():
    """Each names its argument."""
    for call, said in (
        (lambda: strip.dilation_factor(10.0, 8.0), "across_flats_mm must be >="),
        (lambda: strip.carrying_length(0.8, 1.0), "engage_mm must be >"),
        (lambda: elastic.parts_compliance(11.0, 11.0, 30.0, 2e5), "d_w_mm must be >"),
        (lambda: elastic.frustum_stiffness(2e5, 15.0, 15.0, 5.0), "small_mm must be >"),
        (lambda: wrench.multiplier_setting(1.0, 0.5), "ratio must be"),
    ):
        with pytest.raises(ValueError, match=said):
            call()
    assert 1.0 == strip.dilation_factor(20.0, 8.0)
