"""Which further reading tells the leading threads apart best, by expected information."""

from collections.abc import Iterable, Iterator, Sequence
from itertools import pairwise
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


class Measure(NamedTuple):
    """A reading that may be taken: its spread, and what each candidate would read."""

    name: str
    unit: str
    sigma: float
    spans: Sequence[Span | None]  # None: a candidate has no such measure


def separation(ranked: tuple[Ranked, ...], said: Readings) -> Separation | None:
    """The best next reading; `mating` where none tells them apart; None where one is left."""
    even = tied(ranked)
    leaders = [item for item in ranked if item.probability >= LEAST_SHARE or item in even][:LEADERS]
    if len(leaders) < 2:
        return None
    threads = [item.candidate for item in leaders]
    shares = [item.probability for item in leaders]
    found = best_measure([one.id for one in threads], shares, list(_offers(said, threads)))
    if found is not None:
        return found
    tells = tuple(Tell(one.id, one.nominal, one.nominal) for one in threads)
    return Separation("mating", "mm", 0.0, max(shares) / sum(shares), tells)


def best_measure(
    ids: Sequence[str], weights: Sequence[float], offers: Iterable[Measure]
) -> Separation | None:
    """The reading with the most expected information; None where none is worth taking."""
    total = sum(weights)
    shares = [weight / total for weight in weights]
    best: Separation | None = None
    for name, unit, sigma, spans in offers:
        there = [span for span in spans if span is not None]
        if len(there) < len(ids):
            continue
        bits, probability = _expected(shares, there, sigma)
        tells = tuple(Tell(key, *span) for key, span in zip(ids, there, strict=True))
        if bits >= WORTH_BITS and (best is None or bits > best.bits + 0.001):
            best = Separation(name, unit, bits, probability, tells)
    return best


def _offers(said: Readings, threads: Sequence[Candidate]) -> Iterator[Measure]:
    """Readings of a thread not taken yet, the easiest first."""
    sigma = SIGMA * said.error
    if said.internal and said.minor is None:
        yield Measure("minor", "mm", sigma, [one.sizes.hole_minor for one in threads])
    elif not said.internal and said.major is None:
        yield Measure("major", "mm", sigma, [one.sizes.bolt_major for one in threads])
    if said.over_ten is None:
        yield Measure("over-ten", "mm", sigma, [_point(10 * one.pitch) for one in threads])
    if said.taper is None:
        yield Measure("taper", "", 0.2, [_point(float(one.taper)) for one in threads])
    flanks = [_point(one.flank) for one in threads]
    yield Measure("flank-angle", "deg", FLANK_ERROR_DEG / 2, flanks)


def _point(value: float) -> Span:
    return Span(value, value)


def _expected(shares: list[float], ends: list[Span], sigma: float) -> tuple[float, float]:
    """Mutual information of thread and reading [bits], and the first's expected probability."""
    low, high = min(s.low for s in ends) - 3 * sigma, max(s.high for s in ends) + 3 * sigma
    # a reading far from every thread is never made: sum over windows round the spans only
    edges = (at for s in ends for at in (s.low - 3 * sigma, s.high + 3 * sigma))
    cuts = sorted({low, high, *edges})
    bits = best = 0.0
    for left, right in pairwise(cuts):
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
