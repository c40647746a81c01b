"""How far each row is compared: what its `checked` must say, from second copies and formulas."""

from collections.abc import Iterator

from tests.data.defences import held_column, row_key, second_copies
from tests.data.names import named
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
    "hardware": {"id"},
    "hardware_dim": {"hardware", "dimension"},
    "grade": {"id", "product"},
    "grade_pair": {"grade"},
    "grade_limit": {"grade"},
    "grade_mark": {"grade", "variant", "n"},
    "recess_dim": {"standard", "size", "system", "drive", "dimension"},
    "length_range": {"standard", "size"},
    "nominal_length": {"length_mm"},
    "finish_corrosion": {"finish", "variant"},
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
    "stuff": {"id", "title"},
    "nut_torque": {"thread", "nut"},
    "reuse_torque": {"thread", "nut"},
}
# What a publication prints in another unit, or as a function of these cells.
SAME = {
    "stress_area_in2": ("nominal_in", "tpi"),
    "nominal_in": ("nominal_mm",),
    "nominal_mm": ("nominal_in",),
    "pitch_mm": ("tpi",),
    "gauge_mm": ("gauge_in",),
    "turns_per_inch": ("pitch_mm", "tpi"),
    "core_in": ("core_mm",),
}
# Rows that name a part: a second publication has it when it prints a value of it, and then this
# column stands; the rest of the row is by its name.
PARTS = {
    "hardware_dim": ("hardware", "family"),
    **dict.fromkeys(("grade_row", "grade_hardness", "nut_row"), ("grade", "system")),
}
APART = ("pipe_gauge", "nut_row")  # formula rows that a test of their own recomputes
ORIGIN = {"source", "locator", "checked"}


def standing(kept: Tables, whole: Tables) -> Iterator[tuple[str, str, str, str]]:
    """Table, key, what `checked` says, and what it must say: of rows that are not judgement."""
    covered = compared_cells()
    words: dict[str, str] = {}  # of the marks by grade: a stroke is no better than what it draws
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
            there = covered.get((table, key), set())
            ruled = given(table, complete, whole) | named(table, complete, whole)
            ruled |= {same for name in ruled for same in SAME.get(name, ())}
            if table == "hardware":  # that there is such a size follows from no rule
                ruled.discard("family")
            earned = said if said == "memory" else "copied"
            if printed & there and printed <= there | ruled:
                earned = "outside"
            elif printed and printed <= ruled and not only_named(row):
                earned = "formula"
            if table == "grade":
                words[key] = earned
            elif table == "grade_mark" and words[row["grade"]] != "outside":
                earned = words[row["grade"]]
            yield table, key, said, earned


def compared_cells() -> dict[tuple[str, str], set[str]]:
    """Columns that a second publication prints, by table and key of the row."""
    covered: dict[tuple[str, str], set[str]] = {}
    for copy in second_copies():
        column = copy["column"]
        if copy["table"] in PARTS:
            part, whole = PARTS[copy["table"]]
            covered.setdefault((part, copy["key"].partition("@")[0]), set()).add(whole)
        cells = covered.setdefault((copy["table"], copy["key"]), set())
        in_mm = f"{column[:-3]}_mm" if column.endswith("_in") else column
        cells |= {column, held_column(column), in_mm, *SAME.get(column, ())}
    return covered


def only_named(row: Row) -> bool:
    """Whether the row is a name and nothing else, and nobody has read that there is such a size."""
    return row["checked"] == "memory" and row.get("system") == "slot"
