"""Identification from readings, against printed limits of size of other publications' copies."""

import csv
from pathlib import Path
from random import Random

import pytest
from hypothesis import given
from hypothesis import strategies as st

from fastkit.answers.identify import identify_thread
from fastkit.errors import FastkitError, Misuse, NotHeld
from tests.hardware.readings import ERROR_MM, published, read

ROWS = published()
MIX_UPS = list(
    csv.DictReader((Path(__file__).parent / "mix_ups.csv").read_text("utf-8").splitlines())
)
SEED = 20


def asked(store, row, diameter, pitch):
    side = {"minor_mm": diameter, "internal": True} if row.internal else {"major_mm": diameter}
    return identify_thread(**side, pitch_mm=pitch, error_mm=ERROR_MM, store=store)


def bare(ids):
    return [name.removeprefix("thread:") for name in ids]


def test_there_are_enough():
    """At least two hundred published dimensions, both sides, inch and metric."""
    assert 200 <= len(ROWS)
    assert 150 <= sum(not row.internal for row in ROWS)


@pytest.fixture(scope="module")
def verdicts(store):
    """Row, readings, whether the true thread is first, and the answer, of each printed row."""
    chance = Random(SEED)
    found = []
    for row in ROWS:
        diameter, pitch = read(row, chance)
        answer = asked(store, row, diameter, pitch)
        first = [answer.candidates[0].id, *answer.candidates[0].also]
        found.append((row, diameter, pitch, row.thread in bare(first), answer))
    return found


def test_true_thread_first_or_tied(verdicts):
    """
    First in 95 of 100, or tied first with exactly those that such readings cannot separate.

    The ties are held against the printed limits: a published thread whose limits, widened by the
    readings' error, hold both readings belongs to them; one whose limits do not, not.
    """
    right = 0
    for row, diameter, pitch, first, answer in verdicts:
        admits = {
            other.thread
            for other in ROWS
            if other.internal == row.internal
            and other.low - ERROR_MM <= diameter <= other.high + ERROR_MM
            and abs(other.pitch - pitch) <= ERROR_MM
        }
        lead = answer.candidates[0]
        first_ids = set(bare([lead.id, *lead.also]))
        tied = set(bare(answer.tied)) & {other.thread for other in ROWS}
        # the standards' tables step off their own formulas by up to 15 um at a few sizes
        surely = {
            other.thread
            for other in ROWS
            if other.internal == row.internal
            and other.low - ERROR_MM + 0.016 <= diameter <= other.high + ERROR_MM - 0.016
            and abs(other.pitch - pitch) <= ERROR_MM
            and other.thread in admits
            and other.low < other.high - 0.06  # limits both printed
        }
        # of those whose limits both are printed, none that stands clearly outside
        never = {
            other.thread
            for other in ROWS
            if other.internal == row.internal
            and other.thread != row.thread
            and other.low < other.high - 0.06
            and not (
                other.low - ERROR_MM - 0.016 <= diameter <= other.high + ERROR_MM + 0.016
                and abs(other.pitch - pitch) <= ERROR_MM + 1e-6
            )
        }
        exact = surely <= tied and row.thread in tied and not never & tied - first_ids
        right += first or exact
    assert right >= 0.95 * len(ROWS)


def test_ties_name_what_separates_them(verdicts):
    """Where more than one thread is left, a further reading is named, or that none would."""
    for row, *_, answer in verdicts:
        first = answer.candidates[0]
        if set(answer.tied) - {first.id, *first.also}:
            assert answer.separates is not None, row
            assert answer.separates.reading and answer.separates.tells


def test_one_reading_keeps_the_true_thread(store):
    """With the diameter alone the true thread is still among the candidates' first dozen."""
    chance = Random(SEED)
    kept = 0
    rows = [row for row in ROWS if not row.internal]
    for row in rows:
        diameter, _ = read(row, chance)
        answer = identify_thread(major_mm=diameter, store=store)
        ids = bare([name for c in answer.candidates[:12] for name in (c.id, *c.also)])
        kept += row.thread in ids
    assert kept >= 0.9 * len(rows)


@pytest.mark.parametrize("pair", MIX_UPS, ids=lambda p: f"{p['turns_in']} in {p['turns_on']}")
def test_dangerous_pairs_are_mentioned(store, pair):
    """Whoever holds one of the two is told of the other: bolt in hand, or hole before them."""
    by_id = {(row.thread, row.internal): row for row in ROWS}
    for name, other, internal in (
        (pair["turns_in"], pair["turns_on"], False),
        (pair["turns_on"], pair["turns_in"], True),
    ):
        row = by_id.get((name, internal))
        answer = (
            asked(store, row, (row.low + row.high) / 2, row.pitch)
            if row
            else identify_thread(as_named=name, internal=internal, store=store)
        )
        named = [set(bare([*danger.pair, *danger.also])) for danger in answer.danger]
        assert any({name, other} <= ids for ids in named), (name, other, named)


def test_example_of_a_bolt(store):
    """7.85 over the crests, 1.25 from crest to crest: M8, with 5/16-18 named as the trap."""
    answer = identify_thread(major_mm=7.85, pitch_mm=1.25, store=store)

    assert "thread:M8x1.25" == answer.candidates[0].id
    assert answer.candidates[0].probability > 0.9
    assert any("thread:5/16-18-UNC" in danger.pair for danger in answer.danger)


