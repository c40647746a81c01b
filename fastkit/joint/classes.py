"""The classes of tolerance that bolts and nuts have unless something else is said."""

from fastkit.records.thread import Thread

# ISO 965-1 gives threads below M1.6 position h, not g.
USUAL = {
    **dict.fromkeys(("M", "plug"), ("6g", "6H")),
    **{"UN": ("2A", "2B"), "BS": ("medium", "free", "normal"), "BA": ("normal",)},
}
SMALL = ("6h", "6g", "5H", "6H")
LEAST_G_MM = 1.6


def usual_classes(row: Thread) -> tuple[str, ...]:
    """The classes that a bolt and a nut of this thread have, unless something else is said."""
    small = row.family == "M" and row.nominal_mm < LEAST_G_MM
    return SMALL if small else USUAL.get(row.family, ())
