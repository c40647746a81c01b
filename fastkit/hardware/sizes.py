"""What a caliper may find on a thread: limits of size by its standard, else by its profile."""

from collections.abc import Iterable, Mapping
from typing import NamedTuple

from fastkit.mechanics.thread_forms import PIPE_DEPTH, TAPER
from fastkit.records.thread import ClassLimit, Thread, ThreadLimit

# Where no standard's tolerances are held; workshop judgement, in pitches.
CREST_P = 0.12  # a crest lies at most this far under its basic size
CORE_P = 0.25  # and a hole's crest at most this far over its own
FLANK_P = 0.12  # pitch diameters
ROOT_P = 0.15  # the root of a bolt under its basic minor diameter
OVER_P = 0.1  # the root of a hole over the nominal size
WORN_P = 0.15  # what rust and use take off a crest, on the diameter
TURNS_IN = 3.0  # how far a caliper's jaws reach over a taper thread, in pitches


class Span(NamedTuple):
    """Least and largest of one diameter [mm]."""

    low: float
    high: float

    @property
    def middle(self) -> float:
        """Half-way between the ends [mm]."""
        return (self.low + self.high) / 2


class Sizes(NamedTuple):
    """The diameters of a thread on a bolt and in a hole [mm]; a side that does not exist: None."""

    bolt_major: Span | None
    bolt_pitch: Span | None
    bolt_root: Span | None
    hole_minor: Span | None
    hole_pitch: Span | None
    hole_major: Span | None


def is_taper(thread: Thread) -> bool:
    """Whether a thread grows along its length."""
    return thread.family == "NPT" or thread.series == "R"


def sizes(
    thread: Thread, limits: Iterable[ThreadLimit | ClassLimit] = (), gauge_mm: float = 0.0
) -> Sizes:
    """
    Limits of every diameter of a thread.

    Args:
        thread: The thread.
        limits: Limits of the usual classes, computed or printed.
        gauge_mm: Hand-tight length of a taper thread [mm].
    """
    if is_taper(thread):
        return _taper(thread, gauge_mm)
    d, p, d2, d1 = (
        *(thread.nominal_mm, thread.pitch_mm),
        *(thread.pitch_diameter_mm, thread.minor_mm),
    )
    known: dict[tuple[str, str], Span] = {}
    for limit in limits:
        key = limit.side, limit.dimension
        span, so_far = Span(limit.min_mm, limit.max_mm), known.get(key)
        known[key] = (
            Span(min(span.low, so_far.low), max(span.high, so_far.high)) if so_far else span
        )
    bolt = (
        known.get(("external", "major"), Span(d - CREST_P * p, d)),
        known.get(("external", "pitch"), Span(d2 - FLANK_P * p, d2)),
        Span(thread.root_mm - ROOT_P * p, d1),
    )
    hole = (
        known.get(("internal", "minor"), Span(d1, d1 + CORE_P * p)),
        known.get(("internal", "pitch"), Span(d2, d2 + FLANK_P * p)),
        Span(d, d + OVER_P * p),
    )
    none: tuple[None, None, None] = (None, None, None)
    if thread.series == "Rp":
        return Sizes(*none, *hole)
    return Sizes(*bolt, *(none if thread.family == "ST" else hole))


def _taper(thread: Thread, gauge_mm: float) -> Sizes:
    """A taper thread from its small end to a few turns past the gauge plane."""
    p, d2, depth = thread.pitch_mm, thread.pitch_diameter_mm, thread.nominal_mm - thread.minor_mm
    if thread.family == "NPT":
        depth = 2 * PIPE_DEPTH * p
    small, large = -TAPER * gauge_mm, TAPER * TURNS_IN * p
    half = depth / 2
    return Sizes(
        Span(d2 + half + small, d2 + half + large),
        Span(d2 + small, d2 + large),
        Span(d2 - half + small, d2 - half + large),
        Span(d2 - half + small, d2 - half),
        Span(d2 + small, d2),
        Span(d2 + half + small, d2 + half),
    )


class Candidate(NamedTuple):
    """A thread that may be meant: entry id, other ids of the same geometry, and its sizes."""

    id: str
    also: tuple[str, ...]
    used_for: tuple[str, ...]  # tube nuts
    title: str
    family: str
    pitch: float
    nominal: float
    flank: float  # degrees
    taper: bool
    sizes: Sizes
    weight: float  # how common it is, not normalised


def worn(span: Span, pitch: float, internal: bool) -> Span:
    """The limits with what wear may take: a bolt's crest lower, a hole's crest wider."""
    if internal:
        return Span(span.low, span.high + WORN_P * pitch)
    return Span(span.low - WORN_P * pitch, span.high)


def merged(candidates: Iterable[Candidate]) -> tuple[Candidate, ...]:
    """Candidates of one geometry as one: the commonest leads, the others ride along."""
    found: dict[tuple[object, ...], list[Candidate]] = {}
    for one in candidates:
        key = (round(one.nominal, 3), round(one.pitch, 4), one.flank, one.taper, *_sides(one.sizes))
        found.setdefault(key, []).append(one)
    return tuple(_together(group) for group in found.values())


def _sides(held: Sizes) -> tuple[bool, bool]:
    return held.bolt_major is not None, held.hole_minor is not None


def _together(group: list[Candidate]) -> Candidate:
    lead = max(group, key=lambda one: one.weight)
    others = tuple(other for other in group if other is not lead)
    return lead._replace(
        also=(*lead.also, *(name for other in others for name in (other.id, *other.also))),
        used_for=(*lead.used_for, *(name for other in others for name in other.used_for)),
        weight=sum(one.weight for one in group),
    )


def weights(
    threads: Iterable[Thread],
    series_weight: Mapping[tuple[str, str], float],
    stocked: frozenset[str],
    inserts: frozenset[str],
) -> dict[str, float]:
    """
    How common each thread is, by its series, whether heads of its size are standard ware and
    whether repair inserts are made for it; workshop judgement.
    """
    return {
        row.id: series_weight.get((row.family, row.series), 1.0)
        * (STOCKED if row.size in stocked else 1.0)
        * (INSERTED if row.series == "fine" and row.id in inserts else 1.0)
        for row in threads
    }


STOCKED, INSERTED = 4.0, 3.0
