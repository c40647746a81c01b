"""The torque answer: its numbers against published ones, its defaults, its refusals."""

import pytest

from fastkit.answers.torque import document, torque
from fastkit.errors import Misuse, NotHeld

KEYS = {  # that scripts rely on
    *("torque_min_nm", "torque_nm", "torque_max_nm", "preload_min_n", "preload_n"),
    *("preload_max_n", "mu_min", "mu_max", "limited_by", "weakest_part", "table_torque_nm"),
    *("table_preload_n", "breaking_torque_nm", "assumed", "sources"),
}
# VDI 2230-1 Table A1, mu 0.12: torque [N·m], preload [kN]
TABLE_A1 = [
    ("M6", "8.8", 10.1, 10.2),
    ("M8", "8.8", 24.6, 18.6),
    ("M8", "10.9", 36.1, 27.3),
    ("M10", "10.9", 71, 43.4),
    ("M12", "12.9", 144, 74.0),
    ("M20", "10.9", 592, 186),
    ("M24", "8.8", 714, 188),
    ("M36", "12.9", 4136, 729),
]
# ISO 898-7:1992 Table 2 [N·m]
BREAKING = [("M1", "10.9", 0.040), ("M3", "8.8", 1.5), ("M6", "10.9", 16), ("M10x1", "8.8", 84)]


@pytest.mark.parametrize(("thread", "grade", "torque_nm", "preload_kn"), TABLE_A1)
def test_table_value_is_the_published_one(store, thread, grade, torque_nm, preload_kn):
    """The data's heads, holes and strengths lead to Table A1."""
    answer = torque(thread, grade, store=store)

    assert torque_nm == pytest.approx(answer.table_torque_nm, rel=0.035)
    assert preload_kn * 1000 == pytest.approx(answer.table_preload_n, rel=0.025)


@pytest.mark.parametrize(("thread", "grade", "expected"), BREAKING)
def test_breaking_torque_is_the_published_one(store, thread, grade, expected):
    """From M1 on, whether or not a head is held."""
    answer = torque(thread, grade, store=store)

    assert expected == pytest.approx(answer.breaking_torque_nm, rel=0.04)


def test_keys_and_order(store):
    """Every key is there, the window is in order, the default is class B without being said."""
    answer = torque("m8", "8.8", store=store)
    said = document(answer)

    assert set(said) >= KEYS
    assert answer.torque_min_nm < answer.torque_nm <= answer.torque_max_nm < answer.table_torque_nm
    assert answer.preload_min_n < answer.preload_n < answer.preload_max_n
    assert (0.08, 0.16) == (answer.mu_min, answer.mu_max)
    assert 0.4 * answer.table_preload_n == pytest.approx(answer.preload_min_n)
    assert {"friction", "head", "hole", "utilisation_pct", "wrench_error_pct", "clamp_n"} <= {
        entry["what"] for entry in said["assumed"]
    }
    assert all(source["checked"] for source in said["sources"])


def test_a_single_mu_has_no_scatter(store):
    """With a true wrench the highest torque is then the table's."""
    answer = torque("M8", "8.8", mu=0.12, wrench_error_pct=0, store=store)

    assert answer.mu_min == answer.mu_max == 0.12
    assert answer.table_torque_nm == pytest.approx(answer.torque_max_nm)


def test_no_head_held(store):
    """M1: no hexagon head to bear on, so no window; strength and breaking torque stand."""
    answer = torque("M1", "8.8", store=store)

    assert answer.torque_nm is None and answer.table_torque_nm is None
    assert answer.breaking_torque_nm > 0 and answer.reason


def test_an_impossible_clamp_empties_the_window(store):
    """Everything else is complete, and what would open it is named."""
    answer = torque("M8", "8.8", clamp_n=15_000, store=store)

    assert answer.empty and answer.reason and answer.opens_it
    assert answer.torque_min_nm > answer.torque_max_nm > 0
    assert any("clamp" in way for way in answer.opens_it)


