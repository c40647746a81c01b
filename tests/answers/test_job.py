"""A whole job: the order, what it takes, how long, and whether to hand it on."""

import random
from math import sqrt
from pathlib import Path

import pytest

from fastkit.answers import job_file
from fastkit.answers.job import job
from fastkit.answers.job_worth import worth
from fastkit.answers.shelf import add_tool
from fastkit.extraction.spread import likely, mean, quantile, times, together
from fastkit.records.job import HandWork, LineKind
from fastkit.reference.lookup import many

EXAMPLE = Path(job_file.__file__).with_name("job_example.toml").read_text("utf-8")


@pytest.fixture(scope="module")
def sheet(store):
    return job(EXAMPLE, store=store)


def test_nothing_comes_off_before_what_stands_before_it(sheet):
    """The order of taking apart, which the file asks for."""
    place = {step.what: n for n, step in enumerate(sheet.apart)}

    assert place["motor lead"] < place["suction hose"] < place["pump cover"]
    assert place["motor lead"] < place["pressure hose"] < place["pump cover"]
    assert place["guard"] < place["pump cover"] < place["impeller"]
    assert place["cover bolts"] < place["pump cover"]
    assert place["guard screws"] < place["guard"]


def test_it_goes_back_the_other_way(sheet):
    """Common practice: assembly in the reverse order, each part before what holds it."""
    place = {step.what: n for n, step in enumerate(sheet.together)}

    assert place["impeller"] < place["impeller nut"] < place["pump cover"] < place["cover bolts"]
    assert place["pump cover"] < place["guard"] and place["pump cover"] < place["suction hose"]
    assert place["suction hose"] < place["motor lead"]


def test_each_line_has_its_letter(sheet):
    assert ["A", "B", "C"] == [label.letter for label in sheet.labels]
    assert ["motor lead", "suction hose", "pressure hose"] == [label.name for label in sheet.labels]
    assert "plug hose" in sheet.labels[1].cap


def test_loosening_is_the_reverse_of_tightening(sheet):
    """The last one tightened is let go first."""
    cover = next(row for row in sheet.tightening if row.name == "cover bolts")

    assert sorted(cover.sequence) == list(range(1, 9))
    assert 1 == abs(cover.sequence.index(1) - cover.sequence.index(5))  # opposite ones in a circle
    off = next(step for step in sheet.apart if step.what == "cover bolts")
    assert ", ".join(map(str, reversed(cover.sequence))) in " ".join(off.how)


def test_the_makers_torque_goes_first(sheet):
    cover = next(row for row in sheet.tightening if row.name == "cover bolts")

    assert cover.maker_nm == 14.0
    assert cover.torque_nm == 14.0
    assert cover.stages[-1].torque_nm == 14.0


def test_a_left_hand_nut_is_told_with_both_ways(sheet):
    off = next(step for step in sheet.apart if step.what == "impeller nut")
    on = next(step for step in sheet.together if step.what == "impeller nut")

    assert "clockwise loosens" in " ".join(off.how).lower()
    assert "left-hand" in " ".join(on.how).lower()


def test_only_what_is_stuck_has_a_plan(sheet):
    assert [("cover bolts", 3), ("impeller nut", 1)] == [(p.name, p.stuck) for p in sheet.plans]
    for plan in sheet.plans:
        low, middle, high = plan.minutes
        assert 0 < low <= middle <= high
        assert 0 < plan.chance <= 1


def test_tools_are_those_of_the_plans(sheet, store):
    """What the first moves need is on the bench before the first bolt is touched."""
    listed = {tool.id for tool in sheet.tools}

    for plan in sheet.plans:
        assert set(plan.needs) <= listed


def test_tools_at_hand_are_told_from_those_to_borrow(sheet, store):
    add_tool(sheet.plans[0].needs[0])
    found = {tool.id: tool.at_hand for tool in job(EXAMPLE, store=store).tools}

    assert True in found.values() and False in found.values()


def test_seals_and_spares_are_on_the_list(sheet):
    lines = [(buy.pieces, buy.line) for buy in sheet.buy]

    assert any("paper gasket" in line for _, line in lines)
    assert any(pieces == 8 + 2 and "M8" in line for pieces, line in lines)  # one spare in four


