"""What stands beside the window: multiplier, bar, heat, locker, what is left of a broken one."""

from math import pi

import pytest

from fastkit.answers.torque import document, torque
from fastkit.errors import Misuse

STEEL, ALUMINIUM = 11.7e-6, 21.5e-6  # 1/K, materials-science-9 Table B.6
LOOSE = {"into": "aluminium", "engage_mm": 15, "clamp_n": 8000}


def test_a_multiplier_divides_the_setting(store):
    """Ratio 5 at 90 %: set 1/4.5 of it, and pull that much less."""
    plain = torque("M20", "8.8", store=store)
    geared = torque("M20", "8.8", multiplier=(5.0, 90.0), store=store)

    assert plain.torque_nm / 4.5 == pytest.approx(geared.multiplier["setting_nm"])
    assert plain.by_hand["pull_n"] / 4.5 == pytest.approx(geared.by_hand["pull_n"])
    assert geared.by_hand["pull_kg"] == pytest.approx(geared.by_hand["pull_n"] / 9.80665)


def test_a_multiplier_behind_an_adapter(store):
    """Both together: first the gears, then the lever."""
    both = torque(
        *("M20", "8.8"),
        **{"multiplier": (5.0, 100.0), "adapter_mm": 100, "wrench_length_mm": 400},
        store=store,
    )

    assert both.torque_nm / 5 * 0.8 == pytest.approx(both.wrench_setting_nm)


def test_an_extension_bar_twists_and_takes_nothing(store):
    """Theta = T L/(G pi d^4/32); the setting stays."""
    plain = torque("M12", "8.8", store=store)
    long = torque("M12", "8.8", extension_mm=(250.0, 12.7), store=store)
    twist = plain.torque_nm * 1000 * 250 / (79_300 * pi / 32 * 12.7**4) * 180 / pi

    assert twist == pytest.approx(long.extension["twist_deg"], rel=1e-6)
    assert plain.torque_nm == long.torque_nm


def test_a_warm_aluminium_body_pulls_a_steel_bolt_tighter(store):
    """l_K (alpha_P - alpha_S) dT over both compliances, both 100 K above 20 °C."""
    answer = torque("M10", "8.8", **LOOSE, grip_mm=25, heat_c=(120.0, 120.0), store=store)
    springs = answer.angle["bolt_compliance_mm_n"] + answer.angle["parts_compliance_mm_n"]

    assert 25 * (ALUMINIUM - STEEL) * 100 / springs == pytest.approx(
        answer.heat["preload_change_n"], rel=1e-6
    )
    assert 10 * (ALUMINIUM - STEEL) * 100 == pytest.approx(answer.heat["gap_change_mm"])


def test_a_chilled_stud_gives_a_gap(store):
    """Dry ice, body left warm: 10 mm of steel shrink by 10 x 11.7e-6 x 98; the clamp grows."""
    answer = torque("M10", "8.8", **LOOSE, heat_c=(20.0, -78.0), store=store)

    assert 10 * STEEL * 98 == pytest.approx(answer.heat["gap_change_mm"])
    assert answer.heat["preload_change_n"] > 0


def test_a_hot_bolt_in_a_cold_body_lets_the_clamp_go(store):
    """An even rise of a steel joint changes nothing; the bolt alone heated slackens it."""
    even = torque("M10", "8.8", heat_c=(200.0, 200.0), store=store)
    bolt = torque("M10", "8.8", heat_c=(20.0, 400.0), store=store)

    assert 0 == pytest.approx(even.heat["preload_change_n"])
    assert 0 == pytest.approx(bolt.heat["preload_left_n"])
    assert bolt.heat["preload_change_n"] < -bolt.preload_n


@pytest.mark.parametrize(
    ("thread", "grade", "temper_c"), [("M10", "8.8", 425), ("3/8-16", "SAE-8", 427)]
)
def test_a_hardened_class_loses_its_temper(store, thread, grade, temper_c):
    """ISO 898-1 and SAE J429, least tempering temperature; austenitic steel has none."""
    answer = torque(thread, grade, heat_c=(500.0, 500.0), store=store)

    assert temper_c == answer.heat["temper_c"]
    assert answer.heat["loses_temper"]
    assert not torque(thread, grade, heat_c=(150.0, 150.0), store=store).heat["loses_temper"]
    assert torque("M8", "A2-70", heat_c=(500.0, 500.0), store=store).heat["temper_c"] is None