def test_strip_limits_soft_bodies(store):
    """A short thread in cast aluminium gives way before the bolt."""
    answer = torque("M10", "10.9", into="aluminium", engage_mm=8, store=store)
    deep = torque("M10", "10.9", into="aluminium", engage_mm=30, store=store)

    assert "internal-thread" == answer.weakest_part
    assert answer.limited_by in {"thread-strip", "bearing-pressure"}
    assert answer.torque_max_nm < torque("M10", "10.9", store=store).torque_max_nm
    assert deep.weakest_part == "shank"


def test_a_weak_drive_limits(store):
    """A hexagon socket key of 3 mm cannot turn what an M8 takes."""
    answer = torque("M8", "12.9", drive="hex-3mm", store=store)

    assert ("drive", "drive") == (answer.limited_by, answer.weakest_part)


def test_countersunk_and_prevailing_cost_torque(store):
    """A cone bears harder; a prevailing torque is added at both ends."""
    flat = torque("M8", "8.8", head="socket", store=store)
    cone = torque("M8", "8.8", head="countersunk", store=store)
    held = torque("M8", "8.8", prevailing_nm=3, store=store)
    free = torque("M8", "8.8", store=store)

    assert cone.torque_max_nm > 1.2 * flat.torque_max_nm
    assert held.torque_max_nm - free.torque_max_nm == pytest.approx(3 / 1.04)
    assert held.torque_min_nm - free.torque_min_nm == pytest.approx(3 / 0.96)
    assert held.preload_max_n == pytest.approx(free.preload_max_n)


def test_what_a_setting_gives(store):
    """Beyond yield is said as such."""
    answer = torque("M8", "8.8", set_nm=80, store=store)

    assert answer.set["utilisation_pct"][-1] > 100
    assert answer.set["preload_n"] == sorted(answer.set["preload_n"])


def test_makers_value_comes_first(store):
    """It is kept, compared, and what would bring it in is named."""
    inside = torque("M8", "8.8", maker_nm=16, store=store)
    above = torque("M8", "8.8", maker_nm=24, store=store)

    assert inside.maker["inside"] and not above.maker["inside"]
    assert 0.1 < above.maker["friction_needed"] < 0.13


def test_adapter_lengthens(store):
    """Twice the lever, half the reading; at right angles nothing changes."""
    straight = torque("M8", "8.8", adapter_mm=300, wrench_length_mm=300, store=store)
    square = torque(
        "M8", "8.8", adapter_mm=300, wrench_length_mm=300, adapter_angle_deg=90, store=store
    )

    assert straight.wrench_setting_nm == pytest.approx(straight.torque_nm / 2)
    assert square.wrench_setting_nm == pytest.approx(square.torque_nm)


@pytest.mark.parametrize(
    ("thread", "grade", "options"),
    [
        ("1/8-27-NPT", "8.8", {}),
        ("R1/4", "8.8", {}),
        ("ST4.2", "8.8", {}),
        ("M8", "45H", {}),
        ("tube:3/16in-inverted", "8.8", {}),
        ("M8", "8.8", {"into": "plastic"}),
        ("M8", "8.8", {"into": "wood"}),
        ("M8", "8.8", {"head": "ISO 4026"}),
    ],
)
def test_where_a_window_would_be_a_lie(store, thread, grade, options):
    """None is given; the reason and what applies instead are."""
    answer = torque(thread, grade, store=store, **options)

    assert answer.torque_min_nm is answer.torque_nm is answer.torque_max_nm is None
    assert answer.preload_n is None
    assert answer.reason and answer.published


