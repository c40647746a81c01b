"""Threads: basic sizes, printed limits, drills, holes, inserts."""

from typing import NamedTuple


class Thread(NamedTuple):
    """
    One thread, basic dimensions in mm.

    `pitch_diameter_mm` to `stress_area_mm2` are computed from the hand-kept cells when compiling
    (`mechanics.thread`, `mechanics.thread_forms`); `checked` is that of the hand-kept cells. Of a
    taper thread they are those of the hand-tight plane, the area that of a solid plug; of a
    tapping screw the area is that of its core.
    """

    TABLE = "thread"

    id: str  # M8x1.25, 1/4-20-UNC, G1/4, 1/4-18-NPT, 3/8-16-BSW, BA-4, ST4.2, plug-M14x1.25
    family: str  # M, UN, plug (spark plug), BS (Whitworth form), BA, G, R, NPT, ST, PG (conduit)
    series: str  # coarse, fine, UNC, UNF, BSW, Rp …
    size: str  # M8, 1/4, #10: the key of clearance holes and heads; other families have their own
    nominal_mm: float  # of a pipe thread: its major diameter, or the pipe's outside (NPT)
    pitch_mm: float
    tpi: float | None
    flank_angle_deg: float  # between the flanks: 60, 55, 47.5, 80
    pitch_diameter_mm: float  # d2
    minor_mm: float  # D1, internal
    root_mm: float  # d3, external
    stress_area_mm2: float
    source: str
    locator: str
    checked: str


class PipeGauge(NamedTuple):
    """Hand-tight length of a taper pipe thread: from the small end to the gauge plane."""

    TABLE = "pipe_gauge"

    thread: str
    gauge_mm: float
    source: str
    locator: str
    checked: str


class ThreadLimit(NamedTuple):
    """Limits of size that a standard prints, in place of a formula."""

    TABLE = "thread_limit"

    thread: str
    tolerance: str  # class: A, B; "-" where the standard has but one
    side: str  # external, internal
    dimension: str  # major, pitch, minor
    min_mm: float
    max_mm: float
    source: str
    locator: str
    checked: str


class ClassLimit(NamedTuple):
    """Limits of size in one class of tolerance, by the formulas of the thread's own standard."""

    TABLE = "class_limit"

    thread: str
    tolerance: str  # class: 6g, 4H5H, 2A, medium, normal
    side: str  # external, internal
    dimension: str  # major, pitch, minor
    min_mm: float
    max_mm: float


class TapDrill(NamedTuple):
    """Drill for cutting an internal thread."""

    TABLE = "tap_drill"

    thread: str
    drill_mm: float
    drill_name: str | None  # inch drill as the trade names it: #7, 5/16
    thread_pct: float | None  # share of full depth, 1.299 P at 60 degrees; computed
    source: str
    locator: str
    checked: str


class FormDrill(NamedTuple):
    """Hole for forming an internal thread without chips, by share of the full thread."""

    TABLE = "form_drill"

    thread: str
    drill_mm: float
    thread_pct: float  # as printed beside the drill
    source: str
    locator: str
    checked: str


class ClearanceHole(NamedTuple):
    """Clearance holes of a thread size, three fits."""

    TABLE = "clearance_hole"

    size: str
    close_mm: float
    medium_mm: float
    coarse_mm: float
    source: str
    locator: str
    checked: str


class Insert(NamedTuple):
    """
    Wire thread insert: drill and tap of the hole that takes it.

    Tap and hole diameters are computed from the thread: d + 1.299 P, d + 0.6495 P, d + 0.2165 P.
    """

    TABLE = "wire_insert"

    id: str  # the thread's id
    drill_mm: float
    drill_name: str | None
    tap_major_mm: float
    tap_pitch_diameter_mm: float
    hole_min_mm: float
    source: str
    locator: str
    checked: str
