"""What must hold of the formulas whatever the numbers: limits, monotony, scaling, twins."""

import inspect
import math

import pytest
from hypothesis import assume, given
from hypothesis import strategies as st

from fastkit.mechanics import bounds, strength, thread, tightening, tolerance

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
}
FORMULAS = [
    function
    for module in (strength, thread, tightening, tolerance)
    for name, function in inspect.getmembers(module, inspect.isfunction)
    if function.__module__ == module.__name__ and not name.startswith("_")
]
ARGUMENTS = [
    pytest.param(function, name, id=f"{function.__name__}-{name}")
    for function in FORMULAS
    for name in inspect.signature(function).parameters
    if name in SOUND
]
diameters = st.floats(1.6, 64.0)
shares = st.floats(0.06, 0.25)  # pitch over diameter, finer than the finest to the coarsest
frictions = st.floats(0.03, 0.4)


def sound(function):
    """Sound arguments of a formula."""
    return {name: SOUND[name] for name in inspect.signature(function).parameters if name in SOUND}


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
        assert math.isfinite(value)


def test_bounds_between_arguments():
    """A hole in the head, a bore in the shank, an adapter on the wrench, a pitch on the thread."""
    with pytest.raises(ValueError, match="d_h_mm must be < d_w_mm 10"):
        tightening.mean_bearing_diameter(10.0, 10.0)
    with pytest.raises(ValueError, match="inner_mm must be < outer_mm 10"):
        strength.hollow_shaft_torque(10.0, 10.0, 400.0)
    with pytest.raises(ValueError, match="adapter_mm must be < 300"):
        tightening.wrench_setting(1.0, 300.0, 300.0, 180.0)
    with pytest.raises(ValueError, match="pitch_mm must be <"):
        thread.root_diameter(1.0, 1.0)
    with pytest.raises(ValueError, match="d_min_mm must be >"):
        strength.internal_shear_area(10.0, 1.5, 5.0, 9.2)
    with pytest.raises(ValueError, match="d1_internal_max_mm must be <"):
        strength.external_shear_area(10.0, 1.5, 12.0, 8.9)
    with pytest.raises(ValueError, match="mu_thread must be <"):
        tightening.screw_torque(1.0, 30.0, 10.0, 1.2)
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
            tightening.bearing_pressure(force, scale * d * 2, scale * d),
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
    """The three-term sum leaves the exact screw by less than 2.5 % below 3 degrees of lead."""
    p = d * share
    d2 = thread.pitch_diameter(d, p)
    exact = tightening.screw_torque(1e4, p, d2, mu)
    helix, flank, _ = tightening.lever_arms(p, d2, 0.0, mu, 0.0)

    assert exact == pytest.approx(1e4 * (helix + flank), rel=0.025)


@given(st.floats(1, 1000), st.floats(100, 1000), st.floats(0, 99))
def test_adapter_at_0_and_180_degrees(nmm, wrench, adapter):
    """Straight out it lowers the reading, folded back it raises it, square it changes nothing."""
    out = tightening.wrench_setting(nmm, wrench, adapter, 0.0)
    back = tightening.wrench_setting(nmm, wrench, adapter, 180.0)

    assert out <= nmm * (1 + 1e-12) and nmm <= back * (1 + 1e-12)
    assert nmm == pytest.approx(tightening.wrench_setting(nmm, wrench, adapter, 90.0))
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


@given(st.sampled_from([4.0, 6.0, 8.0, 10.0, 16.0, 24.0]), shares, st.integers(200, 400))
def test_shear_area_is_that_of_the_profile(d, share, slices):
    """
    Twin: the internal flank cut at the screw's crest, integrated from the profile.

    The tooth of the nut at diameter x is as wide as half a pitch plus what the 60-degree flanks
    add below its pitch line; the area is that width, wound once a pitch over the engagement.
    """
    p = d * share
    d2 = thread.pitch_diameter(d, p)
    turns, circle = 10.0 / p, math.pi * d
    step = (d - d2) / 2 / slices
    width = p / 2 + sum(2 * step * math.tan(math.radians(30)) for _ in range(slices))

    assert turns * circle * width == pytest.approx(
        strength.internal_shear_area(10.0, p, d, d2), rel=1e-4
    )
