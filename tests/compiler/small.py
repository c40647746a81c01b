"""A data folder of a few rows, so that each test can spoil one thing in it."""

import csv
from pathlib import Path

from fastkit.compiler.spec import file_columns
from fastkit.compiler.tables import SPECS

COPIED = {"source": "book", "locator": "p. 1", "checked": "copied"}
ROWS: dict[str, list[dict[str, object]]] = {
    "threads.csv": [
        {"id": "M8x1.25", "family": "M", "series": "coarse", "size": "M8"}
        | {"nominal_mm": 8, "pitch_mm": 1.25} | COPIED,
        {"id": "1/4-20-UNC", "family": "UN", "series": "UNC", "size": "1/4"}
        | {"nominal_in": 0.25, "tpi": 20} | COPIED,
    ],
    "tap_drills.csv": [{"thread": "M8x1.25", "drill_mm": 6.8} | COPIED],
    "clearance_holes.csv": [
        {"size": "M8", "close_mm": 8.4, "medium_mm": 9, "coarse_mm": 10} | COPIED
    ],
    "drive_systems.csv": [
        {"id": "hexagon", "title": "External hexagon", "external": 1, "symmetry_deg": 60} | COPIED
    ],
    "drives.csv": [
        {"id": "AF-13mm", "system": "hexagon", "size": "13 mm", "across_flats_mm": 13} | COPIED
    ],
    "grades.csv": [
        {"id": "8.8", "system": "ISO 898-1", "product": "bolt", "mark": "8.8"} | COPIED
    ],
    "grade_rows.csv": [
        {"grade": "8.8", "size_range": "d <= 16 mm", "size_from_mm": 0, "size_to_mm": 16}
        | {"tensile_min_mpa": 800, "yield_min_mpa": 640} | COPIED
    ],
    "friction.csv": [
        {"id": "class-b", "title": "Oiled", "mu_min": 0.08, "mu_mid": 0.12, "mu_max": 0.16} | COPIED
    ],
    "aliases.csv": [
        {"words": "half inch spanner", "entry": "drive:AF-13mm"}
        | {"source": "practice", "locator": "-", "checked": "judgement"}
    ],
}  # fmt: skip
SOURCES = """\
# A comment above the rows.

[[source]]
id = "book"
title = "A book"
edition = "1st"
kind = "handbook"

[[source]]
id = "practice"
title = "Practice"
edition = "-"
kind = "practice"
"""


def write_small(folder: Path) -> Path:
    """Write the small data folder, every file of it, and return its path."""
    folder.mkdir()
    for spec in SPECS:
        path = folder / spec.file
        if path.suffix == ".toml":
            path.write_text(SOURCES if spec.file == "sources.toml" else "", "utf-8")
            continue
        with path.open("w", newline="", encoding="utf-8") as file:
            names = [column.name for column in file_columns(spec)]
            rows = csv.DictWriter(file, names, lineterminator="\n")
            rows.writeheader()
            rows.writerows(ROWS.get(spec.file, []))
    return folder


def spoil(folder: Path, file: str, old: str, new: str) -> None:
    """Replace the one place in a file that reads *old*."""
    path = folder / file
    text = path.read_text("utf-8")
    assert text.count(old) == 1, f"{old!r} stands {text.count(old)} times in {file}"
    path.write_text(text.replace(old, new), "utf-8")