def test_a_press_fit_lets_go_when_the_body_is_warm(store):
    """Interference over d times the body's expansion: 0.02 mm of 10 mm, 93 K for aluminium."""
    answer = torque("M10", "8.8", **LOOSE, press_mm=0.02, heat_c=(120.0, 20.0), store=store)

    assert 0.02 / (10 * ALUMINIUM) + 20 == pytest.approx(answer.heat["press_opens_c"])
    assert 0 == answer.heat["press_grip_nm"]
    cold = torque("M10", "8.8", **LOOSE, press_mm=0.02, heat_c=(20.0, 20.0), store=store)
    assert cold.heat["press_grip_nm"] > 1


@pytest.mark.parametrize(
    ("given", "body_mpa", "length_mm"), [({}, 205_000, 10), (LOOSE, 71_700, 15)]
)
def test_a_press_fit_grips_as_thick_rings_do(store, given, body_mpa, length_mm):
    """
    Shigley's Mechanical Engineering Design, eq. (3-56): the body taken as 3 d outside, c = 3.

    p = δ/(d [(1/Eo)((c² + 1)/(c² - 1) + ν) + (1/Ei)(1 - ν)]), ν = 0.292 of steel; T = µ p π d² L/2
    at the middle friction 0.12; aluminium 71.7 GPa (Table A-5).
    """
    answer = torque("M10", "8.8", **given, press_mm=0.02, heat_c=(20.0, 20.0), store=store)
    give = (10 / 8 + 0.292) / body_mpa + (1 - 0.292) / 205_000
    mpa = 0.02 / (10 * give)

    grip_nm = 0.12 * mpa * pi * 10**2 * length_mm / 2 / 1000
    assert grip_nm == pytest.approx(answer.heat["press_grip_nm"], rel=0.015)


def test_a_locker_adds_its_bond_and_names_its_heat(store):
    """Tau pi d2^2 L/2 on the flanks over one diameter; high strength lets go from 232 °C."""
    plain = torque("M10", "8.8", store=store)
    held = torque("M10", "8.8", locker="high", store=store)

    assert held.loosening_nm - plain.loosening_nm == pytest.approx(
        31 * pi * 9.026**2 * 10 / 2 / 1000, rel=1e-3
    )
    assert (232, 316) == (held.locker["lets_go_from_c"], held.locker["lets_go_to_c"])
    assert any(source.checked == "judgement" for source in held.sources)


def test_what_is_left_of_a_broken_one(store):
    """No head, no preload; each hole with what shank and extractor still carry."""
    left = torque("M10", "8.8", broken=True, store=store).broken
    holes = {hole["purpose"]: hole for hole in left["holes"]}

    assert {"left-hand-drill", "spiral-extractor", "straight-extractor"} <= set(holes)
    for hole in holes.values():
        whole = left["shank_nm"]
        assert whole * (1 - (hole["drill_mm"] / 7.938) ** 4) == pytest.approx(
            hole["shank_nm"],
            rel=2e-3,
            abs=0.05,  # a root printed to a thousandth, under a thin shell
        )
        assert hole["wall_mm"] == pytest.approx((8.16 - hole["drill_mm"]) / 2, abs=0.01)
    assert holes["spiral-extractor"]["extractor_nm"] < whole
    assert {"slot_nm", "weld_nm", "jaw_nm"} <= set(left)
    # a throat of 0.2 d all round, 180 MPa: tau t pi d^2/2
    assert 180 * 2 * pi * 100 / 2 / 1000 == pytest.approx(left["weld_nm"], rel=1e-6)


def test_all_of_it_stands_in_the_document(store):
    """Null where it was not asked for."""
    said = document(torque("M8", "8.8", store=store))

    assert {"multiplier", "extension", "heat", "locker", "broken"} <= set(said)
    assert said["heat"] is None


@pytest.mark.parametrize(
    ("options", "expected"),
    [
        ({"multiplier": (0.5, 90.0)}, "multiplier must be 1 to"),
        ({"multiplier": (5.0, 0.0)}, "efficiency must be"),
        ({"extension_mm": (250.0, 0.0)}, "extension"),
        ({"heat_c": (-400.0, 20.0)}, "heat must be"),
        ({"heat_c": (float("nan"), 20.0)}, "heat must be"),
        ({"press_mm": 0.02}, "press needs heat"),
        ({"press_mm": -1.0, "heat_c": (20.0, 20.0)}, "press must be"),
        ({"locker": "strongest"}, "low, medium, high"),
    ],
)
def test_refusals(store, options, expected):
    """One line that names what is expected."""
    with pytest.raises(Misuse) as refused:
        torque("M8", "8.8", **options, store=store)

    assert expected in str(refused.value) and "\n" not in str(refused.value)
