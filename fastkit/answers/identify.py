"""What thread is this: readings to candidates, what to read next, what it is mixed up with."""

import sqlite3
from collections.abc import Iterator
from math import isfinite
from typing import Any

from fastkit.answers.identified import Identified, Likely, Trap
from fastkit.answers.identify_say import limits_words
from fastkit.errors import Misuse, NotHeld
from fastkit.hardware.likelihood import BY_EYE, Ranked, Readings, nearest, rank, tied
from fastkit.hardware.mating import Danger, Noted, dangers
from fastkit.hardware.separate import separation
from fastkit.hardware.sizes import Candidate, is_taper, merged, sizes, weights
from fastkit.joint.classes import usual_classes
from fastkit.mechanics import thread as profile
from fastkit.notation.entry import entry_id
from fastkit.records.head import Head
from fastkit.records.identity import Commonness, MixUp
from fastkit.records.thread import ClassLimit, Insert, PipeGauge, Thread, ThreadLimit
from fastkit.records.tube import Tube
from fastkit.reference.lookup import many
from fastkit.reference.store import connect

USUAL_ERROR_MM = 0.03  # a caliper in a workshop hand, either way; judgement
BOUNDS = {
    "major": (0.3, 300.0, "mm"),
    "minor": (0.2, 300.0, "mm"),
    "pitch": (0.05, 12.0, "mm"),
    "over-ten": (0.5, 120.0, "mm"),
    "tpi": (2.0, 200.0, ""),
    "caliper-error": (0.001, 0.5, "mm"),
}
LEAST_SHARE = 0.002  # candidates below this are not listed
MOST = 20
LEADS, LEAD_SHARE, DANGERS_EACH, LEAST_WEIGHT = 3, 0.05, 3, 25.0
STANDARD_HEADS = ("ISO 4017", "ASME B18.2.1", "ASME B18.3 cap", "BS 1083")
SIXTY = 60.0
SELF_CUTTING = ("ST", "PG")  # tapping screws make their own thread; conduit meets no screw


def identify_thread(
    major_mm: float | None = None,
    minor_mm: float | None = None,
    *,
    pitch_mm: float | None = None,
    tpi: float | None = None,
    over_ten_mm: float | None = None,
    internal: bool = False,
    taper: bool | None = None,
    worn: bool = False,
    error_mm: float = USUAL_ERROR_MM,
    as_named: str | None = None,
    store: sqlite3.Connection | None = None,
) -> Identified:
    """
    Return the threads that readings may mean, likeliest first.

    Args:
        major_mm: Over the crests of a bolt; in a hole, over its roots.
        minor_mm: Across the crests of a hole; of a bolt, across its roots.
        pitch_mm: Crest to crest.
        tpi: Threads counted over an inch.
        over_ten_mm: Over ten pitches.
        internal: The thread is in a hole or nut.
        taper: Whether it grows along its length; None: not looked at.
        worn: Rust or use has taken from its crests.
        error_mm: Bound of the caliper's error, either way.
        as_named: A designation in place of readings: what it is mixed up with.
        store: Open reference; the package's own if left out.

    Raises:
        Misuse: When there is no reading, or one is out of its range.
        NotHeld: When no thread lies near the readings; `nearest` names what misses by least.
        Broken: When the reference cannot be read.
    """
    store = store or connect()
    assumed: list[dict[str, Any]] = []
    if as_named:
        return _of_name(store, as_named, internal)
    if minor_mm is not None and major_mm is None and not internal:
        internal = True
        assumed.append({"what": "internal", "value": True})
    said = Readings(internal, error_mm, major_mm, minor_mm, pitch_mm, tpi, over_ten_mm, taper, worn)
    _checked(said)
    assumed.append({"what": "caliper_error_mm", "value": error_mm})
    shelf = Shelf(store)
    every = shelf.near(*_window(said), _pitches(said))
    ranked = rank(every, said)
    if not ranked:
        raise NotHeld(
            "no thread in the data lies near these readings; expected diameter and pitch of one "
            "thread, read again over ten pitches, or --worn",
            nearest(every or shelf.near(0.0, 1e9), said),
        )
    return Identified(
        _readings(said),
        tuple(_likely(item) for item in ranked[:MOST] if item.probability >= LEAST_SHARE),
        tuple(name for item in tied(ranked) for name in (item.candidate.id, *item.candidate.also)),
        separation(ranked, said),
        _traps(shelf, ranked, internal),
        tuple(assumed),
    )


