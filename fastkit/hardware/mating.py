"""Threads that start on each other and then strip, jam or leak: from their limits of size."""

from collections.abc import Iterable, Mapping
from math import radians, tan
from typing import NamedTuple

from fastkit.hardware.sizes import Candidate, Span

FORCED_P = 0.05  # what a wrench forces past its play without being felt, in pitches; judgement
STARTS_TURNS = 0.3  # fewer turns than this and it does not start at all; judgement
WHOLE_TURNS = 4.0  # as many turns as this and it goes in whole
LEAST_OVERLAP = 0.25  # of the full depth; with less it falls through
LOOSE_OVERLAP = 0.75  # with less it strips before it is tight
SAME_PITCH = 1e-3  # relative
PIPES = ("G", "R", "NPT")


class Danger(NamedTuple):
    """A bolt that starts in a hole of another thread, and what comes of it."""

    bolt: Candidate
    hole: Candidate
    kind: str  # jams, strips, leaks, angle
    turns: float | None  # until it jams; None: it goes in whole
    overlap: float | None  # of the full depth; None with turns: it catches the first thread only
    note: str | None
    source: str | None
    weight: float


class Noted(NamedTuple):
    """What a publication or the trade says of two threads."""

    kind: str
    text: str
    source: str


Notes = Mapping[frozenset[str], Noted]


Mates = tuple[str, float | None, float | None]  # kind, turns, overlap


def mating(bolt: Candidate, hole: Candidate) -> Mates | None:
    """
    What happens when a bolt is turned into a hole of another thread; None: it does not start.

    Returns:
        Kind, turns until it jams (None: it goes in whole) and depth of overlap as a share.
    """
    outside, flanks, inside, room, crest = (
        *(bolt.sizes.bolt_major, bolt.sizes.bolt_pitch),
        *(hole.sizes.hole_minor, hole.sizes.hole_pitch, hole.sizes.hole_major),
    )
    if None in (outside, flanks, inside, room, crest):
        return None
    assert outside and flanks and inside and room and crest  # for the type checker
    overlap = (outside.middle - inside.middle) / (crest.low - inside.middle)
    if overlap < LEAST_OVERLAP or outside.low > crest.high + FORCED_P * hole.pitch:
        return None
    mismatch = abs(bolt.pitch - hole.pitch)
    turns = _turns(flanks, room, bolt, hole, mismatch)
    if turns is not None and turns < STARTS_TURNS:
        return None
    return _kind(bolt, hole, turns, overlap), turns, overlap


def _turns(
    flanks: Span, room: Span, bolt: Candidate, hole: Candidate, mismatch: float
) -> float | None:
    """Turns until the pitches' difference has eaten the play between the flanks; 0: tight."""
    half = radians(min(bolt.flank, hole.flank) / 2)
    play = (room.high - flanks.low) * tan(half) + FORCED_P * min(bolt.pitch, hole.pitch)
    if play <= 0:
        return 0.0
    if mismatch <= SAME_PITCH * hole.pitch:
        return None
    return play / mismatch


def _kind(bolt: Candidate, hole: Candidate, turns: float | None, overlap: float) -> str:
    if bolt.family in PIPES and hole.family in PIPES:
        return "leaks"
    if turns is None and bolt.flank != hole.flank and overlap >= LOOSE_OVERLAP:
        return "angle"
    if (turns is None or turns >= WHOLE_TURNS) and overlap < LOOSE_OVERLAP:
        return "strips"
    return "jams" if turns is not None else "angle" if bolt.flank != hole.flank else "strips"


def dangers(
    one: Candidate, others: Iterable[Candidate], internal: bool, notes: Notes
) -> tuple[Danger, ...]:
    """Every other thread that starts on this one, the noted first, then the commonest."""
    found = []
    for other in others:
        if other.id == one.id:
            continue
        bolt, hole = (other, one) if internal else (one, other)
        noted = _noted(one, other, notes)
        mates = mating(bolt, hole)
        if noted and mates is None:
            other_way = mating(hole, bolt)
            if other_way:
                bolt, hole, mates = hole, bolt, other_way
            elif _there(bolt, hole):
                mates = (noted.kind, None, None)  # by force, on its first turn
        if mates is None:
            continue
        kind, turns, overlap = mates
        if kind == "strips" and _same_use(one, other):
            continue
        text, source = (noted.text, noted.source) if noted else (None, None)
        found.append(Danger(bolt, hole, kind, turns, overlap, text, source, other.weight))
    return tuple(sorted(found, key=lambda item: (item.note is None, -item.weight)))


def _there(bolt: Candidate, hole: Candidate) -> bool:
    return bolt.sizes.bolt_major is not None and hole.sizes.hole_minor is not None


def _same_use(one: Candidate, other: Candidate) -> bool:
    """Pipe threads made to go together: parallel internal, taper external of one size."""
    return {one.family, other.family} <= {"G", "R"} and one.pitch == other.pitch


def _noted(one: Candidate, other: Candidate, notes: Notes) -> Noted | None:
    for first in (one.id, *one.also):
        for second in (other.id, *other.also):
            pair = frozenset((first, second))
            if pair in notes:
                return notes[pair]
    return None
