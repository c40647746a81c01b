"""How far each row is compared: what its `checked` must say, from second copies and formulas."""

from collections.abc import Iterator

from tests.data.defences import held_column, row_key, second_copies
from tests.data.parsed import Row, Tables
from tests.data.rules import given

# Cells that name a row or follow from its name; what the row's own publication prints is the rest.
COMPARED = {
    "thread": {"id", "family", "series", "size"},
    "pipe_gauge": {"thread"},
    "thread_limit": {"thread", "tolerance", "side", "dimension"},
    "tap_drill": {"thread", "drill_name"},
    "form_drill": {"thread", "thread_pct"},
    "clearance_hole": {"size"},
    "washer": {"id", "standard", "form", "size"},
    "hardware_dim": {"hardware", "dimension"},
    "grade_row": {"grade", "size_range", "size_from_mm", "size_to_mm"},
    "grade_hardness": {"grade", "size_from_mm", "scale"},
    "nut_row": {"grade", "style", "series", "size_range", "size_from_mm", "size_to_mm"},
    "drive_system": {"id", "title", "external"},
    "drive": {"id", "system", "size", "external", "symmetry_deg"},
    "drive_torque": {"drive", "tool"},
    "wrench_opening": {"drive"},
    "key_arm": {"drive"},
    "set_screw_torque": {"size", "grade"},
    "head": {"id", "standard", "form", "size"},
    "friction": {"id", "title"},
}
# What a publication prints in another unit, or as a function of these cells.
SAME = {
    "stress_area_in2": ("nominal_in", "tpi"),
    "nominal_in": ("nominal_mm",),
    "turns_per_inch": ("pitch_mm", "tpi"),
    "core_in": ("core_mm",),
}
APART = ("pipe_gauge", "nut_row")  # formula rows that a test of their own recomputes
ORIGIN = {"source", "locator", "checked"}


def standing(kept: Tables, whole: Tables) -> Iterator[tuple[str, str, str, str]]:
    """Table, key, what `checked` says, and what it must say: of rows that are not judgement."""
    covered = compared_cells()
    for table, naming in COMPARED.items():
        for row, complete in zip(kept[table], whole[table], strict=True):
            said = row["checked"]
            if said == "judgement" or (said == "formula" and table in APART):
                continue
            key = row_key(table, row)
            printed = {
                name
                for name, value in row.items()
                if value is not None and name not in naming | ORIGIN
            }
            there, ruled = covered.get((table, key), set()), given(table, complete, whole)
            earned = said if said == "memory" else "copied"
            if printed & there and printed <= there | ruled:
                earned = "outside"
            elif printed and printed <= ruled and not only_named(row):
                earned = "formula"
            yield table, key, said, earned


def compared_cells() -> dict[tuple[str, str], set[str]]:
    """Columns that a second publication prints, by table and key of the row."""
    covered: dict[tuple[str, str], set[str]] = {}
    for copy in second_copies():
        column = copy["column"]
        cells = covered.setdefault((copy["table"], copy["key"]), set())
        in_mm = f"{column[:-3]}_mm" if column.endswith("_in") else column
        cells |= {column, held_column(column), in_mm, *SAME.get(column, ())}
    return covered


def only_named(row: Row) -> bool:
    """Whether the row is a name and nothing else, and nobody has read that there is such a size."""
    return row["checked"] == "memory" and row.get("system") == "slot"
