"""What goes along when an assembly is lowered, and what is left behind."""

import pytest

from fastkit.extraction.rooms import Shop, rooms_of
from fastkit.extraction.situation import Near, Situation

BOLT = Situation("bolt", "M8x1.25", "8.8", "AF-13mm", "snapped-flush", seized="rusted")


def _off(facts, situation, move):
    """How far off each neighbour is after a move."""
    rows = facts(situation)
    rooms = {room.move: room for room in rooms_of(situation, rows, Shop(rows))}
    return {near.thing: near.mm for near in rooms[move].near}


def test_what_touches_comes_down_with_the_assembly(facts):
    """A hose bolted to it is as near below as above; one 60 mm off stays up there."""
    beside = BOLT._replace(near=(Near("brake-fluid", 0.0), Near("rubber", 60.0)))
    off = _off(facts, beside, "drop-assembly")
    assert off["brake-fluid"] == 0
    assert off["rubber"] > 100


def test_what_touches_can_be_tied_back_or_left_behind(facts):
    """A cover is taken off, and stays with the vehicle."""
    beside = BOLT._replace(near=(Near("plastic", 0.0),))
    assert _off(facts, beside, "make-room")["plastic"] > 50
    assert "plastic" not in _off(facts, beside, "bench")


@pytest.mark.parametrize("move", ["make-room", "drop-assembly"])
def test_what_cannot_move_does_not(facts, move):
    """Paint is where it is."""
    beside = BOLT._replace(near=(Near("paint", 30.0),))
    assert _off(facts, beside, move)["paint"] == 30
