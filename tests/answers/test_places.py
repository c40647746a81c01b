"""Where a fastener sits is one list: what reads it in one line reads it in all."""

import pytest

from fastkit.answers import repair_read, torque_read
from fastkit.answers.extract import extract
from fastkit.answers.replace import replace
from fastkit.answers.said import places
from fastkit.reference.store import query

PLACES = ("gearbox", "tractor", "rocker cover", "timing chain", "anchorage", "alternator")


@pytest.mark.parametrize("place", PLACES)
def test_where_it_sits_asks_for_nothing(store, place):
    words = place.split()

    assert "not_understood" not in torque_read.read_line(["m8", "8.8", *words], store)
    assert "not_understood" not in repair_read.read_line(["m8", "stripped", *words], store)
    assert () == replace("M8", store=store, was=f"rusted bolt, {place}").not_understood
    assert () == extract(f"M8 bolt of the {place}, rusted", store=store).not_understood


def test_a_word_that_is_no_place_is_told(store):
    assert "gazebo" not in places(store)
    assert ("gazebo",) == torque_read.read_line(["m8", "8.8", "gazebo"], store)["not_understood"]


def test_each_place_stands_once(store):
    rows = [words for (words,) in query(store, "SELECT words FROM phrase WHERE option = 'place'")]
    fillers = {words for (words,) in query(store, "SELECT words FROM phrase WHERE option='filler'")}

    assert len(rows) == len(set(rows)) > 100
    assert fillers.isdisjoint(rows)
