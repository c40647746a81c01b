"""Property classes and grades of bolts, screws and nuts."""

from typing import NamedTuple


class Grade(NamedTuple):
    """One class or grade."""

    TABLE = "grade"

    id: str  # 8.8, A2-70, SAE-5
    system: str  # ISO 898-1, ISO 3506-1, SAE J429
    product: str  # bolt, nut, set-screw
    mark: str | None  # what the head shows, in words
    source: str
    locator: str
    checked: str


class GradeRow(NamedTuple):
    """Strength of a class over a range of sizes."""

    TABLE = "grade_row"

    grade: str
    size_range: str  # as printed
    size_from_mm: float
    size_to_mm: float
    tensile_min_mpa: float
    yield_min_mpa: float | None
    proof_mpa: float | None
    elongation_min_pct: float | None
    source: str
    locator: str
    checked: str


class NutRow(NamedTuple):
    """Stress under proof load of a nut's class over a range of sizes."""

    TABLE = "nut_row"

    grade: str
    style: str  # 1, 2, thin
    series: str  # coarse, fine, any
    size_range: str  # as printed
    size_from_mm: float
    size_to_mm: float
    proof_mpa: float
    source: str
    locator: str
    checked: str


class Hardness(NamedTuple):
    """Hardness of a class in one scale, from a size on."""

    TABLE = "grade_hardness"

    grade: str
    size_from_mm: float
    scale: str  # HV, HBW, HRB, HRC
    low: float | None
    high: float | None
    source: str
    locator: str
    checked: str


class GradeLimit(NamedTuple):
    """Limits of use of a grade: temperature, and whether plating may make it brittle."""

    TABLE = "grade_limit"

    grade: str
    use_min_c: float | None
    use_max_c: float | None
    # none; care: 320 HV and up, 32 HRC; risk: may pass 390 HV, 39 HRC
    embrittlement: str
    note: str | None
    source: str
    locator: str
    checked: str


class Temper(NamedTuple):
    """Least temperature at which a quenched grade was tempered: hotter, it goes soft."""

    TABLE = "temper"

    grade: str
    temper_c: float
    source: str
    locator: str
    checked: str


class GradePair(NamedTuple):
    """The bolt grade that a nut or a set screw is set beside."""

    TABLE = "grade_pair"

    grade: str
    mate: str
    how: str  # highest-bolt, like-strength, like-hardness
    source: str
    locator: str
    checked: str


class MarkStroke(NamedTuple):
    """
    One stroke of a mark, to be drawn; half the width across flats is 1, y points up.

    A line goes from (x1, y1) to (x2, y2), a dot stands at (x1, y1), a text is centred there.
    """

    TABLE = "grade_mark"

    grade: str
    variant: str  # head, underlined, face, clock
    n: int
    shape: str  # line, dot, text
    x1: float
    y1: float
    x2: float | None
    y2: float | None
    text: str | None
    source: str
    locator: str
    checked: str