@pytest.mark.parametrize(
    ("thread", "grade", "options", "error"),
    [
        ("M8", "8.8", {"mu": 0}, Misuse),
        ("M8", "8.8", {"mu": (0.2, 0.1)}, Misuse),
        ("M8", "8.8", {"mu": float("nan")}, Misuse),
        ("M8", "8.8", {"utilisation_pct": 0}, Misuse),
        ("M8", "8.8", {"utilisation_pct": 140}, Misuse),
        ("M8", "8.8", {"wrench_error_pct": -1}, Misuse),
        ("M8", "8.8", {"engage_mm": 0}, Misuse),
        ("M8", "8.8", {"clamp_n": -5}, Misuse),
        ("M8", "8.8", {"adapter_mm": 50}, Misuse),
        ("M8", "8.8", {"into": "cheese"}, Misuse),
        ("M8", "8.8", {"head": "mushroom"}, Misuse),
        ("M8", "8.8", {"friction": "class-b", "mu": 0.1}, Misuse),
        (
            "M8",
            "8.8",
            {"adapter_mm": 400, "wrench_length_mm": 300, "adapter_angle_deg": 180},
            Misuse,
        ),
        ("M20", "9.8", {}, NotHeld),
        ("M8", "SAE-5", {}, NotHeld),
        ("3/8-16", "8.8", {}, NotHeld),
        ("M8", "8.8", {"angle_deg": -1}, Misuse),
        ("M8", "8.8", {"grip_mm": 0}, Misuse),
        ("M8", "8.8", {"mu_head": 0}, Misuse),
        ("M8", "8.8", {"mu_head": (0.2, 0.1)}, Misuse),
        ("M8", "8.8", {"into": "steel", "engage_mm": 0.9}, Misuse),
        ("M8", "8.8", {"into": "nut-99"}, NotHeld),
        ("M8", "8.8", {"adapter_angle_deg": 30}, Misuse),
        ("M8", "8.8", {"wrench_length_mm": 0}, Misuse),
        ("M68", "8.8", {}, NotHeld),
    ],
)
def test_refusals_name_what_is_wrong(store, thread, grade, options, error):
    """One line, with the bound or the nearest."""
    with pytest.raises(error) as refused:
        torque(thread, grade, store=store, **options)

    assert "\n" not in str(refused.value)


def test_friction_under_the_head_alone(store):
    """A slicker head needs less torque for the same clamp; the table value stays."""
    same = torque("M8", "8.8", mu=0.12, wrench_error_pct=0, store=store)
    slick = torque("M8", "8.8", mu=0.12, mu_head=0.06, wrench_error_pct=0, store=store)

    # half the head's arm off: 0.12 * 10.35 / 2 = 0.62 of 1.318 mm
    assert slick.torque_max_nm / same.torque_max_nm == pytest.approx(1 - 0.31 / 1.318, rel=0.01)
    assert (0.06, 0.12) == (slick.mu_head_max, slick.mu_max)
    assert slick.table_torque_nm == same.table_torque_nm
    assert slick.preload_max_n == pytest.approx(same.preload_max_n)


def test_head_and_drive_bring_their_limit(store):
    """A countersunk screw's small key: 5 mm at M8; a cone presses on the body too."""
    answer = torque("M8", "8.8", head="countersunk", into="aluminium", engage_mm=20, store=store)
    names = {limit["name"] for limit in answer.limits}

    assert {"drive", "bearing-pressure", "thread-strip", "bolt-thread-strip"} <= names
    assert {"what": "drive", "value": "hex-5mm, key"} in [
        {**entry, "value": str(entry["value"])} for entry in answer.assumed
    ]


def test_a_maker_below_and_above(store):
    """Which assumption would bring the value in."""
    below = torque("M8", "8.8", maker_nm=8, store=store)
    above = torque("M8", "8.8", maker_nm=30, store=store)

    assert below.maker["clamp_needed_n"] < below.preload_min_n
    # stress is proportional to torque at the same friction: yield scales with the setting
    assert above.maker["yield_needed_mpa"] == pytest.approx(640 * 30 / above.torque_max_nm)


def test_pull_at_the_handle(store):
    """At 300 mm unless the wrench is known; N and kg."""
    answer = torque("M8", "8.8", store=store)
    longer = torque("M8", "8.8", wrench_length_mm=600, store=store)

    assert answer.torque_nm / 0.3 == pytest.approx(answer.by_hand["pull_n"])
    assert answer.by_hand["pull_n"] / 9.80665 == pytest.approx(answer.by_hand["pull_kg"])
    assert answer.by_hand["pull_n"] == pytest.approx(2 * longer.by_hand["pull_n"])


