"""Which further reading tells the leading threads apart best, by expected information."""

from collections.abc import Callable, Iterable
from math import log2
from typing import NamedTuple

from fastkit.hardware.likelihood import SIGMA, Ranked, Readings, flat, tied
from fastkit.hardware.sizes import Candidate, Span

LEADERS = 8
LEAST_SHARE = 0.005
GRID = 96
FLANK_ERROR_DEG = 2.0  # a profile gauge held to the light; judgement
WORTH_BITS = 0.02  # less than this and a reading is not worth taking


class Tell(NamedTuple):
    """What one candidate would read: least and largest, in the reading's unit."""

    id: str
    low: float
    high: float


class Separation(NamedTuple):
    """The reading to take next, the bits it is expected to bring, and what each would read."""

    reading: str  # major, minor, over-ten, taper, flank-angle, mating
    unit: str
    bits: float
    probability: float  # expected of the first, once it is taken
    tells: tuple[Tell, ...]


def separation(ranked: tuple[Ranked, ...], said: Readings) -> Separation | None:
    """The best next reading; `mating` where none tells them apart; None where one is left."""
    leaders = [item for item in ranked if item.probability >= LEAST_SHARE or item in tied(ranked)][
        :LEADERS
    ]
    if len(leaders) < 2:
        return None
    total = sum(item.probability for item in leaders)
    shares = [item.probability / total for item in leaders]
    threads = [item.candidate for item in leaders]
    found = []
    for name, unit, sigma, span in _offers(said):
        ends = [span(one) for one in threads]
        if all(end is not None for end in ends):
            there = [end for end in ends if end is not None]
            bits, best = _expected(shares, there, sigma)
            tells = tuple(Tell(one.id, *end) for one, end in zip(threads, there, strict=True))
            found.append(Separation(name, unit, bits, best, tells))
    best_first = sorted(found, key=lambda item: -round(item.bits, 3))
    if best_first and best_first[0].bits >= WORTH_BITS:
        return best_first[0]
    tells = tuple(Tell(one.id, one.nominal, one.nominal) for one in threads)
    return Separation("mating", "mm", 0.0, max(shares), tells)


Offer = tuple[str, str, float, Callable[[Candidate], Span | None]]


def _offers(said: Readings) -> Iterable[Offer]:
    """Readings not taken yet, the easiest first: name, unit, sigma, and what a thread reads."""
    sigma = SIGMA * said.error
    if said.internal:
        if said.minor is None:
            yield "minor", "mm", sigma, lambda one: one.sizes.hole_minor
    elif said.major is None:
        yield "major", "mm", sigma, lambda one: one.sizes.bolt_major
    if said.over_ten is None:
        yield "over-ten", "mm", sigma, lambda one: _point(10 * one.pitch)
    if said.taper is None:
        yield "taper", "", 0.2, lambda one: _point(float(one.taper))
    yield "flank-angle", "deg", FLANK_ERROR_DEG / 2, lambda one: _point(one.flank)


def _point(value: float) -> Span:
    return Span(value, value)


def _expected(shares: list[float], ends: list[Span], sigma: float) -> tuple[float, float]:
    """Mutual information of thread and reading [bits], and the first's expected probability."""
    low, high = min(s.low for s in ends) - 3 * sigma, max(s.high for s in ends) + 3 * sigma
    # a reading far from every thread is never made: sum over windows round the spans only
    edges = (at for s in ends for at in (s.low - 3 * sigma, s.high + 3 * sigma))
    cuts = sorted({low, high, *edges})
    bits = best = 0.0
    for left, right in zip(cuts, cuts[1:], strict=False):
        steps = max(2, min(GRID, int((right - left) / (sigma / 3)) + 1))
        width = (right - left) / steps
        for number in range(steps):
            at = left + (number + 0.5) * width
            each = [share * flat(at, end, sigma) for share, end in zip(shares, ends, strict=True)]
            total = sum(each)
            if total <= 1e-12:
                continue
            best += max(each) * width
            bits += (
                sum(
                    part * log2(part / share / total)
                    for part, share in zip(each, shares, strict=True)
                    if part > 1e-15
                )
                * width
            )
    return max(bits, 0.0), min(best, 1.0)
