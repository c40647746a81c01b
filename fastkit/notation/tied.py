"""A number and its unit stay on one line."""

import re

MEASURES = (
    *("mm²", "mm", "cm", "m", "in²", "in", "g", "kg", "N·m", "N·mm", "lb·ft", "lb·in", "lbf", "N"),
    *("kN", "MPa", "GPa", "ksi", "psi", "bar", "°C", "°F", "K", "A", "V", "h", "min", "s", "HV"),
)
TIE = "\N{NO-BREAK SPACE}"
_BLANK = rf"(?<=\d) (?=(?:{'|'.join(MEASURES)})(?!\w)|%)"


def tied(text: str) -> str:
    """
    The text with a blank that does not break between each number and its unit.

    Args:
        text: Words as they are shown, plain blanks between them.
    """
    return re.sub(_BLANK, TIE, text)