def test_what_turns_it_loose_again(store):
    """The sum with the helix turned, by hand; without friction scatter below the setting."""
    answer = torque("M8", "8.8", mu=0.12, store=store)
    arms = (-1.25 / 6.2832 + 0.57735 * 0.12 * 7.188 + 0.12 * 10.315 / 2) * answer.preload_n

    assert arms / 1000 == pytest.approx(answer.loosening_nm, rel=1e-3)
    assert answer.loosening_nm < answer.torque_nm and answer.loses_loosening is None


def test_angle_from_snug(store):
    """The gain follows the compliances; a large angle passes yield and stays there."""
    small = torque("M10", "8.8", set_nm=10, angle_deg=10, grip_mm=30, store=store).angle
    large = torque("M10", "8.8", set_nm=10, angle_deg=180, grip_mm=30, store=store).angle
    none = torque("M10", "8.8", set_nm=10, angle_deg=0, grip_mm=30, store=store)

    springs = small["bolt_compliance_mm_n"] + small["parts_compliance_mm_n"]
    assert 10 / 360 * 1.5 / springs == pytest.approx(
        small["preload_n"][1] - none.angle["preload_n"][1]
    )
    assert none.angle["preload_n"] == pytest.approx(none.set["preload_n"])
    assert not any(small["past_yield"]) and all(large["past_yield"])
    assert [100, 100, 100] == pytest.approx(large["utilisation_pct"])
    assert small["elongation_mm"] == pytest.approx(
        small["preload_n"][1] * small["bolt_compliance_mm_n"]
    )


def test_engagement_alone_means_steel(store):
    """What it is screwed into is then assumed, and said."""
    answer = torque("M8", "8.8", engage_mm=8, store=store)

    assert {"what": "into", "value": "steel"} in answer.assumed
    assert "thread-strip" in {limit["name"] for limit in answer.limits}


def test_strip_is_for_threads_whose_limits_are_known(store):
    """A Whitworth thread in aluminium: said, not guessed."""
    answer = torque("3/8-16-BSW", "A2-70", into="aluminium", store=store)

    assert any("strip not computed" in note for note in answer.notes)
    assert "thread-strip" not in {limit["name"] for limit in answer.limits}


def test_a_nut_that_is_not_made_in_that_size(store):
    """A class of nut that the standard lists for other threads only."""
    with pytest.raises(NotHeld, match="not held for M8"):
        torque("M8x1", "8.8", into="nut-12", store=store)


def test_used_heads_rub_more_too(store):
    """By the same quarter as the thread."""
    used = torque("M8", "8.8", mu=0.1, mu_head=0.08, reused=True, store=store)

    assert (0.08, 0.1) == pytest.approx((used.mu_head_min, used.mu_head_max))


def test_nuts(store):
    """The class paired with the bolt's, or the one named; a weaker one limits and can be lifted."""
    plain = torque("M10", "8.8", store=store)
    weak = torque("M10", "10.9", into="nut-5", clamp_n=20_000, store=store)

    assert {"what": "nut", "value": "nut-8"} in plain.assumed
    # ISO 898-2, class 8, M10: 50 500 N on 58 mm2
    held = {limit["name"]: limit["preload_n"] for limit in plain.limits}
    assert 50_500 == pytest.approx(held["nut-proof"], rel=0.01)
    assert weak.empty and "nut-proof" == weak.limited_by
    assert any("nut of a higher class" in way for way in weak.opens_it)
    assert torque("M10", "8.8", into="nut", store=store).limits == plain.limits


def test_a_higher_class_opens(store):
    """The weakest that does is named."""
    answer = torque("M8", "8.8", clamp_n=12_000, store=store)

    assert answer.empty and any("class 10.9" in way for way in answer.opens_it)


