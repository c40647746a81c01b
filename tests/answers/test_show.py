"""One entry whole, under the names that scripts use."""

import json
import math

import pytest

from fastkit.answers.show import show
from fastkit.errors import FastkitError, Misuse, NotHeld
from fastkit.reference.store import query

THREAD = (
    *("major_mm", "pitch_mm", "tpi", "pitch_diameter_mm", "minor_mm", "stress_area_mm2"),
    *("tap_drill_mm", "clearance_close_mm", "clearance_medium_mm", "clearance_coarse_mm", "limits"),
)
TORQUE_ROW = {"friction", "mu", "torque_min_nm", "torque_nm", "torque_max_nm", "preload_n"}


def document(store, id_):
    return show(id_, store=store).document


@pytest.mark.parametrize(
    "id_", ["thread:M8x1.25", "thread:1/4-20-UNC", "thread:M1x0.25", "thread:M36x2"]
)
def test_threads(store, id_):
    said = document(store, id_)

    assert [] == [name for name in THREAD if name not in said]
    assert id_ == said["id"] and said["source"] and said["checked"]
    assert {"class", "side", "dimension", "min_mm", "max_mm"} <= said["limits"][0].keys()
    assert all(row["min_mm"] < row["max_mm"] for row in said["limits"])


def test_published_thread_values(store):
    """ISO 724, ISO 2306, ISO 273 and ISO 965-1 for M8, as printed."""
    said = document(store, "thread:M8x1.25")

    assert (8, 1.25, None) == (said["major_mm"], said["pitch_mm"], said["tpi"])
    assert (7.188, 6.647) == (round(said["pitch_diameter_mm"], 3), round(said["minor_mm"], 3))
    assert 36.6 == round(said["stress_area_mm2"], 1)
    assert 6.8 == said["tap_drill_mm"]
    holes = [said[f"clearance_{fit}_mm"] for fit in ("close", "medium", "coarse")]
    assert [8.4, 9, 10] == holes
    limits = {(r["class"], r["dimension"]): (r["min_mm"], r["max_mm"]) for r in said["limits"]}
    assert (7.76, 7.972) == limits["6g", "major"]
    assert (7.042, 7.16) == limits["6g", "pitch"]
    assert (7.188, 7.348) == limits["6H", "pitch"]
    assert (6.647, 6.912) == limits["6H", "minor"]


def test_grades_drives_heads(store):
    grade = document(store, "grade:8.8")
    drive = document(store, "drive:AF-13mm")
    head = document(store, "head:ISO-4762-M6")

    assert {"size_range", "tensile_min_mpa", "yield_min_mpa", "proof_mpa"} <= grade["rows"][
        0
    ].keys()
    assert 13 == drive["across_flats_mm"]
    assert drive["proof_torque_nm"] == min(t["proof_torque_nm"] for t in drive["proof_torques"])
    wanted = ("head_diameter_mm", "head_height_mm", "bearing_diameter_mm", "drive")
    assert [10, 6, "hex-5mm"] == [head[name] for name in wanted if name != "bearing_diameter_mm"]


def test_torque_entries_have_a_row_for_each_friction(store):
    said = document(store, "torque:M8x1.25@8.8")
    frictions = {row[0] for row in query(store, "SELECT id FROM friction")}

    assert frictions == {row["friction"] for row in said["rows"]}
    assert all(row.keys() >= TORQUE_ROW for row in said["rows"])


def test_methods_come_with_steps_and_cautions(store):
    said = document(store, "method:left-hand-drill")

    assert said["steps"] and said["cautions"] and said["variants"]
    assert {"drill", "motor", "swarf", "vibration"} == {hazard["id"] for hazard in said["hazards"]}
    assert "practice" == said["source"] and "judgement" == said["checked"]


def test_what_an_entry_is_for(store):
    """Said where the data say it, and nothing in its place where they do not."""
    said = show("compound:anti-seize-zinc", store=store).document["serves"]

    assert any("aluminium" in row["purpose"] for row in said)
    assert "serves" not in show("thread:M8x1", store=store).document


