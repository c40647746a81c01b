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