def test_why_walks_the_steps(store):
    """Each step has its numbers and its source."""
    steps = torque("M8", "8.8", why=True, store=store).why

    assert any("0.577" in step or "flank" in step for step in steps)
    assert sum("VDI 2230-1" in step for step in steps) >= 2


def test_table_pair_keeps_to_the_default_head(store):
    """Whatever head is asked for, the table pair is that of the hexagon on a medium hole."""
    plain = torque("M8", "8.8", store=store)
    flange = torque("M8", "8.8", head="flange", mu=(0.05, 0.19), prevailing_nm=5, store=store)

    assert plain.table_torque_nm == pytest.approx(flange.table_torque_nm)
    assert plain.table_preload_n == pytest.approx(flange.table_preload_n)
    assert flange.torque_max_nm != pytest.approx(plain.torque_max_nm)


def test_hole_is_the_medium_one(store):
    """ISO 273 medium for M10 is 11 mm; with 14.6 mm of bearing face D_km is 12.8 (VDI 2230-1)."""
    said = torque("M10", "8.8", why=True, store=store)

    assert {"what": "hole", "value": "medium, 11 mm"} in said.assumed
    assert any("hole of 11 mm" in step and "D_km" in step and "= 12.8" in step for step in said.why)


def test_same_answer_as_the_materialised_row(store):
    """The compiled table and the command agree to the last digit."""
    from fastkit.records.torque import TorqueRow
    from fastkit.reference.lookup import one

    row = one(store, TorqueRow, thread="M8x1.25", grade="8.8", friction="class-c")
    answer = torque("M8", "8.8", friction="class-c", store=store)

    assert (row.torque_min_nm, row.torque_nm, row.torque_max_nm) == pytest.approx(
        (answer.torque_min_nm, answer.torque_nm, answer.torque_max_nm)
    )
    assert row.preload_n == pytest.approx(answer.preload_n)


@pytest.mark.parametrize(
    ("options", "note"),
    [
        ({"into": "sheet"}, "strip not computed"),
        ({"into": "brass"}, "seat not computed"),
        ({"drive": "SQ2"}, "not a limit"),
        ({"reused": True}, "renewed"),
        ({}, "as strong as the bolt"),
    ],
)
def test_what_is_not_known_is_said(store, options, note):
    """A limit that cannot be computed is named, not left out in silence."""
    answer = torque("M8", "8.8", store=store, **options)

    assert any(note in text for text in answer.notes)


def test_reused_widens_the_friction(store):
    """By practice, and marked so; the table value stays."""
    new, used = torque("M8", "8.8", store=store), torque("M8", "8.8", reused=True, store=store)

    assert used.mu_max > new.mu_max and used.torque_min_nm > new.torque_min_nm
    assert used.table_torque_nm == new.table_torque_nm
    assert ("reused", "judgement") in {(s.used_for, s.checked) for s in used.sources}


def test_heads_by_standard(store):
    """As people write it; what is held for another size only is refused."""
    for text in ("ISO 4762", "iso-4762", "head:ISO-4762-M8", "ISO 4762 "):
        assert "ISO-4762-M8" == torque("M8", "8.8", head=text, store=store).head
    with pytest.raises(NotHeld, match="held for M7"):
        torque("M7", "8.8", head="ISO 4762", store=store)


def test_refused_grades_name_the_threads_own(store):
    """An inch thread is answered with inch grades."""
    with pytest.raises(NotHeld) as refused:
        torque("3/8-16", "8.8", store=store)

    assert "SAE-8" in refused.value.nearest


def test_set_screws_get_their_proof_torque(store):
    """ISO 898-5 Table 5: M8 45H 20 N·m."""
    assert "20 N·m" in torque("M8", "45H", store=store).published[0]


