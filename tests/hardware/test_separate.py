"""The next reading, held against a lottery: draw a thread, read it, see how sure one gets."""

from math import log2
from random import Random

import pytest

from fastkit.answers.identify import identify_thread
from fastkit.answers.identify_parts import identify_drive
from fastkit.hardware.likelihood import SIGMA, flat
from fastkit.hardware.separate import Measure, best_measure
from fastkit.hardware.sizes import Span

DRAWS = 6000
CASES = [
    # shares; what each candidate reads, by measure: (least, largest), and the reading's sigma
    (
        [0.5, 0.5],
        {"a": ([(8.0, 8.0), (7.94, 7.94)], 0.018), "b": ([(4.8, 5.0), (4.7, 4.8)], 0.018)},
    ),
    (
        [0.7, 0.2, 0.1],
        {"a": ([(0, 0), (1, 1), (1, 1)], 0.2), "b": ([(60, 60), (60, 60), (55, 55)], 1)},
    ),
    (
        [0.4, 0.3, 0.3],
        {"a": ([(9.7, 9.9), (9.6, 9.8), (9.3, 9.5)], 0.02), "b": ([(1, 1)] * 3, 0.1)},
    ),
    (
        [0.9, 0.05, 0.05],
        {"a": ([(5, 6), (5.5, 6.5), (6, 7)], 0.05), "b": ([(0, 0), (1, 1), (2, 2)], 0.1)},
    ),
]


def lottery(shares, spans, sigma, seed):
    """Expected information [bits] and chance of the likeliest, from drawn readings."""
    chance = Random(seed)
    bits = best = 0.0
    for _ in range(DRAWS):
        true = chance.choices(range(len(shares)), shares)[0]
        value = chance.uniform(*spans[true]) + chance.gauss(0.0, sigma)
        each = [s * flat(value, Span(*span), sigma) for s, span in zip(shares, spans, strict=True)]
        total = sum(each)
        bits += log2(each[true] / total / shares[true])
        best += max(each) / total
    return bits / DRAWS, best / DRAWS


@pytest.mark.parametrize(("shares", "measures"), CASES)
def test_expected_information_is_what_a_lottery_gives(shares, measures):
    """Bits and probability of the chosen reading; and no other reading would bring more."""
    ids = [f"thread:{n}" for n in range(len(shares))]
    offers = [
        Measure(name, "mm", sigma, [Span(*span) for span in spans])
        for name, (spans, sigma) in measures.items()
    ]
    chosen = best_measure(ids, shares, offers)
    drawn = {name: lottery(shares, spans, sigma, 7) for name, (spans, sigma) in measures.items()}

    assert chosen is not None
    assert chosen.reading == max(drawn, key=lambda name: drawn[name][0])
    assert chosen.bits == pytest.approx(drawn[chosen.reading][0], abs=0.03)
    assert chosen.probability == pytest.approx(drawn[chosen.reading][1], abs=0.02)


def test_nothing_is_worth_reading_where_all_read_the_same():
    same = Measure("a", "mm", 0.02, [Span(5, 5), Span(5, 5)])
    assert best_measure(["x", "y"], [0.5, 0.5], [same]) is None


def test_taking_the_reading_decides(store):
    """What is asked for is then read, and one thread is left ahead of the other."""
    first = identify_thread(major_mm=4.83, pitch_mm=0.8, store=store)
    assert first.separates is not None and first.separates.reading == "over-ten"
    for tell in first.separates.tells[:2]:
        then = identify_thread(major_mm=4.83, pitch_mm=0.8, over_ten_mm=tell.low, store=store)
        assert tell.id == then.candidates[0].id
        assert then.candidates[0].probability > 0.9


def test_counting_lobes_comes_first_where_nobody_has(store):
    """8 mm across may be much; a count or a look tells more than another measurement."""
    answer = identify_drive(across_mm=8.0, store=store)
    assert answer.separates is not None
    assert answer.separates.reading in ("lobes", "system", "external")


def test_sigma_stays_inside_the_bound():
    """A reading's bound is more than one spread and less than three."""
    assert 1 < 1 / SIGMA < 3
