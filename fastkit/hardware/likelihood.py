"""Which thread the readings mean: likelihood over limits of size with reading error, and prior."""

from collections.abc import Iterable
from math import erf, exp, log, sqrt
from typing import NamedTuple

from fastkit.hardware.sizes import Candidate, Span, worn

TPI_ERROR = 0.5  # threads miscounted over an inch, half of one either way
OTHER_CLASS = 0.1  # share of threads of a class wider or finer than the usual one; judgement
OTHER_WIDTH = 0.6  # by how much such a class may reach past the usual limits, of their width
TAPER_ERROR = 0.03  # a taper overlooked or imagined
TWO_PI = 6.283185307179586
SIGMA = 0.6  # spread of a reading, of its bound: most lie well inside
BEYOND = 0.15  # how softly a bound ends, of the bound
BY_EYE = 0.01  # ten pitches are laid on from crest to crest by eye: no refusal within this share
# Readings further off than this many times their error belong to no thread at all.
FURTHEST = 3.0


class Readings(NamedTuple):
    """What was read [mm]; None: not read. `error` bounds each caliper reading, either way."""

    internal: bool
    error: float
    major: float | None = None
    minor: float | None = None
    pitch: float | None = None
    tpi: float | None = None
    over_ten: float | None = None
    taper: bool | None = None
    worn: bool = False


class Ranked(NamedTuple):
    """A candidate with its probability; `off`: how far each reading lies outside, in errors."""

    candidate: Candidate
    probability: float
    admitted: bool  # every reading lies within limits and error
    offsets: dict[str, float]


def spans(one: Candidate, said: Readings) -> tuple[tuple[str, float, Span], ...] | None:
    """Name, reading and limits of each diameter read; None where the thread has no such side."""
    found = []
    crest, core = (
        (one.sizes.hole_major, one.sizes.hole_minor)
        if said.internal
        else (one.sizes.bolt_major, one.sizes.bolt_root)
    )
    for name, value, span, wears in (
        ("major_mm", said.major, crest, not said.internal),
        ("minor_mm", said.minor, core, said.internal),
    ):
        if value is None:
            continue
        if span is None:
            return None
        found.append(
            (name, value, worn(span, one.pitch, said.internal) if said.worn and wears else span)
        )
    there = one.sizes.hole_minor if said.internal else one.sizes.bolt_major
    return tuple(found) if there is not None else None


def lead_readings(one: Candidate, said: Readings) -> tuple[tuple[str, float, float], ...]:
    """Name, reading less the thread's own, and error of each reading of the pitch."""
    found = []
    if said.pitch is not None:
        found.append(("pitch_mm", said.pitch - one.pitch, said.error))
    if said.over_ten is not None:
        found.append(("over_ten_mm", said.over_ten - 10 * one.pitch, said.error))
    if said.tpi is not None:
        found.append(("tpi", said.tpi - 25.4 / one.pitch, TPI_ERROR))
    return tuple(found)


def rank(candidates: Iterable[Candidate], said: Readings) -> tuple[Ranked, ...]:
    """Candidates by probability; empty where every one of them is too far off."""
    scored = []
    for one in candidates:
        held = spans(one, said)
        if held is None or (said.taper and not one.taper):
            continue
        score, furthest, refused = log(one.weight), 0.0, 0.0
        offsets: dict[str, float] = {}
        for name, value, span in held:
            score += log(_within(value, span, said.error))
            furthest = max(
                furthest, (span.low - value) / said.error, (value - span.high) / said.error
            )
            refused = furthest
            offsets[name] = value - span.middle
        for name, off, error in lead_readings(one, said):
            score += log(_normal(off, error))
            furthest = max(furthest, abs(off) / error)
            refused = max(refused, abs(off) / (error + _by_eye(name, said)))
            offsets[name] = off
        if said.taper is False and one.taper:
            score += log(TAPER_ERROR)
        if refused <= FURTHEST:
            scored.append((score, furthest, one, offsets))
    if not scored:
        return ()
    top = max(item[0] for item in scored)
    shares = [exp(item[0] - top) for item in scored]
    total = sum(shares)
    found = (
        Ranked(one, share / total, furthest <= 1 + 1e-9, offsets)
        for share, (_, furthest, one, offsets) in zip(shares, scored, strict=True)
    )
    return tuple(sorted(found, key=lambda item: (-item.probability, item.candidate.id)))


def _by_eye(name: str, said: Readings) -> float:
    return BY_EYE * said.over_ten if name == "over_ten_mm" and said.over_ten else 0.0


def nearest(candidates: Iterable[Candidate], said: Readings, count: int = 3) -> tuple[str, ...]:
    """The threads that the readings miss by least, in errors of reading."""
    found = []
    for one in candidates:
        held = spans(one, said)
        if held is None:
            continue
        off = [max(s.low - value, value - s.high, 0.0) / said.error for _, value, s in held]
        off += [abs(by) / error for _, by, error in lead_readings(one, said)]
        found.append((sum(off), -one.weight, one.id))
    return tuple(name for *_, name in sorted(found)[:count])


def tied(ranked: tuple[Ranked, ...]) -> tuple[Ranked, ...]:
    """The first, and all others whose usual limits and the readings' error admit the readings."""
    return tuple(item for number, item in enumerate(ranked) if item.admitted or not number)


def _within(value: float, span: Span, error: float) -> float:
    """Density of a reading of a size anywhere in its limits, mostly those of the usual class."""
    more = OTHER_WIDTH * (span.high - span.low)
    wide = Span(span.low - more, span.high + more)
    return (1 - OTHER_CLASS) * bounded(value, span, error) + OTHER_CLASS * bounded(
        value, wide, error
    )


def bounded(value: float, span: Span, error: float) -> float:
    """Density of a reading with a bound on its error, of a size anywhere in its limits."""
    outside = max(span.low - value, value - span.high, 0.0)
    return max(flat(value, span, SIGMA * error) * _past(outside, error), TINY)


def _past(off: float, error: float) -> float:
    """What is left of a likelihood where a reading would be off by more than its bound."""
    return exp(-(min(max(off / error - 1, 0.0) / BEYOND, 20.0) ** 2))


def _normal(off: float, error: float) -> float:
    sigma = SIGMA * error
    share = exp(-min((off / sigma) ** 2 / 2, 300.0)) * _past(abs(off), error)
    return max(share / (sigma * sqrt(TWO_PI)), TINY)


def flat(value: float, span: Span, sigma: float) -> float:
    """Density of a reading whose true value lies anywhere in a span, its error normal [1/mm]."""
    width = span.high - span.low
    if width < 1e-3 * sigma:
        off = (value - span.middle) / sigma
        return exp(-min(off * off / 2, 300.0)) / (sigma * sqrt(TWO_PI))
    return (_below((value - span.low) / sigma) - _below((value - span.high) / sigma)) / width


def _below(z: float) -> float:
    return (1 + erf(z / sqrt(2))) / 2


TINY = 1e-300
