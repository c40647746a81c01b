"""Finding, as the public API answers it."""

import pytest

from fastkit.answers.find import find
from fastkit.errors import Misuse


def test_the_answer_says_how_it_was_read(store):
    answer = find("m8 8.8 torque", store=store)

    assert "thread M8, grade 8.8, torque" == answer.read_as
    assert "torque:M8x1.25@8.8" == answer.hits[0].id
    assert answer.reason is None and () == answer.nearest


def test_it_opens_the_reference_itself(store):
    assert find("T20", store=store) == find("T20")


def test_nothing_found_has_a_reason_and_the_nearest(store):
    answer = find("M99", store=store)

    assert () == answer.hits
    assert "M99" in str(answer.reason) and 3 == len(answer.nearest)


@pytest.mark.parametrize(
    ("words", "options", "said"),
    [
        ("", {}, "nothing to look for"),
        (" \t\n", {}, "nothing to look for"),
        ("m8", {"limit": 0}, "limit 0: expected 1 to 1000"),
        ("m8", {"limit": 1001}, "limit 1001"),
        ("m8", {"kind": "threads"}, "no kind 'threads'; expected one of thread, drive"),
    ],
)
def test_wrong_questions(store, words, options, said):
    with pytest.raises(Misuse, match=said):
        find(words, store=store, **options)


def test_the_nearest_kind_is_named(store):
    with pytest.raises(Misuse) as refusal:
        find("m8", kind="thred", store=store)
    assert ("thread",) == refusal.value.nearest


@pytest.mark.parametrize(
    ("words", "points"),
    [
        ("bolt stuck", True),
        ("rounded nut m8", True),
        ("snapped off flush", True),
        ("m8 8.8 torque", False),
        ("medium threadlocker", False),
        ("hex socket 6 mm", False),
    ],
)
def test_a_fastener_that_will_not_move_is_sent_to_its_command(words, points, store):
    """Who looks for a stuck bolt is told which command plans for it."""
    assert (find(words, store=store).see == "extract") is points