def test_time_is_the_sum_of_its_parts(store):
    """Only free fasteners: mean and spread against ten thousand sums by chance."""
    text = EXAMPLE.replace("stuck = 3", "stuck = 0").replace(
        'state = "left-hand m10x1 nut, seized"', ""
    )
    found = job(text, store=store)
    works = {row.id: row for row in many(store, HandWork)}
    kinds = {row.id: row for row in many(store, LineKind)}
    dice = random.Random(11)

    def once(quick, usual, slow):
        return dice.triangular(quick, slow, usual) if quick < slow else quick

    def work(name):
        row = works[name]
        return once(row.quick_min, row.usual_min, row.slow_min)

    walks = []
    for _ in range(10_000):
        total = work("lay-out") + work("check-over")
        for kind in ("plug", "water-hose", "water-hose"):
            row = kinds[kind]
            total += work("photograph")
            total += once(row.off_quick_min, row.off_min, row.off_slow_min)
            total += once(row.on_quick_min, row.on_min, row.on_slow_min)
        for _ in range(3):
            total += work("photograph") + work("part-off") + work("part-on")
        for _ in range(4 + 8 + 1):
            for name in ("turn-out", "clean-thread", "turn-in", "tighten"):
                total += work(name)
        walks.append(total)
    walks.sort()
    middle = sum(walks) / len(walks)
    error = sqrt(sum((walk - middle) ** 2 for walk in walks)) / len(walks)

    assert found.mean_minutes == pytest.approx(middle, abs=4 * error)
    for share, minutes in zip((0.1, 0.5, 0.9), found.minutes, strict=True):
        assert minutes == pytest.approx(walks[int(share * len(walks))], abs=1.5)


def test_worth_by_hand():
    """
    120 min, nine in ten come free, one in ten done twice, 100 elsewhere and 60 min of one's own.

    2.2 h + 22 + 0.1 (100 + h) = 100 + h gives h = 68 / 1.3.
    """
    found = worth(
        minutes=120, freed=0.9, again=0.1, price=100, away_minutes=60, parts_price=20, hour=30
    )

    assert found.break_even == pytest.approx(68 / 1.3)
    assert found.own == pytest.approx(2.2 * 30 + 22 + 0.1 * 130)
    assert found.away == pytest.approx(130)
    assert found.better == "own"


def test_worth_where_there_is_no_break_even():
    """Quicker by oneself and cheaper: always; dearer parts than the whole price: never."""
    always = worth(minutes=30, freed=1, again=0, price=100, away_minutes=60, parts_price=0, hour=10)
    never = worth(
        minutes=300, freed=0.5, again=0.2, price=50, away_minutes=30, parts_price=90, hour=10
    )

    assert (always.break_even, always.better) == (None, "own")
    assert (never.break_even, never.better) == (None, "away")


def test_two_lines_of_one_kind_are_two_times(store):
    kinds = {row.id: row for row in many(store, LineKind)}
    row = kinds["water-hose"]
    one = likely(row.off_quick_min, row.off_min, row.off_slow_min)

    assert mean(times(one, 2)) == pytest.approx(mean(together(one, one)))
    assert quantile(times(one, 2), 0.5) == quantile(together(one, one), 0.5)


def test_markup_stays_text(store):
    found = job(EXAMPLE.replace("pump cover", "<b>{0} %s</b>"), store=store)

    assert any("<b>{0} %s</b>" in step.what for step in found.apart)


def test_hot_work_beside_fuel_is_not_planned(store):
    """A fuel line in the file stands beside everything that is still on."""
    text = EXAMPLE + '[[line]]\nname = "fuel pipe"\nkind = "fuel-line"\n'
    found = job(text, store=store)

    assert any("flame" in caution for caution in found.cautions)


def test_what_is_bought_has_the_thread_of_its_hole(sheet):
    """A left-hand nut is asked for as one; each line names its thread and length."""
    nut = next(buy for buy in sheet.buy if buy.for_ == "impeller nut")
    bolts = next(buy for buy in sheet.buy if buy.for_ == "cover bolts")

    assert "LEFT-HAND" in nut.line and "M10" in nut.line
    assert "M8" in bolts.line and "LEFT-HAND" not in bolts.line


def test_a_new_part_is_tightened_by_its_own_window(store):
    """Without a maker's value the window is that of what is bought, with its lubricant."""
    found = job(EXAMPLE.replace('maker = "14 N·m"', ""), store=store)
    cover = next(row for row in found.tightening if row.name == "cover bolts")

    assert cover.window_nm is not None and cover.torque_nm is not None
    assert cover.window_nm[0] <= cover.torque_nm <= cover.window_nm[1]
    assert cover.how[0].startswith("new: ")


def test_what_no_fire_may_do_stands_on_the_sheet(store):
    """A stuck bolt wet with brake cleaner beside fuel: the sheet says both, whatever is planned."""
    text = """
title = "Bracket"
[[part]]
name = "bracket"
[[fastener]]
name = "bolt"
holds = "bracket"
thread = "M8"
state = "m8 hexagon rounded, rusted, brake cleaner all over it, fuel line 50 mm"
"""
    cautions = " ".join(job(text, store=store).cautions)

    assert "phosgene" in cautions
    assert "no flame or sparks or heat nearer than 2000 mm" in cautions