def test_ten_pitches_tell_metric_from_inch(store):
    """8.00 mm over ten is M5, 7.94 the 32 an inch of number 10; one pitch cannot say so."""
    one = identify_thread(major_mm=4.83, pitch_mm=0.8, store=store)
    metric = identify_thread(major_mm=4.83, over_ten_mm=8.0, store=store)
    inch = identify_thread(major_mm=4.83, over_ten_mm=7.94, store=store)

    assert {"thread:M5x0.8", "thread:#10-32-UNF"} <= set(one.tied)
    assert one.separates is not None and "over-ten" == one.separates.reading
    assert "thread:M5x0.8" == metric.candidates[0].id
    assert "thread:#10-32-UNF" == inch.candidates[0].id


def test_more_readings_never_blur(store):
    """Each further true reading makes the true thread at least as likely."""
    shares = []
    for readings in (
        {"major_mm": 9.87},
        {"major_mm": 9.87, "pitch_mm": 1.5},
        {"major_mm": 9.87, "pitch_mm": 1.5, "over_ten_mm": 15.0},
    ):
        answer = identify_thread(**readings, store=store)
        found = {c.id: c.probability for c in answer.candidates}
        shares.append(found.get("thread:M10x1.5", 0.0))
    assert shares == sorted(shares) and shares[-1] > 0.95


def test_ten_pitches_laid_on_by_eye(store):
    """Crests are laid on by eye: 12.4 over ten is read as 12.5, where nothing else lies nearer."""
    answer = identify_thread(major_mm=7.85, over_ten_mm=12.4, error_mm=0.02, store=store)
    assert "thread:M8x1.25" == answer.candidates[0].id


def test_worn_crests(store):
    """A bolt filed down by rust reads under its limits; said to be worn, it is still found."""
    worn = identify_thread(major_mm=7.62, pitch_mm=1.25, worn=True, store=store)
    assert "thread:M8x1.25" == worn.candidates[0].id
    hole = identify_thread(minor_mm=7.0, pitch_mm=1.25, internal=True, worn=True, store=store)
    assert "thread:M8x1.25" == hole.candidates[0].id


def test_internal(store):
    """6.75 in the hole with 1.25 pitch is M8; 5/16-18's hole overlaps and wants its pitch."""
    answer = identify_thread(minor_mm=6.75, internal=True, pitch_mm=1.25, store=store)
    assert "thread:M8x1.25" == answer.candidates[0].id
    one = identify_thread(minor_mm=6.72, internal=True, store=store)
    first = bare([c.id for c in one.candidates[:6]])
    assert {"M8x1.25", "5/16-18-UNC"} <= set(first)


def test_taper(store):
    """Taper threads grow along their length, and are told from the parallel ones by that."""
    taper = identify_thread(major_mm=13.4, tpi=18, taper=True, store=store)
    assert "thread:1/4-18-NPT" in (taper.candidates[0].id, *taper.candidates[0].also)
    pipe = identify_thread(major_mm=13.05, tpi=19, store=store)
    assert {"thread:G1/4", "thread:R1/4"} & set(pipe.tied)
    assert pipe.separates is not None and "taper" == pipe.separates.reading


def test_tube_nut(store):
    """9.85 with 1.00 pitch may be the brake pipe nut, and the 3/8-24 nut is the trap."""
    answer = identify_thread(major_mm=9.85, pitch_mm=1.0, store=store)
    assert "thread:M10x1" == answer.candidates[0].id
    assert "tube:4.75mm-iso" in answer.candidates[0].used_for
    only = identify_thread(major_mm=11.05, tpi=24, store=store)
    assert "tube:1/4in-inverted" in (only.candidates[0].id, *only.candidates[0].used_for)


def test_probabilities(store):
    """They are in order and sum to at most one."""
    for readings in ({"major_mm": 6.0}, {"pitch_mm": 1.0}, {"major_mm": 12.5, "tpi": 13}):
        shares = [c.probability for c in identify_thread(**readings, store=store).candidates]
        assert shares == sorted(shares, reverse=True)
        assert 0 < shares[0] <= 1 and sum(shares) <= 1 + 1e-9


@pytest.mark.parametrize(
    ("given", "error", "said"),
    [
        ({}, Misuse, "--major"),
        ({"major_mm": -3.0}, Misuse, "major"),
        ({"major_mm": 8.0, "pitch_mm": 9.0}, Misuse, "pitch"),
        ({"major_mm": float("nan")}, Misuse, "major"),
        ({"major_mm": 8.0, "tpi": 0.0}, Misuse, "tpi"),
        ({"major_mm": 8.0, "error_mm": 2.0}, Misuse, "error"),
        ({"major_mm": 8.0, "pitch_mm": 2.9}, NotHeld, "nearest"),
        ({"major_mm": 8.0, "pitch_mm": 1.25, "tpi": 40}, NotHeld, "nearest"),
        ({"major_mm": 500.0}, Misuse, "major"),
    ],
)
def test_nonsense_is_told(store, given, error, said):
    """Out of range is wrong usage; readings that fit no thread find nothing, and say what is."""
    with pytest.raises(error) as told:
        identify_thread(**given, store=store)
    assert said in f"{told.value}; nearest: {', '.join(told.value.nearest)}"


@given(
    major=st.floats(0.5, 60) | st.none(),
    pitch=st.floats(0.1, 6) | st.none(),
    worn=st.booleans(),
    taper=st.booleans(),
)
def test_never_breaks(store, major, pitch, worn, taper):
    """Any reading gives an answer in order or a refusal."""
    try:
        answer = identify_thread(
            major_mm=major, pitch_mm=pitch, worn=worn, taper=taper or None, store=store
        )
    except FastkitError:
        return
    assert answer.candidates and set(answer.tied) <= {
        name for c in answer.candidates for name in (c.id, *c.also)
    } | set(answer.tied)
    assert all(0 < c.probability <= 1 for c in answer.candidates)
