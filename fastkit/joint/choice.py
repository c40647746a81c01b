"""Which of the records held answer for a joint: strength at a size, head where none is named."""

from collections.abc import Iterable

from fastkit.records.grade import Grade, GradeRow
from fastkit.records.head import Head
from fastkit.records.thread import Thread

# Grades that one family of threads alone is made in; what is not named fits every family.
FAMILY_OF = {
    **dict.fromkeys(("ISO 898-1", "ISO 898-2", "ISO 898-5", "ISO 8839"), "M"),
    **dict.fromkeys(("titanium", "polymer"), "M"),
    **dict.fromkeys(("SAE J429", "SAE J995", "ASTM A307", "ASTM A325", "ASTM A354"), "UN"),
    **dict.fromkeys(("ASTM A449", "ASTM A490", "ASTM A574"), "UN"),
}
# Families of which bolts are made: not pipes, plugs, conduit or sheet metal.
BOLTED = frozenset(("M", "UN", "BS", "BA"))
# Grades of everyday use: their torques are kept ready, those of the others computed when asked.
TABLED = frozenset(
    (
        *("4.6", "4.8", "5.6", "5.8", "6.8", "8.8", "9.8", "10.9", "12.9", "CU2"),
        *("A2-50", "A2-70", "A2-80", "A4-50", "A4-70", "A4-80"),
        *("SAE-2", "SAE-5", "SAE-8", "A193-B7"),
    )
)
# Where no bolt is held: something of the same flats, whose bearing face the rule gives.
STAND_INS = ("DIN 933", "ISO 4032", "DIN 934", "ASME B18.2.2")
# Forms of head that --head takes, with the standards in the order they are looked up.
STANDARDS = {
    "hexagon": ("ISO 4014", "ISO 4017", "ASME B18.2.1", "BS 1083", *STAND_INS),
    "socket": ("ISO 4762", "ASME B18.3 cap", "ISO 14579"),
    "flange": ("EN 1665", "EN 1662", "ISO 15071"),
    "countersunk": ("ISO 10642", "ISO 14581", "ISO 7046", "ISO 2009", "ASME B18.3 flat"),
    "button": ("ISO 7380-1", "ASME B18.3 button"),
    "pan": ("ISO 14583", "ISO 7045", "ASME B18.6.4"),
}
TOUCH_MM = 1e-6  # inch limits are printed to thousandths; sizes are exact


def fits(grade: Grade, thread: Thread) -> bool:
    """Whether the grade's standard covers the thread's family; no grade is of a pipe thread."""
    return thread.family in BOLTED and FAMILY_OF.get(grade.system, thread.family) == thread.family


def strength_at(rows: Iterable[GradeRow], thread: Thread) -> GradeRow | None:
    """The row that covers the thread's size; None where none does."""
    d = thread.nominal_mm
    return next(
        (r for r in rows if r.size_from_mm - TOUCH_MM <= d <= r.size_to_mm + TOUCH_MM), None
    )


def head_of(heads: Iterable[Head], form: str) -> Head | None:
    """
    The head of a form in the first of its standards; *heads* are those of one thread size.

    A stand-in comes as a plain hexagon without printed bearing face, so that the rule is used.
    """
    by_standard = {head.standard: head for head in heads}
    found = next((by_standard[name] for name in STANDARDS[form] if name in by_standard), None)
    if found is not None and form == "hexagon" and found.standard in STAND_INS:
        return found._replace(form="hexagon", bearing_diameter_mm=None)
    return found