class Shelf:
    """The threads and tube nuts of the data; the limits of those asked for are worked out once."""

    def __init__(self, store: sqlite3.Connection) -> None:
        """Fetch the rows."""
        self.store = store
        self.threads = many(store, Thread)
        self.tubes = many(store, Tube)
        series = {(row.family, row.series): row.weight for row in many(store, Commonness)}
        stocked = frozenset(row.size for row in many(store, Head) if row.standard in STANDARD_HEADS)
        inserts = frozenset(row.id for row in many(store, Insert))
        self.series = series
        self.weight = weights(self.threads, series, stocked, inserts)
        self.gauges = {row.thread: row.gauge_mm for row in many(store, PipeGauge)}
        self.printed: dict[str, list[ThreadLimit]] = {}
        for row in many(store, ThreadLimit):
            self.printed.setdefault(row.thread, []).append(row)
        self.known: dict[str, Candidate] = {}

    def near(
        self, low_mm: float, high_mm: float, pitches: tuple[float, float] = (0.0, 1e9)
    ) -> tuple[Candidate, ...]:
        """Every thread whose nominal size and pitch lie between two; of one geometry as one."""
        least, most = pitches
        plain = [
            self._one(row)
            for row in self.threads
            if low_mm <= row.nominal_mm <= high_mm and least <= row.pitch_mm <= most
        ]
        tubes = [
            tube
            for tube in self.tubes
            if low_mm <= tube.thread_mm <= high_mm and least <= tube.pitch_mm <= most
        ]
        return _with_tubes(merged(plain), tubes, self.series)

    def _one(self, row: Thread) -> Candidate:
        if row.id not in self.known:
            limits = [*usual_limits(self.store, row), *self.printed.get(row.id, ())]
            held = sizes(row, limits, self.gauges.get(row.id, 0.0))
            self.known[row.id] = Candidate(
                *(entry_id("thread", row.id), (), (), f"{row.id}, {_what(row)}", row.family),
                *(row.pitch_mm, row.nominal_mm, row.flank_angle_deg, is_taper(row)),
                *(held, self.weight[row.id]),
            )
        return self.known[row.id]


def _pitches(said: Readings) -> tuple[float, float]:
    """Pitches that a reading may belong to, wider than any that is taken for it."""
    more = 4 * said.error
    if said.pitch is not None:
        return said.pitch - more, said.pitch + more
    if said.over_ten is not None:
        more += 3 * BY_EYE * said.over_ten
        return (said.over_ten - more) / 10, (said.over_ten + more) / 10
    if said.tpi is not None:
        return 25.4 / (said.tpi + 2), 25.4 / max(said.tpi - 2, 0.1)
    return 0.0, 1e9


def _what(row: Thread) -> str:
    """Series, diameter and pitch, as one reads them off."""
    turns = f"{row.tpi:g} an inch, {row.pitch_mm:.3f}" if row.tpi else f"{row.pitch_mm:g}"
    series = row.series if row.family != "M" else f"metric {row.series}"
    return f"{series}, {row.nominal_mm:.4g} mm, pitch {turns} mm"


def usual_limits(store: sqlite3.Connection, row: Thread) -> list[ClassLimit]:
    """
    Limits of the classes that a thread may have, where nobody says which.

    Close Whitworth bolts are among them: theirs are the sizes without an allowance.
    """
    names = (*usual_classes(row), "close") if row.family == "BS" else usual_classes(row)
    return [limit for limit in many(store, ClassLimit, thread=row.id) if limit.tolerance in names]


def _window(said: Readings) -> tuple[float, float]:
    """Nominal sizes that a reading may belong to, wide enough for worn and taper threads."""
    if said.major is not None:
        return 0.9 * said.major, 1.15 * said.major + 0.5
    if said.minor is not None:
        return 0.95 * said.minor, 1.5 * said.minor + 0.5
    return 0.0, 1e9


def _with_tubes(
    plain: tuple[Candidate, ...],
    tubes: list[Tube],
    series: dict[tuple[str, str], float],
) -> tuple[Candidate, ...]:
    """The tube nuts laid on the threads they have, or as candidates of their own."""
    by_geometry = {_geometry(one.nominal, one.pitch): one for one in plain if one.flank == SIXTY}
    users: dict[str, list[str]] = {}
    alone: list[Candidate] = []
    for tube in tubes:
        name, there = entry_id("tube", tube.id), by_geometry.get(_geometry(*_of(tube)))
        if there is not None:
            users.setdefault(there.id, []).append(name)
            continue
        like = _as_thread(tube)
        alone.append(
            Candidate(
                *(name, (), (name,), f"{tube.thread}, tube nut", "UN", tube.pitch_mm),
                *(tube.thread_mm, SIXTY, False, sizes(like), series[("tube", tube.form)]),
            )
        )
    return (
        *(one._replace(used_for=tuple(users.get(one.id, ()))) for one in plain),
        *merged(alone),
    )


def _of(tube: Tube) -> tuple[float, float]:
    return tube.thread_mm, tube.pitch_mm


def _geometry(nominal: float, pitch: float) -> tuple[float, float]:
    return round(nominal + 1e-6, 2), round(pitch, 3)  # 9.525 as printed, whichever way it came