def test_every_entry_shows_and_every_number_has_a_source(store):
    """Whatever search can find can be shown, is JSON, and cites a source that is held."""
    held = {row[0] for row in query(store, "SELECT id FROM source")}
    for id_, kind in query(
        store, "SELECT id, kind FROM entry WHERE kind <> 'torque' OR rowid % 50 = 0"
    ):
        answer = show(id_, store=store)
        said = json.loads(json.dumps(answer.document, allow_nan=False))
        assert id_ == said["id"] and said["title"]
        assert {source["source"] for source in said["sources"]} <= held
        if kind != "source":
            assert said["sources"], id_
        for group in answer.groups:
            for row in group.rows:
                numbers = [v for v in row.values() if isinstance(v, float)]
                assert all(map(math.isfinite, numbers))
                assert not numbers or row.get("source"), (id_, group.name)


@pytest.mark.parametrize(
    ("text", "id_"),
    [
        ("M8x1.25", "thread:M8x1.25"),
        ("THREAD:M8X1.25", "thread:M8x1.25"),
        ("drive:t20", "drive:T20"),
        ("torque:m8@8.8", "torque:M8x1.25@8.8"),
        ("torque:3/8-16@sae-5", "torque:3/8-16-UNC@SAE-5"),
        ("method:Weld-Nut", "method:weld-nut"),
    ],
)
def test_what_names_one_entry_will_do(store, text, id_):
    assert id_ == show(text, store=store).id


@pytest.mark.parametrize(
    "text",
    [
        "thread:M8x9",
        "nope",
        "torque:M8x1.25@99",
        "tube:9/16in-inverted",
        "x" * 5000,
        "\udc80",
        "torque:@",
    ],
)
def test_what_is_not_held(store, text):
    with pytest.raises(FastkitError) as refusal:
        show(text, store=store)
    assert refusal.value.status in {1, 2} and len(str(refusal.value)) < 300


def test_the_nearest_are_named(store):
    with pytest.raises(NotHeld) as refusal:
        show("drive:T21", store=store)
    assert "drive:T20" == refusal.value.nearest[0]


def test_an_empty_id_is_wrong_usage(store):
    with pytest.raises(Misuse):
        show(" ", store=store)


@pytest.mark.parametrize("said", ["M8x1.25-LH", "thread:M8x1.25-lh", "left hand m8", "m8 lh"])
def test_a_left_hand_thread_has_the_numbers_of_the_other(store, said):
    shown, other = show(said, store=store), show("thread:M8x1.25", store=store)

    assert "left-hand" in shown.title
    assert (shown.id, shown.groups) == (other.id, other.groups)


def test_where_threads_are_left_hand(store):
    assert "the right pedal" == show("left-hand:pedal-left", store=store).document["where_not"]


@pytest.mark.parametrize(
    ("id_", "limit"),
    [  # ISO 228-1 as carried in bd-warehouse; BS 93, largest normal bolt; ISO 1478, d2
        ("thread:G1/4", ("A", "external", "pitch", 12.176, 12.301)),
        ("thread:BA-4", ("normal", "external", "pitch", 3.088, 3.179)),
        ("thread:ST4.2", ("-", "external", "minor", 2.95, 3.1)),
        # ASME B1.1 as reprinted in an online engineering handbook: 0-80 UNF 2A, minimum pitch
        ("thread:#0-80-UNF", ("2A", "external", "pitch", 1.26, 1.306)),
    ],
)
def test_limits_of_other_families(store, id_, limit):
    names = ("class", "side", "dimension", "min_mm", "max_mm")
    limits = [tuple(row[n] for n in names) for row in show(id_, store=store).document["limits"]]

    assert any(
        limit[:3] == row[:3] and row[3:] == pytest.approx(limit[3:], abs=0.0011) for row in limits
    ), limits


def test_an_insert_names_drill_and_tap(store):
    """M8: d + 1.299 P = 9.624, d + 0.2165 P = 8.271, worked out by hand."""
    said = show("insert:M8x1.25", store=store).document

    assert 8.4 == said["drill_mm"]
    assert (9.624, 8.271) == pytest.approx((said["tap_major_mm"], said["hole_min_mm"]), abs=0.001)
    assert "insert:M8x1.25" == show("thread:M8x1.25", store=store).document["insert"]