def test_tube_nuts_get_what_is_printed(store):
    """A brake manual prints 11 lb·ft, 15 N·m, for 3/16 in; the way instead comes last."""
    answer = torque("tube:3/16in-inverted", "8.8", store=store)

    assert any("15 N·m (11.1 lb·ft)" in said for said in answer.published[:-1])
    assert "line wrench" in answer.published[-1]
    assert {"copied", "judgement"} <= {source.checked for source in answer.sources}


def test_taper_threads_get_their_gauge_plane(store):
    """ISO 7-1: R1/4 to 6.0 mm; ASME B1.20.1: 1/8-27 NPT hand-tight length 0.1615 in."""
    metric = torque("R1/4", "8.8", store=store).published
    inch = torque("thread:1/8-27-NPT", "8.8", store=store).published

    assert "6 mm" in metric[0] and f"{6 / 25.4 * 19:.1f} turns" in metric[0]
    assert "0.16 in" in inch[0] and f"{0.1615 * 27:.1f} turns" in inch[0]
    assert "hand tight, then" in inch[-1]


def test_m7_by_the_rule_of_the_standard_that_leaves_it_out(store):
    """VDI 2230-1 Table A1: M7 8.8 at 0.12: 16.8 N·m, 14.8 kN."""
    answer = torque("M7", "8.8", store=store)

    assert 16.8 == pytest.approx(answer.table_torque_nm, rel=0.035)
    assert 14_800 == pytest.approx(answer.table_preload_n, rel=0.025)


# M10 8.8, socket head, 15 mm in cast aluminium, by hand: As 58.0 mm2; As 0.9 640 over the root of
# 1 + 3 (3 (0.239 + 0.417)/8.593)^2 = 1.1574 at the lowest friction: k = 0.2289
STEPS = {
    "yield of the shank": ("58 mm²", "× 0.9 × 640 MPa", "0.229", "31.1 kN", "R8/4"),
    "strip of the internal thread": ("13.8 mm", "× 126 MPa", "0.8 P", "FED-STD-H28/2B", "16224"),
    "strip of the bolt's own thread": ("0.65 × 800 MPa", "C2"),
    "pressure under the head": ("220 MPa", "20² - 11²", "48.2 kN"),
    "what the drive carries": ("hex-8mm",),
    "Twists off": ("0.84 × 800 MPa", "7.938", "π/16", "66 N·m", "ISO 898-7"),
    "Loosens again": ("helix", "flanks", "head"),
}


@pytest.mark.parametrize("step", STEPS)
def test_why_puts_the_numbers_in(store, step):
    """Each limit and each further step: formula, numbers, result, source."""
    options = {"head": "socket", "into": "aluminium", "engage_mm": 15, "clamp_n": 8000}
    said = torque("M10", "8.8", **options, why=True, store=store).why
    lines = [line for line in said if step in line]

    assert 1 == len(lines), said
    assert all(word in lines[0] for word in STEPS[step]), lines[0]


def test_why_puts_the_numbers_of_a_nut_in(store):
    """Proof stress of the paired nut times the stress area: 870 MPa x 36.6 mm2 for M8."""
    said = torque("M8", "8.8", why=True, store=store).why

    assert any("proof load of the nut" in s and "× 36.6 mm²" in s and "MPa" in s for s in said)


@pytest.mark.parametrize(("into", "least", "most"), [("steel", 10.5, 12.5), ("aluminium", 17, 20)])
def test_engagement_at_which_thread_and_shank_fail_together(store, into, least, most):
    """As (Rm/tau)/(area a mm) and 0.8 P: M10 8.8 about 1.1 d in S235, 1.8 d in cast aluminium."""
    answer = torque("M10", "8.8", into=into, clamp_n=8000, store=store)
    short = torque("M10", "8.8", into=into, engage_mm=least - 2, clamp_n=8000, store=store)
    long = torque("M10", "8.8", into=into, engage_mm=most + 4, clamp_n=8000, store=store)

    assert least < answer.engagement_mm < most
    assert "internal-thread" == short.weakest_part
    assert "shank" == long.weakest_part
    assert torque("M10", "8.8", store=store).engagement_mm is None