def _as_thread(tube: Tube) -> Thread:
    """A thread of 60 degrees with the tube nut's diameter and pitch."""
    d, p = _of(tube)
    return Thread._make(
        (
            *(tube.id, "UN", "tube", tube.thread, d, p, None, SIXTY),
            *(profile.pitch_diameter(d, p), profile.minor_diameter(d, p)),
            *(profile.root_diameter(d, p), profile.stress_area(d, p)),
            *(tube.source, tube.locator, tube.checked),
        )
    )


def _checked(said: Readings) -> None:
    """
    Refuse readings that no thread can have.

    Raises:
        Misuse: Naming the option, its bounds and what was given.
    """
    given = {
        "major": said.major,
        "minor": said.minor,
        "pitch": said.pitch,
        "over-ten": said.over_ten,
        "tpi": said.tpi,
        "caliper-error": said.error,
    }
    if all(value is None for name, value in given.items() if name != "caliper-error"):
        raise Misuse(
            "nothing was read; expected --major, --minor, --pitch, --tpi or --over-ten",
            ("--major 7.85 --pitch 1.25",),
        )
    for name, value in given.items():
        low, high, unit = BOUNDS[name]
        if value is not None and not (isfinite(value) and low <= value <= high):
            raise Misuse(
                f"--{name} must be {low:g} to {high:g} {unit}".rstrip() + f", got {value:g}"
            )
    outer = said.major or said.minor
    for name, pitch in (
        ("pitch", said.pitch),
        ("over-ten", said.over_ten and said.over_ten / 10),
        ("tpi", said.tpi and 25.4 / said.tpi),
    ):
        if outer and pitch and pitch >= outer / 2:
            raise Misuse(f"--{name}: a pitch of {pitch:g} mm is too coarse for {outer:g} mm")
    if said.major and said.minor and said.minor >= said.major + said.error:
        raise Misuse(f"--minor {said.minor:g} must be below --major {said.major:g}")


def _readings(said: Readings) -> dict[str, Any]:
    return {
        **{"internal": said.internal, "major_mm": said.major, "minor_mm": said.minor},
        **{"pitch_mm": said.pitch, "tpi": said.tpi, "over_ten_mm": said.over_ten},
        **{"taper": said.taper, "worn": said.worn, "caliper_error_mm": said.error},
    }


def _likely(item: Ranked) -> Likely:
    one = item.candidate
    offsets = {name: round(value, 3) for name, value in item.offsets.items()}
    return Likely(
        one.id,
        one.title,
        round(item.probability, 4),
        one.also,
        one.used_for,
        offsets,
        limits_words(one.family),
    )


def _traps(shelf: Shelf, ranked: tuple[Ranked, ...], internal: bool) -> tuple[Trap, ...]:
    """The dangers of the leading candidates, each pair once."""
    notes = {
        frozenset((entry_id("thread", row.first), entry_id("thread", row.second))): Noted(
            row.kind, row.note, row.source
        )
        for row in many(shelf.store, MixUp)
    }
    leaders = [item.candidate for item in ranked if item.probability >= LEAD_SHARE][:LEADS]
    leaders = leaders or [ranked[0].candidate]
    found: dict[frozenset[str], Trap] = {}
    for number, lead in enumerate(leaders):
        near = shelf.near(0.85 * lead.nominal, 1.2 * lead.nominal)
        guesses = 0 if number or lead.family in SELF_CUTTING else DANGERS_EACH
        for danger in _worst(dangers(lead, near, internal, notes), guesses):
            pair = danger.bolt.id, danger.hole.id
            found.setdefault(
                frozenset(pair),
                Trap(
                    pair,
                    (*danger.bolt.also, *danger.hole.also),
                    danger.kind,
                    None if danger.turns is None else round(danger.turns, 1),
                    None if danger.overlap is None else round(100 * min(danger.overlap, 1.0)),
                    danger.note,
                    danger.source,
                ),
            )
    return tuple(found.values())


def _worst(found: tuple[Danger, ...], most: int) -> Iterator[Danger]:
    """All that are noted, and the commonest of the others, *most* at most."""
    others = 0
    for danger in found:
        if danger.note is None:
            others += 1
            if others > most or danger.weight < LEAST_WEIGHT:
                continue
        yield danger


def _of_name(store: sqlite3.Connection, name: str, internal: bool) -> Identified:
    """A thread known by name: its sizes and what it is mixed up with."""
    from fastkit.reference import resolve  # which readings alone do without

    row, shelf = resolve.thread(store, name), Shelf(store)
    wanted = entry_id("thread", row.id)
    every = shelf.near(row.nominal_mm, row.nominal_mm)
    one = next(one for one in every if wanted in (one.id, *one.also))
    ranked = (Ranked(one, 1.0, True, {}),)
    return Identified(
        {"named": wanted, "internal": internal},
        (_likely(ranked[0]),),
        (one.id, *one.also),
        None,
        _traps(shelf, ranked, internal),
        (),
    )
